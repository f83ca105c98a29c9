"""A show cut into its dishes and the talk around them, by what the reader makes of every unit of speech."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

import numpy as np

from extract.reader.labels import ROLES
from extract.reader.reading import Places, Reading
from extract.segment.search import place_units
from extract.segment.stretch import Stretch
from extract.segment.titles import Title, name_dishes
from extract.spot.spotted import Spotted

REASONS = {
    "hi": "greeting",
    "tease": "teaser",
    "visit": "visit",
    "break": "break",
    "bye": "sign-off",
    "junk": "noise",
}
OUTSIDE = [ROLES.index(role) for role in REASONS]
FEWEST_FOODS = 0.8


@dataclass(frozen=True, slots=True)
class Segments:
    """A show in order: its dishes, and the talk that is no recipe."""

    dishes: tuple[Stretch, ...]
    talk: tuple[Stretch, ...]
    titles: tuple[Title, ...] = ()


def segment(spotted: Spotted) -> Segments:
    """The dishes of the talk with their stretches, and what is left out with the reason."""
    reading = spotted.reading
    if not len(reading):
        return Segments((), ())
    placed = _with_foods(reading, place_units(reading))
    edges = np.append(reading.starts, len(reading))
    dishes = tuple(_dish(placed, edges, number) for number in range(1, int(placed.max(initial=0)) + 1))
    talk = tuple(_talk(reading, placed, edges))
    return Segments(dishes, talk, name_dishes(spotted, dishes))


def _with_foods(reading: Reading, placed: Places) -> Places:
    """The units' dishes without those in which next to nothing goes in; what is left is numbered anew.

    A talk of one dish keeps it: whether anything goes into that one, its lines tell (``draft/heard.py``).
    """
    if placed.max(initial=0) <= 1:
        return placed
    foods = reading.over_units(reading.things)[:, 1] * np.diff(np.append(reading.starts, len(reading)))
    order: dict[int, int] = {}
    for dish in placed.tolist():
        if dish and dish not in order and float(foods[placed == dish].sum()) >= FEWEST_FOODS:
            order[dish] = len(order) + 1
    return np.array([order.get(dish, 0) for dish in placed.tolist()], dtype=np.int64)


def _dish(placed: Places, edges: Places, number: int) -> Stretch:
    """The stretch of a dish from its first unit to its last; where the talk is elsewhere are holes in it."""
    own = np.flatnonzero(placed == number)
    first, last = int(own[0]), int(own[-1])
    away = [unit for unit in range(first, last) if placed[unit] != number]
    holes = tuple((int(edges[a]), int(edges[b + 1])) for a, b in _runs(away))
    return Stretch(int(edges[first]), int(edges[last + 1]), visits=holes)


def _runs(numbers: list[int]) -> Iterator[tuple[int, int]]:
    """The first and last of every run of neighbours."""
    for _, run in groupby(enumerate(numbers), key=lambda pair: pair[1] - pair[0]):
        own = [number for _, number in run]
        yield own[0], own[-1]


def _talk(reading: Reading, placed: Places, edges: Places) -> Iterator[Stretch]:
    """What belongs to no dish, cut where its reason changes."""
    roles = reading.unit_roles[:, OUTSIDE].argmax(1)
    names = list(REASONS.values())
    free = [unit for unit in range(len(placed)) if not placed[unit]]
    for a, b in _runs(free):
        for role, run in groupby(range(a, b + 1), key=lambda unit: int(roles[unit])):
            units = list(run)
            yield Stretch(int(edges[units[0]]), int(edges[units[-1] + 1]), names[role])
