"""What the cook does: every spoken action with what it acts on, where, with what, how long and how hot."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

from extract.spot.actions.clauses import phrases_before, read_arguments
from extract.spot.actions.implied import attach_figures, moved_on, trimmed
from extract.spot.actions.named import additions, implied_additions, named_alone
from extract.spot.actions.no_work import SUBJECT_IS_OBJECT, is_as_liked, is_no_work
from extract.spot.actions.sense import sense
from extract.spot.actions.span import ActionSpan
from extract.spot.actions.times import with_later_times
from extract.spot.actions.weight import weigh
from extract.spot.figures_tagged import runs
from extract.spot.verbs.ground import Ground, Phrase
from extract.spot.verbs.mood import (
    clause_opening,
    is_negated,
    is_subordinate,
    is_supposed,
    mood_of,
    until_goes_on,
    utterances,
)
from extract.spot.verbs.particles import completes, double_verb, with_particle
from extract.spot.verbs.verb import Reading, read_verb
from extract.spot.verbs.words import words

if TYPE_CHECKING:
    from extract.language.speech import Speech
    from extract.reader import reading as reader
    from extract.spot.spans import Duration, Food, HeatSetting

HELPER_REACH = 5
READIED = frozenset({"cut", "move", "coat"})
GOES_IN = frozenset({"add", "naming"})


def find_actions(
    speech: Speech,
    reading: reader.Reading,
    foods: list[Food],
    durations: list[Duration],
    heats: list[HeatSetting],
) -> list[ActionSpan]:
    """Every action of a talk in the order said, with the weight of its sentence as instruction.

    ``durations`` are cooking times only. Every duration and heat is on some action, if need be implied.
    """
    measures = frozenset(start for start, _, _ in runs(reading, "amount"))
    ground = Ground(speech.doc, foods, durations, heats, measures)
    return with_later_times(weigh(reading, actions_by_utterance(ground)))


def actions_by_utterance(ground: Ground) -> dict[tuple[int, int], list[ActionSpan]]:
    """The actions of each utterance of a talk, in the order said, not weighed yet."""
    found: dict[tuple[int, int], list[ActionSpan]] = {}
    for span in utterances(ground.doc):
        actions = spoken_actions(ground, span) or implied_additions(ground, span)
        found[span] = list(without_states(ground, attach_figures(ground, span, actions)))
    return found


def spoken_actions(ground: Ground, utterance: tuple[int, int]) -> list[ActionSpan]:
    """The actions of one utterance whose verbs were said."""
    readings = verb_readings(ground, utterance)
    actions = named_first(ground, utterance, readings)
    for number, reading in enumerate(readings):
        last = number + 1 == len(readings)
        end = utterance[1] if last else clause_opening(ground.doc, readings[number + 1].at, reading.at + 1)
        floor = readings[number - 1].at + 1 if number else utterance[0]
        said = with_particle(ground.doc, reading, end)
        actions.extend(not_twice(actions, actions_from(ground, utterance, said, floor, end)))
    return actions


def not_twice(before: list[ActionSpan], actions: list[ActionSpan]) -> Iterator[ActionSpan]:
    """The actions without what a verb took from the words before it that an earlier one has taken already."""
    taken = {phrase.start for action in before for phrase in action.objects}
    for action in actions:
        own = tuple(
            phrase for phrase in action.objects if phrase.start not in taken or phrase.start > action.at
        )
        if own or not action.objects or action.group != "naming":
            yield replace(action, objects=own)


def without_states(ground: Ground, actions: list[ActionSpan]) -> list[ActionSpan]:
    """The actions of one utterance without those that only say how something is, where any other is left.

    "Once it is coated, shake it" is one action; so is "add the onion, chopped", whose participle is its line's.
    """
    work = [action for action in actions if not is_state(ground, action)]
    return work or [put_in(action) if action.mood == "described" else action for action in actions]


def put_in(action: ActionSpan) -> ActionSpan:
    """A participle that only tells how a food goes in, as the addition it is: "a can of beans, drained"."""
    foods = tuple(phrase for phrase in action.objects if phrase.kind == "food")
    if not foods or action.group not in READIED:
        return action
    return replace(action, verb="add", group="add", objects=foods, implied=True)


def is_state(ground: Ground, action: ActionSpan) -> bool:
    """Whether an action is a participle that describes: "it's covered", "some onion, chopped".

    What goes in is work in any form: "now the fish sauce goes in".
    """
    if action.group in GOES_IN or action.heat is not None or action.duration is not None or action.implied:
        return False
    if action.mood == "described":
        return True
    near = ground.doc[max(action.utterance[0], action.at - HELPER_REACH) : action.at]
    helper = next((token.lower_ for token in reversed(near) if token.lower_ in words("done helper")), "")
    return action.mood == "done" and helper in words("be")


def named_first(ground: Ground, utterance: tuple[int, int], readings: list[Reading]) -> list[ActionSpan]:
    """Foods named without a verb before the first verb: "some garam masala, and mix it in"."""
    if not readings:
        return []
    end = clause_opening(ground.doc, readings[0].at, utterance[0])
    foods = ground.foods_within(utterance[0], end)
    orders = readings[0].form == "base" and ground.doc[end].lower_ == ground.doc[readings[0].at].lower_
    if not foods or foods[-1].end > end or not (orders or begins_clause(ground, end)):
        return []
    if any(
        ground.doc[at].pos_ in {"AUX", "VERB"} for at in range(utterance[0], end) if at not in ground.in_food
    ):
        return []
    return named_alone(ground, foods, utterance)


def begins_clause(ground: Ground, at: int) -> bool:
    """Whether a clause begins at a token: a comma or an "and" stands there or just before."""
    near = [ground.doc[at].lower_, *([ground.doc[at - 1].lower_] if at else [])]
    return any(word in words("opens a clause") for word in near)


def verb_readings(ground: Ground, utterance: tuple[int, int]) -> list[Reading]:
    """The words of an utterance that read as cooks' verbs, particles of light constructions left out."""
    readings: list[Reading] = []
    opens, waiting = True, False
    for at in range(*utterance):
        waiting = until_goes_on(ground.doc, at, waiting)
        if readings and at == readings[-1].particle:
            continue
        if readings and completes(ground.doc, readings[-1], at):
            continue
        reading = None if waiting else read_verb(ground.doc, at, opens, ground.in_food)
        if reading is not None:
            readings.append(double_verb(ground.doc, reading))
        if ground.doc[at].lower_ not in words("trailing"):
            opens = False
    return readings


