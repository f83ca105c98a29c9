"""Units of speech: what stands between full stops or breaths, short enough to have one purpose.

Recognition without marks is cut where a run grows long; the same rule serves both, so that talk with half its
marks lost is read as well.
"""

from __future__ import annotations

from collections.abc import Sequence

STOPS = frozenset({".", "?", "!", "…"})
PAUSES = frozenset({",", ";", ":", "-", "–", "—"})
SHORTEST, LONGEST = 5, 12


def unit_starts(words: Sequence[str], offset: int = 0) -> list[int]:
    """The first token of every unit. ``offset``: tokens that the first unit is short of the longest, in training."""
    starts, length = [0], offset
    for i, word in enumerate(words[:-1]):
        length += 1
        closed = word in STOPS or (word in PAUSES and length >= SHORTEST) or length >= LONGEST
        if closed and words[i + 1] not in STOPS and words[i + 1] not in PAUSES:
            starts.append(i + 1)
            length = 0
    return starts
