"""Clauses of a step drawn together: what one shares with the one before is said once."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from extract.draft.method.phrases.clause import PRONOUNS, Clause
from extract.draft.method.phrases.clauses import PUTS_IN, lacks_object, pronoun_for
from extract.draft.method.phrases.grammar import is_plural
from extract.draft.method.sentences.at_once import is_repeat, without_general
from extract.spot.verbs.words import words

if TYPE_CHECKING:
    from extract.draft.method.sentences.at_once import Said


MOST_FOODS = 8


def is_bare(clause: Clause) -> bool:
    """Whether a clause without an object tells nothing else either."""
    return lacks_object(clause) and not (clause.times or clause.until)


def merged(clauses: Sequence[Said]) -> list[Said]:
    """Clauses with what they share drawn together."""
    found: list[Said] = []
    for clause, utterance in clauses:
        before = found[-1][0] if found else None
        if before is not None and (is_told_fuller(before, clause) or is_place_of(before, clause)):
            found.pop()
            before = found[-1][0] if found else None
        if before is not None and is_same_addition(before, clause):
            before.objects = without_general([*before.objects, *clause.objects])
            take_times(before, clause)
            continue
        if any(is_repeat(earlier, clause) for earlier, _ in found):
            continue
        if before is not None and (before.text() == clause.text() or is_said_again(before, clause)):
            continue
        if before is not None and is_time_again(before, clause):
            continue
        if before is not None and is_time_of(before, clause):
            take_times(before, clause)
            continue
        one_breath = bool(found) and found[-1][1] == utterance
        if (
            one_breath
            and before is not None
            and before.names
            and (clause.pronoun or clause.objects == before.objects)
        ):
            refer_back(before, clause)
        if before is not None and clause.objects == ["it"] and means_several(before, one_breath):
            clause.objects = ["them"]
        found.append((clause, utterance))
    for clause, _ in found:
        kept = clause.tail[:1] and clause.tail[-1].split()[-1] in words("holds the dish")
        if lacks_object(clause) and (kept or clause.times):
            clause.objects = ["it"]
    return [(clause, said) for clause, said in found if not is_bare(clause)]


def is_same_addition(before: Clause, clause: Clause) -> bool:
    """Whether two clauses are one addition of several foods; the second may have the time for all of them."""
    both = before.verb == clause.verb == "add" and not (before.whole or clause.whole)
    untold = not (before.times or before.until or before.negated or before.condition)
    there = before.tail == clause.tail and untold
    plain = before.plain or there or (before.fronted and untold)
    alone = not (
        before.pronoun
        or clause.pronoun
        or (clause.tail and not there)
        or clause.negated
        or clause.condition
        or clause.before
    )
    few = len(before.objects) + len(clause.objects) <= MOST_FOODS
    return both and plain and alone and bool(clause.objects) and few


def take_times(before: Clause, clause: Clause) -> None:
    """Give an addition the time of the one that is drawn into it."""
    before.times, before.then, before.until = clause.times, clause.then, clause.until
    before.names = [*before.names, *clause.names]


def is_told_fuller(before: Clause, clause: Clause) -> bool:
    """Whether a clause says with its object what the one before says without: "Mix. Mix everything."."""
    return before.plain and not before.objects and before.verb == clause.verb and not clause.negated


def is_place_of(before: Clause, clause: Clause) -> bool:
    """Whether a clause tells what goes into the place that the one before names: "into the blender, the garlic".

    The place is then the clause's own.
    """
    empty = before.verb in words("needs an object") and before.opens
    empty = empty and not (before.objects or before.times or before.until)
    adds = clause.verb == "add" and clause.plain and bool(clause.objects) and not clause.pronoun
    if not (empty and adds and before.tail) or before.negated or before.condition:
        return False
    lead, _, place = before.tail[-1].partition(" ")
    clause.tail = [f"{'to' if lead in {'in', 'into', 'inside', 'on'} else lead} {place}"]
    return True


def means_several(before: Clause, one_breath: bool) -> bool:
    """Whether an "it" can only mean several things just named: "two eggs, and you beat it"."""
    if len(before.objects) != 1 or before.tail or not (one_breath or before.group not in PUTS_IN):
        return False
    if before.verb.endswith(" in"):
        return False  # "fold in the pears, and bake it": all of it
    name = before.objects[0]
    return is_plural(name) and not any(word in name.split() for word in ("of", "and"))


def is_said_again(before: Clause, clause: Clause) -> bool:
    """Whether a clause only says that what was just worked on goes in."""
    said = bool(clause.objects) and set(clause.objects) <= set(before.objects)
    there = said and clause.group in PUTS_IN and before.group in PUTS_IN | {"coat"} and bool(clause.tail)
    if there and clause.tail == before.tail and not (clause.times or clause.until or clause.negated):
        return True
    return said and clause.verb == "add" and clause.plain


def is_time_again(before: Clause, clause: Clause) -> bool:
    """Whether a clause only gives the time of the one before once more: "fry it for a minute … one minute"."""
    bare = not clause.objects or clause.pronoun
    same = (
        clause.times == before.times
        and bool(clause.times)
        and (clause.verb in {before.verb, before.then, "cook"})
    )
    return same and bare and not (clause.tail or clause.until or clause.negated or clause.condition)


def is_time_of(before: Clause, clause: Clause) -> bool:
    """Whether a clause gives the work of the one before its time: "cook it in the oil … cook that ten minutes"."""
    untimed = not (before.times or before.until or before.whole or before.negated or before.then)
    bare = (clause.pronoun or clause.objects == before.objects) and not (
        clause.tail or clause.negated or clause.condition or clause.then
    )
    return before.verb == clause.verb and untimed and bare and bool(clause.times) and bool(before.objects)


def refer_back(before: Clause, clause: Clause) -> None:
    """Say "it" or "them" for what the clause before has just named, as the cook did."""
    if clause.names and set(clause.names) <= set(before.names):
        names = list(dict.fromkeys(clause.names))
        if names[0] not in PRONOUNS:
            clause.objects = ["them" if names[1:] else pronoun_for(names[0])]
            clause.pronoun = True
