"""What people type into a field is understood as they mean it, and stands there as they would type it."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from extract.errors import CardwrightError
from extract.measure.figures import exact
from extract.model import Amount, RecipeDraft
from extract.review.typed import (
    amount_text,
    clock_text,
    made_text,
    read_amount,
    read_clock,
    read_factor,
    read_made,
    spoken_line,
)

AMOUNTS = [
    ("1 1/2", 1.5, 1.5, ""),
    ("½", 0.5, 0.5, ""),
    ("1½ cups", 1.5, 1.5, "cup"),
    ("2-3", 2, 3, ""),
    ("2–3 cloves", 2, 3, "clove"),
    ("2 to 3 tbsp", 2, 3, "tablespoon"),
    ("2 tbsp", 2, 2, "tablespoon"),
    ("3/4 cup", 0.75, 0.75, "cup"),
    ("100g", 100, 100, "gram"),
    ("1.5 kg", 1.5, 1.5, "kilogram"),
    ("a pinch", 1, 1, "pinch"),
    ("pinch", 1, 1, "pinch"),
    ("half a cup", 0.5, 0.5, "cup"),
    ("a cup and a half", 1.5, 1.5, "cup"),
    ("two cups and a quarter", 2.25, 2.25, "cup"),
    ("  2   TSP ", 2, 2, "teaspoon"),
]


@pytest.mark.parametrize(("text", "low", "high", "unit"), AMOUNTS, ids=[row[0] for row in AMOUNTS])
def test_amounts_are_read_as_typed(text: str, low: float, high: float, unit: str) -> None:
    amount, note = read_amount(text)
    assert amount is not None
    assert (amount.low, amount.high, amount.unit, note) == (low, high, unit, "")


def test_about_and_the_size_of_a_can_are_kept() -> None:
    about, _ = read_amount("about 2 cups")
    can, _ = read_amount("1 (14-ounce) can")
    assert about is not None
    assert can is not None
    assert can.size is not None
    assert about.approximate
    assert (can.low, can.unit, can.size.low, can.size.unit) == (1, "can", 14, "ounce")


@pytest.mark.parametrize("text", ["to taste", "To taste", "as needed", "for dusting"])
def test_what_is_no_measure_becomes_a_note(text: str) -> None:
    assert read_amount(text) == (None, text.lower())


def test_nothing_typed_is_no_amount() -> None:
    assert read_amount("  ") == (None, "")


@pytest.mark.parametrize("text", ["lots", "2 cups flour", "3-2", "<b>1</b>", "1e9999", "9999999999", "½ of"])
def test_what_is_no_amount_is_refused_with_a_remedy(text: str) -> None:
    with pytest.raises(CardwrightError, match=r"\(such as|\(put the smaller"):
        read_amount(text)


def test_amounts_of_a_draft_stand_as_they_are_read(drafted: RecipeDraft) -> None:
    lines = [line for dish in drafted.dishes for part in dish.components for line in part.ingredients]
    said = [line.amount for line in lines if line.amount is not None]
    assert len(said) > 30
    for amount in said:
        again, _ = read_amount(amount_text(amount))
        assert again is not None
        assert (again.low, again.high, again.unit) == pytest.approx((amount.low, amount.high, amount.unit))


@given(
    st.fractions(min_value=0, max_value=50, max_denominator=4).filter(lambda value: value > 0),
    st.sampled_from(["", "cup", "teaspoon", "gram", "clove", "can", "sprig"]),
)
def test_any_kitchen_amount_comes_back_from_its_field(value: object, unit: str) -> None:
    figure = float(exact(value))  # type: ignore[arg-type]
    amount = Amount(low=figure, high=figure, unit=unit)
    again, _ = read_amount(amount_text(amount))
    assert again is not None
    assert (again.low, again.unit) == (
        pytest.approx(figure, abs=0.001),
        unit,
    )  # grams are printed as decimals


@given(st.text(max_size=40))
def test_any_text_is_an_amount_or_refused(text: str) -> None:
    try:
        amount, _ = read_amount(text)
    except CardwrightError:
        return
    assert amount is None or 0 <= amount.low <= amount.high


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("4", "4 servings"),
        ("serves 4-6", "4-6 servings"),
        ("24 pies", "24 pies"),
        ("Makes: 2 loaves", "2 loaves"),
    ],
)
def test_what_a_dish_makes(text: str, shown: str) -> None:
    assert made_text(read_made(text)) == shown
    assert made_text(read_made(shown)) == shown


@pytest.mark.parametrize(
    ("text", "factor"),
    [("2", 2), ("double", 2), ("half", 0.5), ("1/2", 0.5), ("1", None), ("", None), ("1 1/2", 1.5)],
)
def test_batches(text: str, factor: float | None) -> None:
    assert read_factor(text) == factor


@pytest.mark.parametrize("text", ["twice-ish", "0", "-2", "2 cups", "nan"])
def test_what_is_no_batch_is_refused(text: str) -> None:
    with pytest.raises(CardwrightError, match="batch"):
        read_factor(text)


@pytest.mark.parametrize(("text", "seconds"), [("3:42", 222), ("1:03:42", 3822), ("90", 90), (" 0:05 ", 5)])
def test_moments(text: str, seconds: float) -> None:
    assert read_clock(text) == seconds
    assert read_clock(clock_text(seconds)) == seconds


@pytest.mark.parametrize("text", ["", "three", "3:", "-1", "1:2:3:4", "nan", "inf"])
def test_what_is_no_moment_is_refused(text: str) -> None:
    with pytest.raises(CardwrightError, match="no time"):
        read_clock(text)


def test_spoken_halves_are_put_before_their_unit() -> None:
    assert spoken_line("a pound and a half of sweet potatoes") == "1 1/2 pound of sweet potatoes"
    assert spoken_line("two teaspoons of cumin") == "two teaspoons of cumin"
