"""Figures of heat said without a scale ("three fifty"), where something settles which scale is meant.

What settles it, in this order: the scales said beside it, the figure itself (no household oven reaches
350 °C, no core 165 °C), the measures of the cook. Where nothing does, the figure stays bare.
"""

from __future__ import annotations

from fractions import Fraction

from extract.measure import ovens
from extract.measure.figures import exact
from extract.measure.system import Settled, heats, settle
from extract.model import Dish, Heat, RecipeDraft

_OVEN_CELSIUS_MOST = 290  # household ovens stop at 250 to 300 °C; common practice, no source
_OVEN_FAHRENHEIT_LEAST = 170  # and begin at about 170 °F; common practice, no source
_OIL_CELSIUS_MOST = 220  # frying oil is 160 to 190 °C, 325 to 375 °F; it smokes above about 230 °C
_CORE_CELSIUS_MOST = 100  # water boils
_NEAR = 15  # °C within which two scales said together are the same setting


def settle_heats(draft: RecipeDraft) -> RecipeDraft:
    """A copy of ``draft`` in which bare figures of heat have the scale that something settles.

    ``Heat.scale_from`` says what did: "beside it", "the figure" or "the measures".
    """
    result = draft.model_copy(deep=True)
    settled = settle(draft)
    for dish in result.dishes:
        settle_dish_heats(dish, settled)
    return result


def settle_dish_heats(dish: Dish, settled: Settled) -> None:
    """Give the bare figures of ``dish`` their scale, in place; see ``settle_heats``."""
    for heat in heats(dish):
        together = [heat, *heat.equivalents]
        for each in together:
            if each.unit == "" and each.low is not None:
                each.unit, each.scale_from = _scale(each, together, settled)


def _scale(heat: Heat, together: list[Heat], settled: Settled) -> tuple[str, str]:
    assert heat.low is not None
    degrees = exact(heat.low)
    beside = _beside(degrees, heat.fan, together)
    if beside:
        return beside, "beside it"
    if heat.kind == "internal":
        return ("degC" if degrees <= _CORE_CELSIUS_MOST else "degF"), "the figure"
    if heat.kind == "oil":
        return ("degC" if degrees <= _OIL_CELSIUS_MOST else "degF"), "the figure"
    if heat.kind == "oven" and not _OVEN_FAHRENHEIT_LEAST <= degrees <= _OVEN_CELSIUS_MOST:
        return ("degF" if degrees > _OVEN_CELSIUS_MOST else "degC"), "the figure"
    if settled.sure:
        return ("degF" if settled.system == "us" else "degC"), "the measures"
    return "", ""


def _beside(degrees: Fraction, fan: bool, together: list[Heat]) -> str:
    """The scale on which ``degrees`` is the same setting as a gas mark or a figure said with it."""
    for other in together:
        if other.low is None or other.unit not in {"gas_mark", "degC", "degF"}:
            continue
        low = exact(other.low)
        try:
            deg_f = ovens.gas_to_fahrenheit(low) if other.unit == "gas_mark" else low
        except ValueError:
            continue
        celsius = low if other.unit == "degC" else ovens.to_celsius(deg_f)
        celsius += 20 * (other.fan - fan)  # a fan is set 20 °C lower
        if abs(degrees - celsius) <= _NEAR:
            return "degC"
        if abs(ovens.to_celsius(degrees) - celsius) <= _NEAR:
            return "degF"
    return ""
