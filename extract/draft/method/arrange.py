"""The order in which a reader cooks: what was done ahead first, the oven heated before it is needed."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache
from typing import TYPE_CHECKING

from extract.draft.times import seconds
from extract.measure.kitchen import print_temperature
from extract.model import Step
from extract.spot.verbs.words import words

if TYPE_CHECKING:
    from spacy.tokens import Doc

    from extract.language.speech import Speech
    from extract.model import Action
    from extract.spot.actions.span import ActionSpan

LONG_WAIT = 3600.0
LIKELY = 0.4
AHEAD = "Ahead of time"
SUBJECT_REACH = 4
SETS_OVEN = re.compile(r"^(?:Set|Reduce|Raise) the oven to(?=(?:(?! and )[^.])*\.)")
TOLD_TWICE = re.compile(r"(?P<heated>Heat the oven to (?P<heat>[^.]+)\.) Bake (?:it |them )?at (?P=heat)\.")
HEATS_SENTENCE = re.compile(r"(?:^|(?<=[.”)] ))(?:Heat|Preheat) the oven(?: to [^.]+)?\.")


def ahead_first(speech: Speech, actions: Sequence[ActionSpan]) -> list[ActionSpan]:
    """The actions with those before all others that the cook says were done before the recording."""
    ahead = [action for action in actions if is_ahead(speech, action)]
    return [*ahead, *(action for action in actions if action not in ahead)]


def is_ahead(speech: Speech, action: ActionSpan) -> bool:
    """Whether an action was done ahead: told in the past, with "already" or the like beside it.

    What follows in the same breath was done then too: "I roasted the garlic before, wrapped in foil".
    """
    start = action.utterance[0]
    if action.negated or action.ahead < LIKELY or not _tells_ahead(speech.doc, *action.utterance):
        return False
    if action.mood in {"past", "done"}:
        before = speech.doc[max(start, action.at - SUBJECT_REACH) : action.at]
        return any(token.lower_ in words("subject") for token in before)
    earlier = speech.doc[start : action.at]
    told = any(token.tag_ == "VBD" and token.nbor(-1).lower_ in words("subject") for token in earlier[1:])
    return told and action.mood == "described"


@lru_cache(maxsize=4096)
def _tells_ahead(doc: Doc, start: int, end: int) -> bool:
    """Whether an utterance has a word for what was done ahead; it may hold many actions."""
    return any(token.lower_ in words("ahead of time") for token in doc[start:end])


def with_oven_heated(steps: list[Step]) -> list[Step]:
    """The steps with one that heats the oven before it is needed, at the beginning or behind the last long wait.

    Where the cook only said the heat as the dish went in, the step says what it was inferred from.
    """
    ahead = next((n for n, step in enumerate(steps) if not step.text.startswith(AHEAD)), 0)
    for number, step in enumerate(steps[ahead:], ahead):
        step.text = SETS_OVEN.sub("Heat the oven to", TOLD_TWICE.sub(r"\g<heated>", step.text), count=1)
        hot = next((action for action in step.actions if is_oven_heat(action)), None)
        told = HEATS_SENTENCE.search(step.text)
        if told is None and (hot is None or hot.heat is None):
            continue
        waits = [place for place in range(ahead, number) if longest_wait(steps[place]) >= LONG_WAIT]
        at = waits[-1] + 1 if waits else ahead
        if told is not None:
            return moved_up(steps, number, at, told)
        assert hot is not None
        assert hot.heat is not None
        printed = print_temperature(hot.heat)
        bare = re.compile(rf"\bBake (?:it |them )?at {re.escape(printed)}\.")
        if hot.duration is None and bare.search(step.text):  # said before there is anything to bake
            step.text = bare.sub(f"Heat the oven to {printed}.", step.text, count=1)
            return with_oven_heated(steps)
        note = f"Inferred: the heat was said when the oven was used (“{hot.heat.text}”)."
        preheating = Step(text=f"Heat the oven to {printed}.", notes=[note], said=hot.said[:1])
        return [*steps[:at], preheating, *steps[at:]]
    return steps


def moved_up(steps: list[Step], number: int, at: int, told: re.Match[str]) -> list[Step]:
    """The steps with the sentence that heats the oven moved from a step to one of its own before it."""
    step = steps[number]
    rest = " ".join(f"{step.text[: told.start()]} {step.text[told.end() :]}".split())
    if at >= number or (rest and number == 0):
        return steps
    if not rest:
        return [*steps[:at], step, *steps[at:number], *steps[number + 1 :]]
    heats = [action for action in step.actions if is_oven_heat(action)][:1]
    said = [evidence for action in heats for evidence in action.said] or step.said[:1]
    first = Step(text=told[0].strip(), component=step.component, actions=heats, said=said)
    step.text = rest
    step.actions = [action for action in step.actions if action not in heats]
    return [*steps[:at], first, *steps[at:]]


def is_oven_heat(action: Action) -> bool:
    """Whether an action needs an oven at a temperature that was said."""
    return action.heat is not None and action.heat.kind == "oven" and action.heat.low is not None


def longest_wait(step: Step) -> float:
    """The longest time in a step, in seconds."""
    times = (seconds(action.duration) for action in step.actions if action.duration is not None)
    return max((length for length in times if length is not None), default=0.0)
