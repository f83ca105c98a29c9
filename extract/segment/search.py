"""One search over the whole show: which dish every unit of speech belongs to, or none.

A state is the dish cooked last, whether the talk is in it now, and how many dishes have been begun. The path is sought that
is likeliest under the reader: what each unit is for, the dish it places it in, where dishes begin or are taken up
again; then the units of each dish are weighed against those of the others, and the path is sought anew.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from extract.reader.labels import ROLES
from extract.reader.reading import Floats, Places, Reading

OUTSIDE = tuple(ROLES.index(role) for role in ("hi", "tease", "visit", "break", "bye", "junk"))
FLOOR = 1e-4


@dataclass(frozen=True, slots=True)
class Weights:
    """How much each kind of evidence counts; ``dish`` is what a further dish costs, ``rounds`` how often units are weighed."""

    role: float = 1.0
    slot: float = 0.5
    begin: float = 1.0
    kin: float = 1.0
    dish: float = 2.0
    rounds: int = 2


WEIGHTS = Weights()


def place_units(reading: Reading, weights: Weights = WEIGHTS, *, most: int = 7) -> Places:
    """For each unit the number of its dish, from 1 in the order in which they are begun, or 0 for none."""
    sizes = np.diff(np.append(reading.starts, len(reading))).astype(np.float64)
    sizes = np.minimum(sizes / 8, 1.5)
    outside = reading.unit_roles[:, OUTSIDE].sum(1)
    inside = np.log(np.clip(1 - outside, FLOOR, 1)) - np.log(np.clip(outside, FLOOR, 1))
    slots = np.log(np.clip(reading.dish[:, 1 : most + 1], FLOOR, 1))
    slots = slots - np.log(np.clip(reading.dish[:, 1:].sum(1, keepdims=True), FLOOR, 1))
    begin = np.log(np.clip(reading.begin, FLOOR, 1))
    kin = np.zeros_like(slots)
    paths, agreement = [], None
    for turn in range(weights.rounds + 1):
        worth = weights.role * inside[:, None] + weights.slot * slots + weights.kin * kin
        gain = np.asarray(worth * sizes[:, None], dtype=np.float32)
        paths.append(_best_path(gain, np.asarray(weights.begin * begin, dtype=np.float32), weights.dish))
        if turn < weights.rounds:
            agreement = _log_odds(reading) if agreement is None else agreement
            kin = _kin(agreement, paths[-1], slots.shape[1])
    return _numbered(paths[-1])


def _log_odds(reading: Reading) -> Floats:
    return np.asarray(np.clip(reading.agreement(), -6, 6), dtype=np.float32)


def _kin(agreement: Floats, path: Places, most: int) -> Floats:
    """For each unit and dish how much better it agrees with the dish's units than with the others' on the whole."""
    out = np.zeros((len(path), most), dtype=np.float32)
    for dish in range(1, most + 1):
        own = path == dish
        if own.any():
            near = agreement[:, own]
            out[:, dish - 1] = -np.logaddexp(0, -near).mean(1)
        else:
            out[:, dish - 1] = -np.logaddexp(0, agreement[:, path > 0]).mean(1) if (path > 0).any() else 0.0
    return out


def _best_path(gain: Floats, begin: Floats, cost: float) -> Places:
    """The likeliest dish of each unit. ``gain``: u × dishes, what being in a dish is worth beside being in none."""
    count, most = gain.shape
    last, inside, begun = _states(most)
    step = _steps(last, inside, begun)
    moves = np.full((3, *step.shape), -np.inf)
    for kind in range(3):
        moves[kind][step == kind] = -cost if kind == 1 else 0.0
    score = np.where((last == 0) & (begun == 0), 0.0, -np.inf)
    back = np.zeros((count, len(last)), dtype=np.int32)
    for unit in range(count):
        options = (moves + begin[unit][:, None, None]).max(0) + score[:, None]
        back[unit] = options.argmax(0)
        worth = np.where(inside, gain[unit][np.maximum(last, 1) - 1], 0.0)
        score = options.max(0) + worth
    state = int(score.argmax())
    path = np.zeros(count, dtype=np.int64)
    for unit in range(count - 1, -1, -1):
        path[unit] = last[state] if inside[state] else 0
        state = int(back[unit, state])
    return path


def _states(most: int) -> tuple[Places, Places, Places]:
    """The dish cooked last (0 before any), whether the talk is in it, and how many were begun."""
    rows = [(0, 0, 0)]
    rows += [
        (last, inside, begun)
        for begun in range(1, most + 1)
        for last in range(1, begun + 1)
        for inside in (0, 1)
    ]
    last, inside, begun = (np.array(column) for column in zip(*rows, strict=True))
    return last, inside, begun


def _steps(last: Places, inside: Places, begun: Places) -> Places:
    """For each pair of states 0 where one goes on, 1 where a dish is begun, 2 where one is taken up again, -1 for none."""
    out = np.full((len(last), len(last)), -1)
    same = (last[:, None] == last[None, :]) & (begun[:, None] == begun[None, :])
    out[same] = 0
    enters = inside[None, :] == 1
    new = enters & (begun[None, :] == begun[:, None] + 1) & (last[None, :] == begun[None, :])
    again = enters & (begun[:, None] == begun[None, :]) & (last[:, None] != last[None, :])
    out[new], out[again] = 1, 2
    return out


def _numbered(path: Places) -> Places:
    """The dishes numbered from 1 without gaps, in order of their first unit."""
    order: dict[int, int] = {}
    for dish in path.tolist():
        if dish:
            order.setdefault(dish, len(order) + 1)
    return np.array([order.get(dish, 0) for dish in path.tolist()], dtype=np.int64)
