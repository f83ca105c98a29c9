"""All questions of a dish in one list, those first that would spoil most if nobody answered."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from extract.draft.questions.amounts import line_questions
from extract.draft.questions.cooking import cooking_questions
from extract.draft.questions.words import kind_weights
from extract.measure.system import settle
from extract.model import Dish, Question, RecipeDraft
from extract.safety import safety_questions
from extract.safety.minimums import authority_for

MUST = 70  # the weight from which a recipe cannot be published without an answer
_UNKNOWN = 50


def find_questions(dish: Dish, draft: RecipeDraft | None = None) -> list[Question]:
    """Every question about ``dish``, ranked: those it has already, and those its lines and method raise.

    Works on the finished draft alone. A question that the draft has keeps its answer. One that was raised by
    a line or a step and is raised no more, because somebody mended that, is left out unless it was answered.
    With ``draft``, the cook's measures are asked about too, at its first dish, where they are in doubt.
    """
    there = {key_of(question): question for question in dish.questions}
    found = {key_of(question): question for question in _raised(dish, draft)}
    merged: dict[tuple[str, str, str], Question] = {}
    for key, question in there.items():
        source = kind_weights().get(question.kind, (0, "talk"))[1]
        if key in found or source == "talk" or not is_open(question):
            merged[key] = question
    for key, question in found.items():
        known = merged.get(key)
        merged[key] = question if known is None else question.model_copy(update={"answer": known.answer})
    return rank(merged.values())


def _raised(dish: Dish, draft: RecipeDraft | None) -> Iterator[Question]:
    """What the draft as it stands raises, whatever was asked before."""
    yield from line_questions(dish)
    yield from cooking_questions(dish)
    if draft is None:
        yield from safety_questions(dish)
        return
    settled = settle(draft)
    yield from safety_questions(dish, authority_for(settled.system))
    if settled.question is not None and dish is draft.dishes[0]:
        yield settled.question


def key_of(question: Question) -> tuple[str, str, str]:
    """What makes a question the same over later runs: its kind, what it is about, and the cook's words."""
    words = " ".join(question.said[0].text.lower().split()) if question.said else ""
    return question.kind, question.about.lower(), words


def rank(questions: Iterable[Question]) -> list[Question]:
    """The questions weighed and in order: weight first, then the time at which they come up."""
    weighed = [question.model_copy(update={"weight": weight_of(question)}) for question in questions]
    return sorted(weighed, key=lambda question: (-question.weight, _start(question), question.about))


def weight_of(question: Question) -> int:
    """From 0 to 100: its own weight, or that of its kind."""
    return question.weight or kind_weights().get(question.kind, (_UNKNOWN, ""))[0]


def _start(question: Question) -> float:
    return min((said.start for said in question.said), default=float("inf"))


def is_open(question: Question) -> bool:
    """Whether nobody has answered it."""
    return not (question.answer or "").strip()


def must_answer(question: Question) -> bool:
    """Whether the recipe cannot be published before it is answered."""
    return weight_of(question) >= MUST
