"""The registry against the published definitions of units, and against pint's own."""

from __future__ import annotations

from fractions import Fraction

import pint
import pytest

from extract.errors import CardwrightError
from extract.measure.units import SYSTEMS, convert_figure, dimension, pint_name, registry, to_millilitres
from extract.model import Amount

# NIST Special Publication 811 (2008), Appendix B: factors to cubic metres, as printed, here in millilitres.
SP811_VOLUMES = [
    ("gallon", 3785.412),
    ("quart", 946.3529),
    ("pint", 473.1765),
    ("gill", 118.2941),
    ("cup", 236.5882),
    ("fluid_ounce", 29.57353),
    ("tablespoon", 14.78676),
    ("teaspoon", 4.928922),
]
# The same appendix: pound 4.535 924 E-01 kg, ounce 2.834 952 E-02 kg.
SP811_MASSES = [("pound", 453.5924), ("ounce", 28.34952)]
# NIST Handbook 44, Appendix C, ratios of US liquid measure.
HANDBOOK_44 = [
    ("gallon", 4, "quart"),
    ("quart", 2, "pint"),
    ("pint", 2, "cup"),
    ("cup", 8, "fluid_ounce"),
    ("cup", 16, "tablespoon"),
    ("fluid_ounce", 2, "tablespoon"),
    ("tablespoon", 3, "teaspoon"),
    ("pound", 16, "ounce"),
    ("foot", 12, "inch"),
    ("gallon", 128, "fluid_ounce"),
    ("cup", 48, "teaspoon"),
]
# 21 CFR 101.9(b)(5)(viii): measures on US nutrition labels.
LABELS = [("teaspoon", 5), ("tablespoon", 15), ("fluid_ounce", 30), ("cup", 240)]
# Weights and Measures Act 1985 (UK), Schedule 1: gallon 4.54609 litres; 8 pints; 160 fluid ounces.
IMPERIAL = [
    ("gallon", "4546.09"),
    ("pint", "568.26125"),
    ("quart", "1136.5225"),
    ("fluid_ounce", "28.4130625"),
]
# NSW Health conversion chart (Australia); Safe Food for Canadians Regulations s. 241(3); UKMA.
SPOONS = [
    ("au", "tablespoon", 20),
    ("au", "teaspoon", 5),
    ("au", "cup", 250),
    ("ca", "tablespoon", 15),
    ("ca", "cup", 250),
    ("uk", "tablespoon", 15),
    ("uk", "dessertspoon", 10),
    ("uk", "teaspoon", 5),
    ("metric", "cup", 250),
]
PINT_NAMES = {
    "us_teaspoon": "teaspoon",
    "us_tablespoon": "tablespoon",
    "us_cup": "cup",
    "us_fluid_ounce": "fluid_ounce",
    "us_gill": "gill",
    "us_pint": "pint",
    "us_quart": "quart",
    "us_gallon": "gallon",
    "uk_pint": "imperial_pint",
    "uk_quart": "imperial_quart",
    "uk_gallon": "imperial_gallon",
    "uk_fluid_ounce": "imperial_fluid_ounce",
    "uk_gill": "imperial_gill",
    "imperial_cup": "imperial_cup",
    "pound": "pound",
    "ounce": "ounce",
    "stone": "stone",
    "inch": "inch",
    "foot": "foot",
    "centimetre": "centimetre",
    "litre": "litre",
    "kilogram": "kilogram",
}


@pytest.fixture(scope="module")
def theirs() -> pint.UnitRegistry[Fraction]:
    return pint.UnitRegistry(non_int_type=Fraction)


@pytest.mark.parametrize(("unit", "millilitres"), SP811_VOLUMES)
def test_us_volumes_are_those_of_sp_811(unit: str, millilitres: float) -> None:
    ours = convert_figure(Fraction(1), unit, "millilitre")
    assert float(f"{float(ours):.7g}") == millilitres


@pytest.mark.parametrize(("unit", "grams"), SP811_MASSES)
def test_masses_are_those_of_sp_811(unit: str, grams: float) -> None:
    assert float(f"{float(convert_figure(Fraction(1), unit, 'gram')):.7g}") == grams


