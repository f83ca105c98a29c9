"""Which action a time belongs to, by the words around the time."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import TYPE_CHECKING

from extract.spot.verbs.words import words

if TYPE_CHECKING:
    from extract.spot.actions.span import ActionSpan
    from extract.spot.spans import Duration
    from extract.spot.verbs.ground import Ground

UNTIL_REACH = 6
GOES_REACH = 5
BREATH = 3
GOES_ON = frozenset({"heat", "wait", "mix", "heatset"})


def goes_in_for(ground: Ground, duration: Duration) -> bool:
    """Whether a time is that of something that goes in: "and it goes in for thirty five minutes"."""
    at = duration.start - 1
    while at > 0 and ground.doc[at].lower_ in words("leads to a time"):
        at -= 1
    led = [token.lower_ for token in ground.doc[max(0, at - GOES_REACH) : at]]
    if ground.doc[at].lower_ in words("goes") and "into" in led and "oven" in led:
        return True  # "into the oven it goes for forty minutes"
    return at > 0 and ground.doc[at].lower_ == "in" and ground.doc[at - 1].lower_ in words("goes")


def restates(actions: list[ActionSpan], duration: Duration) -> bool:
    """Give "overnight, twelve hours" its figures: whether a time only says the one before it in figures."""
    for number, action in enumerate(actions):
        told = action.duration
        if told is not None and told.low is None and 0 <= duration.start - told.end <= 1:
            actions[number] = replace(action, duration=duration)
            return True
    return False


def is_lead_time(ground: Ground, actions: list[ActionSpan], duration: Duration) -> bool:
    """Put "an hour before you shape it" on what is done so long ahead; whether it is such a time."""
    after = ground.doc[duration.end].lower_ if duration.end < len(ground.doc) else ""
    before = [number for number, action in enumerate(actions) if action.at < duration.start]
    if after != "before" or not before or actions[before[-1]].duration is not None:
        return False
    if actions[before[-1]].group in GOES_ON:  # "let it sit for ten minutes before you cut it"
        return False
    actions[before[-1]] = replace(actions[before[-1]], duration=duration)
    return True


def is_oven_next(ground: Ground, actions: list[ActionSpan], duration: Duration) -> bool:
    """Whether an oven that no action goes into is named right before a time: "brush them, same oven, 15 minutes"."""
    led = [ground.doc[at].lower_ for at in range(max(0, duration.start - UNTIL_REACH), duration.start)]
    into = (phrase for action in actions for phrase in (*action.place, *action.objects))
    return "oven" in led and not any(ground.doc[phrase.end - 1].lower_ == "oven" for phrase in into)


def oven_is_hot(ground: Ground, at: int) -> bool:
    """Whether the last heat told before a token is the oven's."""
    before = [heat for heat in ground.heats if heat.start < at]
    return bool(before) and before[-1].kind == "oven"


def told_together(actions: list[ActionSpan], duration: Duration | None) -> list[int]:
    """The action whose heat was told in the same breath as a time: "400, 45 minutes"."""
    return [
        number
        for number, action in enumerate(actions)
        if duration is not None
        and action.heat is not None
        and action.duration is None
        and (
            0 <= duration.start - action.heat.end <= BREATH or 0 <= action.heat.start - duration.end <= BREATH
        )
    ]


def with_later_times(actions: Iterable[ActionSpan]) -> list[ActionSpan]:
    """The actions, each with the bare time that the sentence after it tells: "Then you knead it. Ten minutes."."""
    found: list[ActionSpan] = []
    for action in actions:
        before = found[-1] if found else None
        if before is not None and is_bare_time(action) and can_go_on(before, action):
            found[-1] = replace(
                before,
                duration=action.duration,
                heat=before.heat or action.heat,
                until=before.until or action.until,
                later=(action.start, action.end),
                weight=max(before.weight, action.weight),
            )
        else:
            found.append(action)
    return found


def is_bare_time(action: ActionSpan) -> bool:
    """Whether an action is a time said with no verb and no food."""
    return action.implied and action.verb == "cook" and not action.objects and action.duration is not None


def can_go_on(before: ActionSpan, time: ActionSpan) -> bool:
    """Whether a time told in the next sentence is that of an action."""
    follows = before.utterance[1] == time.utterance[0] and not (before.implied or before.negated)
    at_once = before.verb.split()[0] in words("done at once")
    both_hot = before.heat is not None and time.heat is not None
    return follows and not at_once and before.duration is None and before.group in GOES_ON and not both_hot
