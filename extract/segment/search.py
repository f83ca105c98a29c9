"""One search over the whole show: which dish every unit of speech belongs to, or none.

Paths are sought for every number of dishes, from two starts: where the reader puts the units by the order of the
dishes, and the runs of talk gathered by how well they agree. Each dish's units then make one vector, every unit is
weighed against all of them, and the paths are sought anew. The path that is worth
most is kept. The work grows as the talk does.
"""

from __future__ import annotations

import numpy as np

from extract.reader.reading import Floats, Places, Reading
from extract.segment.evidence import MOST, Evidence, Weights, dish_weights, gather, kinship
from extract.segment.groups import gather_groups, numbered
from extract.segment.paths import Costs, best_paths

ROUNDS = 3  # how often the units are weighed against the dishes
BARRED = -1e6


def place_units(reading: Reading, weights: Weights | None = None) -> Places:
    """For each unit the number of its dish, from 1 in the order in which they are begun, or 0 for none."""
    if not len(reading.starts):
        return np.zeros(0, dtype=np.int64)
    weights = weights or dish_weights()
    evidence = gather(reading, weights)
    paths, counts = _first_paths(evidence, reading.begin[:, 1:].sum(1), weights)
    for _ in range(ROUNDS):
        kin = [
            weights.slot * evidence.slots + weights.kin * kinship(evidence, path, weights) for path in paths
        ]
        worth, paths = _seek(evidence, np.stack(kin), counts, weights)
    worth = worth - np.array(
        [_thin(evidence, path, n, weights) for path, n in zip(paths, counts.tolist(), strict=True)]
    )
    return numbered(paths[int(worth.argmax())])


def _first_paths(evidence: Evidence, turns: Floats, weights: Weights) -> tuple[Places, Places]:
    """The paths to start from (ways × u) and the number of dishes in each."""
    counts = np.arange(1, MOST + 1)
    slots = np.broadcast_to(weights.start * evidence.slots, (MOST, *evidence.slots.shape))
    _, paths = _seek(evidence, slots, counts, weights)
    grouped = gather_groups(evidence, turns)
    return np.stack([*paths, *grouped.values()]), np.array([*counts, *grouped])


def _seek(evidence: Evidence, worth: Floats, counts: Places, weights: Weights) -> tuple[Floats, Places]:
    """The best path of each way with its number of dishes. ``worth``: ways × u × dishes, of each dish for a unit."""
    gain = (evidence.inside[:, None] + worth) * evidence.sizes[:, None]
    barred = np.arange(MOST) >= counts[:, None]
    gain = np.where(barred[:, None, :], BARRED, gain)
    costs = Costs(weights.dish * evidence.length, weights.again, weights.leave, weights.enter)
    return best_paths(
        gain, np.broadcast_to(evidence.begin, (len(counts), *evidence.begin.shape)), counts, costs
    )


def _thin(evidence: Evidence, path: Places, count: int, weights: Weights) -> float:
    """What the dishes cost into which few foods go."""
    foods = np.bincount(path, evidence.foods, count + 1)[1:]
    return float(weights.few * np.maximum(0, 1 - foods / weights.lines).sum())
