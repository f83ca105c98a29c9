"""The stretches of a recording that belong to a dish, and those that were left out."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from extract.model import Component, Dish, Evidence, Part, RecipeDraft, Span, Talk
from extract.review.edits.evidence import is_reviewers, starts_at

Stretch = tuple[float, float]


def stretches_of(dish: Dish) -> list[Stretch]:
    """From when to when a dish is cooked: one stretch, or several where it is left and taken up again."""
    return joined((one.start, one.end) for one in dish.stretches) or [(dish.start, dish.end)]


def set_stretches(dish: Dish, stretches: Iterable[Stretch]) -> None:
    """Give a dish its stretches, and with them its beginning and end."""
    whole = joined(stretches)
    if not whole:
        return
    dish.start, dish.end = whole[0][0], whole[-1][1]
    if len(whole) > 1 or dish.stretches:
        dish.stretches = [Span(start=start, end=end) for start, end in whole]


def joined(stretches: Iterable[Stretch]) -> list[Stretch]:
    """Stretches in order, those that touch made one."""
    out: list[Stretch] = []
    for start, end in sorted(stretches):
        if out and start <= out[-1][1]:
            out[-1] = (out[-1][0], max(end, out[-1][1]))
        elif end > start:
            out.append((start, end))
    return out


def without(stretches: Iterable[Stretch], start: float, end: float) -> list[Stretch]:
    """``stretches`` less the time from ``start`` to ``end``."""
    parts = [piece for low, high in stretches for piece in ((low, min(high, start)), (max(low, end), high))]
    return [(low, high) for low, high in parts if high > low]


def leave_out_talk(draft: RecipeDraft, start: float, end: float, reason: str) -> None:
    """Add a stretch to what was left out; what else was said of that time gives way."""
    rest = take_from_talk(draft.talk, start, end)
    draft.talk = sorted([*rest, Talk(start=start, end=end, reason=reason)], key=lambda one: one.start)


def take_from_talk(talk: Iterable[Talk], start: float, end: float) -> list[Talk]:
    """``talk`` less the time from ``start`` to ``end``."""
    return [
        part.model_copy(update={"start": low, "end": high})
        for part in talk
        for low, high in without([(part.start, part.end)], start, end)
    ]


def move_items(source: Dish, target: Dish, inside: Callable[[float], bool]) -> None:
    """Move what was first said at a time that is ``inside`` from one dish to another, parts under their names."""
    for part in source.components:
        for field in ("ingredients", "portions", "leftovers"):
            stay, go = _parted(getattr(part, field), inside)
            if go:
                setattr(part, field, stay)
                getattr(_part_of(target, part.name), field).extend(go)
    source.components = [part for part in source.components if _holds_any(part)]
    source.method, steps = _parted(source.method, inside)
    if steps:
        target.method = in_order([*target.method, *steps])
    source.questions, asked = _parted(source.questions, inside)
    target.questions += asked
    for field in ("yield_", "batch"):
        value = getattr(source, field)
        if value is not None and _is_inside(value.said, inside):
            setattr(source, field, None)
            if getattr(target, field) is None:
                setattr(target, field, value)


def in_order(method: list[Any]) -> list[Any]:
    """Steps of two methods as one: by the time of their words, a step without any behind the one before it."""
    last, keyed = 0.0, []
    for step in method:
        last = starts_at(step.said) if starts_at(step.said) is not None else last  # type: ignore[assignment]
        keyed.append((last, step))
    return [step for _, step in sorted(keyed, key=lambda pair: pair[0])]


def _part_of(dish: Dish, name: str) -> Any:
    for part in dish.components:
        if part.name == name:
            return part
    dish.components.append(Component(name=name))
    return dish.components[-1]


def _parted(items: list[Any], inside: Callable[[float], bool]) -> tuple[list[Any], list[Any]]:
    go = [item for item in items if _is_inside(item.said, inside)]
    return [item for item in items if item not in go], go


def _is_inside(said: list[Evidence], inside: Callable[[float], bool]) -> bool:
    """Whether a value stands there: by its first piece of evidence, which is the one that settles it."""
    heard = [one.start for one in said if not is_reviewers(one)]
    return bool(heard) and inside(heard[0])


def _holds_any(part: Part) -> bool:
    return any(getattr(part, field) for field in ("ingredients", "portions", "leftovers"))
