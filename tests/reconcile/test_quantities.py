"""Quantities of the ledger, held against the US legal measures.

Source: NIST Handbook 44, Appendix C: 1 US gallon = 231 cubic inches, 1 inch = 25.4 mm exactly; 4 quarts, 8 pints, 16
cups, 128 fluid ounces, 256 tablespoons, 768 teaspoons to the gallon; 1 avoirdupois pound = 0.453 592 37 kg = 16 ounces.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from extract.reconcile.ledger.quantities import (
    Quantity,
    Range,
    exactly,
    grams_of,
    millilitres_of,
    quantity,
    total,
)
from extract.spot.spans import Amount

GALLON = 231 * Fraction("2.54") ** 3
TO_THE_GALLON = {
    "gallon": 1,
    "quart": 4,
    "pint": 8,
    "cup": 16,
    "fluid_ounce": 128,
    "tablespoon": 256,
    "teaspoon": 768,
}
POUND = Fraction("453.59237")


@pytest.mark.parametrize(("unit", "count"), TO_THE_GALLON.items())
def test_volumes_are_the_us_legal_ones(unit: str, count: int) -> None:
    assert millilitres_of(unit) == GALLON / count


@pytest.mark.parametrize(
    ("unit", "grams"),
    [("pound", POUND), ("ounce", POUND / 16), ("gram", 1), ("kilogram", 1000), ("clove", None)],
)
def test_masses_are_avoirdupois_and_metric(unit: str, grams: Fraction | None) -> None:
    assert grams_of(unit) == grams


def test_metric_volumes_are_exact() -> None:
    assert (millilitres_of("millilitre"), millilitres_of("litre")) == (1, 1000)
    assert millilitres_of("clove") is None


def test_the_quantity_of_an_amount_keeps_its_range() -> None:
    cups = Amount(0, 2, Fraction(1), Fraction(3, 2), "cup")
    assert quantity(cups) == Quantity("volume", Range(GALLON / 16, GALLON / 16 * Fraction(3, 2)))
    assert quantity(Amount(0, 2, Fraction(2), Fraction(2), "ounce")) == Quantity("mass", exactly(POUND / 8))
    assert quantity(Amount(0, 2, Fraction(2), Fraction(2), "clove")) is None
    assert quantity(Amount(0, 2, None, None, "cup")) is None
    assert quantity(None) is None


def test_a_sum_needs_every_part_in_one_kind_of_measure() -> None:
    volume, mass = Quantity("volume", exactly(10)), Quantity("mass", exactly(10))
    assert total([volume, volume]) == Quantity("volume", exactly(20))
    assert total([volume, mass]) is None
    assert total([volume, None]) is None
    assert total([]) is None


def test_ranges_add_divide_and_are_taken_from_each_other() -> None:
    range_ = Range(Fraction(4), Fraction(5))
    assert range_ + exactly(1) == Range(Fraction(5), Fraction(6))
    assert range_.times(exactly(Fraction(1, 2))) == Range(Fraction(2), Fraction(5, 2))
    assert exactly(20).over(range_) == Range(Fraction(4), Fraction(5))
    assert range_.less(exactly(1)) == Range(Fraction(3), Fraction(4))
    assert exactly(1).less(range_) == exactly(0)
    assert range_.capped(Fraction(4)) == exactly(4)
    assert (exactly(3).exact, range_.exact) == (True, False)


def test_a_range_runs_upwards() -> None:
    with pytest.raises(ValueError, match="from low to high, not from 2 to 1"):
        Range(Fraction(2), Fraction(1))
