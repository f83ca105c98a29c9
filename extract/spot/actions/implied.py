"""Actions that were said without a verb, and the times and heats of a sentence on their actions."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from extract.spot.actions.span import ActionSpan
from extract.spot.actions.times import (
    goes_in_for,
    is_lead_time,
    is_oven_next,
    oven_is_hot,
    restates,
    told_together,
)
from extract.spot.verbs.bounds import until_span
from extract.spot.verbs.ground import Phrase, equipment_within
from extract.spot.verbs.words import words

if TYPE_CHECKING:
    from extract.spot.spans import Duration, HeatSetting
    from extract.spot.verbs.ground import Ground

TAKES_TIME = frozenset({"heat", "wait", "mix", "coat", "heatset", "shape", "check", "light"})
UNTIL_REACH = 6
CHANGE_REACH = 6
PLACE_REACH = 8
HAND_WORK = frozenset({"cut", "coat", "move", "shape"})
PUTS_IN = frozenset({"add", "season", "naming"})
OVEN_VERBS = {"oven": "bake", "oil": "heat", "internal": "cook"}


def trimmed(ground: Ground, start: int, end: int) -> int:
    """The end of a clause without its trailing little words and full stop."""
    while end > start and ground.doc[end - 1].lower_ in words("trailing"):
        end -= 1
    return end


def moved_on(ground: Ground, action: ActionSpan) -> list[ActionSpan]:
    """An action, and where what it worked on goes next: "pat it dry, and into the batter and then into the oil"."""
    onward = [phrase for phrase in action.place if goes_next(ground, phrase)]
    if action.group not in HAND_WORK or not onward or len(action.objects) != 1 or action.negated:
        return [action]
    kept = tuple(phrase for phrase in action.place if phrase not in onward)
    rest = [
        replace(
            action,
            verb="put",
            group="add",
            at=phrase.start,
            start=phrase.start,
            end=phrase.end,
            place=(phrase,),
            with_=(),
            until=None,
            implied=True,
        )
        for phrase in onward
    ]
    return [replace(action, place=kept, end=min(action.end, onward[0].start)), *rest]


def goes_next(ground: Ground, phrase: Phrase) -> bool:
    """Whether a place stands behind an "and" of its own: "and into the oil", "then straight into the pan"."""
    near = range(phrase.start - 1, max(0, phrase.start - 4), -1)
    lead = next((at for at in near if ground.doc[at].lower_ == "into"), 0)
    if lead and ground.doc[lead - 1].lower_ in {"straight", "right"}:
        lead -= 1
    return lead > 0 and ground.doc[lead - 1].lower_ in {"and", "then"}


def attach_figures(ground: Ground, utterance: tuple[int, int], actions: list[ActionSpan]) -> list[ActionSpan]:
    """The actions with the utterance's durations and heats, each on the action it belongs to."""
    actions = list(actions)
    for heat in ground.heats:
        if utterance[0] <= heat.start < utterance[1] and not is_a_size(ground, heat):
            attach(ground, actions, utterance, heat=heat)
    for duration in ground.durations:
        if utterance[0] <= duration.start < utterance[1]:
            attach(ground, actions, utterance, duration=duration)
    return each_until_once(sorted(actions, key=lambda action: (action.at, action.implied)))


def is_a_size(ground: Ground, heat: HeatSetting) -> bool:
    """Whether a level of heat is the size of what follows it: "eight medium potatoes"."""
    led = ground.doc[heat.start - 1] if heat.start else None
    counted = led is not None and (led.like_num or led.lower_ in words("determiner"))
    return heat.low is None and counted and heat.end in ground.food_at


def each_until_once(actions: list[ActionSpan]) -> list[ActionSpan]:
    """The actions of an utterance, an until that several claim on the last of them."""
    last = {action.until[1]: number for number, action in enumerate(actions) if action.until is not None}
    return [
        replace(action, until=None)
        if action.until is not None and last[action.until[1]] != number
        else action
        for number, action in enumerate(actions)
    ]


def attach(
    ground: Ground,
    actions: list[ActionSpan],
    utterance: tuple[int, int],
    *,
    heat: HeatSetting | None = None,
    duration: Duration | None = None,
) -> None:
    """Put a figure on the nearest fitting action before it, else on one after it, else on one of its own."""
    figure = heat or duration
    assert figure is not None
    if duration is not None and (restates(actions, duration) or is_lead_time(ground, actions, duration)):
        return
    if duration is not None and (goes_in_for(ground, duration) or is_oven_next(ground, actions, duration)):
        last = actions[-1] if actions else None
        if last is not None and last.implied and last.heat is not None and last.duration is None:
            actions[-1] = replace(last, duration=duration)
        else:
            actions.append(implied_cooking(ground, utterance, heat, duration))
        return
    fitting = [number for number, action in enumerate(actions) if takes(action, heat)]
    before = sorted((n for n in fitting if actions[n].at < figure.end), key=lambda n: actions[n].at)
    opens = all(action.at >= figure.start for action in actions) and not comes_first(ground, figure, actions)
    opens = opens and not (fitting and actions[fitting[0]].group in {"move", "check"})
    before = by_heat(actions, before, heat) + told_together(actions, duration)
    if not before and not (fitting and opens):
        before = beside(actions, figure, heat)
    if before or (fitting and opens):
        number = before[-1] if before else fitting[0]
        chosen = actions[number]
        until = chosen.until or said_until(ground, figure.end, utterance[1])
        actions[number] = replace(
            chosen, heat=heat or chosen.heat, duration=duration or chosen.duration, until=until
        )
        return
    cooking = implied_cooking(ground, utterance, heat, duration)
    if cooking.until is not None:
        ends = cooking.until[1]
        actions[:] = [replace(a, until=None) if a.until and a.until[1] == ends else a for a in actions]
    actions.append(cooking)


