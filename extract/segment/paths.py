"""The likeliest path through a show: for each unit the dish it belongs to, or none.

A state is how many dishes have been begun, which of them was cooked last, and whether the talk is in it now. Several
ways to weigh one show are followed side by side.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from extract.reader.reading import Floats, Places

STAY, ENTER, AGAIN, BEGIN = range(4)


class Costs(NamedTuple):
    """What it costs to begin a dish, to take one up again, to leave for other talk and to come back."""

    dish: float
    again: float
    leave: float
    enter: float


class _Back(NamedTuple):
    """From where each state was reached: the move into a dish and the dish before it; whether talk followed a dish."""

    move: Places
    source: Places
    left: Places


def best_paths(gain: Floats, begin: Floats, counts: Places, costs: Costs) -> tuple[Floats, Places]:
    """The worth of the best path of each way with just so many dishes, and its dishes (ways × u), 0 for none.

    ``gain``: ways × u × dishes, what being in a dish is worth beside being in none; ``begin``: ways × u × 3, what it
    is worth that nothing, a dish or one taken up again begins; ``counts``: dishes of each way.
    """
    ways, units, most = gain.shape
    inside = np.full((ways, most + 1, most), -np.inf)
    outside = inside.copy()
    outside[:, 0, 0] = 0.0
    back = _Back(*(np.zeros((units, ways, most + 1, most), dtype=np.int8) for _ in range(3)))
    for unit in range(units):
        inside, outside = _step(
            unit, inside, outside, gain[:, unit, None, :], begin[:, unit, :, None, None], costs, back
        )
    rows = np.arange(ways)
    final_in, final_out = inside[rows, counts] - costs.leave, outside[rows, counts]
    worth = np.maximum(final_in, final_out).max(1)
    within = final_in.max(1) > final_out.max(1)
    last = np.where(within, final_in.argmax(1), final_out.argmax(1))
    return worth, _trace(back, within, last, counts.copy())


def _step(
    unit: int, inside: Floats, outside: Floats, gain: Floats, begin: Floats, costs: Costs, back: _Back
) -> tuple[Floats, Floats]:
    """The scores of all states after one more unit."""
    ways, rows, most = inside.shape
    each, diagonal = np.arange(most), (slice(None), np.arange(1, most + 1), np.arange(most))
    left = inside - costs.leave
    rest = np.maximum(left, outside)
    first = rest.argmax(2)
    best = rest.max(2)
    others = np.where(each == first[..., None], -np.inf, rest)
    own = first[..., None] == each
    source = np.where(own, others.argmax(2)[..., None], first[..., None])
    options = np.full((4, ways, rows, most), -np.inf)
    options[STAY] = inside + begin[:, 0]
    options[ENTER, :, 1:] = outside[:, 1:] + begin[:, 0] - costs.enter
    options[AGAIN] = np.where(own, others.max(2)[..., None], best[..., None]) + begin[:, 2] - costs.again
    options[AGAIN][:, each[None, :] >= np.arange(rows)[:, None]] = -np.inf
    options[BEGIN][diagonal] = best[:, :-1] + begin[:, 1, :, 0] - costs.dish
    move = options.argmax(0)
    source[diagonal] = np.where(move[diagonal] == BEGIN, first[:, :-1], source[diagonal])
    back.move[unit], back.source[unit] = move, source
    back.left[unit] = left > outside
    return options.max(0) + gain, rest


def _trace(back: _Back, within: Places, last: Places, begun: Places) -> Places:
    """The paths that lead to the last states, from their ends."""
    units, ways = back.move.shape[:2]
    rows, paths = np.arange(ways), np.zeros((ways, units), dtype=np.int64)
    for unit in range(units - 1, -1, -1):
        paths[:, unit] = np.where(within, last + 1, 0)
        move = np.where(within, back.move[unit, rows, begun, last], -1)
        left = back.left[unit, rows, begun, last] > 0
        moved = move >= AGAIN
        source = np.where(moved, back.source[unit, rows, begun, last], last)
        begun = begun - (move == BEGIN)
        last = source
        here = back.left[unit, rows, begun, last] > 0
        within = np.where(move == -1, left, np.where(moved, here, move == STAY))
    return paths
