"""The parts of a dish ("the pastry", "for the glaze"): which lines stand in one, and what it is called.

The reader tells for each line whether it stands in a part, whether it opens one, and which word of the dish names it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from extract.spot.food_names import word_key

if TYPE_CHECKING:
    from spacy.tokens import Doc

    from extract.reader.reading import Floats, Places, Reading
    from extract.reconcile.lines import Line
    from extract.segment.stretch import Stretch

NONE = 0.75  # the likelihood of standing in no part from which a line does
LEAST = 0.02
PHRASE = 0.2
NAMES = frozenset({"NOUN", "PROPN", "ADJ", "VERB"})


@dataclass(frozen=True, slots=True)
class Part:
    """A part of a dish is made between tokens ``start`` and ``end``; ``also`` are further names it is given."""

    name: str
    start: int
    end: int
    also: tuple[str, ...] = ()


@dataclass
class Run:
    """Lines in a row that stand in one part; ``names`` holds how likely each word of the dish is the part's name."""

    lines: list[Line]
    names: dict[str, float]
    scores: Floats


def find_parts(doc: Doc, reading: Reading, dish: Stretch, lines: Sequence[Line]) -> list[Part]:
    """Give every line of a dish its part, and return the parts in the order in which they are opened."""
    places = np.array([i for i in range(dish.start, dish.end) if dish.holds(i) and doc[i].pos_ in NAMES])
    if not len(places):
        return []
    keys = [word_key(doc[i].lower_) for i in places.tolist()]
    ordered = sorted(lines, key=lambda line: line.surest.mention.food.start)
    runs = list(_runs(reading, places, keys, ordered))
    spans: dict[str, list[int]] = {}
    names: dict[str, str] = {}
    before = ""
    for run in runs:
        key = _named(run, before)
        if key not in names:
            names[key] = _phrase(doc, places, keys, run.scores, key)
        for line in run.lines:
            line.component = names[key]
            spans.setdefault(key, []).extend((line.at, line.surest.mention.food.end))
        before = key
    parts = [Part(names[key], min(own), max(own)) for key, own in spans.items()]
    return sorted(parts, key=lambda part: part.start)


def _runs(reading: Reading, places: Places, keys: Sequence[str], lines: Sequence[Line]) -> Iterator[Run]:
    """The lines that stand in parts, cut where one is opened."""
    current: Run | None = None
    for line in lines:
        food = line.surest.mention.food
        at = reading.head_of(food.start, food.end)
        scores = np.exp(reading.name_scores(at, places, share=False))
        none, opens, stays = (float(p) for p in reading.parting[at])
        if (scores[0] + none) / 2 > NONE:
            if current is not None:
                yield current
            current = None
            continue
        if current is None or opens > stays:
            if current is not None:
                yield current
            current = Run([], {}, np.zeros(len(places), dtype=np.float32))
        current.lines.append(line)
        current.scores += scores[1:]
        for key, score in zip(keys, scores[1:].tolist(), strict=True):
            current.names[key] = current.names.get(key, 0.0) + score
    if current is not None:
        yield current


def _named(run: Run, before: str) -> str:
    """The name of a run of lines: the likeliest, but not that of the run before, which it was told apart from."""
    ranked = sorted(run.names, key=lambda key: -run.names[key])
    others = [key for key in ranked if key != before]
    enough = others and run.names[others[0]] >= LEAST * len(run.lines)
    return others[0] if enough else ranked[0]


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
