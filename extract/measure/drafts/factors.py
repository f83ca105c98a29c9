"""By how much the amounts of a draft differ from those that were said, and from a normal batch."""

from __future__ import annotations

from fractions import Fraction

from extract.measure.figures import exact
from extract.model import Batch, Dish, Step


def factor_of_part(dish: Dish, name: str) -> Fraction:
    """By how much the amounts of a part of a dish ("" for the dish itself) are larger than they were said."""
    whole = exact(dish.scaling.by) if dish.scaling else Fraction(1)
    part = next((part for part in dish.components if part.name == name and part.scaled_by), None)
    return whole * exact(part.scaled_by) if part else whole


def factor_of_step(dish: Dish, step: Step) -> Fraction:
    """By how much the amounts in a step are larger than they were said: as much as those of its part."""
    return factor_of_part(dish, step.component)


def batch_of(dish: Dish, name: str = "") -> Batch | None:
    """The batch that the amounts of a dish, or of a part that alone was multiplied, make as they now stand.

    A double batch made three times as large is six; None where they make a normal one, or no batch was spoken of.
    """
    parts = [part.batch for part in dish.components if part.name == name and part.batch]
    batch = parts[0] if parts else None if name else dish.batch
    if batch is None:
        return None
    now = exact(batch.factor) * factor_of_part(dish, name)
    return None if now == 1 else batch.model_copy(update={"factor": float(now)})
