"""What a cook has to think of when a dish is made larger or smaller than it was."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from functools import cache

from extract.lexicon import read_lexicon
from extract.measure.figures import decimal, exact, mixed, round_decimal
from extract.measure.kitchen import UNIT_COLUMNS, print_amount, printed_unit
from extract.measure.tins import find_tins
from extract.measure.units import dimension
from extract.measure.weights import Weight, piece
from extract.model import Dish, Ingredient
from extract.spot.food_names import canonical, kinds_of

WATCH_COLUMNS = ("food", "why")
_BEATEN = frozenset({"egg"})


def scale_notes(dish: Dish, factor: Fraction) -> list[str]:
    """The notes for a dish whose amounts have just been made ``factor`` times what was said."""
    notes = [f"Made {mixed(factor)} times as large as on camera; amounts are worked out, not said."]
    if any(action.heat or action.duration for step in dish.method for action in step.actions):
        notes.append(
            "Times and temperatures are as said: a larger amount takes longer to heat through, "
            "a smaller one is done sooner, so go by the look and the thermometer."
        )
    notes.extend(_tin_notes(dish, factor))
    notes.extend(_amounts_in_method(dish))
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


def _amounts_in_method(dish: Dish) -> Iterator[str]:
    """The amounts that the method's own words name: they stay as they were said."""
    for number, step in enumerate(dish.method, start=1):
        named = dict.fromkeys(match.group() for match in _measure_in_words().finditer(step.text))
        if named:
            yield f"Step {number} names {', '.join(named)} as on camera; that is not scaled."


@cache
def _measure_in_words() -> re.Pattern[str]:
    """A figure with a unit of volume or weight, as the method prints it."""
    rows = read_lexicon("unit_print", columns=UNIT_COLUMNS)
    units = [row for row in rows if dimension(row["unit"]) in {"volume", "mass"}]
    names = {row[form] for row in units for form in ("one", "many", "sign") if row[form]}
    words = "|".join(sorted(map(re.escape, names), key=len, reverse=True))
    return re.compile(rf"(?:\d+ )?\d+(?:[./]\d+)?(?:–\d+(?:[./]\d+)?)? (?:{words})\b")


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
            how = "beaten, weigh out" if kinds_of(line.name) & _BEATEN else "weigh out"
            yield f"{words} does not divide; {how} {grams} g ({weight.basis})."
        else:
            yield f"{words} does not divide; take the nearest whole number, or weigh the share."


def _is_count(unit: str) -> bool:
    return printed_unit(unit).way == "count" and dimension(unit) == "none"


def _whole(low: float, high: float) -> bool:
    return low == int(low) and high == int(high)


def _lines(dish: Dish) -> Iterator[Ingredient]:
    for component in dish.components:
        yield from component.ingredients
