"""How many a dish makes, and whether it was made as a double or a half batch."""

from __future__ import annotations

from collections.abc import Sequence

from extract.language import Speech
from extract.model import Batch, Yield
from extract.segment.dishes import Stretch
from extract.spot.spans import Count


def dish_yield(
    speech: Speech, yields: Sequence[Count], dishes: Sequence[Stretch], number: int
) -> Yield | None:
    """What the cook said dish ``number`` makes: in servings or people first, and the last word on it.

    A yield told between two dishes belongs to the one before, told in the opening to the first. None where
    nothing was said.
    """
    own = [y for y in yields if _belongs(y, dishes, number)]
    if not own:
        return None
    best = max(own, key=lambda y: (y.unit in PEOPLE, y.start))
    said = [
        speech.evidence(y.start, y.end)
        for y in own
        if (y.low, y.high, y.unit) == (best.low, best.high, best.unit)
    ]
    return Yield(low=float(best.low), high=float(best.high), unit=best.unit or "pieces", said=said)


PEOPLE = frozenset({"people", "servings", "serving", "portions", "person"})


def _belongs(count: Count, dishes: Sequence[Stretch], number: int) -> bool:
    dish = dishes[number]
    if dish.holds(count.start):
        return True
    after = dishes[number + 1].start if number + 1 < len(dishes) else None
    late = count.start >= dish.end and after is None
    return late or (count.start < dish.start and number == 0)


def dish_batch(speech: Speech, batches: Sequence[Count], dish: Stretch) -> Batch | None:
    """What was made on camera as a multiple of the normal batch, None where the cook said nothing of it."""
    own = [b for b in batches if dish.holds(b.start)]
    if not own:
        return None
    first = own[0]
    said = [speech.evidence(b.start, b.end) for b in own if b.low == first.low]
    return Batch(factor=float(first.low), said=said)
