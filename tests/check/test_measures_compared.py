"""Amounts are compared exactly within a system, within kitchen rounding across, and by weight where known."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from extract.check.pairs.measures import compare, ratio, total
from extract.check.scales import minutes, to_base
from extract.measure.units import convert_figure
from extract.model import Amount, Size


def amount(
    low: float, unit: str = "", high: float | None = None, size: tuple[float, str] | None = None
) -> Amount:
    packed = Size(low=size[0], high=size[0], unit=size[1]) if size else None
    return Amount(low=low, high=low if high is None else high, unit=unit, size=packed)


# Sources: NIST SP 430, Household Weights and Measures, Table 1 (spoons and cups); NIST, The Metric Kitchen
# (rounded metric); NSW Government, Healthy Kids, conversion chart (4 oz as 125 g, 16 oz as 500 g); the
# international pound of 453.59237 g; the imperial pint of 568 ml (Weights and Measures Act 1985).
SAME = [
    (amount(3, "teaspoon"), amount(1, "tablespoon"), ""),
    (amount(4, "tablespoon"), amount(0.25, "cup"), ""),
    (amount(16, "tablespoon"), amount(1, "cup"), ""),
    (amount(1 / 3, "cup"), amount(16 / 3, "tablespoon"), ""),
    (amount(2, "cup"), amount(1, "pint"), ""),
    (amount(1, "cup"), amount(240, "millilitre"), ""),
    (amount(1, "cup"), amount(250, "millilitre"), ""),
    (amount(0.5, "cup"), amount(120, "millilitre"), ""),
    (amount(2, "tablespoon"), amount(30, "millilitre"), ""),
    (amount(1, "pint"), amount(480, "millilitre"), ""),
    (amount(1, "pint"), amount(568, "millilitre"), ""),
    (amount(8, "ounce"), amount(225, "gram"), ""),
    (amount(4, "ounce"), amount(125, "gram"), ""),
    (amount(16, "ounce"), amount(500, "gram"), ""),
    (amount(4, "pound"), amount(1.8, "kilogram"), ""),
    (amount(700, "millilitre"), amount(0.7, "litre"), ""),
    (amount(2, "inch"), amount(5, "centimetre"), ""),
    (amount(2, "stalk"), amount(2, "rib"), "celery"),
    (amount(5, "clove"), amount(5), "garlic"),
    (amount(1, "can", size=(14, "ounce")), amount(1, "can", size=(400, "gram")), "tomatoes"),
    (amount(2, "can", size=(200, "gram")), amount(1, "can", size=(400, "gram")), "beans"),
    (amount(1, "piece", size=(3, "inch")), amount(3, "inch"), "ginger"),
    (amount(2, "cup"), amount(250, "gram"), "all-purpose flour"),  # USDA SR28, 20081: 125 g a cup
    (amount(1, "pinch"), amount(0.25, "teaspoon"), "salt"),
]

DIFFERENT = [
    (amount(1, "teaspoon"), amount(1, "tablespoon"), "", "unit"),
    (amount(2, "teaspoon"), amount(2, "tablespoon"), "", "unit"),
    (amount(1, "pinch"), amount(1, "tablespoon"), "salt", "unit"),
    (amount(1, "head"), amount(3, "clove"), "garlic", "unit"),
    (amount(250, "gram"), amount(260, "gram"), "", "amount"),
    (amount(1, "cup"), amount(300, "millilitre"), "", "amount"),
    (amount(3), amount(4), "eggs", "amount"),
    (amount(10, "minute"), amount(12, "minute"), "", "amount"),
    (amount(1, "can", size=(14, "ounce")), amount(1, "can", size=(28, "ounce")), "tomatoes", "amount"),
    (amount(2, "cup"), amount(450, "gram"), "all-purpose flour", "amount"),
    (amount(2, "tablespoon", high=3), amount(2, "tablespoon", high=4), "", "amount"),
]


@pytest.mark.parametrize(("said", "written", "food"), SAME)
def test_what_only_looks_different_is_the_same(said: Amount, written: Amount, food: str) -> None:
    assert compare(said, written, food).same
    assert compare(said, written, food).why


@pytest.mark.parametrize(("said", "written", "food", "kind"), DIFFERENT)
def test_what_differs_is_called_by_its_kind(said: Amount, written: Amount, food: str, kind: str) -> None:
    assert compare(said, written, food).answer == kind


def test_measures_of_two_kinds_without_a_weight_cannot_be_compared() -> None:
    assert compare(amount(1, "cup"), amount(100, "gram"), "skyberries").answer == "unknown"


def test_the_figures_that_lead_decide_over_second_measures() -> None:
    written = amount(1, "cup").model_copy(update={"equivalents": [amount(120, "millilitre")]})
    assert compare(amount(0.5, "cup"), written).answer == "amount"


def test_a_second_measure_serves_where_the_first_cannot_be_compared() -> None:
    written = amount(1).model_copy(update={"equivalents": [amount(1.8, "kilogram")]})
    assert compare(amount(4, "pound"), written, "skyberry roast").same


UNITS = [
    ("cup", "millilitre"),
    ("tablespoon", "teaspoon"),
    ("pound", "gram"),
    ("ounce", "gram"),
    ("inch", "millimetre"),
]


@pytest.mark.parametrize(("unit", "base"), UNITS)
def test_sizes_are_those_of_the_measures_registry(unit: str, base: str) -> None:
    """Held against pint, through the program's one registry."""
    one, other = to_base(unit), to_base(base)
    assert one is not None
    assert other is not None
    assert one[1] / other[1] == convert_figure(Fraction(1), unit, base)


@given(
    st.fractions(min_value=Fraction(1, 8), max_value=50),
    st.sampled_from(["cup", "gram", "", "clove", "pound"]),
)
def test_an_amount_agrees_with_itself_and_not_with_its_double(value: Fraction, unit: str) -> None:
    one, double = amount(float(value), unit), amount(2 * float(value), unit)
    assert compare(one, one).same
    assert not compare(one, double).same
    assert ratio(one, double) == pytest.approx(2, rel=1e-6)


def test_amounts_of_one_kind_add_up() -> None:
    whole = total([amount(0.5, "cup"), amount(2, "tablespoon")])
    assert whole is not None
    assert (whole.low, whole.unit) == (0.625, "cup")
    assert total([amount(1, "cup"), amount(1, "gram")]) is None
    assert total([]) is None


def test_times_are_compared_in_minutes() -> None:
    assert minutes(1.5, "hour") == 90
    assert minutes(30, "second") == Fraction(1, 2)
    assert minutes(2, "fortnight") is None
