"""The words of a step: imperative, plain, and no more than the cook said."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Protocol

from extract.draft.method.phrases.clause import PRONOUNS, Clause
from extract.draft.method.phrases.clauses import PUTS_IN, lacks_object, pronoun_for
from extract.draft.method.phrases.grammar import is_plural, joined_verbs
from extract.draft.method.phrases.timing import moment_words
from extract.draft.method.sentences.at_once import is_repeat, without_general, worked_at_once
from extract.spot.verbs.words import words

if TYPE_CHECKING:
    from collections.abc import Callable

    from extract.model import Action
    from extract.spot.actions.span import ActionSpan

MOST_FOODS = 8
HAND_WORK = frozenset({"cut", "mix", "move"})

Said = tuple[Clause, tuple[int, int]]


class Teller(Protocol):
    """Tells of the actions of a dish what a step needs."""

    def names(self, action: ActionSpan, opens: bool) -> dict[int, str]:
        """The names of an action's phrases by their first token; ``opens``: it opens the step."""

    def clause(self, span: ActionSpan, action: Action, opens: bool) -> Clause | None:
        """The clause of an action, None where it says nothing."""

    def settle(
        self, span: ActionSpan, action: Action, clause: Clause | None, said: Sequence[Said]
    ) -> Clause | None:
        """What of a clause is printed behind those of its step before it."""


def step_sentences(
    teller: Teller, spoken: Sequence[ActionSpan | None], drafted: Sequence[Action]
) -> list[str]:
    """The sentences of one step; ``spoken`` holds None for an action that is left unsaid.

    What an action shares with the one before is not said again: "Drain and rinse the beans."
    """
    clauses: list[Said] = []
    moment = ""
    for span, action in zip(spoken, drafted, strict=True):
        if span is None or is_preparation(span, spoken):
            continue
        if span.implied and not span.objects and moment_words(action):
            moment = moment_words(action)
            continue
        clause = teller.clause(span, action, not clauses)
        if clause is not None:
            clause.condition, moment = clause.condition or moment, ""
            name_cut(clause, span, spoken, teller.names)
        clause = teller.settle(span, action, clause, clauses)
        if clause is not None:
            clauses.append((clause, span.utterance))
    return sentences(merged(worked_at_once(clauses)))


def is_bare(clause: Clause) -> bool:
    """Whether a clause without an object tells nothing else either."""
    return lacks_object(clause) and not (clause.times or clause.until)


def name_cut(
    clause: Clause,
    span: ActionSpan,
    spoken: Sequence[ActionSpan | None],
    names: Callable[[ActionSpan, bool], dict[int, str]],
) -> None:
    """Name what is cut where one food of the same sentence is meant: "coriander seed, and you crack it"."""
    if span.group != "cut" or not clause.pronoun or clause.objects != ["it"]:
        return
    own = [other for other in spoken if other is not None and other.utterance == span.utterance]
    before = [(other, p) for other in own for p in other.objects if p.kind == "food" and p.start < span.at]
    if len(before) == 1:
        other, phrase = before[0]
        clause.objects = [names(other, False)[phrase.start]]
        clause.names, clause.pronoun = clause.objects, False


def is_preparation(span: ActionSpan, spoken: Sequence[ActionSpan | None]) -> bool:
    """Whether an action only describes a food that goes in: "one onion, chopped fine", told with its line."""
    if span.mood != "described" or span.group != "cut":
        return False
    return any(other and other.verb == "add" and other.utterance == span.utterance for other in spoken)


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
