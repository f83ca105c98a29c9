"""The last touches on a draft: bare heats given the scale that something settles, and every open question."""

from __future__ import annotations

from extract.draft.questions import find_questions
from extract.measure.heat_scales import settle_heats
from extract.measure.kitchen import print_temperature
from extract.model import Dish, RecipeDraft


def finish(draft: RecipeDraft) -> RecipeDraft:
    """A copy of ``draft`` with its heats settled, its steps worded to match, and its questions ranked."""
    finished = settle_heats(draft)
    for before, dish in zip(draft.dishes, finished.dishes, strict=True):
        _reword_heats(before, dish)
    for dish in finished.dishes:
        dish.questions = find_questions(dish, finished)
    return finished


def _reword_heats(before: Dish, after: Dish) -> None:
    """Say a settled temperature in the step's text as it would be printed now."""
    for old_step, step in zip(before.method, after.method, strict=True):
        for old, action in zip(old_step.actions, step.actions, strict=True):
            if old.heat is None or action.heat is None:
                continue
            said, settled = print_temperature(old.heat), print_temperature(action.heat)
            if said and said != settled:
                step.text = step.text.replace(said, settled)
