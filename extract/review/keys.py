"""Keys: what names a dish, a part, a line, a step or a question while it is moved, renamed and split.

A key ("k12") is a field that the review adds to each of them. It stays with the item in the file, so that two
windows, an undo after a restart and a draft made again all mean the same line.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from extract.errors import CardwrightError
from extract.model import Dish, Part, RecipeDraft

KEY = "key"
# What an item holds that is not its own value: items of their own, and what is worked out of them anew.
HELD = frozenset(
    {"components", "method", "questions", "ingredients", "portions", "leftovers", "times", "weight"}
)
LAST = "last_key"  # at the top of the draft: the highest number given so far, so that none is given twice
_NO_DISH, _NO_PART, _NO_LINE, _NO_STEP, _NO_QUESTION = (
    f"this {what} is no longer in the draft: it was removed, or joined to another"
    for what in ("dish", "part", "line", "step", "question")
)


class Gone(CardwrightError):
    """What was to be changed is no longer in the draft."""


def key_of(part: Part) -> str:
    """The key of ``part``, "" where it has none yet."""
    found = (part.model_extra or {}).get(KEY)
    return found if isinstance(found, str) else ""


def set_extra(part: Part, name: str, value: Any) -> None:
    """Set a field that the model does not know."""
    assert part.model_extra is not None
    part.model_extra[name] = value


def items_of(dish: Dish) -> Iterator[Part]:
    """The dish itself and everything in it that has a key."""
    yield dish
    for component in dish.components:
        yield component
        yield from component.ingredients
        yield from component.portions
        yield from component.leftovers
    yield from dish.method
    yield from dish.questions


def give_keys(draft: RecipeDraft) -> None:
    """Give a key to every item of ``draft`` that has none, or one that another has already.

    A key is never given a second time, also when its item is gone.
    """
    items = [item for dish in draft.dishes for item in items_of(dish)]
    taken = {key_of(item) for item in items} - {""}
    last = (draft.model_extra or {}).get(LAST)
    highest = max((int(key[1:]) for key in taken if key[1:].isdecimal()), default=0)
    highest = max(highest, last) if isinstance(last, int) else highest
    seen: set[str] = set()
    for item in items:
        if not key_of(item) or key_of(item) in seen:
            highest += 1
            set_extra(item, KEY, f"k{highest}")
        seen.add(key_of(item))
    set_extra(draft, LAST, highest)


def find_dish(draft: RecipeDraft, key: str) -> int:
    """The index of the dish with ``key``. Raises Gone."""
    for index, dish in enumerate(draft.dishes):
        if key_of(dish) == key:
            return index
    raise Gone(_NO_DISH)


def find_part(draft: RecipeDraft, key: str) -> tuple[int, int]:
    """The indices of the dish and of its part with ``key``. Raises Gone."""
    for index, dish in enumerate(draft.dishes):
        for place, component in enumerate(dish.components):
            if key_of(component) == key:
                return index, place
    raise Gone(_NO_PART)


def find_line(draft: RecipeDraft, key: str) -> tuple[int, int, int]:
    """The indices of dish, part and line with ``key``. Raises Gone."""
    for index, dish in enumerate(draft.dishes):
        for place, component in enumerate(dish.components):
            for at, line in enumerate(component.ingredients):
                if key_of(line) == key:
                    return index, place, at
    raise Gone(_NO_LINE)


def find_step(draft: RecipeDraft, key: str) -> tuple[int, int]:
    """The indices of the dish and of its step with ``key``. Raises Gone."""
    for index, dish in enumerate(draft.dishes):
        for at, step in enumerate(dish.method):
            if key_of(step) == key:
                return index, at
    raise Gone(_NO_STEP)


def find_question(draft: RecipeDraft, key: str) -> tuple[int, int]:
    """The indices of the dish and of its question with ``key``. Raises Gone."""
    for index, dish in enumerate(draft.dishes):
        for at, question in enumerate(dish.questions):
            if key_of(question) == key:
                return index, at
    raise Gone(_NO_QUESTION)


def opened(draft: RecipeDraft, index: int) -> tuple[RecipeDraft, Dish]:
    """A copy of ``draft`` whose dish ``index`` may be changed, and that dish; all else is shared."""
    dish = draft.dishes[index].model_copy(deep=True)
    dishes = [*draft.dishes[:index], dish, *draft.dishes[index + 1 :]]
    return draft.model_copy(update={"dishes": dishes}), dish
