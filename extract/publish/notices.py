"""What goes out with a recipe beside the cooking: cautions, open questions, diets, and that nobody has reviewed it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from extract.draft.questions import find_questions, is_open, must_answer, shown
from extract.draft.questions.words import kind_of
from extract.errors import CardwrightError
from extract.lexicon import read_lexicon
from extract.measure.drafts.factors import batch_of
from extract.measure.system import settle
from extract.publish.cleaning import clean
from extract.publish.recipe import Asked, Diet
from extract.publish.wording import effect_of, word
from extract.publish.words import batch_words, capital
from extract.safety import cautions
from extract.safety.caution import DEFERENCE, QUESTION_KIND, Caution
from extract.safety.minimums import authority_for

if TYPE_CHECKING:
    from extract.model import Dish, Question, RecipeDraft


_OF_STEPS = frozenset(
    {"heat", "scale", "time", "note"}
)  # what answers are written into that stands in a step


def is_reviewed(draft: RecipeDraft) -> bool:
    """Whether a person has put a name to having looked the draft through."""
    return draft.reviewed is not None and bool(draft.reviewed.by.strip())


def open_questions(dish: Dish, draft: RecipeDraft) -> Iterator[Asked]:
    """What nobody has answered of the dish yet and is worth asking, most important first."""
    for question in shown(find_questions(dish, draft)):
        if is_open(question):
            yield Asked(
                clean(question.text),
                clean(question.about),
                must_answer(question),
                question.said[0].start if question.said and draft.source.timed else None,
                clean(question.part),
                _step_about(dish, question),
            )


def _step_about(dish: Dish, question: Question) -> int | None:
    """The number of the printed step that a question is about: the first with its words; None for one of a line."""
    about = kind_of(question.kind).about
    listed = {line.name.lower() for part in dish.components for line in part.ingredients}
    if about not in _OF_STEPS and (about != "note" or question.about.lower() in listed):
        return None
    words = {(each.start, each.text) for each in question.said}
    printed = [step for step in dish.method if clean(step.text)]
    for number, step in enumerate(printed, start=1):
        if any((each.start, each.text) in words for action in step.actions for each in action.said):
            return number
    return None


def cautions_of(dish: Dish, draft: RecipeDraft) -> list[str]:
    """The cautions that go with the dish, each ending in whose word comes first.

    Each is worded for a reader, not as the cook is asked. An answered caution stays on the page: the answer lets the
    recipe go out, it does not make the food safe. Only an answer that says it does not apply
    (``lexicons/words/editor_notes.tsv``) takes it off.
    """
    told = [question for question in dish.questions if question.kind == QUESTION_KIND]
    off = {question.about for question in told if effect_of(question.answer or "") == "no caution"}
    found: dict[str, str] = {question.about: question.text for question in told}
    found.update(
        {each.about: each.text for each in map(Caution.as_question, cautions(dish, _authority(draft)))}
    )
    kept = [text.strip() for about, text in found.items() if about not in off]
    return [text if text.endswith(DEFERENCE) else f"{text} {DEFERENCE}" for text in dict.fromkeys(kept)]


def _authority(draft: RecipeDraft) -> str:
    return authority_for(settle(draft).system)


def notices_of(dish: Dish, draft: RecipeDraft, *, changed: bool = False) -> Iterator[str]:
    """What a reader has to know before the list: that it is not ready to go out, and the batch of the amounts."""
    if not is_reviewed(draft):
        yield word("unreviewed")
    elif changed:
        yield word("changed")
    if still := len(must_be_answered(dish, draft)):
        yield word("open").format(count=still)
    told = word("batch" if dish.scaling is None else "batch scaled")
    if (batch := batch_of(dish)) is not None:
        yield told.format(batch=batch_words(batch.factor))
    for name in [part.name for part in dish.components if part.name]:
        if (batch := batch_of(dish, name)) is not None:
            yield f"{capital(name)}: {told.format(batch=batch_words(batch.factor))}"


def diets_of(dish: Dish) -> tuple[Diet, ...]:
    """The diets that a person set on the dish; none is ever worked out.

    Raises CardwrightError for one that schema.org does not know.
    """
    rows = read_lexicon("diets", columns=("word", "diet", "words"))
    known = {row["word"]: Diet(row["diet"], row["words"]) for row in rows}
    found = []
    for diet in dish.diets:
        match = known.get(" ".join(diet.lower().split()))
        if match is None:
            problem = f'{dish.title}: diets: "{diet}" is no diet that schema.org knows'
            names = dict.fromkeys(row["word"] for row in rows if " " not in row["word"])
            raise CardwrightError(problem, remedy=f"one of {', '.join(names)}")
        found.append(match)
    return tuple(dict.fromkeys(found))


def must_be_answered(dish: Dish, draft: RecipeDraft) -> list[Question]:
    """The open questions of a dish that stop it from going out."""
    return [
        question for question in find_questions(dish, draft) if must_answer(question) and is_open(question)
    ]
