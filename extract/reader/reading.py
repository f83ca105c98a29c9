"""What the reader makes of a talk, token by token and unit by unit, as numbers that the later stages ask."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np
from numpy.typing import NDArray

from extract.reader.labels import FIGURES, ROLES, THINGS
from extract.reader.pairs import FAR, buckets

Floats = NDArray[np.float32]
Places = NDArray[np.int64]
PAIR = 64


@dataclass(frozen=True)
class Biases:
    """How much distance speaks for a pair (``near`` amounts, ``far`` names, shares) and how units of a dish agree."""

    near: Floats
    far: Floats
    where: tuple[float, float]


@dataclass(frozen=True)
class Reading:
    """The reader's scores for a talk of n tokens in u units.

    ``starts``: the first token of each unit. Of units: ``dish`` (u × 8) and ``begin`` (u × 3, none, a dish, one taken
    up again) are probabilities, ``where`` (u × 64) the vectors by which units are told to be of one dish. Of tokens:
    ``role``, ``things``, ``figures``, ``title`` are probabilities in the order of ``labels``, ``optional`` (n) too,
    ``parting`` (n × 3: in no part, opens one, in the one before); ``pair`` holds the vectors of pairs.
    """

    starts: Places
    dish: Floats
    begin: Floats
    where: Floats
    role: Floats
    things: Floats
    figures: Floats
    title: Floats
    optional: Floats
    parting: Floats
    pair: Floats
    biases: Biases

    def __len__(self) -> int:
        return len(self.role)

    @cached_property
    def unit_of(self) -> Places:
        """The unit of each token."""
        owner = np.zeros(len(self), dtype=np.int64)
        owner[self.starts[1:]] = 1
        return np.cumsum(owner)

    @cached_property
    def unit_roles(self) -> Floats:
        """u × 14: the mean of its tokens' role probabilities."""
        return self.over_units(self.role)

    def over_units(self, rows: Floats) -> Floats:
        """The mean of the rows of each unit's tokens."""
        sums = np.add.reduceat(rows, self.starts, axis=0)
        sizes = np.diff(np.append(self.starts, len(self)))
        return np.asarray(sums / sizes[:, None], dtype=np.float32)

    def role_of(self, start: int, end: int, *names: str) -> float:
        """How likely the words from ``start`` to ``end`` have one of these roles."""
        columns = [ROLES.index(name) for name in names]
        return float(self.role[start : max(end, start + 1), columns].sum(1).mean())

    def is_thing(self, start: int, end: int, *names: str) -> float:
        """How likely the tokens are such things: the highest of them."""
        columns = [THINGS.index(name) for name in names]
        return float(self.things[start : max(end, start + 1), columns].sum(1).max())

    def is_figure(self, start: int, end: int, *names: str) -> float:
        """How likely the tokens are figures of such a kind (its first word will do: "heat"): the highest of them."""
        columns = [k for k, name in enumerate(FIGURES) if name in names or name.split(" ")[0] in names]
        return float(self.figures[start : max(end, start + 1), columns].sum(1).max())

    def head_of(self, start: int, end: int) -> int:
        """The last word of a food's name among its tokens: the last that is tagged as one."""
        tagged = np.flatnonzero(self.things[start:end, 1:5].sum(1) >= 0.5)
        return start + int(tagged[-1]) if len(tagged) else end - 1

    def amount_scores(self, at: int, places: Sequence[int]) -> Floats:
        """Log probabilities that the food whose last word is ``at`` has no amount, or that of each place."""
        own, spots = self.pair[at], np.asarray(places, dtype=np.int64)
        scores = self.pair[spots, PAIR : 2 * PAIR] @ own[:PAIR] / 8 + self.biases.near[buckets(spots - at)]
        return _log_softmax(np.concatenate([own[5 * PAIR : 5 * PAIR + 1], scores]))

    def name_scores(self, at: int, places: Places, *, share: bool) -> Floats:
        """The same for the word that names the part a line stands in, or the thing a share is taken of."""
        own, side = self.pair[at], int(share)
        query = own[(2 + side) * PAIR : (3 + side) * PAIR]
        far = self.biases.far[side][buckets(places - at, FAR)]
        scores = self.pair[places, 4 * PAIR : 5 * PAIR] @ query / 8 + far
        return _log_softmax(np.concatenate([own[5 * PAIR + 1 + side : 5 * PAIR + 2 + side], scores]))


def _log_softmax(scores: Any) -> Floats:
    top = scores - scores.max()
    return np.asarray(top - np.log(np.exp(top).sum()), dtype=np.float32)
