"""Worked examples from published tables and definitions, each a line of arithmetic anyone can redo."""

from __future__ import annotations

from fractions import Fraction

import pytest

from extract.measure.figures import exact
from extract.measure.heat import ovens
from extract.measure.units import convert_figure
from extract.measure.weights import NoWeight, Weight, density, piece
from extract.measure.worked import to_grams
from extract.model import Amount

# Figure, unit, whose; the same in another unit, whose. Definitions: NIST Handbook 44 and SP 811 (US), Weights
# and Measures Act 1985 (imperial), NSW Health (Australia), SFCR s. 241(3) (Canada), 21 CFR 101.9 (label).
VOLUMES = [
    ("1", "litre", "us", "33.8140227", "fluid_ounce", "us"),
    ("1", "litre", "us", "4.22675284", "cup", "us"),
    ("100", "millilitre", "us", "3.38140227", "fluid_ounce", "us"),
    ("250", "millilitre", "us", "1.05668821", "cup", "us"),
    ("500", "millilitre", "us", "2.11337642", "cup", "us"),
    ("1/4", "cup", "us", "59.14705912", "millilitre", "us"),
    ("1/3", "cup", "us", "78.8627455", "millilitre", "us"),
    ("1 1/2", "cup", "us", "354.88235475", "millilitre", "us"),
    ("1", "pint", "uk", "568.26125", "millilitre", "uk"),
    ("1", "pint", "uk", "20", "fluid_ounce", "uk"),
    ("1", "pint", "us", "16", "fluid_ounce", "us"),
    ("1", "pint", "uk", "1.20094993", "pint", "us"),
    ("1", "fluid_ounce", "us", "1.04084273", "fluid_ounce", "uk"),
    ("1", "gallon", "uk", "1.20094993", "gallon", "us"),
    ("1/2", "pint", "uk", "284.130625", "millilitre", "uk"),
    ("1", "tablespoon", "au", "4", "teaspoon", "au"),
    ("1", "cup", "au", "12.5", "tablespoon", "au"),
    ("1", "tablespoon", "au", "1.35256091", "tablespoon", "us"),
    ("1", "cup", "au", "1.05668821", "cup", "us"),
    ("1", "cup", "ca", "250", "millilitre", "ca"),
    ("1", "cup", "label", "240", "millilitre", "label"),
]
MASSES = [
    ("4", "ounce", "113.3980925", "gram"),
    ("12", "ounce", "340.1942775", "gram"),
    ("2 1/2", "pound", "1133.980925", "gram"),
    ("1", "stone", "6350.29318", "gram"),
    ("1", "kilogram", "2.20462262", "pound"),
    ("100", "gram", "3.52739619", "ounce"),
    ("500", "gram", "1.10231131", "pound"),
]
# °F and °C by (F - 32) x 5/9.
TEMPERATURES = [
    (0, "-17.7778"),
    (32, "0"),
    (40, "4.4444"),
    (135, "57.2222"),
    (145, "62.7778"),
    (160, "71.1111"),
    (165, "73.8889"),
    (212, "100"),
    (325, "162.7778"),
    (350, "176.6667"),
    (400, "204.4444"),
    (500, "260"),
]
CELSIUS = [
    (63, "145.4"),
    (71, "159.8"),
    (74, "165.2"),
    (82, "179.6"),
    (100, "212"),
    (180, "356"),
    (220, "428"),
]
# Arithmetic on USDA SR28 weights: grams of a food as so many of a household measure.
USDA = [
    ("granulated sugar", "", 500, "cup", "2.5"),
    ("plain flour", "", 250, "cup", "2"),
    ("butter", "", 100, "tablespoon", "7.0423"),
]


@pytest.mark.parametrize(("count", "unit", "whose", "worked", "other", "theirs"), VOLUMES)
def test_volumes(count: str, unit: str, whose: str, worked: str, other: str, theirs: str) -> None:
    found = convert_figure(exact(count), unit, other, system=whose, to_system=theirs)
    assert float(found) == pytest.approx(float(worked), rel=1e-8)
    assert convert_figure(found, other, unit, system=theirs, to_system=whose) == exact(count)


