"""Figures of heat said without a scale ("three fifty"), where something settles which scale is meant.

What settles it, in this order: the scales said beside it, the figure itself (no household oven reaches
350 °C, no core 165 °C), the measures of the cook. Where nothing does, the figure stays bare.
"""

from __future__ import annotations

from extract.measure.heat.bare import certain_scale
from extract.measure.system import Settled, heats, settle
from extract.model import Dish, Heat, RecipeDraft


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
    unit, what = certain_scale(heat, together)
    if not unit and settled.sure:
        return ("degF" if settled.system == "us" else "degC"), "the measures"
    return unit, what
