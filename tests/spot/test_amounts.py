"""Amounts as found in whole sentences, and what must hold for any words."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from marked_sentences import CASES, cases, parse, read_marked
from spelling_out import SPELL

from extract.lexicon import read_lexicon
from extract.spot.amounts.find import find_amounts
from extract.spot.spans import Amount
from extract.spot.words import Words


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


UNIT_ROWS = read_lexicon("units", columns=("form", "unit", "kind", "times", "note"))
MEASURES = {"volume", "mass", "dab"}
FORMS = sorted({row["form"] for row in UNIT_ROWS if row["kind"] in MEASURES and row["note"] == ""})


@given(
    st.integers(2, 99), st.sampled_from(["teaspoons", "cups", "grams", "ounces", "millilitres", "handfuls"])
)
def test_a_spelled_amount_is_the_amount_in_figures(value: int, unit: str) -> None:
    spelled = find_amounts(parse(f"add {SPELL.number_to_words(value)} {unit} of oats"))
    written = find_amounts(parse(f"add {value} {unit} of oats"))
    assert [(a.low, a.high, a.unit) for a in spelled] == [(a.low, a.high, a.unit) for a in written]
    assert len(written) == 1


@given(st.sampled_from(FORMS), st.integers(2, 19))
def test_every_form_of_a_unit_gives_its_canonical_name(form: str, value: int) -> None:
    rows = {row["form"]: row for row in UNIT_ROWS}
    row = rows[form]
    found = find_amounts(parse(f"then {value} {form} of millet"))
    assert [(a.low, a.unit) for a in found] == [(value * int(row["times"]), row["unit"])]


PIECES = [
    *("two", "half", "a", "1/2", "400", "three", "quarter", "dozen", "couple", "some", "another", "full"),
    *(
        "cup",
        "teaspoons",
        "gram",
        "can",
        "ounce",
        "inch",
        "piece",
        "pinch",
        "clove",
        "-",
        ",",
        ".",
        "and",
        "of",
    ),
    *(
        "no",
        "sorry",
        "each",
        "or",
        "to",
        "so",
        "that",
        "'s",
        "onion",
        "flour",
        "the",
        "large",
        "same",
        "again",
    ),
]


@given(st.lists(st.sampled_from(PIECES), min_size=1, max_size=16))
def test_any_words_give_ordered_amounts_inside_them(words: list[str]) -> None:
    doc = parse(" ".join(words))
    found = find_amounts(doc)
    assert all(0 <= a.start < a.end <= len(doc) for a in found)
    assert all((a.low is None) == (a.high is None) for a in found)
    assert all(a.low is None or (a.high is not None and 0 < a.low <= a.high) for a in found)
    assert all(slip.low is not None and not slip.slips for a in found for slip in a.slips)
    assert all(one.end <= two.start for one, two in pairwise(found))


def test_the_finders_may_share_one_view_of_the_words() -> None:
    doc = parse("bake two 400 gram loaves at 180 for forty minutes, then add three cups of oats")
    words = Words.of(doc)
    assert find_amounts(doc, words) == find_amounts(doc, words) == find_amounts(doc)


def test_the_lexicon_knows_every_unit_that_a_draft_may_have() -> None:
    """The closed list of the draft format; "" (a plain count) stands as "-" in the lexicon."""
    named = {row["unit"] for row in UNIT_ROWS if row["kind"] not in ("time", "temperature")}
    lines = (CASES / "units.txt").read_text(encoding="utf-8").splitlines()
    closed = {line for line in lines if not line.startswith("#")}
    assert named - {"-", "millimetre", "foot", "metre"} == closed
    assert {unit.replace("_", " ") for unit in closed} <= {row["form"] for row in UNIT_ROWS}


def test_no_form_of_a_unit_stands_twice() -> None:
    forms = [row["form"] for row in UNIT_ROWS]
    assert len(forms) == len(set(forms))


PLAIN = [
    "2 cups",
    "250 grams",
    "3 tablespoons",
    "12 ounces",
    "1.5 kilograms",
    "1/2 teaspoon",
    "one cup",
]
PLAIN += ["2 litres", "3 teaspoons", "2 quarts", "4 pints", "2.5 cups", "500 ml"]
OTHER_NAMES = {"cubic centimetre": "millilitre"}


@pytest.mark.filterwarnings("ignore")
def test_plain_amounts_agree_with_a_general_quantity_reader() -> None:
    """quantulum3 as the outside reference, which has another name for millilitres."""
    parser = pytest.importorskip("quantulum3.parser")
    for text in PLAIN:
        [theirs] = parser.parse(f"{text} of oats")
        [ours] = find_amounts(parse(f"{text} of oats"))
        assert (float(ours.low or 0), ours.unit) == (
            theirs.value,
            OTHER_NAMES.get(theirs.unit.name, theirs.unit.name),
        )


DISAGREEMENTS = [
    # said, ours, theirs, why
    ("half a teaspoon of salt", "1/2 teaspoon", [(0.5, "per teaspoon")], "takes ' a ' for a division"),
    (
        "a cup and a half of flour",
        "3/2 cup",
        [(1.0, "cup"), (0.5, "dimensionless")],
        "wants the number first",
    ),
    ("a third of a cup of oil", "1/3 cup", [(1 / 3, "dimensionless"), (1.0, "cup")], "knows no 'of a'"),
    ("a pinch of salt", "1 pinch", [(1.0, "penny inch")], "reads a word as joined symbols"),
    ("a couple of tablespoons of oil", "2 tablespoon", [], "drops vague number words"),
    ("two pounds of oats", "2 pound", [(2.0, "pound sterling")], "takes the weight for money"),
    ("one or two teaspoons of salt", "1-2 teaspoon", [(2.0, "teaspoon")], "drops a lone 'one'"),
]


@pytest.mark.filterwarnings("ignore")
@pytest.mark.parametrize(("said", "ours", "theirs", "why"), DISAGREEMENTS)
def test_where_a_general_quantity_reader_disagrees(
    said: str, ours: str, theirs: list[tuple[float, str]], why: str
) -> None:
    """What the kitchen means, beside what quantulum3 0.10 gives and why; a change there is worth a look."""
    parser = pytest.importorskip("quantulum3.parser")
    assert [short(a) for a in find_amounts(parse(said))] == [ours], why
    assert [(q.value, q.unit.name) for q in parser.parse(said)] == theirs, why
