"""Taking the answers that people gave over to a later draft of the same recording."""

from __future__ import annotations

from rapidfuzz import fuzz

from extract.draft.questions.ranking import is_open, key_of, rank
from extract.model import Dish, Question, RecipeDraft, Unplaced

_ALIKE = 80


def carry_answers(old: RecipeDraft, new: RecipeDraft) -> RecipeDraft:
    """A copy of ``new`` in which every answer given in ``old`` stands at the same question.

    A question is the same by kind, subject and words, in the same dish; failing that by kind and subject, where only
    one is so. An answered question that the new draft no longer asks is kept with its dish, and where that is gone
    too, under ``unplaced`` with the dish's title: no answer is ever lost.
    """
    result = new.model_copy(deep=True)
    answered: list[tuple[Dish, Question]] = [
        (dish, question) for dish in old.dishes for question in dish.questions if not is_open(question)
    ]
    answered += [(Dish(title=question.dish), question) for question in old.unplaced]
    for before, question in answered:
        after = _same_dish(before, result.dishes)
        if after is None:
            result.unplaced.append(Unplaced.model_validate({**question.model_dump(), "dish": before.title}))
        else:
            _carry(question, after)
    for dish in result.dishes:
        dish.questions = rank(dish.questions)
    return result


def _same_dish(before: Dish, dishes: list[Dish]) -> Dish | None:
    """The later dish that is the earlier one: by title, or by the stretch of the recording it fills."""
    best = max(dishes, key=lambda dish: _nearness(before, dish), default=None)
    return best if best is not None and _nearness(before, best) >= _ALIKE else None


def _nearness(before: Dish, after: Dish) -> float:
    title = fuzz.token_set_ratio(before.title.lower(), after.title.lower())
    shared = min(before.end, after.end) - max(before.start, after.start)
    length = max(before.end - before.start, after.end - after.start, 1.0)
    return max(title, 100 * shared / length)


def _carry(question: Question, dish: Dish) -> None:
    exact = [other for other in dish.questions if key_of(other) == key_of(question)]
    close = [other for other in dish.questions if key_of(other)[:2] == key_of(question)[:2]]
    target = exact[0] if exact else close[0] if len(close) == 1 else None
    if target is None:
        dish.questions.append(question.model_copy(deep=True))
    elif is_open(target):
        target.answer = question.answer
