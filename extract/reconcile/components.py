"""The parts of a dish ("the pastry", "for the glaze"): which lines stand in one, and what it is called.

The reader tells for each line whether it stands in a part, whether it opens one, and which word of the dish names it.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from extract.spot.food_names import word_key

if TYPE_CHECKING:
    from spacy.tokens import Doc

    from extract.reader.reading import Floats, Places, Reading
    from extract.reconcile.lines import Line
    from extract.segment.stretch import Stretch

IN_PART = 0.5
STAYS = 0.25  # what a name must have of the best one's likelihood for the line to stay in the part before
LEAST = 0.1
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
    """Give every line of a dish its part, and return the parts in the order in which they are opened."""
    places = np.array([i for i in range(dish.start, dish.end) if dish.holds(i) and doc[i].pos_ in NAMES])
    if not len(places):
        return []
    keys = [word_key(doc[i].lower_) for i in places.tolist()]
    spans: dict[str, list[int]] = {}
    before = ""
    names: dict[str, str] = {}
    for line in sorted(lines, key=lambda line: line.surest.mention.food.start):
        food = line.surest.mention.food
        key = _part_of(doc, reading, places, keys, reading.head_of(food.start, food.end), before, names)
        line.component = names.get(key, "")
        if key:
            spans.setdefault(key, []).extend((line.at, food.end))
        before = key
    parts = [Part(names[key], min(own), max(own)) for key, own in spans.items()]
    return sorted(parts, key=lambda part: part.start)


def _part_of(
    doc: Doc, reading: Reading, places: Places, keys: Sequence[str], at: int, before: str, names: dict[str, str]
) -> str:
    """The key of the part that a line stands in, "" for the dish itself; a new one's name is entered in ``names``."""
    scores = np.exp(reading.name_scores(at, places, share=False))
    none, opens, stays = (float(p) for p in reading.parting[at])
    if (scores[0] + none) / 2 > 1 - IN_PART:
        return ""
    found: dict[str, float] = {}
    for key, score in zip(keys, scores[1:].tolist(), strict=True):
        found[key] = found.get(key, 0.0) + score
    best = max(found, key=lambda key: found[key])
    if before and stays >= opens and (found.get(before, 0.0) >= STAYS * found[best] or found[best] < LEAST):
        return before
    known = next((key for key in names if best in names[key].split()), "")
    if known:
        return known
    names[best] = _phrase(doc, places, keys, scores[1:], best)
    return best


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
