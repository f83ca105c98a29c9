"""Oven scales: degrees exactly, and the customary figures that cookery prints in their place."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from extract.lexicon import read_lexicon
from extract.spot.heat.again import FAN_STEP as FAN_STEP

OVEN_COLUMNS = ("deg_f", "deg_c", "gas_mark", "fan_deg_c", "word", "source")


@dataclass(frozen=True, slots=True)
class Setting:
    """One oven setting on every scale, as printed. ``gas`` is None where tables give none."""

    deg_f: Fraction
    deg_c: Fraction
    gas: Fraction | None
    word: str


@cache
def settings() -> tuple[Setting, ...]:
    """The rows of ``lexicons/tables/oven.tsv``, coolest first."""
    return tuple(
        Setting(
            deg_f=Fraction(row["deg_f"]),
            deg_c=Fraction(row["deg_c"]),
            gas=Fraction(row["gas_mark"]) if row["gas_mark"] else None,
            word=row["word"],
        )
        for row in read_lexicon("oven", columns=OVEN_COLUMNS)
    )


def to_celsius(deg_f: Fraction) -> Fraction:
    """Degrees Fahrenheit in degrees Celsius, exactly."""
    return (deg_f - 32) * Fraction(5, 9)


def to_fahrenheit(deg_c: Fraction) -> Fraction:
    """Degrees Celsius in degrees Fahrenheit, exactly."""
    return deg_c * Fraction(9, 5) + 32


def gas_to_fahrenheit(mark: Fraction) -> Fraction:
    """Degrees Fahrenheit of a gas mark: 275 for mark 1 and 25 a mark; 1/2 is 250 and 1/4 is 225.

    Raises ValueError for a mark outside 1/4 to 10.
    """
    if mark < Fraction(1, 4) or mark > 10:
        message = f"there is no gas mark {mark}"
        raise ValueError(message)
    if mark >= 1:
        return 250 + 25 * mark
    return Fraction(250) if mark >= Fraction(1, 2) else Fraction(225)


def gas_mark(deg_f: Fraction) -> Fraction | None:
    """The nearest gas mark of a setting in Fahrenheit; None beyond half a step of the scale's ends."""
    rows = [(row.deg_f, row.gas) for row in settings() if row.gas is not None]
    nearest, mark = min(rows, key=lambda row: abs(row[0] - deg_f))
    return mark if abs(nearest - deg_f) <= Fraction(25, 2) else None


def oven_celsius(deg_f: Fraction) -> Fraction:
    """The °C that cookery prints for an oven setting in °F: by the table, else to the nearest 5."""
    for row in settings():
        if row.deg_f == deg_f:
            return row.deg_c
    return _to_nearest(to_celsius(deg_f), 5)


def oven_fahrenheit(deg_c: Fraction) -> Fraction:
    """The °F that cookery prints for an oven setting in °C.

    By the table, else the dial's 25 where that is within 3 °F, else to the nearest 5.
    """
    for row in settings():
        if row.deg_c == deg_c:
            return row.deg_f
    exactly = to_fahrenheit(deg_c)
    dial = _to_nearest(exactly, 25)
    return dial if abs(dial - exactly) <= 3 else _to_nearest(exactly, 5)


def fan_celsius(deg_c: Fraction) -> Fraction:
    """The setting of a fan oven, in °C, for an ordinary oven's ``deg_c``: 20 °C lower."""
    return deg_c - FAN_STEP


def conventional_celsius(fan_deg_c: Fraction) -> Fraction:
    """The ordinary oven's setting, in °C, for a fan oven's ``fan_deg_c``: 20 °C higher."""
    return fan_deg_c + FAN_STEP


def rounded(value: Fraction, to_unit: str, kind: str) -> Fraction:
    """``value`` in the other scale ``to_unit`` (degC or degF), rounded as the kind of heat calls for.

    An oven by its table; oil to the nearest 5; the core of a food, sugar and the like to a whole degree.
    """
    if kind == "oven":
        return oven_celsius(value) if to_unit == "degC" else oven_fahrenheit(value)
    exactly = to_celsius(value) if to_unit == "degC" else to_fahrenheit(value)
    return _to_nearest(exactly, 5 if kind == "oil" else 1)


def _to_nearest(value: Fraction, step: int) -> Fraction:
    """Rounded to a multiple of ``step``, halves upwards."""
    return Fraction((value + Fraction(step, 2)) // step * step)