def comes_first(ground: Ground, figure: HeatSetting | Duration, actions: list[ActionSpan]) -> bool:
    """Whether a figure has its own "until" before any verb: "two minutes till it is gold, lift one up"."""
    until = said_until(ground, figure.end, figure.end + UNTIL_REACH)
    return until is not None and all(action.at >= until[1] for action in actions)


def by_heat(
    actions: list[ActionSpan],
    before: list[int],
    heat: HeatSetting | None,
) -> list[int]:
    """The actions that may hold an oven's figure, one that cooks last: "roast it, wrapped in foil, at 400"."""
    if heat is None or heat.kind != "oven" or not before or actions[before[-1]].group in {"heat", "heatset"}:
        return before
    cooking = [number for number in before if actions[number].group == "heat"]
    return [*before, *cooking[-1:]]


def changes_to(action: ActionSpan, heat: HeatSetting) -> bool:
    """Whether an action changes the heat of what it names: "then you drop it to 325"."""
    changes = action.verb.split()[0] in words("changes a heat") and 0 < heat.start - action.at <= CHANGE_REACH
    return changes and bool(action.objects) and all(phrase.kind != "food" for phrase in action.objects)


def takes(action: ActionSpan, heat: HeatSetting | None) -> bool:
    """Whether an action can be done at a heat, or for a time where none is given: putting food in takes neither."""
    if action.negated or (action.heat if heat is not None else action.duration) is not None:
        return False
    if heat is not None and action.verb.split()[0] in words("takes no heat"):
        return False  # "a hot skillet, medium high, and wrap them in a towel"
    if action.mood == "described" and action.group == "cut":
        return False  # "eight slices, chopped, in a cold pan over a medium heat"
    if action.group == "move" and (heat is None or heat.kind == "internal"):
        return heat is not None or action.mood in {
            "past",
            "done",
        }  # "pull it at 140", "took it out an hour ago"
    if action.group in TAKES_TIME or (heat is not None and changes_to(action, heat)):
        return True
    return not action.implied and any(phrase.kind == "thing" for phrase in (*action.objects, *action.place))


def beside(
    actions: list[ActionSpan],
    figure: HeatSetting | Duration,
    heat: HeatSetting | None,
) -> list[int]:
    """The actions before a bare figure that can hold it although their verbs take none by themselves.

    "Now the onions, five minutes" is one action with its time, not an addition and a cooking without a food.
    """
    return [
        number
        for number, action in enumerate(actions)
        if action.at < figure.start
        and action.group in PUTS_IN
        and not action.negated
        and any(phrase.kind == "food" for phrase in action.objects)
        and (action.heat if heat is not None else action.duration) is None
    ]


def implied_cooking(
    ground: Ground, utterance: tuple[int, int], heat: HeatSetting | None, duration: Duration | None
) -> ActionSpan:
    """A time or a heat said without its verb: "in the oven, 35 to 40 minutes", "ten minutes on a rack"."""
    figure = heat or duration
    assert figure is not None
    place = equipment_within(ground, utterance[0], min(utterance[1], figure.end + PLACE_REACH))
    verb = OVEN_VERBS.get(heat.kind, "heat") if heat is not None else "cook"
    named = {ground.doc[phrase.end - 1].lower_ for phrase in place}
    goes_in = heat is None and duration is not None and goes_in_for(ground, duration)
    oven_next = heat is None and duration is not None and is_oven_next(ground, [], duration)
    if "oven" in named or oven_next or (goes_in and oven_is_hot(ground, figure.start)):
        verb = "bake"
    elif duration is not None and named & words("place of rest"):
        verb = "leave"
    if verb == "bake":
        place = [
            phrase for phrase in place if ground.doc[phrase.end - 1].lower_ not in words("place of rest")
        ]
    until = said_until(ground, figure.end, utterance[1])
    end = until[1] if until is not None else figure.end
    return ActionSpan(
        verb,
        figure.start,
        figure.start,
        end,
        utterance,
        "heat",
        objects=subject_before(ground, utterance[0], figure.start),
        place=tuple(place),
        until=until,
        heat=heat,
        duration=duration,
        implied=True,
    )


def said_until(ground: Ground, start: int, end: int) -> tuple[int, int] | None:
    """The until-clause that follows a figure in its sentence."""
    end = min(end, len(ground.doc))
    for at in range(start, min(end, start + 6)):
        if ground.doc[at].lower_ in words("until"):
            return until_span(ground.doc, at + 1, end, ground.measures)
    return None


def subject_before(ground: Ground, start: int, end: int) -> tuple[Phrase, ...]:
    """The pronoun that is being cooked: "they'll go 22 to 25 minutes"."""
    for at in range(end - 1, start - 1, -1):
        if ground.doc[at].lower_ in words("cooked pronoun"):
            return (Phrase(at, at + 1, "pronoun"),)
    return ()
