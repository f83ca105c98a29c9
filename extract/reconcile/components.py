"""Where the making of a part of a dish begins: "for the dressing", "now the cake itself", "So, pastry." """

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from extract.lexicon import read_lexicon
from extract.spot.spans import Food

if TYPE_CHECKING:
    from spacy.tokens import Doc

REACH = 9
LOOK_AHEAD = 60
MINIMUM_LINES = 2
STOPS = frozenset({".", "?", "!"})


@dataclass(frozen=True, slots=True)
class Opening:
    """A part of the dish begins to be made at token ``at``; it is called ``name``."""

    name: str
    at: int


@cache
def _patterns(side: str) -> tuple[str, ...]:
    rows = read_lexicon("component_cues", columns=("side", "pattern"))
    return tuple(r["pattern"] for r in rows if r["side"] == side)


def find_openings(doc: Doc, made: Sequence[Food], line_starts: Sequence[int]) -> list[Opening]:
    """Each part's opening, in order: a made thing named by an opening phrase and followed by its foods.

    ``made`` are the mentions of made things in one dish, ``line_starts`` the tokens at which its lines begin.
    """
    lower = [t.lower_ for t in doc]
    openings: list[Opening] = []
    for food in made:
        if not _opens(lower, food):
            continue
        following = [s for s in line_starts if food.start <= s < food.end + LOOK_AHEAD]
        if len(following) >= MINIMUM_LINES and not any(o.name == food.name for o in openings):
            openings.append(Opening(food.name, _sentence_start(lower, food.start)))
    return openings


def _opens(lower: Sequence[str], food: Food) -> bool:
    start = _sentence_start(lower, food.start)
    before = " ".join(lower[max(start, food.start - REACH) : food.start]) + " "
    after = " ".join(lower[food.end : food.end + REACH])
    if any(re.search(p, before) for p in _patterns("before")):
        return True
    if any(re.search(p, after) for p in _patterns("after")):
        return True
    end = food.end
    while end < len(lower) and lower[end] not in STOPS:
        end += 1
    alone = " ".join([*lower[start : food.start], "X", *lower[food.end : end]])
    return any(re.search(p, alone) for p in _patterns("alone"))


def _sentence_start(lower: Sequence[str], at: int) -> int:
    while at > 0 and lower[at - 1] not in STOPS:
        at -= 1
    return at


def component_at(openings: Iterable[Opening], at: int) -> str:
    """The part being made at token ``at``, "" before the first opening."""
    name = ""
    for opening in openings:
        if opening.at <= at:
            name = opening.name
    return name
