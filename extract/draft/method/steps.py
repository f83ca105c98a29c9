"""Grouping actions into steps as editors do: what is done in one go in one place."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import TYPE_CHECKING

from extract.draft.method.arrange import is_ahead

if TYPE_CHECKING:
    from fractions import Fraction

    from extract.language.speech import Speech
    from extract.spot.actions.span import ActionSpan

MOST_SENTENCES = 3
ONE_SENTENCE = 30  # tokens up to which an utterance is told in one step, whatever parts it names
LONG_PAUSE = 60.0
LONG_WAIT = {"minute": 10, "hour": 0, "day": 0, "second": 10_000}


def group(
    speech: Speech,
    actions: Iterable[ActionSpan],
    component_at: Callable[[int], str],
    count: Callable[[Sequence[ActionSpan]], int],
) -> Iterator[list[ActionSpan]]:
    """The actions in steps: a new one for another part, after a wait or a pause, or when full.

    ``count`` tells how many sentences a step of some actions comes to.
    """
    step: list[ActionSpan] = []
    for action in actions:
        if step and (starts_anew(speech, step, action, component_at) or is_full(step, action, count)):
            yield step
            step = []
        step.append(action)
    if step:
        yield step


def starts_anew(
    speech: Speech, step: list[ActionSpan], action: ActionSpan, component_at: Callable[[int], str]
) -> bool:
    """Whether an action begins a step of its own, whatever the length of the one before."""
    last = step[-1]
    start, end = action.utterance
    if last.utterance == action.utterance and end - start <= ONE_SENTENCE:
        return is_ahead(speech, last) != is_ahead(speech, action)
    if component_at(last.at) != component_at(action.at) or is_ahead(speech, last) != is_ahead(speech, action):
        return True
    if last.utterance == action.utterance:
        return False
    pause = speech.evidence(action.at, action.at + 1).start - speech.evidence(last.at, last.at + 1).end
    return pause > LONG_PAUSE or is_long_wait(last)


def is_full(step: list[ActionSpan], action: ActionSpan, count: Callable[[Sequence[ActionSpan]], int]) -> bool:
    """Whether a step would come to more sentences with an action than a step should have."""
    most = MOST_SENTENCES + goes_on_with(action)
    if len(step) < most:
        return False  # an action is one sentence at most
    before = count(step)
    return before >= most and count([*step, action]) > before


def goes_on_with(action: ActionSpan) -> bool:
    """Whether an action works on what the one before was about, so that they read better together: "whisk it"."""
    return bool(action.objects) and all(phrase.kind == "pronoun" for phrase in action.objects)


def is_long_wait(action: ActionSpan) -> bool:
    """Whether an action leaves the cook with time for something else."""
    time = action.duration
    return time is not None and is_long(time.low, time.unit)


def is_long(low: Fraction | float | None, unit: str) -> bool:
    """Whether a time leaves the cook with time for something else."""
    return low is not None and low >= LONG_WAIT.get(unit, 0)
