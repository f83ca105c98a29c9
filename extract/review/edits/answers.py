"""Answers: put where they belong, and kept with the question."""

from __future__ import annotations

from extract.answers.writing import write_in
from extract.model import Dish, Ingredient, Question, RecipeDraft
from extract.review.edits import forms
from extract.review.edits.evidence import REVIEWER, from_words, is_reviewers
from extract.review.keys import find_question, opened, set_extra
from extract.review.typed import words_for

AMOUNTS = frozenset({"missing amount", "vague amount", "two amounts"})


def answer(draft: RecipeDraft, edit: forms.Answer) -> RecipeDraft:
    """Answer a question, or open it again with nothing typed.

    An answer that is understood becomes the value of its line, step or dish; any other stands with its question
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
    left = text.lower().strip(" .") in words_for("as it is")
    written = "" if left else write_in(draft, dish, question)
    set_extra(question, "value", bool(written))
    question.said += [one for one in said if one not in question.said]
    return draft


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
