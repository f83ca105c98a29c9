"""Runs of talk gathered into dishes by how well they agree: where the search for the dishes may start."""

from __future__ import annotations

import numpy as np

from extract.reader.reading import Floats, Places
from extract.segment.evidence import MOST, Evidence

LONGEST, RUNS = 12, 150  # units of the usual size in a run; where a long show has more runs they grow longer
TURN = 0.3  # how likely a dish begins or is taken up again where a run ends


def gather_groups(evidence: Evidence, turns: Floats) -> dict[int, Places]:
    """For each number of groups from 2 to the most the group of every unit, 0 outside.

    ``turns``: how likely a dish begins or is taken up again at each unit. The two groups that agree best are made one
    until one is left; groups that disagree are kept apart the longer the larger the smaller one is.
    """
    runs = _runs(evidence, turns)
    count = int(runs.max(initial=0))
    owned = (runs[:, None] == np.arange(1, count + 1)) * evidence.sizes[:, None]
    totals, sums = owned.sum(0), owned.T @ evidence.where
    label = np.arange(count + 1)
    found = {}
    while len(totals) > 1:
        a, b = _closest(evidence, totals, sums)
        label[label == b + 1] = a + 1
        label[label > b + 1] -= 1
        totals[a], sums[a] = totals[a] + totals[b], sums[a] + sums[b]
        totals, sums = np.delete(totals, b), np.delete(sums, b, axis=0)
        if 2 <= len(totals) <= MOST:
            found[len(totals)] = numbered(label[runs])
    return found


def _runs(evidence: Evidence, turns: Floats) -> Places:
    """The run of each unit from 1, 0 outside: cut where the talk leaves the dishes, turns or is long."""
    runs = np.zeros(len(turns), dtype=np.int64)
    number, length, longest = 0, np.inf, max(LONGEST, float(evidence.sizes.sum()) / RUNS)
    for unit, size in enumerate(evidence.sizes):
        if evidence.inside[unit] <= 0:
            length = np.inf
            continue
        if turns[unit] > TURN or length >= longest:
            number, length = number + 1, 0.0
        length += size
        runs[unit] = number
    return runs


def _closest(evidence: Evidence, totals: Floats, sums: Floats) -> tuple[int, int]:
    """The two groups that are best made one."""
    means = sums / totals[:, None]
    odds = evidence.offset + evidence.scale * (means @ means.T)
    smaller = np.minimum(totals[:, None], totals)
    cost = np.where(odds > 0, -odds / smaller, -odds * smaller)
    np.fill_diagonal(cost, np.inf)
    a, b = divmod(int(cost.argmin()), len(totals))
    return min(a, b), max(a, b)


def numbered(path: Places) -> Places:
    """The dishes numbered from 1 without gaps, in order of their first unit."""
    order: dict[int, int] = {}
    for dish in path.tolist():
        if dish:
            order.setdefault(dish, len(order) + 1)
    return np.array([order.get(dish, 0) for dish in path.tolist()], dtype=np.int64)
