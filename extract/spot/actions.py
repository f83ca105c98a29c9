"""What the cook does: every spoken action with what it acts on, where, with what, how long and how hot."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from extract.spot.actions_clauses import Arguments, Ground, Phrase, phrases_before, read_arguments
from extract.spot.actions_mood import (
    Mood,
    clause_opening,
    is_negated,
    is_subordinate,
    is_supposed,
    mood_of,
    until_goes_on,
    utterances,
)
from extract.spot.actions_verbs import Reading, double_verb, read_verb, verb_forms, with_particle
from extract.spot.actions_weight import weigh
from extract.spot.actions_words import words

if TYPE_CHECKING:
    from extract.language.speech import Speech
    from extract.spot.spans import Duration, Food, HeatSetting

INTRANSITIVE = frozenset({"wait", "heat", "light"})


@dataclass(frozen=True, slots=True)
class ActionSpan:
    """One spoken action; all figures are token indices, ends exclusive.

    ``verb`` is the cook's own as a lemma with its particle ("set aside"); ``at`` its token, or the first word
    of the evidence where the action is ``implied`` ("then two cups of flour" is an "add"). ``utterance`` is
    the sentence it was said in and ``weight`` the evidence (log odds) that this sentence is instruction.
    """

    verb: str
    at: int
    start: int
    end: int
    utterance: tuple[int, int]
    group: str = ""
    objects: tuple[Phrase, ...] = ()
    place: tuple[Phrase, ...] = ()
    with_: tuple[Phrase, ...] = ()
    until: tuple[int, int] | None = None
    duration: Duration | None = None
    heat: HeatSetting | None = None
    mood: Mood = "order"
    negated: bool = False
    supposed: bool = False
    implied: bool = False
    weight: float = 0.0


def find_actions(
    speech: Speech, foods: list[Food], durations: list[Duration], heats: list[HeatSetting]
) -> list[ActionSpan]:
    """Every action of a talk in the order said, with the weight of its sentence as instruction.

    ``durations`` are cooking times only. Every duration and heat is on some action, if need be implied.
    """
    ground = Ground(speech.doc, foods, durations, heats)
    found: list[ActionSpan] = []
    spans = list(utterances(speech.doc))
    for span in spans:
        actions = spoken_actions(ground, span) or implied_additions(ground, span)
        found.extend(attach_figures(ground, span, actions))
    return weigh(ground, spans, found)


def spoken_actions(ground: Ground, utterance: tuple[int, int]) -> list[ActionSpan]:
    """The actions of one utterance whose verbs were said."""
    readings = verb_readings(ground, utterance)
    actions = named_first(ground, utterance, readings)
    for number, reading in enumerate(readings):
        last = number + 1 == len(readings)
        end = utterance[1] if last else clause_opening(ground.doc, readings[number + 1].at, reading.at + 1)
        floor = readings[number - 1].at + 1 if number else utterance[0]
        action = action_from(ground, utterance, with_particle(ground.doc, reading, end), floor, end)
        if action is not None:
            actions.append(action)
    return actions


def named_first(ground: Ground, utterance: tuple[int, int], readings: list[Reading]) -> list[ActionSpan]:
    """Foods named without a verb before the first verb: "some garam masala, and mix it in"."""
    if not readings:
        return []
    end = clause_opening(ground.doc, readings[0].at, utterance[0])
    foods = ground.foods_within(utterance[0], end)
    if not foods or foods[-1].end > end or ground.doc[end].lower_ not in words("opens a clause"):
        return []
    if any(
        ground.doc[at].pos_ in {"AUX", "VERB"} for at in range(utterance[0], end) if at not in ground.in_food
    ):
        return []
    phrases = tuple(Phrase(food.start, food.end, "food", food) for food in foods)
    start = utterance[0]
    return [ActionSpan("add", start, start, foods[-1].end, utterance, "add", objects=phrases, implied=True)]


def verb_readings(ground: Ground, utterance: tuple[int, int]) -> list[Reading]:
    """The words of an utterance that read as cooks' verbs, particles of light constructions left out."""
    readings: list[Reading] = []
    opens, waiting = True, False
    for at in range(*utterance):
        waiting = until_goes_on(ground.doc, at, waiting)
        if readings and at == readings[-1].particle:
            continue
        reading = None if waiting else read_verb(ground.doc, at, opens, ground.in_food)
        if reading is not None:
            readings.append(double_verb(ground.doc, reading))
        if ground.doc[at].lower_ not in words("trailing"):
            opens = False
    return readings


