"""What completes a verb: a second verb ("stir fry") or a particle, which may stand some words on ("set it aside")."""

from __future__ import annotations

from typing import TYPE_CHECKING

from extract.spot.verbs.bounds import amount_start
from extract.spot.verbs.forms import Verb, phrasal_verbs, verb_forms
from extract.spot.verbs.ground import equipment_within
from extract.spot.verbs.verb import Reading
from extract.spot.verbs.words import words

if TYPE_CHECKING:
    from spacy.tokens import Doc

    from extract.spot.verbs.ground import Ground

COMPLETES_REACH = 4
PUT_IN_REACH = 9  # "put in a teaspoon and a half of salt"
PUTTING = frozenset({"add", "mix", "season", "naming"})


def double_verb(doc: Doc, reading: Reading) -> Reading:
    """The reading with the verb that completes it: "stir fry", "deep fry"."""
    after = reading.at + 1
    if after < len(doc) and doc[after].lower_ == "-":
        after += 1
    base = doc[after].lower_.removesuffix("ing").removesuffix("ed") if after < len(doc) else ""
    for second in phrasal_verbs().get(reading.verb.lemma, {}):
        if second in verb_forms() and base and second.startswith(base[:3]) and base.startswith(second[:2]):
            verb = Verb(reading.verb.lemma, "heat")
            return Reading(
                reading.at, verb, reading.form, f"{reading.verb.lemma} {second}", after, reading.tagged
            )
    return reading


def with_particle(doc: Doc, reading: Reading, end: int) -> Reading:
    """The reading with its particle, which may stand some words on: "set the peppers aside"."""
    particles = phrasal_verbs().get(reading.verb.lemma)
    if not particles or reading.particle is not None:
        return reading
    for at in range(reading.at + 1, min(end, reading.at + 7)):
        word = doc[at].lower_
        if word in particles and is_particle(doc, reading.at, at):
            return Reading(
                reading.at, reading.verb, reading.form, f"{reading.verb.lemma} {word}", at, reading.tagged
            )
        if doc[at].is_punct or word in words("breaks a clause"):
            break
    return reading


def completes(doc: Doc, reading: Reading, at: int) -> bool:
    """Whether a word that is also a verb only completes the one before: "pat it dry"."""
    word = doc[at].lower_
    particle = word in words("always a particle") and word in phrasal_verbs().get(reading.verb.lemma, {})
    return particle and 1 <= at - reading.at <= COMPLETES_REACH


def is_particle(doc: Doc, verb: int, at: int) -> bool:
    """Whether a word belongs to the verb before it and does not open a phrase of its own ("in the bowl")."""
    token = doc[at]
    if token.lower_ == "off" and at + 2 < len(doc) and doc[at + 2].lower_ in words("cut away from"):
        return False  # "cut off the cob"
    if token.lower_ in words("always a particle"):
        return True
    if at + 1 < len(doc) and doc[at + 1].lower_ == "of":
        return at == verb + 1 or token.lower_ == "out"
    following = doc[at + 1] if at + 1 < len(doc) else None
    if at + 2 < len(doc) and doc[at + 2].lower_ in words("time unit"):
        following = None  # "take it out an hour before"
    opens_phrase = following is not None and (
        following.lower_ in words("determiner") or following.lower_ in words("object pronoun")
    )
    if at == verb + 1:
        return token.lower_ != "in" or opens_phrase
    if token.lower_ == "in" and doc[verb].lower_ not in words("takes its in along"):
        return False
    return not opens_phrase and (token.dep_ == "prt" or token.pos_ in {"ADP", "ADV"})


def puts_in(ground: Ground, reading: Reading, end: int) -> bool:
    """Whether the "in" after a verb belongs to it: "pour in the milk", but not "soak in the milk"."""
    at = reading.at + 1
    puts = reading.verb.group in PUTTING or reading.verb.lemma in words("puts in")
    if at + 1 < end and ground.doc[at].lower_ == "over" and reading.verb.lemma in words("puts over"):
        return any(
            amount_start(ground.doc, f.start, at) <= at + 2 for f in ground.foods_within(at, min(end, at + 7))
        )
    word = ground.doc[at].lower_ if at < end else ""
    if word == "off" and takes_off(ground, reading, end):
        return True
    if word != "in" or not puts:
        return False
    return bool(ground.foods_within(at, min(end, at + PUT_IN_REACH))) and not equipment_within(
        ground, at, min(end, at + 4)
    )


def takes_off(ground: Ground, reading: Reading, end: int) -> bool:
    """Whether the "off" after a verb belongs to it: "fry off some onions", "peel off the skin"."""
    after = range(reading.at + 2, min(end, reading.at + PUT_IN_REACH))
    if reading.verb.group == "heat":
        return any(at in ground.in_food for at in after)
    noun = next((at for at in after if ground.doc[at].pos_ == "NOUN"), None)
    parts = noun is not None and (noun in ground.in_food or ground.doc[noun].lower_ in words("comes off"))
    return parts and reading.verb.group in {"cut", "move"}
