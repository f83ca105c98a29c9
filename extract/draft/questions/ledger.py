"""The kitchen ledger's faults in words for the cook: more taken than was made, a thing never made or never used."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import chain
from typing import TYPE_CHECKING

from extract.draft.questions.words import quoted
from extract.model import Question

if TYPE_CHECKING:
    from extract.language import Speech
    from extract.reconcile.ledger import Fault, Ledger

_BEFORE, _AFTER = 4, 8  # tokens around a fault that are quoted with it

TEXTS = {
    "over-used": "More of the {thing} is used than was made. Which of the shares is meant, and is there more of it?",
    "rest of nothing": "The rest of the {thing} is used after all of it was. How much was left?",
    "never made": "Where does the {thing} come from? It is used, and its making is not shown.",
    "never used": "What becomes of the {thing} that is left? It is not used in the show.",
}


def ledger_questions(ledger: Ledger, speech: Speech, start: int, end: int) -> list[Question]:
    """The questions that the ledger raises between tokens ``start`` and ``end`` (exclusive), each thing once."""
    faults = chain(ledger.faults, ledger.unused())
    return list(_questions((fault for fault in faults if start <= fault.at < end), speech))


def _questions(faults: Iterable[Fault], speech: Speech) -> Iterator[Question]:
    asked: set[tuple[str, str]] = set()
    for fault in faults:
        if (fault.kind, fault.thing) in asked:
            continue
        asked.add((fault.kind, fault.thing))
        last = len(speech.cue_at)
        said = [speech.evidence(max(0, fault.at - _BEFORE), min(last, fault.at + _AFTER))]
        text = TEXTS[fault.kind].format(thing=fault.thing) + quoted(said)
        yield Question(kind=fault.kind, about=fault.thing, text=text, said=said)
