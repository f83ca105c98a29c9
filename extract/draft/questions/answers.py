"""Taking the answers that people gave over to a later draft of the same recording."""

from __future__ import annotations

from rapidfuzz import fuzz

from extract.draft.questions.ranking import is_open, key_of, rank
from extract.model import Dish, Question, RecipeDraft

_ALIKE = 80


def carry_answers(old: RecipeDraft, new: RecipeDraft) -> RecipeDraft:
    """A copy of ``new`` in which every answer given in ``old`` stands at the same question.

    A question is the same by kind, subject and words; failing that by kind and subject, where only one is so.
    An answered question that the new draft no longer asks is kept, so that no answer is ever lost.
    """
    result = new.model_copy(deep=True)
    for before in old.dishes:
        answered = [question for question in before.questions if not is_open(question)]
        after = _same_dish(before, result.dishes) if answered else None
        if after is None:
            continue
        for question in answered:
            _carry(question, after)
        after.questions = rank(after.questions)
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
