"""The page a person reads beside the video: every dish with the moment each thing was said."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from pathlib import PurePath
from typing import TYPE_CHECKING

from extract.draft.method.phrases.grammar import proper_name
from extract.draft.questions import shown
from extract.measure.kitchen import measure_notes
from extract.publish.stages import STAGES, is_timed
from extract.publish.words import (
    batch_words,
    capital,
    clock,
    iso_words,
    line_words,
    minutes,
    moment,
    share_words,
    yield_words,
)
from extract.safety import at_line, at_step, cautions_of_draft
from extract.safety.allergens import NOTE, allergen_lines
from extract.safety.caution import DEFERENCE
from extract.spot.names.foods import word_key

if TYPE_CHECKING:
    from collections.abc import Iterable

    from extract.model import (
        Component,
        Dish,
        Evidence,
        Ingredient,
        Portion,
        RecipeDraft,
        Step,
        Talk,
    )
    from extract.safety import Caution

CAUTIONS = (
    "This is a draft taken from speech, to be checked against the recording; it is not advice. It may miss "
    "or mishear an ingredient, so it cannot tell you that a dish is free of any allergen. For cooking "
    "temperatures, cooling, holding and preserving follow your local food code and food-safety authority."
)
REST = "For the rest of the dish"
REASONS = {
    "break": "a break",
    "greeting": "greetings",
    "noise": "words that could not be made out",
    "visit": "a visit",
    "opening": "greetings and what is to come",
    "sign-off": "the sign-off",
    "teaser": "a look ahead",
    "talk": "talk",
}


def page(draft: RecipeDraft) -> str:
    """The whole draft as Markdown (CommonMark), ending in a newline."""
    timed = draft.source.timed
    blocks = [*heading(draft)]
    for dish, cautions in zip(draft.dishes, cautions_of_draft(draft), strict=True):
        blocks += dish_blocks(dish, timed, cautions)
    blocks += talk_blocks(draft.talk, timed)
    return "\n\n".join(blocks) + "\n"


def heading(draft: RecipeDraft) -> Iterator[str]:
    """The name of the show, what the page is and the cautions."""
    stem = PurePath(draft.source.file).name.split(".")[0] or draft.source.file
    yield f"# {escaped(capital(stem.replace('-', ' ').replace('_', ' ')))}"
    how_many = len(draft.dishes)
    dishes = "No dish was found" if not how_many else "1 dish" if how_many == 1 else f"{how_many} dishes"
    length = f", {clock(draft.source.end)} long" if draft.source.timed and draft.source.end else ""
    untimed = (
        ""
        if draft.source.timed
        else " The transcript has no times, so nothing here can be looked up by time."
    )
    yield f"{dishes}, drafted from {escaped(draft.source.file)}{length}.{untimed}"
    yield f"> **Check before use.** {CAUTIONS}"


def dish_blocks(dish: Dish, timed: bool, cautions: Sequence[Caution] = ()) -> Iterator[str]:
    """One dish, part by part; parts with nothing in them are left out. ``cautions`` stand at their line or step too."""
    yield f"## {escaped(dish.title)}"
    facts = "\n".join(f"- {fact}" for fact in dish_facts(dish, timed))
    if facts:
        yield facts
    yield "### Ingredients"
    if not any(component.ingredients for component in dish.components):
        yield "None were heard."
    for place, component in enumerate(dish.components):
        yield from component_blocks(component, timed, cautions, first=not place)
    notes = measure_notes(dish)
    if notes:
        yield "\n".join(f"- {escaped(note)}" for note in notes)
    equipment = used_equipment(dish)
    if equipment:
        yield "### Equipment"
        yield "\n".join(f"- {escaped(capital(item))}" for item in equipment)
    if dish.method:
        yield "### Method"
        yield "\n".join(step_lines(dish.method, timed, cautions))
    yield from safety_blocks(dish, cautions)
    if shown(dish.questions):
        yield "### To ask the cook"
        yield "\n".join(question_lines(dish, timed))
        yield from more_questions(dish)


def safety_blocks(dish: Dish, cautions: Sequence[Caution]) -> Iterator[str]:
    """The allergens that the lines bring and the cautions of the dish, a paragraph each."""
    lines = allergen_lines(dish)
    if lines:
        yield "### Allergens"
        yield escaped(" ".join([*lines, NOTE]))
    if cautions:
        yield "### Cautions"
        yield escaped(" ".join([*dict.fromkeys(capital(caution.text) for caution in cautions), DEFERENCE]))


def dish_facts(dish: Dish, timed: bool) -> Iterator[str]:
    """Where the dish stands in the recording, what it makes and how long it takes."""
    if timed:
        yield f"In the recording: {moment(dish.start)} to {moment(dish.end)}"
    if dish.yield_ is not None:
        yield f"{yield_words(dish.yield_)}{said_at(dish.yield_.said, timed)}"
    if dish.batch is not None:
        below = "" if dish.scaling else "; the amounts below are as said"
        size = batch_words(dish.batch.factor)
        yield f"Batch on camera: {size}{below}{said_at(dish.batch.said, timed)}"
    times = dish.times
    if times is not None and is_timed(dish, STAGES):
        least = "at least " if times.at_least else ""  # what is cut and stirred has no time of its own
        parts = (("total", times.total), ("active", times.active), ("waiting", times.waiting))
        told = [f"{name} {least}{iso_words(value)}" for name, value in parts if value and minutes(value)]
        if told:
            yield f"Time: {', '.join(told)}"


def component_blocks(
    component: Component, timed: bool, cautions: Iterable[Caution] = (), *, first: bool = False
) -> Iterator[str]:
    """The ingredient lines of one part of a dish, and the shares taken from it.

    A part without a name stands under no heading where it is the ``first``, else under one that says it is the rest.
    """
    if not (component.ingredients or component.portions or component.leftovers):
        return
    if component.name or not first:
        yield f"#### {escaped(capital(component.name)) or REST}"
    if component.batch is not None:
        below = (
            " was made on camera." if component.scaled_by else " was made on camera; its amounts are as said."
        )
        yield f"{capital(batch_words(component.batch.factor))}{below}{said_at(component.batch.said, timed)}"
    if component.ingredients:
        yield "\n".join(
            ingredient_line(line, timed, at_line(cautions, line)) for line in component.ingredients
        )
    if component.portions:
        yield "\n".join(portion_line(portion, timed) for portion in component.portions)
    if component.leftovers:
        yield "\n".join(f"{portion_line(portion, timed)}, left over" for portion in component.leftovers)


def ingredient_line(line: Ingredient, timed: bool, cautions: Sequence[str] = ()) -> str:
    """One ingredient: amount, name, preparation, what else it could be, and when its amount was said."""
    amount, name, part = line_words(line)
    amount += " " if amount else ""
    amount += "of " if amount.startswith("a ") else ""
    text = f"{amount}**{escaped(proper_name(name))}**"
    if line.preparation:
        text += f", {escaped(line.preparation)}"
    asides = [f"or {escaped(proper_name(other))}" for other in line.alternatives]
    asides += ["optional"] if line.optional else []
    asides += ["amount not said"] if line.amount is None else []
    asides += [escaped(line.note)] if line.note else []
    asides += [f"caution: {escaped(', '.join(cautions))}"] if cautions else []
    asides += [part] if part else []
    text += f" ({'; '.join(asides)})" if asides else ""
    return f"- {text}{said_at(line.said[:1], timed)}"


def portion_line(portion: Portion, timed: bool) -> str:
    """One share of a made thing and where it goes."""
    size = ""
    if portion.millilitres is not None:
        size = f" (about {portion.millilitres:.0f} ml)"
    elif portion.grams is not None:
        size = f" (about {portion.grams:.0f} g)"
    into = f": {escaped(portion.into)}" if portion.into else ""
    share = f"*{share_words(portion.fraction)} the {escaped(proper_name(portion.of))}*"
    return f"- {share}{size}{into}{said_at(portion.said, timed)}"


def step_lines(method: Sequence[Step], timed: bool, cautions: Iterable[Caution] = ()) -> Iterator[str]:
    """The numbered steps, notes and cautions under their step, the part of the dish named where it changes."""
    component = ""
    for number, step in enumerate(method, start=1):
        part = (
            f"*{escaped(capital(step.component))}.* "
            if step.component and step.component != component
            else ""
        )
        component = step.component
        yield f"{number}. {part}{escaped(step.text)}{said_at(step.said, timed)}"
        yield from (f"    - Note: {escaped(note)}" for note in step.notes)
        yield from (f"    - Caution: {escaped(short)}" for short in at_step(cautions, step))


def question_lines(dish: Dish, timed: bool) -> Iterator[str]:
    """The questions worth asking, each with its id, and with the answer that has been given."""
    for question in shown(dish.questions):
        name = f"`{question.id}` " if question.id else ""
        yield f"- {name}{escaped(question.text)}{said_at(question.said, timed, most=3)}"
        if question.answer:
            yield f"    - Answer: {escaped(question.answer)}"


def more_questions(dish: Dish) -> Iterator[str]:
    """How many lesser questions the draft holds beside those that are printed."""
    more = len(dish.questions) - len(shown(dish.questions))
    if more:
        yield f"{more} lesser {'question' if more == 1 else 'questions'}: `cardwright questions --all`."


def talk_blocks(talk: Sequence[Talk], timed: bool) -> Iterator[str]:
    """What of the recording is no recipe, and why."""
    if not talk:
        return
    yield "## Left out"
    where = ((f"{moment(part.start)} to {moment(part.end)}: " if timed else "", part) for part in talk)
    yield "\n".join(f"- {span}{REASONS.get(part.reason, escaped(part.reason))}" for span, part in where)


def used_equipment(dish: Dish) -> list[str]:
    """The equipment that the steps name, or that lies where something of them happens."""
    texts = [step.text for step in dish.method]
    texts += [place for step in dish.method for action in step.actions for place in action.place]
    if any(action.heat and action.heat.kind == "oven" for step in dish.method for action in step.actions):
        texts.append("oven")
    words = {word_key(word) for text in texts for word in re.findall(r"[^\W\d_]+", text)}
    return [item for item in dish.equipment if word_key(item.split()[-1]) in words]


def said_at(said: Sequence[Evidence], timed: bool, most: int = 1) -> str:
    """When a value was said, as links to the moments; "" without times or evidence. An answer has no moment."""
    starts = sorted({evidence.start for evidence in said if not evidence.by})
    if not timed or not starts:
        return ""
    return " " + " ".join(moment(start) for start in starts[:most])


def escaped(text: str) -> str:
    """Text of a transcript with the characters that Markdown reads made plain."""
    return "".join(f"\\{letter}" if letter in "\\`*_[]<>#|" else letter for letter in " ".join(text.split()))
