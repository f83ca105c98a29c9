"""All questions of a dish in one list, those first that would spoil most if nobody answered."""

from __future__ import annotations

import hashlib
import re
from base64 import b32encode
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

from extract.draft.questions.amounts import line_questions
from extract.draft.questions.cooking import cooking_questions
from extract.draft.questions.words import kind_of
from extract.language.spelling import plainly
from extract.measure.system import settle
from extract.model import Dish, Question, RecipeDraft
from extract.safety import caution_questions
from extract.safety.minimums import authority_for

MUST = 70  # the weight from which a recipe cannot be published without an answer
SHOWN = 7  # so many of a dish are printed; a person reads no more of them with care
_LAST = 6  # the tier of what nothing puts first
_FIRST = 35  # the weight from which a tier counts, and a question is printed
_DIGITS = 4

Key = tuple[str, str, str]


def find_questions(dish: Dish, draft: RecipeDraft | None = None) -> list[Question]:
    """Every question about ``dish``, ranked: those it has already, and those its lines and method raise.

    Works on the finished draft alone. A question that the draft has keeps its answer. One that was raised by
    a line or a step and is raised no more, because somebody mended that, is left out unless it was answered.
    With ``draft``, the dishes before it are taken into account, and the cook's measures are asked about too, at its
    first dish, where they are in doubt.
    """
    there = {key_of(question): question for question in dish.questions}
    found = {key_of(question): question for question in _raised(dish, draft)}
    merged = {
        key: question
        for key, question in there.items()
        if key in found or kind_of(question.kind).source == "talk" or not is_open(question)
    }
    for key, question in found.items():
        known = merged.get(key)
        merged[key] = question if known is None else question.model_copy(update={"answer": known.answer})
    return rank(_named(merged.values(), _number(dish, draft)))


def shown(questions: Sequence[Question]) -> list[Question]:
    """The questions worth printing: the answered, the first few open, and any further that must be answered."""
    open_ones = [question for question in questions if is_open(question) and question.weight >= _FIRST]
    kept = [question for place, question in enumerate(open_ones) if place < SHOWN or must_answer(question)]
    return [question for question in questions if not is_open(question) or question in kept]


def _number(dish: Dish, draft: RecipeDraft | None) -> int:
    dishes = draft.dishes if draft is not None else []
    return next((place for place, other in enumerate(dishes) if other is dish), 0)


def _raised(dish: Dish, draft: RecipeDraft | None) -> Iterator[Question]:
    """What the draft as it stands raises, whatever was asked before."""
    before = draft.dishes[: _number(dish, draft)] if draft is not None else []
    yield from line_questions(dish, before)
    yield from cooking_questions(dish, before)
    if draft is None:
        yield from caution_questions(dish)
        return
    settled = settle(draft)
    yield from caution_questions(dish, authority_for(settled.system))
    if settled.question is not None and dish is draft.dishes[0]:
        yield settled.question


UNITS_WRITTEN_OUT = frozenset({"grams", "degrees", "celsius"})


def key_of(question: Question) -> Key:
    """What makes a question the same over later runs: its kind, what it is about and where, and the cook's words.

    Of the words only what no typist changes counts: those of four letters or more, without units, which may be stuck to
    their figures.
    """
    heard = plainly(question.said[0].text).lower() if question.said else ""
    words = " ".join(word for word in re.findall(r"[a-z]{4,}", heard) if word not in UNITS_WRITTEN_OUT)
    return question.kind, f"{question.about} in {question.part}".lower(), words


def _named(questions: Iterable[Question], number: int) -> Iterator[Question]:
    """The questions with their ids: four letters and figures from what makes each the same and its dish's number."""
    met: Counter[str] = Counter()
    for question in questions:
        base = "|".join((*key_of(question)[:2], str(number)))
        digest = hashlib.sha256(base.encode()).digest()
        name = b32encode(digest).decode().lower()[:_DIGITS]
        met[name] += 1
        yield question.model_copy(update={"id": name if met[name] == 1 else f"{name}{met[name]}"})


def rank(questions: Iterable[Question]) -> list[Question]:
    """The questions weighed and in order: contradictions first (the lexicon's tiers), then by weight and time."""
    weighed = [question.model_copy(update={"weight": weight_of(question)}) for question in questions]
    return sorted(weighed, key=lambda each: (_tier(each), -each.weight, _start(each), each.about))


def _tier(question: Question) -> int:
    return kind_of(question.kind).tier if question.weight >= _FIRST else _LAST


def weight_of(question: Question) -> int:
    """From 0 to 100: its own weight, or that of its kind; doubts of the talk weigh as their kind does."""
    row = kind_of(question.kind)
    return row.weight if row.source == "talk" else question.weight or row.weight


def _start(question: Question) -> float:
    return min((said.start for said in question.said), default=float("inf"))


def is_open(question: Question) -> bool:
    """Whether nobody has answered it."""
    return not (question.answer or "").strip()


def must_answer(question: Question) -> bool:
    """Whether the recipe cannot be published before it is answered."""
    return weight_of(question) >= MUST
