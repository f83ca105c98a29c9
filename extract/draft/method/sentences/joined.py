"""Clauses made sentences: one each, or two in one where they are of one breath and one thing."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from extract.draft.method.phrases.clause import PRONOUNS, Clause
from extract.draft.method.phrases.grammar import joined_verbs
from extract.spot.verbs.words import words

if TYPE_CHECKING:
    from extract.draft.method.sentences.at_once import Said


HAND_WORK = frozenset({"cut", "mix", "move"})


def starts_part(clause: Clause) -> bool:
    """Whether a clause names what a part is begun with, and no place where it goes."""
    return (
        clause.first
        and clause.verb == "add"
        and clause.named
        and bool(clause.objects)
        and not (
            clause.pronoun or clause.tail or clause.then or clause.times or clause.until or clause.negated
        )
    )


def is_empty_addition(clause: Clause) -> bool:
    """Whether a clause only says that "it" goes in, without where: nothing that a reader does not know."""
    return clause.verb == "add" and clause.plain and all(name in PRONOUNS for name in clause.objects)


def sentences(clauses: Sequence[Said]) -> list[str]:
    """One sentence for each clause, short ones of one utterance on one thing joined by "and"."""
    found: list[str] = []
    number = 0
    while number < len(clauses):
        clause, utterance = clauses[number]
        text = clause.text()
        following = clauses[number + 1] if number + 1 < len(clauses) else None
        if following is not None and mixes_what_went_in(clause, following[0]):
            text = added_and_mixed(clause, following[0])
            number += 1
        elif following is not None and following[1] == utterance and goes_on(clause, following[0]):
            text = two_in_one(clause, following[0])
            number += 1
        elif starts_part(clause):
            clause.verb = "start with"
            text = clause.text()
        elif is_empty_addition(clause):
            number += 1
            continue
        found.append(text[:1].upper() + text[1:] + ".")
        number += 1
    return list(dict.fromkeys(found))


def goes_on(first: Clause, second: Clause) -> bool:
    """Whether a clause goes on with the same thing in the same breath."""
    if any(clause.whole or clause.negated or clause.condition or clause.then for clause in (first, second)):
        return False
    if first.until or first.times or any(name.split()[-1] in words("comes off") for name in first.objects):
        return False
    return second.objects in (["it"], ["them"]) or (bool(first.objects) and second.objects == first.objects)


def mixes_what_went_in(first: Clause, second: Clause) -> bool:
    """Whether a clause mixes what the one before puts in: "Add the flour and salt. Whisk it."."""
    adds = first.verb == "add" and first.group == "add" and bool(first.objects) and not first.pronoun
    told = first.times or first.until or first.then or first.whole or first.negated or first.condition
    mixes = second.group == "mix" and not (second.whole or second.negated or second.condition or second.then)
    return adds and not told and mixes and (not second.objects or second.pronoun)


def added_and_mixed(first: Clause, second: Clause) -> str:
    """What goes in and how it is mixed as one order: "add the flour, then whisk", or "whisk the flour and salt"."""
    if first.first and not first.tail and not second.objects[1:] and " " not in second.verb:
        second.objects = first.objects
        return second.text()
    second.objects = []
    return f"{first.text()}, then {second.text()}"


def two_in_one(first: Clause, second: Clause) -> str:
    """Two clauses as one: "drain and rinse the beans", "peel the pears and dice them"."""
    bare = not (
        first.tail or first.times or first.before or second.before or " " in first.verb or " " in second.verb
    )
    bare = bare and first.group in HAND_WORK and second.group in HAND_WORK
    if bare and first.objects and (second.objects == first.objects or second.pronoun):
        second.objects = first.objects
        second.verb = joined_verbs([first.verb, second.verb])
        return second.text()
    return f"{first.text()} and {second.text()}"
