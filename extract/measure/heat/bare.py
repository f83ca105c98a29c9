"""What scale a figure of heat must be on when none was said ("three fifty"): by itself or its company."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from extract.measure.figures import exact
from extract.measure.heat import ovens
from extract.model import Heat
from extract.spot.heat.again import FAN_STEP, HOTTEST_CELSIUS

_OVEN_FAHRENHEIT_LEAST = 170  # household ovens begin at about 170 °F; common practice, no source
_OIL_CELSIUS_MOST = 220  # frying oil is 160 to 190 °C, 325 to 375 °F; it smokes above about 230 °C
_CORE_CELSIUS_MOST = 100  # water boils
_NEAR = 15  # °C within which two scales said together are the same setting


def certain_scale(heat: Heat, together: Sequence[Heat]) -> tuple[str, str]:
    """(unit, what settles it) of a bare figure: "beside it" or "the figure"; ("", "") where neither does.

    ``together``: the settings said with it, itself included. No household oven reaches 350 °C, no core of a
    food 165 °C.
    """
    if heat.low is None:
        return "", ""
    degrees = exact(heat.low)
    others = [other for other in together if other is not heat]
    beside = _beside(degrees, heat.fan, others) or _beside_a_fan(degrees, heat.fan, others)
    if beside:
        return beside, "beside it"
    if heat.kind == "internal":
        return ("degC" if degrees <= _CORE_CELSIUS_MOST else "degF"), "the figure"
    if heat.kind == "oil":
        return ("degC" if degrees <= _OIL_CELSIUS_MOST else "degF"), "the figure"
    if heat.kind == "oven" and not _OVEN_FAHRENHEIT_LEAST <= degrees <= HOTTEST_CELSIUS:
        return ("degF" if degrees > HOTTEST_CELSIUS else "degC"), "the figure"
    return "", ""


def _beside(degrees: Fraction, fan: bool, others: Sequence[Heat]) -> str:
    """The scale on which ``degrees`` is the same setting as a gas mark or a figure said with it."""
    for other in others:
        unit = _unit_of(other)
        if other.low is None or unit not in {"gas_mark", "degC", "degF"}:
            continue
        low = exact(other.low)
        try:
            deg_f = ovens.gas_to_fahrenheit(low) if unit == "gas_mark" else low
        except ValueError:
            continue
        celsius = low if unit == "degC" else ovens.to_celsius(deg_f)
        celsius += FAN_STEP * (other.fan - fan)
        if abs(degrees - celsius) <= _NEAR:
            return "degC"
        if abs(ovens.to_celsius(degrees) - celsius) <= _NEAR:
            return "degF"
    return ""


def _unit_of(heat: Heat) -> str:
    """The scale of a figure by its own words, or by its size where no oven is so hot in Celsius."""
    hot = heat.kind == "oven" and heat.low is not None and heat.low > HOTTEST_CELSIUS
    return heat.unit or ("degF" if hot else "")


def _beside_a_fan(degrees: Fraction, fan: bool, others: Sequence[Heat]) -> str:
    """ "180 fan, 200 without": the step of 20 between the two ovens is one of degrees Celsius."""
    step = FAN_STEP if fan else -FAN_STEP
    bare = (other for other in others if other.kind == "oven" and other.fan != fan and not other.unit)
    return "degC" if any(o.low is not None and exact(o.low) - degrees == step for o in bare) else ""
