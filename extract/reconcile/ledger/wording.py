"""Shares and sizes of the ledger in words: "a third", "two thirds", "1 1/2 cups"."""

from __future__ import annotations

from fractions import Fraction

from extract.measure.figures import mixed
from extract.reconcile.ledger.ledger import Out
from extract.reconcile.ledger.quantities import Quantity, Range, grams_of, millilitres_of
from extract.spot.shares.words import fraction_names
from extract.spot.spans import Amount

# The largest unit of which there is at least this much is the one to tell a volume in.
SCALE = (("cup", Fraction(1, 4)), ("tablespoon", Fraction(1)), ("teaspoon", Fraction(1, 8)))


def fraction_words(figure: Fraction) -> str:
    """A part of a whole in words: "half", "two thirds", "4/9"."""
    if figure in (0, 1):
        return "all" if figure else "nothing"
    return fraction_names().get(figure, str(figure))


def part_words(part: Range) -> str:
    """A part of a whole, or the range it lies in."""
    if part.exact:
        return fraction_words(part.low)
    return f"between {fraction_words(part.low)} and {fraction_words(part.high)}"


def share_words(out: Out) -> str:
    """A share as it was said: "half", "the rest", "some"; an amount where one was told."""
    if isinstance(out.said, Fraction):
        return fraction_words(out.said)
    if out.said == "some" and out.size is not None:
        return size_words(out.size)
    return "the rest" if out.said == "rest" else out.said


def size_words(size: Quantity) -> str:
    """A quantity in kitchen units, exact where spoons and cups can tell it, in millilitres or grams beside."""
    low, high = size.size.low, size.size.high
    metric = metric_words(size)
    if size.kind == "mass":
        return metric
    unit = next((unit for unit, least in SCALE if low >= least * _one(unit)), None)
    if unit is None or not all((figure / _one(unit) * 24).denominator == 1 for figure in (low, high)):
        return metric
    spoken = _range_words(low / _one(unit), high / _one(unit), unit)
    return f"{spoken} ({metric})"


def metric_words(size: Quantity) -> str:
    """A quantity in millilitres or grams."""
    return _range_words(size.size.low, size.size.high, "g" if size.kind == "mass" else "ml")


def _one(unit: str) -> Fraction:
    return millilitres_of(unit) or grams_of(unit) or Fraction(1)


def _range_words(low: Fraction, high: Fraction, unit: str) -> str:
    spelled = unit in ("cup", "tablespoon", "teaspoon")
    tell = mixed if spelled else _rounded
    figures = tell(low) if low == high else f"{tell(low)} to {tell(high)}"
    return f"{figures} {unit}{'s' if spelled and high > 1 else ''}"


def _rounded(figure: Fraction) -> str:
    """A metric figure to what a scale or jug tells: whole from 10 on, a tenth below."""
    return str(round(figure)) if figure >= 10 else f"{float(figure):.1f}".removesuffix(".0")


def amount_words(amount: Amount) -> str:
    """An amount in the cook's own units: "2 to 3 cloves", "1 1/2 cups", "4"; "" where it has no figures."""
    if amount.low is None:
        return ""
    high = amount.high if amount.high is not None else amount.low
    figures = mixed(amount.low) if amount.low == high else f"{mixed(amount.low)} to {mixed(high)}"
    return f"{figures} {unit_words(amount.unit, many=high > 1)}".strip()


def unit_words(unit: str, *, many: bool) -> str:
    """A unit as print has it, in the plural where there are ``many``."""
    name = unit.replace("_", " ")
    if not many or not name or name == "leaf":
        return "leaves" if many and name else name
    return f"{name}es" if name.endswith(("ch", "sh")) else f"{name}s"
