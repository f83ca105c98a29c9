"""A worked-out amount as the program prints it for a kitchen: "1 egg (1/2 of it, beaten)" for half an egg.

The draft keeps the exact figure of what was scaled, print has what a spoon, a scale or a hand can do. A written line
that gives either of them gives the draft's amount; any other figure is another amount.
"""

from __future__ import annotations

from dataclasses import dataclass

from extract.check.written.lines.line import read_line
from extract.model import Amount, Ingredient


@dataclass(frozen=True, slots=True)
class Printed:
    """An amount in print, alone and with the other kitchen's measure, and the remark that belongs to it.

    The remark ("1/2 of it, beaten") is "" for none.
    """

    amounts: tuple[Amount, ...]
    remark: str


def as_printed(line: Ingredient, system: str) -> Printed | None:
    """How a said line's worked-out amount reads in print; None where its amount was said, or there is none.

    ``system``: whose spoons and cups the cook speaks of.
    """
    if line.amount is None or line.amount.unscaled is None:
        return None
    from extract.publish.both_measures import other_measure, said_measure

    amount, name, aside = said_measure(line, system)
    other = other_measure(line, system)
    measures = [amount, f"{amount} ({other})"] if other else [amount]
    ends = f"{name} ({aside})" if aside else name
    found = [lines[0] for measure in measures if (lines := read_line(f"{measure} {ends}"))]
    amounts = tuple(each.amount for each in found if each.amount is not None)
    return Printed(amounts, found[0].note if aside else "") if amounts else None


def is_print_of(printed: Printed, written: Ingredient) -> bool:
    """Whether a written line has the amount in print, and its remark."""
    given = written.amount
    if given is None or printed.remark not in written.note:
        return False
    parts = ("low", "high", "unit", "size")
    return any(all(getattr(given, part) == getattr(own, part) for part in parts) for own in printed.amounts)
