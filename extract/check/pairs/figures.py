"""One figure of an amount, and whether two of them in one unit are the same."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

Answer = Literal["same", "amount", "unit", "unknown"]
SAME_UNIT = Fraction(1, 200)


@dataclass(frozen=True, slots=True)
class Measure:
    """One figure of an amount: ``low`` to ``high`` in ``unit."""

    low: Fraction
    high: Fraction
    unit: str


@dataclass(frozen=True, slots=True)
class Verdict:
    """Whether two amounts agree and why; ``answer`` "unknown" where the two cannot be compared."""

    answer: Answer
    why: str = ""

    @property
    def same(self) -> bool:
        """Whether the amounts agree."""
        return self.answer == "same"


def by_figures(said: Measure, written: Measure, tolerance: Fraction, why: str) -> Verdict:
    """Whether two figures of one unit agree, each end within ``tolerance``, a part of the greater; ``why`` if so."""
    if _close(said.low, written.low, tolerance) and _close(said.high, written.high, tolerance):
        return Verdict("same", why)
    return Verdict("amount")


def _close(one: Fraction, other: Fraction, tolerance: Fraction) -> bool:
    return abs(one - other) <= tolerance * max(abs(one), abs(other))