def actions_from(
    ground: Ground, utterance: tuple[int, int], reading: Reading, floor: int, end: int
) -> list[ActionSpan]:
    """One reading with its arguments, none where it turns out to be no action, and what is added behind it."""
    doc = ground.doc
    start = clause_opening(doc, reading.at, floor)
    if is_subordinate(doc, reading, floor) or is_no_work(doc, reading, floor):
        return []
    found = read_arguments(ground, reading, end)
    mood = mood_of(doc, reading, floor)
    named = any(phrase.kind == "food" for phrase in found.objects)
    told = named and reading.verb.group == "naming"  # "in goes the milk"
    if (not found.objects and takes_its_subject(reading)) or (mood == "described" and not told):
        found.objects = phrases_before(ground, floor, reading.at) or found.objects
    if not found.objects:
        found.objects = fronted(ground, floor, reading.at)
    if is_named_by_its_verb(reading, found.objects):
        foods = [phrase.food for phrase in found.objects if phrase.food is not None]
        return additions(foods, utterance, reading.at)
    loose = [phrase.food for phrase in found.loose if phrase.food is not None]
    added = additions(loose, utterance, found.loose[0].start) if loose else []
    said = sense(ground, reading, found, end)
    if said is None:
        return added
    lemma, group = said
    if mood == "described" and is_as_liked(doc, reading.at, utterance[1]):
        return added
    action = ActionSpan(lemma, reading.at, start, trimmed(ground, reading.at + 1, end), utterance, group)
    action = replace(
        action,
        objects=tuple(found.objects),
        place=tuple(found.place),
        with_=tuple(found.with_),
        until=found.until,
        mood=mood,
        negated=is_negated(doc, reading.at, floor),
        supposed=is_supposed(doc, reading.at, floor),
    )
    return [*moved_on(ground, action), *added]


def is_named_by_its_verb(reading: Reading, objects: list[Phrase]) -> bool:
    """Whether a verb is the food that it seems to act on: "and oil, a good glug, sunflower oil"."""
    named = [phrase.food.name.split()[-1] for phrase in objects if phrase.food is not None]
    return bool(named) and named[0] == reading.verb.lemma


def fronted(ground: Ground, floor: int, verb: int) -> list[Phrase]:
    """A food told before its cook and verb: "half of the potatoes I mash"."""
    subject = next(
        (at for at in (verb - 1, verb - 2) if at > floor and ground.doc[at].lower_ in words("cook")), None
    )
    if subject is None:
        return []
    return [
        Phrase(f.start, f.end, "food", f) for f in ground.foods_within(floor, subject) if f.end == subject
    ]


def takes_its_subject(reading: Reading) -> bool:
    """Whether what stands before a verb can be what it works on: "the onions go in", "it needs to rest"."""
    if reading.verb.group == "naming":
        return reading.verb.lemma in words("goes in")
    return reading.verb.group in SUBJECT_IS_OBJECT or reading.form == "past"
