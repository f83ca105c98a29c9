"""Taking answers by the id of their question."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from extract.answers.writing import write_in
from extract.draft.questions import find_questions, is_open
from extract.errors import CardwrightError
from extract.model import Dish, Question, RecipeDraft


@dataclass(frozen=True, slots=True)
class Reply:
    """An answer to the question ``id``. ``question``: its words as they stood when it was asked, "" where not known.

    ``line`` is the row of the sheet it comes from, for errors; None where it comes from elsewhere.
    """

    id: str
    text: str
    question: str = ""
    line: int | None = None


@dataclass(frozen=True, slots=True)
class Taken:
    """A question that was answered, its dish, and what was written into the draft; "" where it was only kept."""

    dish: str
    question: Question
    written: str


def take_answers(draft: RecipeDraft, replies: Iterable[Reply]) -> tuple[RecipeDraft, list[Taken]]:
    """A copy of ``draft`` with all the answers; CardwrightError for the first that does not fit, and none is taken."""
    result = draft.model_copy(deep=True)
    asked = {
        question.id: (dish, question) for dish in result.dishes for question in find_questions(dish, result)
    }
    taken = []
    for reply in replies:
        dish, question = _question(asked, reply)
        if reply.line is not None and question.answer == reply.text.strip():
            continue  # a sheet that comes back holds the answers that were there already
        question.answer = reply.text.strip()
        _keep(dish, question)
        taken.append(Taken(dish.title, question, write_in(result, dish, question)))
    for dish in result.dishes:
        dish.questions = find_questions(dish, result)
    return result, taken


def _question(asked: dict[str, tuple[Dish, Question]], reply: Reply) -> tuple[Dish, Question]:
    """The question that a reply is to; refused where there is none, or where it has since become another."""
    if not reply.text.strip():
        problem = f"the answer to {reply.id} is empty"
        raise CardwrightError(problem, line=reply.line)
    found = asked.get(reply.id.strip().lower())
    if found is None:
        problem = f"no question {reply.id or 'without an id'} in this draft"
        raise CardwrightError(
            problem, line=reply.line, remedy="cardwright questions --all lists them with their ids"
        )
    if reply.question and _plain(reply.question) != _plain(found[1].text):
        problem = f"question {reply.id} now is “{found[1].text}”, which is not what was asked"
        raise CardwrightError(problem, line=reply.line, remedy="print the sheet again")
    return found


def _plain(text: str) -> str:
    return " ".join(text.split()).lstrip("'")


def _keep(dish: Dish, question: Question) -> None:
    """Put the answered question into the draft, in place of the same one unanswered."""
    dish.questions = [*(each for each in dish.questions if each.id != question.id), question]


def write_in_answers(draft: RecipeDraft) -> RecipeDraft:
    """A copy of a new ``draft`` in which the answers carried over to it stand in their lines and steps too."""
    result = draft.model_copy(deep=True)
    for dish in result.dishes:
        for question in dish.questions:
            if not is_open(question):
                write_in(result, dish, question)
        dish.questions = find_questions(dish, result)
    return result
