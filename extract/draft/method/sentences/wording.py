"""The words of a step: imperative, plain, and no more than the cook said."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Protocol

from extract.draft.method.phrases.timing import moment_words
from extract.draft.method.sentences.at_once import worked_at_once
from extract.draft.method.sentences.joined import sentences
from extract.draft.method.sentences.together import merged

if TYPE_CHECKING:
    from collections.abc import Callable

    from extract.draft.method.phrases.clause import Clause
    from extract.draft.method.sentences.at_once import Said
    from extract.model import Action
    from extract.spot.actions.span import ActionSpan


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
