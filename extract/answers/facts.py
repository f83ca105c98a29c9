"""Writing an answer into what a dish is as a whole: its tin, its yield, its batch, its title, or a note at a step."""

from __future__ import annotations

from extract.answers import reading
from extract.answers.places import actions_about, answer_of, evidence, with_answer
from extract.model import Dish, Question, RecipeDraft


def put_tin(_draft: RecipeDraft, dish: Dish, question: Question) -> str:
    """The size of a tin, in the equipment."""
    text = answer_of(question).rstrip(".")
    named = text if question.about.split()[-1] in text.lower() else f"{text} {question.about}"
    dish.equipment = [named if item == question.about else item for item in dish.equipment]
    if named not in dish.equipment:
        dish.equipment.append(named)
    return named


def put_yield(_draft: RecipeDraft, dish: Dish, question: Question) -> str:
    made = reading.read_made(answer_of(question))
    if made is None:
        return ""
    made.said = [evidence(question, dish)]
    dish.yield_ = made
    count = f"{made.low:g}" if made.low == made.high else f"{made.low:g} to {made.high:g}"
    return f"yield: {count} {made.unit}"


def put_batch(_draft: RecipeDraft, dish: Dish, question: Question) -> str:
    """Whether the amounts are those of the larger batch; where they are of one, the draft is of one batch."""
    text = answer_of(question)
    if reading.holds_word(text, "more batches") or reading.says(text, "yes"):
        if dish.batch is not None and not question.part:
            dish.batch.said = with_answer(dish.batch.said, question, dish)
        return "the amounts are of the batch on camera"
    if not reading.holds_word(text, "one batch"):
        return ""
    for component in dish.components:
        if question.part and component.name == question.part and hasattr(component, "batch"):
            component.batch = None
    if not question.part:
        dish.batch = None
    return "the amounts are of one batch"


def put_title(_draft: RecipeDraft, dish: Dish, question: Question) -> str:
    dish.title = answer_of(question).rstrip(".")
    return f"title: {dish.title}"


def put_note(_draft: RecipeDraft, dish: Dish, question: Question) -> str:
    """An answer in the cook's words, beside the step that it is about."""
    cues = {each.cue for each in question.said}
    at_words = next((step for step, _ in actions_about(dish, question)), None)
    near = (step for step in dish.method if any(each.cue in cues for each in step.said))
    step = at_words or next(near, None)
    if step is None:
        return ""
    text = answer_of(question)
    if text not in step.notes:
        step.notes.append(text)
    return f"note at step {dish.method.index(step) + 1}: {text}"
