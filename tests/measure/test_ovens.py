"""Oven scales against the tables that cookery prints, and temperatures in words."""

from __future__ import annotations

from fractions import Fraction

import pytest

from extract.lexicon import read_lexicon
from extract.measure.drafts.convert import convert_heat
from extract.measure.heat import ovens
from extract.measure.kitchen import print_temperature
from extract.model import Heat

# A UK chart with fan figures, as printed: gas mark, °F, °C, fan °C. The same °C figures stand in a second UK
# chart and in the gas table of a general cookery book of 2000, which has 170 for mark 3.
UK_CHART = [
    (1, 275, 140, 120),
    (2, 300, 150, 130),
    (3, 325, 160, 140),
    (4, 350, 180, 160),
    (5, 375, 190, 170),
    (6, 400, 200, 180),
    (7, 425, 220, 200),
    (8, 450, 230, 210),
    (9, 475, 240, 220),
]
# NIST, The Metric Kitchen / Culinary Temperature, oven table: °F, °C.
NIST_OVEN = [
    (200, 90),
    (250, 120),
    (300, 150),
    (325, 160),
    (350, 180),
    (375, 190),
    (400, 200),
    (450, 230),
    (500, 260),
]


def oven(low: float, unit: str, **more: object) -> Heat:
    return Heat.model_validate({"kind": "oven", "low": low, "high": low, "unit": unit, **more})


@pytest.mark.parametrize(("gas", "deg_f", "deg_c", "fan_c"), UK_CHART)
def test_gas_marks_are_those_of_the_charts(gas: int, deg_f: int, deg_c: int, fan_c: int) -> None:
    assert ovens.gas_to_fahrenheit(Fraction(gas)) == deg_f
    assert ovens.gas_mark(Fraction(deg_f)) == gas
    assert ovens.oven_celsius(Fraction(deg_f)) == deg_c
    assert ovens.oven_fahrenheit(Fraction(deg_c)) == deg_f
    assert ovens.fan_celsius(Fraction(deg_c)) == fan_c
    assert ovens.conventional_celsius(Fraction(fan_c)) == deg_c


@pytest.mark.parametrize(("deg_f", "deg_c"), NIST_OVEN)
def test_oven_celsius_is_what_nist_prints(deg_f: int, deg_c: int) -> None:
    assert ovens.oven_celsius(Fraction(deg_f)) == deg_c


def test_marks_below_one_halve() -> None:
    """Reference texts: mark 1/2 is 250 °F, 1/4 is 225 °F; there are none outside 1/4 to 10."""
    assert ovens.gas_to_fahrenheit(Fraction(1, 2)) == 250
    assert ovens.gas_to_fahrenheit(Fraction(1, 4)) == 225
    for mark in (Fraction(0), Fraction(11), Fraction(-1)):
        with pytest.raises(ValueError, match="no gas mark"):
            ovens.gas_to_fahrenheit(mark)
    assert ovens.gas_mark(Fraction(150)) is None


@pytest.mark.parametrize("deg_f", range(150, 551, 5))
def test_customary_celsius_is_near_the_exact(deg_f: int) -> None:
    """NIST rounds 350 °F up to 180 °C, 3.3 off; UK charts print 240 °C for 475 °F, 6.1 off."""
    off = abs(ovens.oven_celsius(Fraction(deg_f)) - ovens.to_celsius(Fraction(deg_f)))
    assert off <= (7 if deg_f == 475 else 5)


@pytest.mark.parametrize(
    "row", read_lexicon("oven", columns=ovens.OVEN_COLUMNS), ids=lambda row: row["deg_f"]
)
def test_every_row_of_the_table_is_near_the_exact_figures(row: dict[str, str]) -> None:
    deg_c = Fraction(row["deg_c"])
    assert abs(ovens.to_celsius(Fraction(row["deg_f"])) - deg_c) <= 7
    assert not row["fan_deg_c"] or deg_c - Fraction(row["fan_deg_c"]) == 20
    assert not row["gas_mark"] or ovens.gas_to_fahrenheit(Fraction(row["gas_mark"])) == Fraction(row["deg_f"])


