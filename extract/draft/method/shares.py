"""The shares that the ledger has and that no action tells: each is told in the step where it was taken.

"Half of that goes in the freezer" has no verb of a cook's work in it, or its object is a pronoun; what is divided
has to go somewhere all the same.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import TYPE_CHECKING

from extract.draft.method.phrases.clause import Clause
from extract.reconcile.ledger.wording import fraction_words
from extract.spot.actions.span import ActionSpan
from extract.spot.shares.words import is_one_of
from extract.spot.verbs.words import words

if TYPE_CHECKING:
    from extract.reconcile.hearing.hearing import Portion

DIVIDES = "divide"
GOES = frozenset({"add", "naming", "light", "move", "store"})
LEAST_WORDS = 2  # a share told in one word ("third", "left") may be of anything
GOES_REACH = 3  # tokens behind a share within which a verb says where it goes
SURE = 1.0


@dataclass(frozen=True)
class Taken:
    """The shares taken in one dish, ``portions`` in the order said."""

    portions: Sequence[Portion] = ()
    utterances: Sequence[tuple[int, int]] = ()

    def clause(self, action: ActionSpan) -> Clause | None:
        """The clause of a share that is told for itself, None for any other action."""
        portion = next((p for p in self.portions if p.share.start == action.at), None)
        if portion is None or action.verb != DIVIDES:
            return None
        return Clause("", [], [], whole=order(portion), names=[portion.of], group="add")

    def untold(self, text: str, actions: Sequence[ActionSpan]) -> list[ActionSpan]:
        """An action for each share that the text of a method does not tell, of those taken amid its actions."""
        told = text.lower()
        if not actions:
            return []
        first, last = actions[0].utterance[0], actions[-1].utterance[1]
        found: list[ActionSpan] = []
        for portion in self.portions:
            taken = name(portion)
            if not taken or not first <= portion.share.start <= last:
                continue
            head = re.escape(portion.of.split()[-1])
            share = re.escape(taken.removesuffix(" the"))
            said = re.search(rf"\b{share} (?:[\w-]+ ){{0,3}}{head}\b", told)
            if said is not None:  # one sentence tells one share: the next of the same size needs its own
                told = told[: said.start()] + told[said.end() :]
                continue
            found.append(self.action(portion))
        return found

    def action(self, portion: Portion) -> ActionSpan:
        """Taking a share, as an action where it was said."""
        start, end = portion.share.start, portion.share.end
        utterance = next((u for u in self.utterances if u[0] <= start < u[1]), (start, end))
        return ActionSpan(DIVIDES, start, start, end, utterance, "add", implied=True, weight=SURE)


def without_shared(actions: Iterable[ActionSpan], taken: Sequence[ActionSpan]) -> list[ActionSpan]:
    """The actions without those foods, only named, of which a share is told for itself, and without where it goes."""
    found: list[ActionSpan] = []
    for action in actions:
        plain = not (action.heat or action.duration or action.until)
        named = (action.implied or action.group == "naming") and plain
        foods = any(share.end < p.start for share in taken for p in action.objects if p.kind == "food")
        goes = plain and action.group in GOES
        if goes and not foods and any(share.end <= action.at < share.end + GOES_REACH for share in taken):
            continue  # "the rest goes in the fridge"
        objects = tuple(
            p for p in action.objects if not any(share.start <= p.start <= share.end for share in taken)
        )
        if not named or objects == action.objects:
            found.append(action)
        elif objects:
            found.append(replace(action, objects=objects))
    return found


def name(portion: Portion) -> str:
    """A share in the words of a method, to the name of what is shared; "" where it is not sure what is taken."""
    share, fraction = portion.share, portion.fraction
    if not portion.of or share.end - share.start < LEAST_WORDS or share.known:
        return ""
    if fraction == "rest" or share.other:
        return "the rest of the"
    if not isinstance(fraction, Fraction) or not 0 < fraction < 1:
        return ""
    return f"{fraction_words(fraction)} of the"


def order(portion: Portion) -> str:
    """What is done with a share: "put half of the sauce over the meat", "keep the rest of the dough in the freezer"."""
    share = portion.share
    what, into = f"{name(portion)} {portion.of}", share.into
    if portion.gone or share.kept:
        return f"keep {what} {into or 'for later'}"
    lead, _, there = into.partition(" ")
    if lead == "for":
        return (
            f"use {what}"
            if there.split()[-1:] and there.split()[-1] in words("unit noun")
            else f"use {what} {into}"
        )
    return f"put {what} {into}" if is_one_of(lead, "place") else f"use {what}"
