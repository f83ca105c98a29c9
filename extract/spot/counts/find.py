"""What a dish makes and whether it was made in another batch than the normal one."""

from __future__ import annotations

from typing import TYPE_CHECKING

from extract.spot.counts.batches import batch_at
from extract.spot.counts.yields import yield_at
from extract.spot.spans import Count
from extract.spot.words import Words

if TYPE_CHECKING:
    from spacy.tokens import Doc


def find_counts(doc: Doc, words: Words | None = None) -> tuple[list[Count], list[Count]]:
    """The yields and the batch factors that the talk states, each list in order.

    A batch is a ``Count`` of unit "batch": 2 for a double one, 1/2 for a half, 1 for one said not to be
    doubled or halved. "You can double it" is none.
    """
    words = words or Words.of(doc)
    yields: list[Count] = []
    batches: list[Count] = []
    for place in range(len(words)):
        if not (yields and place < yields[-1].end) and (made := yield_at(words, place)) is not None:
            yields.append(made)
        if not (batches and place < batches[-1].end) and (batch := batch_at(words, place)) is not None:
            batches.append(batch)
    return yields, batches
