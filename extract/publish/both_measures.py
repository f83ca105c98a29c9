"""A line's amount as the cook said it, and the same in the measure of the other kind of kitchen."""

from __future__ import annotations

from typing import TYPE_CHECKING

from extract.errors import CardwrightError
from extract.measure.kitchen import print_of
from extract.measure.worked import work_out
from extract.publish.words import without_own_unit

if TYPE_CHECKING:
    from extract.model import Amount, Ingredient, Size

_SPOONS = frozenset({"teaspoon", "tablespoon", "dessertspoon"})
_BY_WEIGHT = frozenset({"gram", "kilogram", "milligram", "millilitre", "decilitre", "litre", "centimetre"})


def said_measure(line: Ingredient, system: str) -> str:
    """The amount in the cook's own measure: "1 1/2 cups", "a pinch of"; "" where none was said.

    ``system`` says whose cups and spoons they are. Raises CardwrightError where the figures are no amount.
    """
    if line.amount is None:
        return ""
    amount = without_own_unit(line)
    text = _printed(amount, line, worked_out=amount.unscaled is not None, system=system)
    return f"{text} of" if text.startswith("a ") else text


def other_measure(line: Ingredient, system: str) -> str:
    """The amount in the other measure, rounded to what a scale or a spoon can do; "" where there is none.

    What the words give themselves ("225 g, that's 8 ounces") goes before what a person or the program worked
    out. A cook of grams gets American measures, every other one metric ones.
    """
    amount = line.amount
    if amount is None:
        return ""
    own = _printed(amount, line, worked_out=amount.unscaled is not None, system=system)
    if amount.equivalents:
        other = _printed(amount.equivalents[0], line, worked_out=False, system=system)
        return "" if other == own else other
    to = "us" if amount.unit in _BY_WEIGHT else "metric"
    counterpart = amount if amount.converted else work_out(amount, line.name, line.preparation, to, system)
    if counterpart.converted is None or {amount.unit, counterpart.converted.unit} <= _SPOONS:
        return ""  # a spoon in other spoons helps nobody
    other = _counterpart(counterpart.converted, line, "us" if to == "us" else system)
    return "" if other == own else other


def _counterpart(converted: Amount, line: Ingredient, system: str) -> str:
    """The worked-out amount; of a sized package the size alone, "400 g each"."""
    size = converted.size
    if size is None:
        return _printed(converted, line, worked_out=True, system=system)
    one = _printed_size(size, line, system)
    return one if converted.low == converted.high == 1 else f"{one} each"


def _printed_size(size: Size, line: Ingredient, system: str) -> str:
    from extract.model import Amount

    return _printed(
        Amount(low=size.low, high=size.high, unit=size.unit), line, worked_out=True, system=system
    )


def _printed(amount: Amount, line: Ingredient, *, worked_out: bool, system: str) -> str:
    try:
        return print_of(amount, worked_out=worked_out, system=system)
    except ValueError as error:
        problem = f"{line.name}: {error}"
        raise CardwrightError(problem, remedy="mend it in the draft") from error
