"""Bare figures of heat: settled by what stands beside them, by the figure itself, by the cook's measures."""

from __future__ import annotations

from typing import Any

import pytest
from making import action, line, make_dish, make_draft

from extract.measure.drafts.convert import convert
from extract.measure.heat.scales import settle_heats
from extract.measure.kitchen import print_temperature
from extract.model import Heat

GAS_4 = {"kind": "oven", "low": 4, "high": 4, "unit": "gas_mark"}


def settled(heat: dict[str, Any], measures: str = "", *lines: dict[str, Any]) -> Heat:
    bake = action("bake", "cake", text="Bake.")
    bake["heat"] = {"low": heat.get("low"), "high": heat.get("low"), "unit": "", **heat}
    draft = settle_heats(make_draft(make_dish(*lines, actions=[bake]), measures=measures))
    result = draft.dishes[0].method[0].actions[0].heat
    assert result is not None
    return result


@pytest.mark.parametrize(
    ("heat", "measures", "unit", "what"),
    [
        ({"kind": "oven", "low": 350}, "uk", "degF", "the figure"),
        ({"kind": "oven", "low": 120}, "us", "degC", "the figure"),
        ({"kind": "oven", "low": 200}, "uk", "degC", "the measures"),
        ({"kind": "oven", "low": 200}, "us", "degF", "the measures"),
        ({"kind": "oven", "low": 180, "equivalents": [GAS_4]}, "us", "degC", "beside it"),
        ({"kind": "oven", "low": 160, "fan": True, "equivalents": [GAS_4]}, "us", "degC", "beside it"),
        ({"kind": "oven", "low": 350, "equivalents": [GAS_4]}, "uk", "degF", "beside it"),
        (
            {"kind": "oven", "low": 180, "fan": True, "equivalents": [{"kind": "oven", "low": 200}]},
            "us",
            "degC",
            "beside it",
        ),
        (
            {"kind": "oven", "low": 180, "equivalents": [{"kind": "oven", "low": 350}]},
            "us",
            "degC",
            "beside it",
        ),
        (
            {"kind": "oven", "low": 200, "equivalents": [{"kind": "oven", "low": 220}]},
            "us",
            "degF",
            "the measures",
        ),
        ({"kind": "internal", "low": 165}, "uk", "degF", "the figure"),
        ({"kind": "internal", "low": 74}, "us", "degC", "the figure"),
        ({"kind": "oil", "low": 180}, "us", "degC", "the figure"),
        ({"kind": "oil", "low": 350}, "uk", "degF", "the figure"),
        ({"kind": "other", "low": 37}, "uk", "degC", "the measures"),
        ({"kind": "other", "low": 110}, "us", "degF", "the measures"),
        ({"kind": "oven", "low": 350, "unit": "degF"}, "uk", "degF", ""),
        ({"kind": "hob", "level": "low heat"}, "us", "", ""),
    ],
)
def test_a_bare_figure_gets_the_scale_that_something_settles(
    heat: dict[str, Any], measures: str, unit: str, what: str
) -> None:
    result = settled(heat, measures)
    assert (result.unit, result.scale_from) == (unit, what)


def test_where_nothing_settles_it_the_figure_stays_bare() -> None:
    """A cup alone leaves the measures open, and 200 is a setting on either scale."""
    result = settled({"kind": "oven", "low": 200}, "", line("flour", 1, "cup"))
    assert (result.unit, result.scale_from) == ("", "")
    assert print_temperature(result) == "200 (scale not said)"


def test_the_settings_said_with_it_are_settled_too() -> None:
    fan = {"kind": "oven", "low": 200, "high": 200, "unit": "", "fan": True}
    gas = {"kind": "oven", "low": 7, "high": 7, "unit": "gas_mark"}
    result = settled({"kind": "oven", "low": 220, "equivalents": [fan, gas]}, "us")
    assert print_temperature(result) == "220 °C / 200 °C fan / gas mark 7 (425 °F)"


def test_a_conversion_says_on_what_scale_it_took_bare_figures() -> None:
    dish = make_dish(actions=[action("bake", "cake", heat=("oven", 200, ""))])
    result = convert(make_draft(dish), "us", "uk").dishes[0]
    assert result.conversion is not None
    assert result.conversion.notes == [
        "Temperatures said without a scale are taken as °C, like the other measures."
    ]
    heat = result.method[0].actions[0].heat
    assert heat is not None
    assert print_temperature(heat) == "200 °C (400 °F)"


def test_a_gas_mark_said_with_celsius_has_its_own_fahrenheit() -> None:
    """UK charts: mark 3 is 325 °F, whether they print 160 or 170 °C beside it."""
    gas = {"kind": "oven", "low": 3, "high": 3, "unit": "gas_mark"}
    bake = action("bake", "cake")
    bake["heat"] = {"kind": "oven", "low": 170, "high": 170, "unit": "degC", "equivalents": [gas]}
    heat = convert(make_draft(make_dish(actions=[bake])), "us", "uk").dishes[0].method[0].actions[0].heat
    assert heat is not None
    assert print_temperature(heat) == "170 °C / gas mark 3 (325 °F)"