@pytest.mark.parametrize(
    ("heat", "words"),
    [
        (oven(350, "degF"), "350 °F (180 °C)"),
        (oven(180, "degC"), "180 °C (350 °F)"),
        (oven(4, "gas_mark"), "gas mark 4 (180 °C, 350 °F)"),
        (oven(0.5, "gas_mark"), "gas mark 1/2 (120 °C, 250 °F)"),
        (oven(160, "degC", fan=True), "160 °C fan (180 °C, 350 °F)"),
        (oven(350, "degF", high=375), "350–375 °F (180–190 °C)"),
        (oven(180, ""), "180 (scale not said)"),
        (oven(350, ""), "350 °F (180 °C)"),
        (
            oven(180, "", equivalents=[{"low": 4, "high": 4, "unit": "gas_mark"}]),
            "180 °C / gas mark 4 (350 °F)",
        ),
        (Heat(kind="internal", low=74, high=74), "74 °C (165 °F)"),
        (oven(12, "gas_mark"), "gas mark 12"),
        (Heat(kind="internal", low=165, high=165, unit="degF"), "165 °F (74 °C)"),
        (Heat(kind="internal", low=63, high=63, unit="degC"), "63 °C (145 °F)"),
        (Heat(kind="oil", low=350, high=375, unit="degF"), "350–375 °F (175–190 °C)"),
        (Heat(kind="other", low=118, high=118, unit="degC"), "118 °C (244 °F)"),
        (Heat(kind="hob", level="low heat"), "low heat"),
        (
            oven(
                220,
                "degC",
                equivalents=[
                    {"kind": "oven", "low": 200, "high": 200, "unit": "degC", "fan": True},
                    {"kind": "oven", "low": 7, "high": 7, "unit": "gas_mark"},
                ],
            ),
            "220 °C / 200 °C fan / gas mark 7 (425 °F)",
        ),
        (
            oven(
                150,
                "degC",
                fan=True,
                equivalents=[
                    {"kind": "oven", "low": 2, "high": 2, "unit": "gas_mark"},
                    {"kind": "oven", "low": 170, "high": 170, "unit": "degC"},
                ],
            ),
            "170 °C / 150 °C fan / gas mark 2 (300 °F)",
        ),
        (
            oven(180, "", fan=True, equivalents=[{"kind": "oven", "low": 200, "high": 200}]),
            "200 °C / 180 °C fan (400 °F)",
        ),
        (
            oven(
                140, "degC", fan=True, equivalents=[{"kind": "oven", "low": 3, "high": 3, "unit": "gas_mark"}]
            ),
            "140 °C fan / gas mark 3 (160 °C, 325 °F)",
        ),
        (
            oven(
                190,
                "",
                equivalents=[
                    {"kind": "oven", "low": 170, "high": 170, "fan": True},
                    {"kind": "oven", "low": 375, "high": 375},
                ],
            ),
            "190 °C / 375 °F / 170 °C fan",
        ),
    ],
)
def test_heat_is_printed_with_the_other_scale_by_customary_rounding(heat: Heat, words: str) -> None:
    assert print_temperature(heat) == words


@pytest.mark.parametrize(
    ("heat", "to", "words"),
    [
        (oven(350, "degF"), "uk", "350 °F (180 °C, 160 °C fan, gas mark 4)"),
        (oven(350, "degF"), "metric", "350 °F (180 °C)"),
        (oven(6, "gas_mark"), "us", "gas mark 6 (400 °F, 200 °C)"),
        (oven(160, "degC", fan=True), "us", "160 °C fan (350 °F, 180 °C)"),
        (oven(160, "degC", fan=True), "uk", "160 °C fan (180 °C, gas mark 4, 350 °F)"),
        (Heat(kind="internal", low=145, high=145, unit="degF"), "uk", "145 °F (63 °C)"),
        (Heat(kind="hob", level="medium heat"), "uk", "medium heat"),
    ],
)
def test_a_converted_setting_has_the_scales_of_the_place(heat: Heat, to: str, words: str) -> None:
    convert_heat(heat, to)
    convert_heat(heat, to)  # a second time changes nothing
    assert print_temperature(heat) == words
