"""One ingredient line of a written recipe gives its food, its amount and what is said around them."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from extract.check.written.lines.figures import read_figure
from extract.check.written.lines.line import read_line
from extract.check.written.lines.tokens import tokens_of

# Numeric values of the Unicode Character Database (UnicodeData.txt, field 8); U+2044: Unicode Standard, 6.2.
# The worded ones: common English, no source.
FRACTIONS = [
    ("¼", Fraction(1, 4)),
    ("½", Fraction(1, 2)),
    ("¾", Fraction(3, 4)),
    ("⅓", Fraction(1, 3)),
    ("⅔", Fraction(2, 3)),
    ("⅕", Fraction(1, 5)),
    ("⅙", Fraction(1, 6)),
    ("⅐", Fraction(1, 7)),
    ("⅛", Fraction(1, 8)),
    ("⅜", Fraction(3, 8)),
    ("⅝", Fraction(5, 8)),
    ("⅞", Fraction(7, 8)),
    ("⅑", Fraction(1, 9)),
    ("⅒", Fraction(1, 10)),
    ("1½", Fraction(3, 2)),
    ("1 ½", Fraction(3, 2)),
    ("1\u00a0½", Fraction(3, 2)),
    ("1 1/2", Fraction(3, 2)),
    ("1-1/2", Fraction(3, 2)),
    ("1 & 1/2", Fraction(3, 2)),
    ("1⁄2", Fraction(1, 2)),
    ("2¾", Fraction(11, 4)),
    ("0.5", Fraction(1, 2)),
    (".25", Fraction(1, 4)),
    ("0,5", Fraction(1, 2)),
    ("1,000", Fraction(1000)),
    ("one and a half", Fraction(3, 2)),
    ("three quarters", Fraction(3, 4)),
    ("two dozen", Fraction(24)),
    ("half a dozen", Fraction(6)),
    ("a couple", Fraction(2)),
]

# Short forms: household recipe writing (T against t from memory); oz, fl oz, pt, qt, lb: NIST Handbook 44,
# appendix C; g, kg, mL, dL, cL, L, cm: the SI Brochure, 9th edition.
ABBREVIATIONS = [
    ("tsp", "teaspoon", 1),
    ("tsp.", "teaspoon", 1),
    ("t", "teaspoon", 1),
    ("teaspoons", "teaspoon", 1),
    ("tbsp", "tablespoon", 1),
    ("Tbsp.", "tablespoon", 1),
    ("Tbs", "tablespoon", 1),
    ("T", "tablespoon", 1),
    ("c.", "cup", 1),
    ("fl oz", "fluid_ounce", 1),
    ("fl. oz.", "fluid_ounce", 1),
    ("pt", "pint", 1),
    ("qt", "quart", 1),
    ("gal", "gallon", 1),
    ("oz", "ounce", 1),
    ("lb", "pound", 1),
    ("lbs.", "pound", 1),
    ("g", "gram", 1),
    ("kg", "kilogram", 1),
    ("ml", "millilitre", 1),
    ("mL", "millilitre", 1),
    ("dl", "millilitre", 100),
    ("cl", "millilitre", 10),
    ("L", "litre", 1),
    ("pkg.", "package", 1),
    ("tin", "can", 1),
    ("rashers", "slice", 1),
]

# line, food, low, high, unit, preparation; common practice, no source
LINES = [
    ("- ½ cup (120 ml) stock", "stock", 0.5, 0.5, "cup", ""),
    ("* 2 to 3 cloves garlic, minced", "garlic", 2, 3, "clove", "minced"),
    ("2–3 garlic cloves, minced", "garlic", 2, 3, "clove", "minced"),
    ("[ ] 4 -6 carrots", "carrots", 4, 6, "", ""),
    ("1 (14 ounce) can chopped tomatoes", "tomatoes", 1, 1, "can", "chopped"),
    ("1 14-oz. can tomatoes", "tomatoes", 1, 1, "can", ""),
    ("2 x 400g tins butter beans, drained", "butter beans", 2, 2, "can", "drained"),
    ("a 400 g tin of butter beans", "butter beans", 1, 1, "can", ""),
    ("1 1/2-inch piece of ginger", "ginger", 1, 1, "piece", ""),
    ("Pinch of salt", "salt", 1, 1, "pinch", ""),
    ("Salt, to taste", "Salt", None, None, "", ""),
    ("A little oil, for the tin", "oil", None, None, "", ""),
    ("a few mint leaves", "mint leaves", None, None, "", ""),
    ("1 heaped tbsp plain flour", "plain flour", 1, 1, "tablespoon", ""),
    ("Juice of 2 limes", "lime juice", 2, 2, "", ""),
    ("1 lemon, zest of", "lemon zest", 1, 1, "", ""),
    ("Butter, 50 g", "Butter", 50, 50, "gram", ""),
    ("2 bay leaves", "bay leaves", 2, 2, "", ""),
    ("6 sprigs thyme", "thyme", 6, 6, "sprig", ""),
    ("2 boneless, skinless chicken breasts", "boneless skinless chicken", 2, 2, "breast", "breasts"),
    ("½ cup plus 2 tbsp soy sauce, divided", "soy sauce", 0.625, 0.625, "cup", ""),
    ("**1 cup** *pearl barley*, rinsed", "pearl barley", 1, 1, "cup", "rinsed"),
    ("1 onion diced", "onion", 1, 1, "", "diced"),
    ("3 tbsp butter melted and cooled", "butter", 3, 3, "tablespoon", "melted and cooled"),
    ("¾ cup **pearl barley**, rinsed (or spelt) [0:48](#t=48)", "pearl barley", 0.75, 0.75, "cup", "rinsed"),
]


@pytest.mark.parametrize(("text", "value"), FRACTIONS)
def test_every_way_of_writing_a_figure_gives_its_exact_value(text: str, value: Fraction) -> None:
    figure = read_figure(tokens_of(f"{text} cups"), 0)
    assert figure is not None
    assert (figure.low, figure.high) == (value, value)


@pytest.mark.parametrize(("text", "unit", "times"), ABBREVIATIONS)
def test_short_forms_of_units_are_read(text: str, unit: str, times: int) -> None:
    (line,) = read_line(f"2 {text} of barley")
    assert line.amount is not None
    assert (line.amount.low, line.amount.unit, line.name) == (2 * times, unit, "barley")


@pytest.mark.parametrize(("text", "food", "low", "high", "unit", "preparation"), LINES)
def test_a_line_gives_its_food_and_amount(
    text: str, food: str, low: float | None, high: float | None, unit: str, preparation: str
) -> None:
    (line,) = read_line(text, 7)
    assert (line.name, line.preparation) == (food, preparation)
    found = (line.amount.low, line.amount.high, line.amount.unit) if line.amount else (None, None, "")
    assert found == (low, high, unit)
    assert line.written is not None
    assert line.written.line == 7


def test_a_zero_denominator_is_no_figure() -> None:
    assert read_figure(tokens_of("1/0 cup"), 0) is None


def test_two_measures_of_one_amount_are_both_kept() -> None:
    (line,) = read_line("225 g (8 oz) butter")
    assert line.amount is not None
    assert [(other.low, other.unit) for other in line.amount.equivalents] == [(8, "ounce")]


def test_the_size_of_a_package_is_no_second_amount() -> None:
    (line,) = read_line("2 (15 ounce) cans chickpeas")
    assert line.amount is not None
    assert line.amount.size is not None
    assert (line.amount.size.low, line.amount.size.unit, line.amount.equivalents) == (15, "ounce", [])


@pytest.mark.parametrize(
    ("text", "alternatives", "optional"),
    [
        ("2 tbsp butter or olive oil", ["olive oil"], False),
        ("1 cup cheddar, or gruyère", ["gruyère"], False),
        ("1 cup barley (or spelt)", ["spelt"], False),
        ("1 cup cream or 1 cup yogurt", ["yogurt"], False),
        ("2 tbsp capers (optional)", [], True),
        ("capers, if using", [], True),
        ("1 tbsp honey, or more to taste", [], False),
    ],
)
def test_choices_and_what_may_be_left_out_are_told_apart(
    text: str, alternatives: list[str], optional: bool
) -> None:
    (line,) = read_line(text)
    assert (line.alternatives, line.optional) == (alternatives, optional)


def test_foods_listed_without_amounts_are_lines_of_their_own() -> None:
    assert [line.name for line in read_line("Salt and freshly ground black pepper")] == [
        "Salt",
        "ground black pepper",
    ]


def test_an_amount_each_goes_to_every_food() -> None:
    lines = read_line("1 tsp each cumin and paprika")
    assert [(line.name, line.amount and line.amount.low) for line in lines] == [("cumin", 1), ("paprika", 1)]


@given(st.text(max_size=80))
def test_no_line_makes_the_reader_fail(text: str) -> None:
    assert all(line.name for line in read_line(text))


PIECES = [
    "1",
    "½",
    "1/2",
    "0",
    "-",
    "to",
    "(",
    ")",
    ",",
    "or",
    "cup",
    "oz",
    "plus",
    "of",
    "a",
    "each",
    "x",
    "/",
    "tin",
]


@given(st.lists(st.sampled_from([*PIECES, "barley", "chopped", "juice", "and", "."]), max_size=12))
def test_no_shuffled_line_makes_the_reader_fail(words: list[str]) -> None:
    for line in read_line(" ".join(words)):
        assert line.name
        assert line.amount is None or line.amount.low <= line.amount.high


@pytest.mark.parametrize(
    ("line", "low", "high", "unit", "name"),
    [
        ("2 teaspoons to 1 tablespoon + 1 teaspoon honey", 2, 4, "teaspoon", "honey"),
        ("1/4 cup to 1/3 cup (60–80 ml) milk", 0.25, 1 / 3, "cup", "milk"),
        ("12 ounces to 1 pound 2 ounces beef", 12, 18, "ounce", "beef"),
        ("a pinch to 1/4 teaspoon of salt", 0, 0.25, "teaspoon", "salt"),
        ("2 cans tuna, drained", 2, 2, "can", "tuna"),
        ("2 canned tuna steaks", 2, 2, "", "canned tuna steaks"),
        ("1 stem ginger", 1, 1, "", "stem ginger"),
    ],
)
def test_ranges_over_two_measures_and_cans_of_a_food_are_read(
    line: str, low: float, high: float, unit: str, name: str
) -> None:
    (found,) = read_line(line)
    assert found.amount is not None
    assert (found.amount.low, found.amount.high, found.amount.unit) == (low, pytest.approx(high), unit)
    assert found.name == name