def action_from(
    ground: Ground, utterance: tuple[int, int], reading: Reading, floor: int, end: int
) -> ActionSpan | None:
    """One reading with its arguments, or None where it turns out to be no action."""
    doc = ground.doc
    start = clause_opening(doc, reading.at, floor)
    if is_subordinate(doc, reading, floor):
        return None
    found = read_arguments(ground, reading.at + 1, end, reading.particle)
    if not found.objects and (reading.verb.group in INTRANSITIVE or reading.form == "past"):
        found.objects = phrases_before(ground, floor, reading.at)
    said = sense(ground, reading, found, end)
    if said is None:
        return None
    lemma, group = said
    action = ActionSpan(lemma, reading.at, start, trimmed(ground, reading.at + 1, end), utterance, group)
    return replace(
        action,
        objects=tuple(found.objects),
        place=tuple(found.place),
        with_=tuple(found.with_),
        until=found.until,
        mood=mood_of(doc, reading, floor),
        negated=is_negated(doc, reading.at, floor),
        supposed=is_supposed(doc, reading.at, floor),
    )


def sense(ground: Ground, reading: Reading, found: Arguments, end: int) -> tuple[str, str] | None:
    """The verb and the kind of work that a reading comes to, None where it is no work at all.

    "Give it a stir" is a "stir"; a verb that only names a food ("I have two eggs") is an "add".
    """
    group = reading.verb.group
    if group not in {"light", "naming"}:
        return reading.lemma, group
    if reading.particle is not None:
        return reading.lemma, "move"
    done = light_verb_noun(ground, reading.at, end)
    if done is not None:
        return done, verb_forms()[done][0].group
    if group == "naming":
        return ("add", "naming") if any(phrase.kind == "food" for phrase in found.objects) else None
    shaped = any(ground.doc[phrase.end - 1].lower_ in words("made by hand") for phrase in found.objects)
    if reading.verb.lemma in words("needs a shape"):
        return (reading.lemma, group) if shaped else None
    if reading.verb.lemma in words("needs a food"):
        return (reading.lemma, group) if any(phrase.kind == "food" for phrase in found.objects) else None
    return (reading.lemma, group) if found.place and found.objects else None


def light_verb_noun(ground: Ground, verb: int, end: int) -> str | None:
    """The work that a light verb leaves to its noun: "give it a good stir", "bring that to a boil"."""
    for at in range(verb + 1, min(end, verb + 8)):
        token = ground.doc[at]
        if at in ground.in_food or token.lower_ not in words("light verb noun"):
            continue
        before = {ground.doc[back].lower_ for back in range(max(verb, at - 3), at)}
        if before & {"a", "the", "another", "to", "little", "good", "nice"}:
            return verb_forms()[token.lower_][0].lemma
    return None


def trimmed(ground: Ground, start: int, end: int) -> int:
    """The end of a clause without its trailing little words and full stop."""
    while end > start and ground.doc[end - 1].lower_ in words("trailing"):
        end -= 1
    return end


def implied_additions(ground: Ground, utterance: tuple[int, int]) -> list[ActionSpan]:
    """A verbless naming of foods as what it is in a passage of making: something added."""
    foods = ground.foods_within(*utterance)
    if not foods:
        return []
    phrases = tuple(Phrase(food.start, food.end, "food", food) for food in foods)
    start, end = utterance[0], trimmed(ground, foods[-1].end, utterance[1])
    return [
        ActionSpan(
            "add", start, start, max(end, foods[-1].end), utterance, "add", objects=phrases, implied=True
        )
    ]


def attach_figures(ground: Ground, utterance: tuple[int, int], actions: list[ActionSpan]) -> list[ActionSpan]:
    """The actions with the utterance's durations and heats, each on the action it belongs to."""
    actions = list(actions)
    for heat in ground.heats:
        if utterance[0] <= heat.start < utterance[1]:
            attach(ground, utterance, actions, heat.start, heat.end, heat=heat)
    for duration in ground.durations:
        if utterance[0] <= duration.start < utterance[1]:
            attach(ground, utterance, actions, duration.start, duration.end, duration=duration)
    return sorted(actions, key=lambda action: (action.at, action.implied))


def attach(
    ground: Ground,
    utterance: tuple[int, int],
    actions: list[ActionSpan],
    start: int,
    end: int,
    *,
    heat: HeatSetting | None = None,
    duration: Duration | None = None,
) -> None:
    """Put a figure on the nearest free action before it, else on one after it, else on one of its own."""
    taken = "heat" if heat is not None else "duration"
    free = [number for number, action in enumerate(actions) if getattr(action, taken) is None]
    if free:
        before = [number for number in free if actions[number].at < end]
        number = before[-1] if before else free[0]
        chosen = actions[number]
        actions[number] = replace(chosen, heat=heat or chosen.heat, duration=duration or chosen.duration)
        return
    verb = "cook"
    if heat is not None:
        verb = {"oven": "bake", "oil": "heat", "internal": "cook"}.get(heat.kind, "heat")
    actions.append(
        ActionSpan(verb, start, start, end, utterance, "heat", heat=heat, duration=duration, implied=True)
    )