@pytest.mark.parametrize(("count", "unit", "worked", "other"), MASSES)
def test_masses(count: str, unit: str, worked: str, other: str) -> None:
    assert float(convert_figure(exact(count), unit, other)) == pytest.approx(float(worked), rel=1e-8)


@pytest.mark.parametrize(("deg_f", "deg_c"), TEMPERATURES)
def test_fahrenheit_in_celsius(deg_f: int, deg_c: str) -> None:
    assert float(convert_figure(Fraction(deg_f), "degF", "degC")) == pytest.approx(float(deg_c), abs=1e-4)
    assert ovens.to_celsius(Fraction(deg_f)) == convert_figure(Fraction(deg_f), "degF", "degC")


@pytest.mark.parametrize(("deg_c", "deg_f"), CELSIUS)
def test_celsius_in_fahrenheit(deg_c: int, deg_f: str) -> None:
    assert float(ovens.to_fahrenheit(Fraction(deg_c))) == pytest.approx(float(deg_f), abs=1e-4)


def test_a_fan_is_an_interval_cooler_not_a_setting() -> None:
    """20 °C less is 36 °F less: no offset of 32 for an interval."""
    assert ovens.to_fahrenheit(Fraction(180)) - ovens.to_fahrenheit(ovens.fan_celsius(Fraction(180))) == 36


@pytest.mark.parametrize(("food", "said", "grams", "unit", "count"), USDA)
def test_grams_as_household_measures(food: str, said: str, grams: int, unit: str, count: str) -> None:
    found = density(food, said)
    assert isinstance(found, Weight)
    worked = convert_figure(grams / found.grams, "millilitre", unit)
    assert float(worked) == pytest.approx(float(count), rel=0.002)


@pytest.mark.parametrize(
    ("count", "unit", "food", "grams"),
    [
        (2, "stick", "butter", 226),
        (3, "clove", "garlic", 9),
        (1, "", "egg", 50),
        (0.5, "", "egg", 25),
        (2, "cup", "granulated sugar", 400),
        (4, "cup", "flour", 500),
        (2, "cup", "butter", 454),
        (8, "fluid_ounce", "water", 236.588),
        (1, "gallon", "water", 3785.41),
    ],
)
def test_household_measures_in_grams(count: float, unit: str, food: str, grams: float) -> None:
    """USDA SR28 weights; water is 1000 g a litre there."""
    worked = to_grams(Amount(low=count, high=count, unit=unit), food)
    assert not isinstance(worked, NoWeight)
    assert float(worked[0][0]) == pytest.approx(grams, rel=0.001)


def test_an_egg_is_its_white_and_its_yolk() -> None:
    """USDA SR28: white 33 g and yolk 17 g of a large egg of 50 g."""
    parts = [piece(name, "") for name in ("egg white", "egg yolk", "egg")]
    white, yolk, whole = (part.grams for part in parts if isinstance(part, Weight))
    assert white + yolk == whole == 50


def test_a_chopped_medium_onion_is_about_two_thirds_of_a_cup() -> None:
    """USDA SR28: 110 g an onion, 160 g a chopped cup: 0.6875 cup."""
    onion, chopped = piece("onion", ""), density("onion", "chopped")
    assert isinstance(onion, Weight)
    assert isinstance(chopped, Weight)
    cups = convert_figure(onion.grams / chopped.grams, "millilitre", "cup")
    assert float(cups) == pytest.approx(0.6875)


def test_cream_doubles_when_it_is_whipped() -> None:
    """USDA SR28: a cup of heavy cream weighs 238 g, a cup of it whipped 120 g."""
    fluid, whipped = density("heavy cream"), density("heavy cream", "whipped")
    assert isinstance(fluid, Weight)
    assert isinstance(whipped, Weight)
    assert float(fluid.grams / whipped.grams) == pytest.approx(2, abs=0.02)
