"""One pint registry with the kitchen's units in every system, worked in exact fractions.

pint's own parser reads kitchen words as physics ("1 pinch" is a picoinch), so it is only handed the names
made here: ``us_cup``, ``au_tablespoon``, ``uk_pint``, ``pound``. The definitions are the rows of
``lexicons/tables/volume_units.tsv`` and ``mass_units.tsv``, with pint's own grammar around them.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING, Literal, Protocol

from extract.errors import CardwrightError
from extract.lexicon import read_lexicon
from extract.measure.figures import VOLUME_COLUMNS, Figure, exact

if TYPE_CHECKING:
    import pint

MASS_COLUMNS = ("unit", "system", "size", "base", "source")
SYSTEMS = ("us", "metric", "uk", "au", "ca")
LABELLING = "label"
Dimension = Literal["volume", "mass", "length", "temperature", "none"]
Span = tuple[Fraction, Fraction]

_FALLBACKS = {"metric": ("metric", "uk"), "label": ("label", "us"), "us": ("us", "uk")}
_BASES = (
    "gram = [mass]",
    "millilitre = [volume]",
    "millimetre = [length]",
    "kelvin = [temperature]; offset: 0",
    "degC = kelvin; offset: 273.15",
    "degF = 5 / 9 * kelvin; offset: 233.15 + 200 / 9",
)
_BASE_UNITS: dict[str, Dimension] = {"gram": "mass", "millilitre": "volume", "millimetre": "length"}


class HasAmount(Protocol):
    """Anything with two figures and a unit: a draft's amount, or one that spotting found."""

    @property
    def low(self) -> Figure | None: ...
    @property
    def high(self) -> Figure | None: ...
    @property
    def unit(self) -> str: ...


@cache
def registry() -> pint.UnitRegistry[Fraction]:
    """The process's one pint registry: the kitchen's units and nothing else, in exact fractions.

    Units are named as ``pint_name`` names them. Temperatures are ``degC`` and ``degF``.
    """
    import pint

    ureg: pint.UnitRegistry[Fraction] = pint.UnitRegistry(None, non_int_type=Fraction)
    for line in _BASES:
        ureg.define(line)
    for name, (size, base) in _definitions().items():
        if name not in _BASE_UNITS:
            ureg.define(f"{name} = {size.numerator} / {size.denominator} * {base}")
    return ureg


@cache
def _definitions() -> dict[str, tuple[Fraction, str]]:
    """Every unit by its pint name, with its size and the base unit the size is in."""
    found: dict[str, tuple[Fraction, str]] = {}
    for row in read_lexicon("volume_units", columns=VOLUME_COLUMNS):
        name = f"{row['system']}_{row['unit']}"
        found[name.removeprefix("metric_") if row["exact"] == "yes" else name] = (
            Fraction(row["millilitres"]),
            "millilitre",
        )
    for row in read_lexicon("mass_units", columns=MASS_COLUMNS):
        name = f"{row['system']}_{row['unit']}" if row["system"] else row["unit"]
        found[name] = (Fraction(row["size"]), row["base"])
    return found


@cache
def pint_name(unit: str, system: str = "us") -> str | None:
    """The registry's name for a draft's ``unit`` as ``system`` means it; None where it is no measure.

    A clove, a can, a pinch have no size of their own. Raises CardwrightError for an unknown system.
    """
    if system not in SYSTEMS and system not in {LABELLING, "imperial"}:
        problem = f'"{system}" is no system of measures'
        raise CardwrightError(problem, remedy=f"one of {', '.join(SYSTEMS)}")
    names = _definitions()
    for place in _FALLBACKS.get(system, (system,)):
        if f"{place}_{unit}" in names:
            return f"{place}_{unit}"
    return unit if unit in names else None


def size_of(unit: str, system: str = "us") -> tuple[Fraction, str] | None:
    """How many of its base unit ("millilitre", "gram", "millimetre") one ``unit`` is, exactly; None for no measure."""
    name = pint_name(unit, system)
    return None if name is None else _definitions()[name]


def dimension(unit: str, system: str = "us") -> Dimension:
    """What ``unit`` measures: volume, mass, length or temperature; "none" for counts and handfuls."""
    if unit in {"degC", "degF"}:
        return "temperature"
    name = pint_name(unit, system)
    return "none" if name is None else _BASE_UNITS[_definitions()[name][1]]


def convert_figure(
    value: Fraction, unit: str, to: str, *, system: str = "us", to_system: str = ""
) -> Fraction:
    """``value`` in ``unit`` as so many of ``to``, exactly.

    ``system`` says whose ``unit`` it is, ``to_system`` (the same by default) whose ``to``. Raises
    CardwrightError where either is no measure or the two measure different things.
    """
    source = unit if unit in {"degC", "degF"} else pint_name(unit, system)
    target = to if to in {"degC", "degF"} else pint_name(to, to_system or system)
    if source is None or target is None or dimension(unit, system) != dimension(to, to_system or system):
        problem = f'"{unit}" cannot be turned into "{to}"'
        raise CardwrightError(problem, remedy="both must be units of the same kind")
    if source == target:
        return value
    return Fraction(registry().convert(value, source, target))


def to_millilitres(amount: HasAmount, system: str = "us") -> Span | None:
    """The volume of ``amount`` in millilitres, (low, high), exact; None where it is none."""
    return _in_base(amount, "millilitre", "volume", system)


def to_plain_grams(amount: HasAmount, system: str = "us") -> Span | None:
    """The weight of ``amount`` in grams, (low, high), exact, where it was given as a weight; else None."""
    return _in_base(amount, "gram", "mass", system)


def _in_base(amount: HasAmount, base: str, kind: Dimension, system: str) -> Span | None:
    if amount.low is None or amount.high is None or dimension(amount.unit, system) != kind:
        return None
    low, high = (
        convert_figure(exact(end), amount.unit, base, system=system) for end in (amount.low, amount.high)
    )
    return low, high
