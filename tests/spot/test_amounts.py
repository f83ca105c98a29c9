"""Amounts as found in whole sentences, and what must hold for any words."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from extract.lexicon import read_lexicon
from extract.spot.amounts import find_amounts
from extract.spot.spans import Amount
from extract.spot.words import Words
from marked_sentences import cases, parse, read_marked


def figures(low: Fraction | None, high: Fraction | None) -> str:
    if low is None or high is None:
        return "?"
    return str(low) if low == high else f"{low}-{high}"


def short(amount: Amount) -> str:
    """ "~2-3 cup", "1 can (14 ounce)", "5 tablespoon < 3 tablespoon", "1 teaspoon each"."""
    words = [("~" if amount.approximate else "") + figures(amount.low, amount.high), amount.unit]
    if amount.size is not None:
        low, high, unit = amount.size
        words.append(f"({figures(low, high)} {unit})")
    words += [name for name in ("each", "again", "more") if getattr(amount, name)]
    words += [f"< {short(slip)}" for slip in reversed(amount.slips)]
    return " ".join(word for word in words if word)


@pytest.mark.parametrize("line", cases("amounts"))
def test_finds_exactly_the_marked_amounts(line: str) -> None:
    text, expected = read_marked(line)
    doc = parse(text)
    assert [(doc[a.start : a.end].text, short(a)) for a in find_amounts(doc)] == expected
