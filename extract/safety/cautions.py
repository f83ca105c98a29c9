"""Every caution of a dish, and how they stand in a draft."""

from __future__ import annotations

from extract.measure.heat_scales import settle_heats
from extract.measure.system import settle
from extract.model import Dish, Question, RecipeDraft
from extract.safety.caution import QUESTION_KIND, Caution
from extract.safety.core import core_cautions
from extract.safety.minimums import authority_for
from extract.safety.usual import served_raw, usual_cautions


def cautions(dish: Dish, authority: str = "USDA") -> list[Caution]:
    """The cautions that ``dish`` calls for; [] where none is due.

    ``authority`` (USDA, Health Canada or UK FSA) says whose minimum decides whether what the cook said is
    enough; the words give the other chart's figure beside it. What is served raw has the caution for that in
    place of one on its core.
    """
    core = [] if served_raw(dish) else list(core_cautions(dish, authority))
    found = [*core, *usual_cautions(dish)]
    return list({(caution.kind, caution.about): caution for caution in found}.values())


def safety_questions(dish: Dish, authority: str = "USDA") -> list[Question]:
    """The cautions of ``dish`` as questions of the kind "safety caution"."""
    return [caution.as_question() for caution in cautions(dish, authority)]


def add_cautions(draft: RecipeDraft) -> RecipeDraft:
    """A copy of ``draft`` with the cautions of each dish among its questions.

    A caution that is there already stays as it is, with a reviewer's answer; none is ever taken away.
    """
    result = draft.model_copy(deep=True)
    authority = authority_for(settle(draft).system)
    for dish, settled in zip(result.dishes, settle_heats(draft).dishes, strict=True):
        there = {question.about for question in dish.questions if question.kind == QUESTION_KIND}
        dish.questions += [each for each in safety_questions(settled, authority) if each.about not in there]
    return result


def open_cautions(dish: Dish) -> list[Question]:
    """The cautions of a dish that no reviewer has answered, for every page that is published of it."""
    return [question for question in dish.questions if question.kind == QUESTION_KIND and not question.answer]
