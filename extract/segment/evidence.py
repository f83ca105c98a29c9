"""What the reader tells of a show's dishes, unit by unit, in weighed log odds.

The weights stand in ``lexicons/learned/dish_weights.tsv``, written by their fit alone
(``extract/reader/training/dishes.py``).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from extract.lexicon import read_lexicon
from extract.reader.labels import ROLES
from extract.reader.reading import Floats, Places, Reading

OUTSIDE = tuple(ROLES.index(role) for role in ("hi", "tease", "visit", "break", "bye", "junk"))
MOST = 6  # dishes in one show
UNIT, LONGEST = 8, 1.5  # tokens that count as one, and what the longest unit counts
LENGTH = 1000  # tokens of talk for which a dish costs what its weight says; chance agreement grows as the talk does
FLOOR = 1e-4
NOWHERE = -3.0  # log odds of a unit's being of a dish that has no other


@dataclass(frozen=True, slots=True)
class Weights:
    """How much each kind of evidence counts, and what each turn of the talk costs.

    ``role``, ``none``: that a unit is outside every dish, by its role and by its dish, of which neither is surer than
    ``floor``. ``slot``: the dish's number, in the end; ``start``: the same in the first paths. ``begin``: that a dish
    begins or is taken up again. ``kin``: the agreement with a dish's other units, shifted by ``shift``;
    ``shrink`` units speak for none. ``dish``, ``again``, ``leave``, ``enter``: costs of a further dish (in a talk of
    ``LENGTH`` tokens), of one taken up again, of leaving for talk around the dishes and of coming back.
    ``few``: what a dish costs in which no foods go in, less of it up to ``lines`` foods.
    """

    role: float
    none: float
    slot: float
    start: float
    begin: float
    kin: float
    dish: float
    again: float
    leave: float
    enter: float
    few: float
    floor: float
    shrink: float
    shift: float
    lines: float


@dataclass(frozen=True, slots=True)
class Evidence:
    """Of each of u units: what being in a dish is worth, in which (u × dishes), what begins (u × 3), and its agreement.

    ``sizes``: tokens in eights; ``foods``: how many foods go in; ``length``: tokens in ``LENGTH``;
    ``where`` (u × 64), ``offset`` and ``scale``: the log odds
    that two units agree are the offset and the scaled product of their vectors.
    """

    inside: Floats
    slots: Floats
    begin: Floats
    sizes: Floats
    foods: Floats
    length: float
    where: Floats
    offset: float
    scale: float


@lru_cache(maxsize=1)
def dish_weights() -> Weights:
    """The fitted weights."""
    rows = read_lexicon("dish_weights", columns=("evidence", "weight"))
    return Weights(**{row["evidence"]: float(row["weight"]) for row in rows})


def gather(reading: Reading, weights: Weights) -> Evidence:
    """The reader's probabilities as log odds."""
    low, high = weights.floor, 1 - weights.floor
    tokens = np.diff(np.append(reading.starts, len(reading))).astype(np.float64)
    outside = reading.unit_roles[:, OUTSIDE].sum(1).clip(low, high)
    none = reading.dish[:, 0].clip(low, high)
    slots = reading.dish[:, 1 : MOST + 1]
    slots = np.log((slots / slots.sum(1, keepdims=True).clip(1e-9)).clip(low, 1)) * (1 - none[:, None])
    begin = np.log(reading.begin.clip(FLOOR, 1))
    offset, scale = reading.biases.where
    return Evidence(
        inside=weights.role * np.log(1 / outside - 1) + weights.none * np.log(1 / none - 1),
        slots=slots,
        begin=weights.begin * (begin - begin[:, :1]),
        sizes=np.minimum(tokens / UNIT, LONGEST),
        foods=np.asarray(reading.over_units(reading.things)[:, 1] * tokens, dtype=np.float32),
        length=len(reading) / LENGTH,
        where=reading.where,
        offset=float(offset),
        scale=float(np.exp(scale)) / 8,
    )


def kinship(evidence: Evidence, path: Places, weights: Weights) -> Floats:
    """For each unit and dish the log likelihood that the unit agrees with the dish's others, taken as one."""
    owned = (path[:, None] == np.arange(1, MOST + 1)) * evidence.sizes[:, None]
    products = evidence.where @ (owned.T @ evidence.where).T
    products = products - owned * (evidence.where**2).sum(1, keepdims=True)
    others = owned.sum(0) - owned
    scores = evidence.offset + weights.shift + evidence.scale * products / (others + weights.shrink)
    return np.where(others < 0.5, NOWHERE, -np.logaddexp(0, -scores))
