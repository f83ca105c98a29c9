"""A worked-out amount as the program prints it for a kitchen: "1 egg (1/2 of it, beaten)" for half an egg.

The draft keeps the exact figure of what was scaled, print has what a spoon, a scale or a hand can do. A written line
that gives either of them gives the draft's amount; any other figure is another amount.
"""

from __future__ import annotations

from dataclasses import dataclass

from extract.check.written.lines.line import read_line
from extract.measure.kitchen import print_of
from extract.model import Amount, Ingredient
from extract.publish.words import line_words


@dataclass(frozen=True, slots=True)
class Printed:
    """An amount in print, with the remark that belongs to it ("1/2 of it, beaten"), "" for none."""

    amount: Amount
    remark: str


def as_printed(line: Ingredient, system: str) -> Printed | None:
    """How a said line's worked-out amount reads in print; None where its amount was said, or there is none.

    ``system``: whose spoons and cups the cook speaks of.
    """
    if line.amount is None or line.amount.unscaled is None:
        return None
    amount, name, aside = line_words(line, lambda own: print_of(own, worked_out=True, system=system))
    found = read_line(f"{amount} {name} ({aside})" if aside else f"{amount} {name}")
    if not found or found[0].amount is None:
        return None
    return Printed(found[0].amount, found[0].note if aside else "")


def is_print_of(printed: Printed, written: Ingredient) -> bool:
    """Whether a written line has the amount in print, and its remark."""
    given = written.amount
    if given is None or printed.remark not in written.note:
        return False
    return all(
        getattr(given, part) == getattr(printed.amount, part) for part in ("low", "high", "unit", "size")
    )
