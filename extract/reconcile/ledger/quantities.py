"""Exact quantities: ranges of fractions, and what volume or mass an amount of a kitchen unit is."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from extract.measure.units import size_of
from extract.spot.spans import Amount

Kind = Literal["volume", "mass"]


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

    @property
    def exact(self) -> bool:
        """Whether it is a single figure."""
        return self.low == self.high

    def __add__(self, other: Range) -> Range:
        return Range(self.low + other.low, self.high + other.high)

    def times(self, factor: Range) -> Range:
        """The product of two ranges of figures that are not negative."""
        return Range(self.low * factor.low, self.high * factor.high)

    def over(self, whole: Range) -> Range:
        """The quotient of two ranges, the other one of positive figures."""
        return Range(self.low / whole.high, self.high / whole.low)

    def less(self, part: Range) -> Range:
        """What is left when ``part`` is taken, never below nothing."""
        low, high = self.low - part.high, self.high - part.low
        return Range(max(Fraction(0), low), max(Fraction(0), high))

    def capped(self, most: Fraction) -> Range:
        """The range with nothing in it above ``most``."""
        return Range(min(self.low, most), min(self.high, most))


NOTHING = Range(Fraction(0), Fraction(0))
WHOLE = Range(Fraction(1), Fraction(1))


def exactly(figure: Fraction | int) -> Range:
    """A single figure as a range."""
    return Range(Fraction(figure), Fraction(figure))


@dataclass(frozen=True, slots=True)
class Quantity:
    """How much of something there is: millilitres or grams."""

    kind: Kind
    size: Range

    def times(self, part: Range) -> Quantity:
        """A part of it."""
        return Quantity(self.kind, self.size.times(part))


def millilitres_of(unit: str) -> Fraction | None:
    """Millilitres in one ``unit`` by the US legal volumes (NIST Handbook 44, Appendix C), None for no volume."""
    return _size_in("millilitre", unit)


def grams_of(unit: str) -> Fraction | None:
    """Grams in one ``unit`` (international avoirdupois, SI), None where it is no mass."""
    return _size_in("gram", unit)


def _size_in(base: str, unit: str) -> Fraction | None:
    found = size_of(unit)
    return found[0] if found is not None and found[1] == base else None


def quantity(amount: Amount | None) -> Quantity | None:
    """The volume or mass of an amount, None where it has no figures or is neither."""
    if amount is None or amount.low is None or amount.high is None:
        return None
    for kind, one in (("volume", millilitres_of(amount.unit)), ("mass", grams_of(amount.unit))):
        if one is not None:
            return Quantity(
                "volume" if kind == "volume" else "mass", Range(amount.low * one, amount.high * one)
            )
    return None


def total(quantities: list[Quantity | None]) -> Quantity | None:
    """The sum of quantities of one kind, None where one is not known, kinds are mixed, or there is none."""
    known = [q for q in quantities if q is not None]
    if not known or len(known) < len(quantities) or len({q.kind for q in known}) > 1:
        return None
    size = NOTHING
    for q in known:
        size += q.size
    return Quantity(known[0].kind, size)
