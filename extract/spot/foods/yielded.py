"""What is got out of a food where the amount measures that: "the juice of those lemons, about 80 mils"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from extract.spot.names.foods import food_words, look_up, name_keys, word_key
from extract.spot.spans import Food

POINTING = frozenset({"the", "those", "these", "that", "this", "both", "same", "all", "your", "my", "our"})


def yielded(lower: Sequence[str], food: Food) -> Food:
    """The juice or zest of ``food`` where the words before it get that out of it, else the food itself.

    For a food told by volume alone: a jug measures no whole lemon. ``out_of`` keeps what it comes from.
    """
    part = _part_before(lower, food.start)
    name = f"{food.name} {part}"
    entry = look_up(name_keys(name)) if part else None
    if entry is None:
        return food
    got = replace(food, name=entry.shown, head=part, kinds=entry.kinds, plural=False, preparation="")
    return replace(got, out_of=_as_said(lower, food))


def _as_said(lower: Sequence[str], food: Food) -> str:
    """The food's name in the number that was said: "lemons"."""
    said = (word for word in lower[food.start : food.end] if word_key(word) == food.head)
    return " ".join((*food.name.split()[:-1], next(said, food.name.split()[-1])))


def _part_before(lower: Sequence[str], start: int) -> str:
    """The part that the words before a food name: "juice of those", "squeeze the"."""
    at = start - 1
    while at >= 0 and lower[at] in POINTING:
        at -= 1
    if at > 0 and lower[at] in {"of", "from"} and lower[at - 1] in food_words("yields"):
        return food_words("called").get(lower[at - 1], lower[at - 1])
    return food_words("extracts").get(lower[at], "") if at >= 0 else ""
