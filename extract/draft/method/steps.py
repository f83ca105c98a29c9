"""Grouping actions into steps as editors do: what is done in one go in one place."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import TYPE_CHECKING

from extract.draft.method.arrange import is_ahead

if TYPE_CHECKING:
    from extract.language.speech import Speech
    from extract.spot.actions import ActionSpan

MOST_ACTIONS = 4
LONG_PAUSE = 60.0
LONG_WAIT = {"minute": 10, "hour": 0, "day": 0, "second": 10_000}


def group(
    speech: Speech, actions: Iterable[ActionSpan], component_at: Callable[[int], str]
) -> Iterator[list[ActionSpan]]:
    """The actions in steps: a new one for another part, after a wait or a pause, or when full."""
    step: list[ActionSpan] = []
    for action in actions:
        if step and starts_anew(speech, step, action, component_at):
            yield step
            step = []
        step.append(action)
    if step:
        yield step


def starts_anew(
    speech: Speech, step: list[ActionSpan], action: ActionSpan, component_at: Callable[[int], str]
) -> bool:
    """Whether an action begins a step of its own."""
    last = step[-1]
    if component_at(last.at) != component_at(action.at) or is_ahead(speech, last) != is_ahead(speech, action):
        return True
    if last.utterance == action.utterance and len(step) <= MOST_ACTIONS:
        return False
    pause = speech.evidence(action.at, action.at + 1).start - speech.evidence(last.at, last.at + 1).end
    if pause > LONG_PAUSE or is_long_wait(last):
        return True
    return size(step) >= MOST_ACTIONS and not (goes_on_with(action) and size(step) < MOST_ACTIONS + 2)


def size(step: list[ActionSpan]) -> int:
    """How many sentences a step comes to: additions one after another are one."""
    pairs = zip([None, *step], step, strict=False)
    return sum(1 for before, action in pairs if not (is_addition(before) and is_addition(action)))


def is_addition(action: ActionSpan | None) -> bool:
    """Whether an action only puts foods in, so that it joins others like it."""
    return action is not None and action.verb == "add" and not action.place and action.until is None


def goes_on_with(action: ActionSpan) -> bool:
    """Whether an action works on what the one before was about: "whisk it"."""
    return bool(action.objects) and all(phrase.kind == "pronoun" for phrase in action.objects)


def is_long_wait(action: ActionSpan) -> bool:
    """Whether an action leaves the cook with time for something else."""
    time = action.duration
    return time is not None and time.low is not None and time.low >= LONG_WAIT.get(time.unit, 0)
