"""What a share of a made thing weighs, where some of its foods were told by volume and some by weight.

Loaded only where such a share was taken: the weights need the unit registry.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from extract.measure.weights import NoWeight, density, piece
from extract.reconcile.ledger.ledger import Entry
from extract.reconcile.ledger.quantities import NOTHING, Range, exactly


def share_weight(entries: Sequence[Entry], part: Range) -> Range | None:
    """Grams of a part of what went in, None where one food's weight is not known.

    ``entries`` are those of the account that the share was taken from. A volume is weighed by the food's measured
    density, a count by the weight of a piece.
    """
    whole = NOTHING
    for entry in entries:
        grams = entry_weight(entry)
        if grams is None:
            return None
        whole += grams
    return whole.times(part) if entries else None


def entry_weight(entry: Entry) -> Range | None:
    """Grams of one food as it went in, None where they are not known."""
    if entry.size is not None and entry.size.kind == "mass":
        return entry.size.size
    if entry.size is not None:
        weight, size = density(entry.what), entry.size.size
    elif entry.amount is not None and entry.amount.low is not None and entry.amount.size is None:
        weight = piece(entry.what, entry.amount.unit)
        size = Range(entry.amount.low, entry.amount.high or entry.amount.low)
    else:
        return None
    return None if isinstance(weight, NoWeight) else size.times(exactly(Fraction(weight.grams)))