@pytest.mark.parametrize(("large", "count", "small"), HANDBOOK_44)
def test_us_ratios_are_exactly_those_of_handbook_44(large: str, count: int, small: str) -> None:
    assert convert_figure(Fraction(1), large, small) == count


def test_the_us_gallon_is_231_cubic_inches_exactly() -> None:
    """NIST Handbook 44, Appendix C; the inch is 25.4 mm."""
    assert convert_figure(Fraction(1), "gallon", "millilitre") == 231 * Fraction(254, 100) ** 3


@pytest.mark.parametrize(("unit", "millilitres"), LABELS)
def test_labelling_measures_are_those_of_21_cfr_101_9(unit: str, millilitres: int) -> None:
    assert convert_figure(Fraction(1), unit, "millilitre", system="label") == millilitres
    assert convert_figure(Fraction(1), "ounce", "gram", system="label") == 28


@pytest.mark.parametrize(("unit", "millilitres"), IMPERIAL)
def test_imperial_measures_are_those_of_the_act(unit: str, millilitres: str) -> None:
    for system in ("uk", "imperial", "au", "ca"):
        assert convert_figure(Fraction(1), unit, "millilitre", system=system) == Fraction(millilitres)


@pytest.mark.parametrize(("system", "unit", "millilitres"), SPOONS)
def test_spoons_and_cups_of_other_countries(system: str, unit: str, millilitres: int) -> None:
    assert convert_figure(Fraction(1), unit, "millilitre", system=system) == millilitres


@pytest.mark.parametrize(("ours", "name"), PINT_NAMES.items())
def test_every_unit_agrees_with_pints_own(ours: str, name: str, theirs: pint.UnitRegistry[Fraction]) -> None:
    for base, to in (("millilitre", "milliliter"), ("gram", "gram"), ("millimetre", "millimeter")):
        if registry().Unit(ours).dimensionality == registry().Unit(base).dimensionality:
            assert registry().convert(Fraction(1), ours, base) == theirs.convert(Fraction(1), name, to)
            return
    pytest.fail(f"{ours} has no base unit")


@pytest.mark.parametrize("degrees", [0, 32, 145, 212, 350, 500])
def test_temperatures_agree_with_pints_own(degrees: int, theirs: pint.UnitRegistry[Fraction]) -> None:
    ours = convert_figure(Fraction(degrees), "degF", "degC")
    assert ours == theirs.Quantity(Fraction(degrees), "degF").to("degC").magnitude
    assert ours == (Fraction(degrees) - 32) * 5 / 9
    assert convert_figure(ours, "degC", "degF") == degrees


def test_there_is_one_registry_and_it_works_in_fractions() -> None:
    assert registry() is registry()
    assert isinstance(registry().convert(Fraction(1, 3), "us_cup", "millilitre"), Fraction)


@pytest.mark.parametrize("unit", ["clove", "handful", "pinch", "can", "", "stick", "bunch", "unheard-of"])
def test_what_is_no_measure_has_no_size(unit: str) -> None:
    assert pint_name(unit) is None
    assert dimension(unit) == "none"
    assert to_millilitres(Amount(low=1, high=1, unit=unit)) is None


def test_an_unknown_unit_or_system_is_refused_in_words() -> None:
    with pytest.raises(CardwrightError, match='"hogshead" cannot be turned into "millilitre"'):
        convert_figure(Fraction(1), "hogshead", "millilitre")
    with pytest.raises(CardwrightError, match='"cup" cannot be turned into "gram"'):
        convert_figure(Fraction(1), "cup", "gram")
    with pytest.raises(CardwrightError, match="no system of measures"):
        pint_name("cup", "roman")


@pytest.mark.parametrize("system", SYSTEMS)
def test_every_system_has_spoons_and_a_cup_in_order(system: str) -> None:
    sizes = [
        convert_figure(Fraction(1), unit, "millilitre", system=system)
        for unit in ("teaspoon", "tablespoon", "cup")
    ]
    assert sizes == sorted(sizes)
    assert dimension("pint", system) == "volume"


def test_both_ends_of_an_amount_are_turned() -> None:
    assert to_millilitres(Amount(low=1, high=2, unit="tablespoon"), "au") == (20, 40)
