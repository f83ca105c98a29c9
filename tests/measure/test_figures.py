"""Figures as kitchens write them: the right fraction, and never more than 5 % off."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from extract.measure.figures import (
    exact,
    mixed,
    nearest_fraction,
    round_decimal,
    spoon_ladder,
    spoons_and_cups,
)
from extract.measure.kitchen import print_amount

# Ratios read in NIST SP 430 (Household Weights and Measures) Table 1 and in cookery tables made from it: the
# amount in cups or spoons, times the factor, and the measures that hold exactly that.
SCALED = [
    ("3/4", "cup", 2, "1 1/2 cups"),
    ("1/3", "cup", 3, "1 cup"),
    ("1/4", "cup", "1/2", "2 tablespoons"),
    ("1/3", "cup", "1/2", "2 tablespoons + 2 teaspoons"),
    ("3/4", "cup", "1/2", "6 tablespoons"),
    ("1", "tablespoon", "1/2", "1 1/2 teaspoons"),
    ("1", "tablespoon", "1/3", "1 teaspoon"),
    ("1", "teaspoon", 4, "1 tablespoon + 1 teaspoon"),
    ("1/8", "cup", 1, "2 tablespoons"),
    ("1/6", "cup", 1, "2 tablespoons + 2 teaspoons"),
    ("3/8", "cup", 1, "6 tablespoons"),
    ("1", "cup", "1/3", "1/3 cup"),
    ("2", "teaspoon", "1/2", "1 teaspoon"),
    ("1/2", "teaspoon", 3, "1 1/2 teaspoons"),
]
SAID = [
    (1.5, 1.5, "cup", "1 1/2 cups"),
    (0.75, 0.75, "cup", "3/4 cup"),
    (1 / 3, 1 / 3, "cup", "1/3 cup"),
    (0.33, 0.33, "cup", "1/3 cup"),
    (6, 6, "tablespoon", "6 tablespoons"),
    (4, 4, "teaspoon", "4 teaspoons"),
    (2, 3, "clove", "2–3 cloves"),
    (0.5, 1, "teaspoon", "1/2–1 teaspoon"),
    (125, 125, "gram", "125 g"),
    (453, 453, "gram", "453 g"),
    (1.25, 1.25, "litre", "1.25 litres"),
    (2.5, 3, "kilogram", "2.5–3 kg"),
    (1, 1, "pinch", "a pinch"),
    (2, 2, "pinch", "2 pinches"),
    (1, 1, "handful", "a handful"),
    (2, 2, "", "2"),
    (3, 3, "leaf", "3 leaves"),
    (8, 8, "fluid_ounce", "8 fluid ounces"),
    (0.125, 0.125, "teaspoon", "1/8 teaspoon"),
    (2.5, 2.5, "pound", "2 1/2 pounds"),
    (1, 1, "bespoke_scoop", "1 bespoke scoop"),
]
MILLILITRES = {
    # NIST, The Metric Kitchen: what cooks print for cups.
    "cup": 240,
    "1/2 cup": 120,
    "1/3 cup": 80,
    "1/4 cup": 60,
}


@pytest.mark.parametrize(("count", "unit", "factor", "words"), SCALED)
def test_scaled_spoons_and_cups_are_put_in_the_measures_there_are(
    count: str, unit: str, factor: int | str, words: str
) -> None:
    value = Fraction(count) * Fraction(factor)
    assert print_amount(value, value, unit, worked_out=True) == words


@pytest.mark.parametrize(("low", "high", "unit", "words"), SAID)
def test_what_was_said_is_printed_as_said(low: float, high: float, unit: str, words: str) -> None:
    assert print_amount(low, high, unit) == words


def test_four_teaspoons_are_one_tablespoon_in_australia() -> None:
    """NSW Health conversion chart: the Australian tablespoon is 20 ml."""
    assert print_amount(4, 4, "teaspoon", worked_out=True, system="au") == "1 tablespoon"


@pytest.mark.parametrize(("measure", "millilitres"), MILLILITRES.items())
def test_cups_in_millilitres_are_what_the_metric_kitchen_prints(measure: str, millilitres: int) -> None:
    cups = Fraction(measure.removesuffix("cup").strip() or 1)
    value = cups * Fraction("236.5882365")
    assert print_amount(value, value, "millilitre", worked_out=True) == f"{millilitres} ml"


@pytest.mark.parametrize(
    ("grams", "words"),
    [
        (4.6, "4.6 g"),
        (14.2, "14 g"),
        (113.4, "115 g"),
        (226.8, "225 g"),
        (453.6, "450 g"),
        (1133.98, "1150 g"),
    ],
)
def test_grams_are_rounded_to_1_5_or_25_by_size(grams: float, words: str) -> None:
    assert print_amount(grams, grams, "gram", worked_out=True) == words


@pytest.mark.parametrize(
    ("low", "high", "unit", "words"),
    [
        (Fraction(1, 12), Fraction(1, 12), "teaspoon", "a pinch"),
        (Fraction(1, 12), Fraction(1, 4), "teaspoon", "a pinch to 1/4 teaspoon"),
        (Fraction(1, 6), Fraction(1, 6), "teaspoon", "1/6 teaspoon (a generous 1/8)"),
        (Fraction(5, 16), Fraction(5, 16), "teaspoon", "5/16 teaspoon (a generous 1/4)"),
        (Fraction(18), Fraction(18), "ounce", "1 pound + 2 ounces"),
        (Fraction(24), Fraction(24), "ounce", "1 1/2 pounds"),
    ],
)
def test_worked_out_amounts_that_no_measure_holds(
    low: Fraction, high: Fraction, unit: str, words: str
) -> None:
    assert print_amount(low, high, unit, worked_out=True) == words


def test_sizes_of_packages_stand_before_the_unit() -> None:
    assert print_amount(1, 1, "can", size=(14, 14, "ounce")) == "1 (14-ounce) can"
    assert print_amount(2, 2, "can", size=(400, 400, "gram")) == "2 (400 g) cans"
    assert print_amount(1, 1, "", size=(3, 4, "pound"), approximate=True) == "about 1 (3–4-pound)"


@pytest.mark.parametrize(("low", "high"), [(-1, 1), (2, 1), (float("nan"), 1), (1, float("inf"))])
def test_figures_that_are_no_amount_are_refused(low: float, high: float) -> None:
    with pytest.raises(ValueError, match=r"no amount"):
        print_amount(low, high, "cup")


@pytest.mark.parametrize(
    ("text", "value"),
    [("1 1/2", Fraction(3, 2)), ("0.5", Fraction(1, 2)), ("2", Fraction(2)), ("3/4", Fraction(3, 4))],
)
def test_exact_reads_figures_as_people_type_them(text: str, value: Fraction) -> None:
    assert exact(text) == value


def test_a_third_stays_a_third_through_a_float() -> None:
    assert exact(float(Fraction(1, 3))) * 3 == 1
    assert exact(0.1) == Fraction(1, 10)


amounts = st.fractions(min_value=Fraction(1, 8), max_value=Fraction(2000), max_denominator=240)
systems = st.sampled_from(["us", "metric", "uk", "au", "ca"])


@given(amounts, systems)
def test_spoons_and_cups_are_never_more_than_5_percent_off(teaspoons: Fraction, system: str) -> None:
    tablespoon, cup = spoon_ladder(system)
    size = {"teaspoon": Fraction(1), "tablespoon": Fraction(tablespoon), "cup": cup}
    terms = spoons_and_cups(teaspoons, system)
    assert terms
    total = sum(count * size[unit] for count, unit in terms)
    assert abs(total - teaspoons) <= teaspoons / 20


@given(st.fractions(min_value=Fraction(1, 2), max_value=Fraction(50_000), max_denominator=1000))
def test_grams_and_millilitres_are_never_more_than_5_percent_off(value: Fraction) -> None:
    for unit in ("gram", "millilitre", "kilogram", "litre", "centimetre"):
        assert abs(round_decimal(value, unit) - value) <= value / 20


@given(st.fractions(min_value=Fraction(1, 8), max_value=Fraction(100), max_denominator=1000))
def test_kitchen_fractions_are_never_more_than_5_percent_off(value: Fraction) -> None:
    near = nearest_fraction(value)
    assert abs(near - value) <= value / 20
    assert near.denominator <= 20


@given(st.fractions(min_value=Fraction(1, 8), max_value=Fraction(200), max_denominator=96), systems)
def test_the_words_of_a_worked_out_amount_say_what_they_stand_for(teaspoons: Fraction, system: str) -> None:
    """Reading the printed measures back gives the amount within 5 %."""
    words = re.sub(
        r"\(.*?\)", "", print_amount(teaspoons, teaspoons, "teaspoon", worked_out=True, system=system)
    )
    tablespoon, cup = spoon_ladder(system)
    size = {"teaspoon": Fraction(1), "tablespoon": Fraction(tablespoon), "cup": cup}
    total = Fraction(0)
    for term in words.split("+"):
        figure, unit = term.strip().rsplit(" ", 1)
        total += exact(figure) * size[unit.rstrip("s")]
    assert abs(total - teaspoons) <= teaspoons / 20


@given(amounts, amounts)
def test_a_range_stays_ordered_when_it_is_rounded(one: Fraction, other: Fraction) -> None:
    low, high = sorted((one, other))
    for unit in ("gram", "millilitre"):
        assert round_decimal(low, unit) <= round_decimal(high, unit)


@given(st.fractions(min_value=0, max_value=1000, max_denominator=64))
def test_a_mixed_number_reads_back_as_itself(value: Fraction) -> None:
    assert exact(mixed(value)) == value
