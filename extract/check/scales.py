"""Exact sizes of the units that a written and a spoken amount are compared in, from the measures lexicons.

The figures stand in ``lexicons/tables/volume_units.tsv`` and ``mass_units.tsv`` with their sources. They are read
here without pint, which a check of a recipe has no need to load.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache

from extract.lexicon import read_lexicon
from extract.measure.figures import VOLUME_COLUMNS, exact
from extract.measure.units import MASS_COLUMNS

CUSTOMARY = ("us", "uk", "au")
_KINDS = {"gram": "mass", "millimetre": "length"}
_MINUTES = {"second": Fraction(1, 60), "minute": Fraction(1), "hour": Fraction(60), "day": Fraction(1440)}


@cache
def _sizes(system: str) -> dict[str, tuple[str, Fraction]]:
    """Kind and size of every unit as ``system`` means it."""
    found: dict[str, tuple[str, Fraction]] = {}
    for wanted in ("metric", "us", system):
        for row in read_lexicon("volume_units", columns=VOLUME_COLUMNS):
            if row["system"] == wanted:
                found[row["unit"]] = ("volume", Fraction(row["millilitres"]))
    for row in read_lexicon("mass_units", columns=MASS_COLUMNS):
        if not row["system"]:
            found[row["unit"]] = (_KINDS[row["base"]], Fraction(row["size"]))
    return found


def to_base(unit: str, system: str = "us") -> tuple[str, Fraction] | None:
    """What kind one ``unit`` is and its size in millilitres, grams or millimetres; None for counts."""
    return _sizes(system).get(unit)


def minutes(value: float | Fraction, unit: str) -> Fraction | None:
    """A time in minutes, exactly; None for a unit that is no unit of time."""
    one = _MINUTES.get(unit)
    return None if one is None else exact(value) * one
