"""The parts of a dish ("the pastry", "for the glaze"): which lines stand in one, and what it is called.

The reader tells for each line whether it stands in a part, whether it opens one, and which word of the dish names it.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from extract.spot.names.foods import word_key

if TYPE_CHECKING:
    from spacy.tokens import Doc

    from extract.reader.reading import Floats, Places, Reading
    from extract.reconcile.lines.lines import Line
    from extract.segment.stretch import Stretch

NONE = 0.6  # how much of the likelihood of standing in no part counts
FLOOR = 1e-3
MOST = 8  # names looked at
UNSAID = 0.3  # what is left to a name where the words point to others: many parts are never named in full
PHRASE = 0.2
NAMES = frozenset({"NOUN", "PROPN", "ADJ", "VERB"})


@dataclass(frozen=True, slots=True)
class Part:
    """A part of a dish is made between tokens ``start`` and ``end``; ``also`` are further names it is given."""

    name: str
    start: int
    end: int
    also: tuple[str, ...] = ()


def find_parts(doc: Doc, reading: Reading, dish: Stretch, lines: Sequence[Line]) -> list[Part]:
    """Give every line of a dish its part, and return the parts in the order in which they are opened.

    One search over the lines: each is likely of a name or of none, and goes on with the part before it or opens one.
    """
    places = np.array([i for i in range(dish.start, dish.end) if dish.holds(i) and doc[i].pos_ in NAMES])
    ordered = sorted(lines, key=lambda line: line.surest.mention.food.start)
    if not len(places) or not ordered:
        return []
    keys = [word_key(doc[i].lower_) for i in places.tolist()]
    heads = [reading.head_of(m.start, m.end) for m in (line.surest.mention.food for line in ordered)]
    scores = np.array([np.exp(reading.name_scores(at, places, share=False)) for at in heads])
    chosen = _best_names(keys, scores, reading.parting[heads])
    spans: dict[str, list[int]] = {}
    for line, key in zip(ordered, chosen, strict=True):
        if key:
            spans.setdefault(key, []).extend((line.at, line.surest.mention.food.end))
    total = scores[:, 1:].sum(0)
    names = {key: _phrase(doc, places, keys, total, key) for key in spans}
    for line, key in zip(ordered, chosen, strict=True):
        line.component = names.get(key, "")
    parts = [Part(names[key], min(own), max(own)) for key, own in spans.items()]
    return sorted(parts, key=lambda part: part.start)


def _best_names(keys: Sequence[str], scores: Floats, parting: Floats) -> list[str]:
    """The likeliest part of each line, "" for none. ``scores``: lines × (1 + places); ``parting``: lines × 3."""
    order = list(dict.fromkeys(keys))
    column = {key: k for k, key in enumerate(order)}
    named = np.zeros((len(scores), len(order)))
    np.add.at(named.T, [column[key] for key in keys], scores[:, 1:].T)
    kept = np.argsort(-named.sum(0))[:MOST]
    none = (scores[:, 0] + parting[:, 0]) / 2 * NONE
    spoken = np.sqrt(named[:, kept] / (1 - scores[:, :1] + FLOOR) + UNSAID)
    likely = np.log(np.column_stack([none, (1 - none)[:, None] * spoken]) + FLOOR)
    best, back = likely[0], []
    for number in range(1, len(scores)):
        opens, stays = np.log(parting[number, 1] + FLOOR), np.log(parting[number, 2] + FLOOR)
        step = np.full((len(best), len(best)), opens)
        np.fill_diagonal(step, stays)
        step[:, 0] = 0.0
        options = best[:, None] + step
        back.append(options.argmax(0))
        best = options.max(0) + likely[number]
    state, path = int(best.argmax()), []
    for places in reversed([None, *back]):
        path.append(state)
        state = int(places[state]) if places is not None else state
    return ["" if not state else order[int(kept[state - 1])] for state in reversed(path)]


def _phrase(doc: Doc, places: Places, keys: Sequence[str], scores: Floats, best: str) -> str:
    """The name around its likeliest place: the words in a row that are likely too."""
    own = {int(place): float(score) for place, score in zip(places, scores, strict=True)}
    at = max((p for p, key in zip(places.tolist(), keys, strict=True) if key == best), key=lambda p: own[p])
    start, end = at, at + 1
    while start - 1 in own and own[start - 1] >= PHRASE * own[at]:
        start -= 1
    while end in own and own[end] >= PHRASE * own[at]:
        end += 1
    return str(doc[start:end].text.lower())


def component_at(parts: Iterable[Part], at: int) -> str:
    """The part being made at token ``at``, "" where it is the dish itself."""
    return next((part.name for part in parts if part.start <= at < part.end), "")
