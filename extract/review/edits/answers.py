"""Answers: put where they belong, and kept with the question."""

from __future__ import annotations

from extract.errors import CardwrightError
from extract.model import Dish, Ingredient, Question, RecipeDraft, Size
from extract.review.edits import forms
from extract.review.edits.evidence import REVIEWER, by_reviewer, from_words, is_reviewers
from extract.review.edits.lines import set_amount
from extract.review.keys import find_question, opened, set_extra
from extract.review.typed import read_amount, read_made, words_for

AMOUNTS = frozenset({"missing amount", "vague amount", "two amounts"})
NAMES = frozenset({"mended mishearing", "unknown food"})


def answer(draft: RecipeDraft, edit: forms.Answer) -> RecipeDraft:
    """Answer a question, or open it again with nothing typed.

    An answer that is understood becomes the value of its line or dish; any other stands with its question
    alone, for the person who words the recipe.
    """
    index, at = find_question(draft, edit.question)
    draft, dish = opened(draft, index)
    question = dish.questions[at]
    text = " ".join((edit.text.strip() or (edit.said.text if edit.said else "")).split())
    question.answer = text or None
    if not text:
        return draft
    set_extra(question, "answered_by", REVIEWER)
    said = [from_words(edit.said)] if edit.said else []
    question.said += [one for one in said if one not in question.said]
    try:
        _put(dish, question, text)
    except CardwrightError:
        set_extra(question, "value", False)  # words, no value: they stand as they are
    return draft


def _put(dish: Dish, question: Question, text: str) -> None:
    """Make ``text`` the value that the question asks for. Raises CardwrightError where it is none."""
    if question.kind == "no yield":
        made = read_made(text)
        if made is not None:
            made.said = by_reviewer([], "yield", text, dish.start)
        dish.yield_ = made
    elif question.kind == "no title":
        dish.title = text
    elif (line := line_of(dish, question)) is not None:
        _put_in_line(line, question, text, dish.start)


def _put_in_line(line: Ingredient, question: Question, text: str, at: float) -> None:
    if question.kind in AMOUNTS:
        set_amount(line, text, at)
    elif question.kind == "size missing" and line.amount is not None:
        size, _ = read_amount(text)
        if size is not None and size.unit:
            line.amount.size = Size(low=size.low, high=size.high, unit=size.unit)
            line.said = by_reviewer(line.said, "size", text, at)
        elif text not in line.note:
            line.note = f"{line.note}; {text}" if line.note else text
            line.said = by_reviewer(line.said, "note", text, at)
    elif question.kind in NAMES:
        word = text.lower().strip(" .!")
        if word in words_for("no"):
            problem = "the answer names no food"
            raise CardwrightError(problem)
        line.name = line.name if word in words_for("yes") else text
        line.known, line.heard = True, ""
        line.said = by_reviewer(line.said, "name", line.name, at)


def close_settled(dish: Dish) -> None:
    """Answer what asks for an amount that the reviewer has settled otherwise: "to taste", or none at all."""
    for question in dish.questions:
        line = line_of(dish, question) if question.kind in AMOUNTS and not question.answer else None
        for said in line.said if line else ():
            if is_reviewers(said) and getattr(said, "field", "") == "amount":
                question.answer = said.text
                set_extra(question, "answered_by", REVIEWER)


def line_of(dish: Dish, question: Question) -> Ingredient | None:
    """The line that a question asks about: of its name, and of its words where two have that name."""
    lines = [line for part in dish.components for line in part.ingredients if line.name == question.about]
    spoken = {(said.cue, said.text) for said in question.said}
    return max(lines, key=lambda line: len(spoken & {(s.cue, s.text) for s in line.said}), default=None)
