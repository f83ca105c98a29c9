"""Verbs that tell of no work: of a state, of what a thing does by itself, of praise, of a test.

Each takes the parsed talk and where the verb stands, and answers yes or no.
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from extract.spot.verbs.things import equipment_at
from extract.spot.verbs.verb import Reading
from extract.spot.verbs.words import words

if TYPE_CHECKING:
    from spacy.tokens import Doc

PURPOSE_REACH = 4
LIKE_REACH = 5
SUBJECT_IS_OBJECT = frozenset({"wait", "heat", "light"})


def is_no_work(doc: Doc, reading: Reading, floor: int) -> bool:
    """Whether a verb is something other than work: "cut side down", "so it takes colour", "you want it brown"."""
    after = doc[reading.at + 1].lower_ if reading.at + 1 < len(doc) else ""
    if after in words("after a side") and reading.form in {"base", "past"}:
        return True
    before = doc[reading.at - 1].lower_ if reading.at > floor else ""
    if reading.form == "s" and reading.verb.group == "light" and before in words("thing as subject"):
        return True
    if after in words("itself") or is_purpose_clause(doc, reading.at, floor) or is_the_one(doc, reading):
        return True
    if is_test(doc, reading.at, floor) or does_well(doc, reading) or is_result(doc, reading):
        return True
    if is_likened(doc, reading, floor):
        return True
    if reading.verb.group == "cut" and reading.verb.also == "noun" and is_state_of_part(doc, reading.at):
        return True
    if reading.verb.also != "adjective" or before not in words("thing as subject"):
        return False
    led = doc[max(floor, reading.at - 4) : reading.at]
    return any(token.lemma_.lower() in words("leads to a look") for token in led)


def is_likened(doc: Doc, reading: Reading, floor: int) -> bool:
    """Whether a verb only says what work is like: "like you're icing a cake", "it goes off like a volcano"."""
    behind = reading.at + 1
    while behind < len(doc) and doc[behind].lower_ in words("particle of work"):
        behind += 1
    by_itself = reading.form != "base" and doc[reading.at - 1].lower_ in words("thing as subject")
    if by_itself and behind < len(doc) and doc[behind].lower_ == "like":
        return True
    led = [token.lower_ for token in doc[max(floor, reading.at - LIKE_REACH) : reading.at]]
    return any(
        first == "like"
        and after in words("cook")
        and not set(led[n + 2 :]) - words("be") - words("adverb of action")
        for n, (first, after) in enumerate(pairwise(led))
    )


def is_as_liked(doc: Doc, at: int, end: int) -> bool:
    """Whether a participle is left to taste: "wrapped in a tea towel if you like a soft crust"."""
    near = [token.lower_ for token in doc[at:end]]
    return any(
        near[n : n + 2] == ["if", "you"] and near[n + 2] in words("likes") for n in range(len(near) - 2)
    )


def is_result(doc: Doc, reading: Reading) -> bool:
    """Whether a verb tells what a thing does of itself: "or it'll split", "it should drop off the spoon"."""
    will = reading.at > 1 and doc[reading.at - 1].lower_ in words("will") | words("may do")
    if will and doc[reading.at - 2].pos_ == "NOUN" and doc[reading.at + 1].lower_ in words("object pronoun"):
        return True  # "the lime will cook it"
    if reading.at < 2:
        return False
    if doc[reading.at - 2].lower_ == "so" and doc[reading.at - 1].lower_ in words("thing as subject"):
        return True  # "a plate on top so they sweat"
    if reading.verb.group in SUBJECT_IS_OBJECT:
        return False
    return will and doc[reading.at - 2].lower_ in words("thing as subject")


def is_state_of_part(doc: Doc, at: int) -> bool:
    """Whether a noun and a little word tell how a food comes: "skin off", "skin on,"."""
    after = doc[at + 1].lower_ if at + 1 < len(doc) else ""
    ends = at + 2 >= len(doc) or doc[at + 2].is_punct or doc[at + 2].lower_ == "and"
    return after in words("on or off") and ends


def is_purpose_clause(doc: Doc, at: int, floor: int) -> bool:
    """Whether a verb tells what something makes possible: "I baked this one last night, so we can cut it"."""
    lead = [token.lower_ for token in doc[max(floor, at - PURPOSE_REACH) : at]]
    return any(
        lead[n] == "so" and lead[n + 1] in words("cook") | {"that"} and lead[-1] in words("can")
        for n in range(len(lead) - 1)
    )


def is_the_one(doc: Doc, reading: Reading) -> bool:
    """Whether a verb in the past tells of one made for the camera: "I baked this one last night"."""
    if reading.form != "past" or reading.verb.group != "heat":
        return False
    after = [token.lower_ for token in doc[reading.at + 1 : reading.at + 3]]
    return len(after) == 2 and after[1] in {"one", "ones"} and after[0] in words("determiner")


def does_well(doc: Doc, reading: Reading) -> bool:
    """Whether a verb praises what something can be put to: "it freezes really well"."""
    near = doc[reading.at + 1 : reading.at + 3]
    return reading.form == "s" and any(token.lower_ in words("does it well") for token in near)


def is_test(doc: Doc, at: int, floor: int) -> bool:
    """Whether a tool tells when it is done: "a knife ought to slide in"."""
    lead = [token.lower_ for token in doc[max(floor, at - 4) : at]]
    modal = next((number for number, word in enumerate(lead) if word in words("may do")), None)
    if not modal:
        return False
    thing = equipment_at(doc, max(floor, at - 4) + modal - 1, at)
    return thing is not None and thing[0].kind == "tool"
