"""Exact quantities: ranges of fractions, and what volume an amount of a kitchen unit is."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from extract.lexicon import read_lexicon
from extract.spot.spans import Amount


@dataclass(frozen=True, slots=True, order=True)
class Range:
    """A figure or a range of figures, ``low <= high``, exact.

    Raises ValueError where ``low > high``.
    """

    low: Fraction
    high: Fraction

    def __post_init__(self) -> None:
        if self.low > self.high:
            problem = f"a range runs from low to high, not from {self.low} to {self.high}"
            raise ValueError(problem)

    def __add__(self, other: Range) -> Range:
        return Range(self.low + other.low, self.high + other.high)

    def times(self, factor: Range) -> Range:
        """The product of two ranges of figures that are not negative."""
        return Range(self.low * factor.low, self.high * factor.high)


NOTHING = Range(Fraction(0), Fraction(0))
WHOLE = Range(Fraction(1), Fraction(1))


def exactly(figure: Fraction | int) -> Range:
    """A single figure as a range."""
    return Range(Fraction(figure), Fraction(figure))


@cache
def millilitres_of(unit: str) -> Fraction | None:
    """Millilitres in one ``unit`` by the US legal volumes (NIST Handbook 44, Appendix C), None for no volume."""
    columns = ("unit", "system", "millilitres", "exact", "source")
    for system in ("us", "metric"):
        for row in read_lexicon("volume_units", columns=columns):
            if row["unit"] == unit and row["system"] == system:
                return Fraction(row["millilitres"])
    return None


def volume(amount: Amount | None) -> Range | None:
    """The volume of an amount in millilitres, None where it has no figures or is no volume."""
    if amount is None or amount.low is None or amount.high is None:
        return None
    one = millilitres_of(amount.unit)
    return None if one is None else Range(amount.low * one, amount.high * one)
