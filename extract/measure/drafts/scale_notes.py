"""What a cook has to think of when a dish is made larger or smaller than it was."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from extract.lexicon import read_lexicon
from extract.measure.figures import decimal, exact, mixed, round_decimal
from extract.measure.kitchen import print_amount, printed_unit
from extract.measure.tins import find_tins
from extract.measure.units import dimension
from extract.measure.weights import Weight, piece
from extract.model import Dish, Ingredient
from extract.spot.names.foods import canonical, kinds_of

WATCH_COLUMNS = ("food", "why")
_BEATEN = frozenset({"egg"})


def scale_notes(dish: Dish, factor: Fraction) -> list[str]:
    """The notes for a dish whose amounts have just been made ``factor`` times what was said."""
    notes = []
    if factor != 1:
        notes.append(f"Made {mixed(factor)} times as large as on camera; amounts are worked out, not said.")
    notes += [
        f"The {part.name} is at {mixed(exact(part.scaled_by))} of what was made on camera, its normal batch; "
        "everything else is as said."
        for part in dish.components
        if part.scaled_by
    ]
    if any(action.heat or action.duration for step in dish.method for action in step.actions):
        notes.append(
            "Times and temperatures are as said: a larger amount takes longer to heat through, "
            "a smaller one is done sooner, so go by the look and the thermometer."
        )
    if factor != 1:
        notes.extend(_tin_notes(dish, factor))
    notes.extend(dict.fromkeys(_to_taste(dish)))
    notes.extend(_broken_counts(dish))
    return notes


def _tin_notes(dish: Dish, factor: Fraction) -> Iterator[str]:
    seen = set()
    for text in (*dish.equipment, *(step.text for step in dish.method)):
        for tin in find_tins(text):
            if (tin.sides, tin.shape) in seen:
                continue
            seen.add((tin.sides, tin.shape))
            area = f"{tin.area:.0f} square {'inches' if tin.unit == 'inch' else 'cm'}"
            yield (
                f"{tin.text}: its floor is {area}; for the same depth take {mixed(factor)} times that, "
                f"about {tin.resized(factor)}, or the tin as it is, filled more than once or less deep."
            )


def _to_taste(dish: Dish) -> Iterator[str]:
    """Salt, leavening and strong seasoning, which do not go up in step with the rest."""
    watched = {row["food"]: row["why"] for row in read_lexicon("scale_watch", columns=WATCH_COLUMNS)}
    by_reason: dict[str, list[str]] = {}
    for line in _lines(dish):
        why = watched.get(canonical(line.name)) or watched.get(line.name.lower())
        if why:
            by_reason.setdefault(why, []).append(line.name)
    for why, names in by_reason.items():
        yield f"{', '.join(dict.fromkeys(names))}: {why}."


def _broken_counts(dish: Dish) -> Iterator[str]:
    """What to do with 1 1/2 eggs or 3/4 of a can."""
    for line in _lines(dish):
        amount = line.amount
        if amount is None or not _is_count(amount.unit) or _whole(amount.low, amount.high):
            continue
        words = f"{line.name}: {print_amount(amount.low, amount.high, amount.unit, worked_out=True)}"
        weight = piece(line.name, amount.unit, line.preparation)
        if amount.size is not None:
            yield f"{words} is part of a package; measure out the share."
        elif isinstance(weight, Weight):
            ends = [round_decimal(weight.grams * exact(end), "gram") for end in (amount.low, amount.high)]
            grams = "–".join(dict.fromkeys(map(decimal, ends)))
            how = "beaten, " if kinds_of(line.name) & _BEATEN else ""
            yield f"{line.name}: counted to the nearest that can be had; by weight, {how}{grams} g ({weight.basis})."
        else:
            yield f"{line.name}: counted to the nearest that can be had."


def _is_count(unit: str) -> bool:
    return printed_unit(unit).way == "count" and dimension(unit) == "none"


def _whole(low: float, high: float) -> bool:
    return low == int(low) and high == int(high)


def _lines(dish: Dish) -> Iterator[Ingredient]:
    for component in dish.components:
        yield from component.ingredients
