"""A line's amount as the cook said it, and the same in the measure of the other kind of kitchen."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

from extract.errors import CardwrightError
from extract.measure.kitchen import print_of
from extract.measure.worked import work_out
from extract.publish.words import line_words

if TYPE_CHECKING:
    from extract.model import Amount, Ingredient

_SPOONS = frozenset({"teaspoon", "tablespoon", "dessertspoon"})
_BY_WEIGHT = frozenset({"gram", "kilogram", "milligram", "millilitre", "decilitre", "litre", "centimetre"})


def said_measure(line: Ingredient, system: str) -> tuple[str, str, str]:
    """The amount in the cook's own measure ("1 1/2 cups", "a pinch of"; "" where none was said), the food in its
    number, and what a worked-out count needs beside them ("and 1 yolk, or 1 large egg") or "".

    ``system`` says whose cups and spoons they are. Raises CardwrightError where the figures are no amount.
    """
    with _told_of(line):
        amount, name, aside = line_words(line, lambda own: _said(own, system))
    return f"{amount} of" if amount.startswith("a ") else amount, name, aside


def other_measure(line: Ingredient, system: str) -> str:
    """The amount in the other measure, rounded to what a scale or a spoon can do; "" where there is none.

    What the words give themselves ("225 g, that's 8 ounces") goes before what a person or the program worked
    out. A cook of grams gets American measures, every other one metric ones.
    """
    amount = line.amount
    if amount is None:
        return ""
    with _told_of(line):
        own, other = _said(amount, system), _other_words(amount, line, system)
    return "" if other == own else other


def _other_words(amount: Amount, line: Ingredient, system: str) -> str:
    if amount.equivalents:
        return _said(amount.equivalents[0], system)
    to = "us" if amount.unit in _BY_WEIGHT else "metric"
    counterpart = amount if amount.converted else work_out(amount, line.name, line.preparation, to, system)
    if counterpart.converted is None or {amount.unit, counterpart.converted.unit} <= _SPOONS:
        return ""  # a spoon in other spoons helps nobody
    return _counterpart(counterpart.converted, "us" if to == "us" else system)


def _counterpart(converted: Amount, system: str) -> str:
    """The worked-out amount; of a sized package the size alone, "400 g each"."""
    from extract.model import Amount

    size = converted.size
    if size is None:
        return print_of(converted, worked_out=True, system=system)
    each = Amount(low=size.low, high=size.high, unit=size.unit)
    one = print_of(each, worked_out=True, system=system)
    return one if converted.low == converted.high == 1 else f"{one} each"


def _said(amount: Amount, system: str) -> str:
    """The amount as it was said, rounded as kitchens round where scaling worked it out."""
    return print_of(amount, worked_out=amount.unscaled is not None, system=system)


@contextmanager
def _told_of(line: Ingredient) -> Iterator[None]:
    """Figures that are no amount are told with their line."""
    try:
        yield
    except ValueError as error:
        problem = f"{line.name}: {error}"
        raise CardwrightError(problem, remedy="mend it in the draft") from error
