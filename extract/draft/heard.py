"""Which dishes of a draft were heard: a talk in which no food goes into anything has none."""

from __future__ import annotations

from extract.model import Dish, RecipeDraft, Talk

UNTITLED = "Untitled Dish"
NOT_HEARD = "no dish was heard: no food was named that goes into one"


def only_heard(draft: RecipeDraft) -> RecipeDraft:
    """A copy of ``draft`` with the dishes that were heard; the stretches of the others are talk, with the reason."""
    some = any(_has_lines(dish) for dish in draft.dishes)
    heard = [dish for dish in draft.dishes if some and is_heard(dish)]
    gone = [dish for dish in draft.dishes if not any(dish is kept for kept in heard)]
    empty = [span for dish in gone for span in dish.stretches or (dish,)]
    talk = [*draft.talk, *(Talk(start=span.start, end=span.end, reason=NOT_HEARD) for span in empty)]
    if not draft.dishes and not talk and draft.source.cues:
        talk = [Talk(start=draft.source.start, end=draft.source.end, reason=NOT_HEARD)]
    return draft.model_copy(update={"dishes": heard, "talk": sorted(talk, key=lambda part: part.start)})


def is_heard(dish: Dish) -> bool:
    """Whether a dish has foods, or a name of its own and something that is done."""
    return _has_lines(dish) or (bool(dish.method) and dish.title != UNTITLED)


def _has_lines(dish: Dish) -> bool:
    return any(component.ingredients for component in dish.components)
