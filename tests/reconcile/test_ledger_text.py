"""The ledger in print. The talk is invented; the figures are by NIST Handbook 44, Appendix C (a "
"tablespoon is 14.787 ml)."""

from __future__ import annotations

from fractions import Fraction

import pytest
from heard import segments_of, spotted_in, transcript_of

from extract.reconcile import ledger_text
from extract.reconcile import text as printed
from extract.reconcile.kitchen import reconcile
from extract.reconcile.ledger.quantities import Quantity, Range, exactly, millilitres_of
from extract.reconcile.ledger.wording import amount_words, fraction_words, size_words
from extract.spot.spans import Amount

TALK = """
For the glaze, five tablespoons of honey, a third of a cup of orange juice and a teaspoon of cider vinegar.
Half of that glaze goes over one butternut squash.
The other half we keep for the table.
"""
PRINTED = """\
Kitchen ledger of talk.txt

Dish 1: {title}
  Glaze
    in    [0:00] honey, 5 tablespoons = 74 ml
    in    [0:00] orange juice, 1/3 cup = 79 ml
    in    [0:00] cider vinegar, 1 teaspoon = 4.9 ml
    made  2/3 cup (158 ml), the sum
    out   [0:04] half = 1/3 cup (79 ml), over the butternut squash
    out   [0:08] half = 1/3 cup (79 ml), for the table, put by
    left  nothing
  Reserved glaze
    in    a share of the glaze
    made  1/3 cup (79 ml), as the share put by
    left  all = 1/3 cup (79 ml)
  The dish itself
    in    [0:04] half of the glaze, 79 ml
    in    [0:04] butternut squash, 1
    made  how much cannot be worked out
"""


def test_every_account_is_told_in_the_cooks_measures() -> None:
    spotted, segments = spotted_in(TALK), segments_of(TALK)
    title = segments.titles[0].text
    found = printed.ledger_text(reconcile(spotted, segments), spotted)
    assert found.splitlines() == PRINTED.format(title=title[:1].upper() + title[1:]).splitlines()


def test_a_whole_transcript_is_read() -> None:
    assert ledger_text(transcript_of(TALK)).startswith("Kitchen ledger of talk.txt\n")


def test_no_dish_is_said_to_be_none() -> None:
    assert ledger_text(transcript_of("")) == "No dish was found.\n"


def cups(figure: Fraction | int) -> Fraction:
    return figure * (millilitres_of("cup") or Fraction(0))


@pytest.mark.parametrize(
    ("size", "words"),
    [
        (Quantity("volume", exactly(cups(Fraction(3, 2)))), "1 1/2 cups (355 ml)"),
        (Quantity("volume", exactly(cups(Fraction(1, 16)))), "1 tablespoon (15 ml)"),
        (Quantity("volume", exactly(cups(Fraction(1, 96)))), "1/2 teaspoon (2.5 ml)"),
        (Quantity("volume", Range(cups(1), cups(2))), "1 to 2 cups (237 to 473 ml)"),
        (Quantity("volume", exactly(Fraction(175))), "175 ml"),
        (Quantity("mass", exactly(Fraction("7.5"))), "7.5 g"),
        (Quantity("mass", exactly(410)), "410 g"),
    ],
)
def test_sizes_in_kitchen_units(size: Quantity, words: str) -> None:
    assert size_words(size) == words


@pytest.mark.parametrize(
    ("figure", "words"),
    [
        ("1/2", "half"),
        ("1/3", "a third"),
        ("2/3", "two thirds"),
        ("1/4", "a quarter"),
        ("4/9", "4/9"),
        ("1", "all"),
        ("0", "nothing"),
    ],
)
def test_parts_in_words(figure: str, words: str) -> None:
    assert fraction_words(Fraction(figure)) == words


@pytest.mark.parametrize(
    ("low", "high", "unit", "words"),
    [
        ("3/2", "3/2", "cup", "1 1/2 cups"),
        ("2", "3", "clove", "2 to 3 cloves"),
        ("1", "1", "bunch", "1 bunch"),
        ("2", "2", "bunch", "2 bunches"),
        ("20", "20", "leaf", "20 leaves"),
        ("8", "8", "fluid_ounce", "8 fluid ounces"),
        ("4", "4", "", "4"),
    ],
)
def test_amounts_in_the_cooks_units(low: str, high: str, unit: str, words: str) -> None:
    assert amount_words(Amount(0, 1, Fraction(low), Fraction(high), unit)) == words
