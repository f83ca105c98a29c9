"""Grouping actions into steps as editors do: what is done in one go in one place."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import TYPE_CHECKING

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
    if component_at(last.at) != component_at(action.at):
        return True
    if last.utterance == action.utterance and len(step) <= MOST_ACTIONS:
        return False
    pause = speech.evidence(action.at, action.at + 1).start - speech.evidence(last.at, last.at + 1).end
    return len(step) >= MOST_ACTIONS or pause > LONG_PAUSE or is_long_wait(last)


def is_long_wait(action: ActionSpan) -> bool:
    """Whether an action leaves the cook with time for something else."""
    time = action.duration
    return time is not None and time.low is not None and time.low >= LONG_WAIT.get(time.unit, 0)
