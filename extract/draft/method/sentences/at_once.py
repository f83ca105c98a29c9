"""Foods that are named only to be worked on ("poppy seeds, and you soak them in the milk"), and what is said twice."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from extract.draft.method.phrases.clause import PRONOUNS
from extract.draft.method.phrases.clauses import PUTS_IN
from extract.draft.method.phrases.grammar import is_plural
from extract.spot.names.foods import SEASONINGS, kinds_of
from extract.spot.verbs.words import words

if TYPE_CHECKING:
    from extract.draft.method.phrases.clause import Clause

    Said = tuple[Clause, tuple[int, int]]

REFERENCE = re.compile(r"\b(?:it|them)\b")
GOES_IN = re.compile(r"\bin(?:to\b|$)")
PLACED_WORK = PUTS_IN | {"wait", "coat"}
ALONE_WORK = frozenset({"cut", "coat", "shape", "move"})
DISSOLVES = SEASONINGS | {"liquid", "dairy", "vinegar", "alcohol", "fat", "sugar", "oil"}


def worked_at_once(clauses: Sequence[Said]) -> list[Said]:
    """Clauses without the naming of a food that the next one works on: "poppy seeds, and you soak them in milk"."""
    found: list[Said] = []
    for clause, utterance in clauses:
        before, breath = found[-1] if found else (None, utterance)
        alone = len(found) < 2 or found[-2][0].verb != "add"
        close = breath == utterance or (alone and clause.objects == ["them"])
        if before is not None and cuts(before, clause):
            cut_first(found, clause)
        elif before is not None and close and works_on(before, clause):
            clause.objects, clause.names, clause.pronoun = before.objects, before.names, False
            found.pop()
        found.append((clause, utterance))
    return found


def cuts(before: Clause, clause: Clause) -> bool:
    """Whether a clause cuts the last food that the clause before only names: "Feta, crumble it"."""
    named = before.verb == "add" and before.named and before.plain and bool(before.objects)
    told = clause.negated or clause.condition or clause.until or clause.times
    return named and clause.group == "cut" and not told and clause.names == before.objects[-1:]


def cut_first(found: list[Said], clause: Clause) -> None:
    """Say that a food is cut instead of that it goes in, and that it goes in then where others did before."""
    before, utterance = found.pop()
    name, others = before.objects[-1], before.objects[:-1]
    if clause.objects and clause.objects[0] in PRONOUNS:
        clause.objects = [name]
    text = REFERENCE.sub(f"the {name}", clause.text(), count=1)
    if others:
        found.append((replace(before, objects=others, names=others), utterance))
    goes_in = any(other.verb == "add" for other, _ in found) and not GOES_IN.search(text)
    clause.whole = f"{text} and add {'them' if is_plural(name) else 'it'}" if goes_in else text
    clause.pronoun = False


def works_on(before: Clause, clause: Clause) -> bool:
    """Whether a clause works on the one food that the clause before only names."""
    only_named = before.verb == "add" and before.named and before.plain and len(before.objects) == 1
    if not only_named or before.objects[0] in PRONOUNS or clause.whole or clause.negated or clause.condition:
        return False
    means = clause.objects == ["them" if is_plural(before.objects[0]) else "it"]
    placed = clause.group in PLACED_WORK and any(not told.startswith("with ") for told in clause.tail)
    placed = placed and clause.verb not in words("says little")
    worked = clause.group in ALONE_WORK and (
        clause.group == "cut" or not kinds_of(before.objects[0]) & DISSOLVES
    )
    return means and clause.pronoun and (placed or worked)


def without_general(names: Sequence[str]) -> list[str]:
    """Names each once, none that another says more fully: no "onions" beside "brown onions"."""
    once = list(dict.fromkeys(names))
    return [name for name in once if not any(name != other and other.endswith(f" {name}") for other in once)]


def is_repeat(earlier: Clause, clause: Clause) -> bool:
    """Whether a clause only says again, with less, what one before it in the step says: "Cut the brisket."."""
    if clause.whole or clause.times or clause.until or clause.tail or clause.negated or clause.condition:
        return False
    if not clause.verb or clause.verb == "add" or not clause.names or clause.names != earlier.names:
        return False
    return earlier.text().split()[0] == clause.verb.split()[0]
