"""Exact sizes of the units that a written and a spoken amount are compared in.

The US customary measures hang on the gallon of 231 cubic inches (NIST Handbook 44, appendix C) and the inch
of 25.4 mm; the pound is 453.59237 g exactly (international yard and pound agreement, 1959).
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache

_GALLON = 231 * Fraction("2.54") ** 3  # millilitres
_POUND = Fraction("453.59237")  # grams
_MINUTE = {"second": Fraction(1, 60), "minute": Fraction(1), "hour": Fraction(60), "day": Fraction(1440)}


@cache
def _sizes() -> dict[str, tuple[str, Fraction]]:
    volumes = {
        "gallon": 1,
        "quart": 4,
        "pint": 8,
        "cup": 16,
        "fluid_ounce": 128,
        "tablespoon": 256,
        "teaspoon": 768,
    }
    sizes = {unit: ("volume", _GALLON / parts) for unit, parts in volumes.items()}
    sizes |= {"millilitre": ("volume", Fraction(1)), "litre": ("volume", Fraction(1000))}
    sizes |= {"pound": ("mass", _POUND), "ounce": ("mass", _POUND / 16)}
    sizes |= {"gram": ("mass", Fraction(1)), "kilogram": ("mass", Fraction(1000))}
    sizes |= {"centimetre": ("length", Fraction(1)), "inch": ("length", Fraction("2.54"))}
    return sizes


def to_base(unit: str) -> tuple[str, Fraction] | None:
    """What kind one ``unit`` is and its size in millilitres, grams or centimetres; None for counts."""
    return _sizes().get(unit)


def minutes(value: float | Fraction, unit: str) -> Fraction:
    """A time in minutes, exactly; raises KeyError for a unit that is no unit of time."""
    return Fraction(value).limit_denominator(1000) * _MINUTE[unit]
