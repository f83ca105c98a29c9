"""Where an answer goes: the lines and actions that a question is about, and the answer as their evidence."""

from __future__ import annotations

from collections.abc import Iterator

from extract.model import Action, Dish, Evidence, Ingredient, Question, Step

REVIEWER = "reviewer"
NOWHERE = -1  # the cue of an answer whose question stands at no moment


def answer_of(question: Question) -> str:
    """The answer, trimmed."""
    return " ".join((question.answer or "").split())


def evidence(question: Question, dish: Dish) -> Evidence:
    """The answer as evidence, at the moment that its question is about."""
    at = question.said[0] if question.said else None
    text = answer_of(question)
    if at is None:
        return Evidence(cue=NOWHERE, start=dish.start, end=dish.start, text=text, by=REVIEWER)
    return Evidence(cue=at.cue, start=at.start, end=at.end, text=text, by=REVIEWER)


def with_answer(said: list[Evidence], question: Question, dish: Dish) -> list[Evidence]:
    """Evidence with the answer behind it, in place of an earlier one to the same question."""
    new = evidence(question, dish)
    kept = [each for each in said if not (each.by and (each.cue, each.start) == (new.cue, new.start))]
    return [*kept, new]


def lines_about(dish: Dish, question: Question) -> list[Ingredient]:
    """The ingredient lines that a question is about: those with its words, failing that those with its name."""
    parts = [part for part in dish.components if not question.part or part.name == question.part]
    lines = [line for part in parts for line in part.ingredients]
    words = {(each.cue, each.text) for each in question.said}
    by_words = [
        line
        for line in lines
        if line.name in question.about and any((each.cue, each.text) in words for each in line.said)
    ]
    return by_words or [line for line in lines if line.name.lower() == question.about.lower()][:1]


def actions_about(dish: Dish, question: Question) -> Iterator[tuple[Step, Action]]:
    """The actions that a question is about, each with its step: those with its words."""
    words = {(each.cue, each.text) for each in question.said}
    for step in dish.method:
        for action in step.actions:
            if any((each.cue, each.text) in words for each in action.said):
                yield step, action
