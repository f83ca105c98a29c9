"""The words of a step: imperative, plain, and no more than the cook said."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from extract.draft.method.clauses import Clause, clause_of, pronoun_for
from extract.draft.method.grammar import joined_verbs

if TYPE_CHECKING:
    from collections.abc import Callable

    from spacy.tokens import Doc

    from extract.model import Action
    from extract.spot.actions import ActionSpan

MOST_FOODS = 8
PRONOUNS = frozenset({"it", "them", "everything"})
HAND_WORK = frozenset({"cut", "mix", "move"})


def step_text(
    doc: Doc,
    spoken: Sequence[ActionSpan],
    drafted: Sequence[Action],
    names: Callable[[ActionSpan, bool], dict[int, str]],
) -> str:
    """The sentences of one step.

    ``names`` gives the names of an action's phrases by their first token; it is told whether the action opens
    the step, where a pronoun has to be named. What an action shares with the one before is not said again:
    "Drain and rinse the beans.", "Peel the pears and dice them."
    """
    clauses: list[tuple[Clause, tuple[int, int]]] = []
    for span, action in zip(spoken, drafted, strict=True):
        if is_preparation(span, spoken):
            continue
        clause = clause_of(doc, span, action, names(span, not clauses))
        if clause is not None:
            clauses.append((clause, span.utterance))
    return " ".join(sentences(merged(clauses)))


def is_preparation(span: ActionSpan, spoken: Sequence[ActionSpan]) -> bool:
    """Whether an action only describes a food that goes in: "one onion, chopped fine", told with its line."""
    if span.mood != "described" or span.group != "cut":
        return False
    return any(other.verb == "add" and other.utterance == span.utterance for other in spoken)


def merged(clauses: Sequence[tuple[Clause, tuple[int, int]]]) -> list[tuple[Clause, tuple[int, int]]]:
    """Clauses with what they share drawn together."""
    found: list[tuple[Clause, tuple[int, int]]] = []
    for clause, utterance in clauses:
        if found and is_same_addition(found[-1][0], clause):
            found[-1][0].objects = list(dict.fromkeys([*found[-1][0].objects, *clause.objects]))
            continue
        if found and (found[-1][0].text() == clause.text() or is_said_again(found[-1][0], clause)):
            continue
        if found and found[-1][0].names and (clause.pronoun or clause.objects == found[-1][0].objects):
            refer_back(found[-1][0], clause)
        found.append((clause, utterance))
    return found


def is_same_addition(before: Clause, clause: Clause) -> bool:
    """Whether two clauses are one addition of several foods."""
    plain = not (before.tail or before.until or clause.until or before.negated or clause.negated)
    both = before.verb == clause.verb == "add" and not (before.whole or clause.whole)
    return plain and both and not clause.before and len(before.objects) + len(clause.objects) <= MOST_FOODS


def is_said_again(before: Clause, clause: Clause) -> bool:
    """Whether a clause only says that what was just worked on goes in."""
    said = bool(clause.objects) and set(clause.objects) <= set(before.objects)
    return said and clause.verb == "add" and not clause.tail and not clause.until


def refer_back(before: Clause, clause: Clause) -> None:
    """Say "it" or "them" for what the clause before has just named, as the cook did."""
    if clause.names and set(clause.names) <= set(before.names):
        names = list(dict.fromkeys(clause.names))
        if names[0] not in PRONOUNS:
            clause.objects = ["them" if names[1:] else pronoun_for(names[0])]
            clause.pronoun = True


def sentences(clauses: Sequence[tuple[Clause, tuple[int, int]]]) -> list[str]:
    """One sentence for each clause, short ones of one utterance on one thing joined by "and"."""
    found: list[str] = []
    number = 0
    while number < len(clauses):
        clause, utterance = clauses[number]
        text = clause.text()
        following = clauses[number + 1] if number + 1 < len(clauses) else None
        if following is not None and following[1] == utterance and goes_on(clause, following[0]):
            text = two_in_one(clause, following[0])
            number += 1
        found.append(text[:1].upper() + text[1:] + ".")
        number += 1
    return found


def goes_on(first: Clause, second: Clause) -> bool:
    """Whether a clause goes on with the same thing in the same breath."""
    if first.whole or second.whole or first.negated or second.negated or first.until:
        return False
    return second.objects in (["it"], ["them"]) or (bool(first.objects) and second.objects == first.objects)


def two_in_one(first: Clause, second: Clause) -> str:
    """Two clauses as one: "drain and rinse the beans", "peel the pears and dice them"."""
    bare = not (first.tail or first.before or second.before or " " in first.verb or " " in second.verb)
    bare = bare and first.group in HAND_WORK and second.group in HAND_WORK
    if bare and first.objects and (second.objects == first.objects or second.pronoun):
        second.objects = first.objects
        second.verb = joined_verbs([first.verb, second.verb])
        return second.text()
    return f"{first.text()} and {second.text()}"
