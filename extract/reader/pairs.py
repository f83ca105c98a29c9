"""How far apart two words of a pair stand, in buckets that grow with the distance."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

EDGES = np.array([1, 2, 3, 4, 5, 7, 9, 13, 21, 41])
NEAR_BUCKETS = 2 * len(EDGES) + 1
FAR = 8


def buckets(distance: NDArray[np.int64], scale: int = 1) -> NDArray[np.int64]:
    """The bucket of each signed distance in tokens, ``scale`` tokens counted as one; the middle one is 0."""
    size = np.searchsorted(EDGES, np.abs(distance) // scale, side="right")
    return len(EDGES) + np.sign(distance) * size
