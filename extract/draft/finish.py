"""The last touches on a draft: bare heats given the scale that something settles, and every open question."""

from __future__ import annotations

import re

from extract.draft.questions import find_questions
from extract.measure.heat.scales import settle_heats
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
    """Say a settled temperature as it would be printed now, wherever it stands in the method: the oven is heated
    in a step before the one that bakes."""
    heats = [[action.heat for step in dish.method for action in step.actions] for dish in (before, after)]
    for old, new in zip(*heats, strict=True):
        if old is None or new is None:
            continue
        said, settled = print_temperature(old), print_temperature(new)
        if said and said != settled:
            for step in after.method:
                step.text = in_place_of(step.text, said, settled)


def in_place_of(text: str, before: str, after: str) -> str:
    """A step's text with a temperature as it is printed now, wherever the former print of it stands whole."""
    return re.sub(rf"(?<![\d–.]){re.escape(before)}", lambda _: after, text) if before else text
