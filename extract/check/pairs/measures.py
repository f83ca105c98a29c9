"""Whether a said and a written amount are the same: exactly, by conversion, or within kitchen rounding."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from functools import lru_cache
from itertools import product

from extract.check.pairs.converted import one_pair
from extract.check.pairs.figures import SAME_UNIT, Measure, Verdict, by_figures
from extract.check.scales import to_base
from extract.check.written.lines.units import CUPS, WEIGHTS
from extract.measure.figures import exact
from extract.model import Amount
from extract.spot.mentions.unit_unsaid import uncounted_kinds
from extract.spot.names.foods import kinds_of, word_key

_FEW = 4
_ROUNDLY = Fraction(1, 8)
_PIECE = Fraction(1, 50)


def measures(amount: Amount) -> list[Measure]:
    """Every figure an amount gives of the whole: its own, its equivalents, what its packages add up to."""
    low, high = exact(amount.low), exact(amount.high)
    found = [Measure(low, high, amount.unit)]
    if amount.size is not None:
        size = amount.size
        found.append(Measure(low * exact(size.low), high * exact(size.high), size.unit))
    found += [Measure(exact(other.low), exact(other.high), other.unit) for other in amount.equivalents]
    return found


def compare(said: Amount, written: Amount, food: str = "") -> Verdict:
    """Whether the two amounts agree; ``food`` lets a weight stand for a volume or a count of it.

    The figures that lead decide where they can be compared; failing that the second measures, which is how a
    "roast (about 2 kg)" agrees with "4 pounds".
    """
    said, written = in_unit_of(said, written, food), in_unit_of(written, said, food)
    if said.unit == written.unit and not (_has_more(said) or _has_more(written)):
        return by_figures(_leading(said), _leading(written), SAME_UNIT, "the same")
    ours, theirs = measures(said), measures(written)
    if said.size is not None and written.size is not None:
        return one_pair(ours[1], theirs[1], food)
    first = one_pair(ours[0], theirs[0], food)
    if first.same and any(_is_other_spoon(ours[0], other) for other in theirs[1:]):
        return Verdict("amount")
    if first.answer == "amount" and any(_is_rounded(ours[0], theirs[0], other) for other in theirs[1:]):
        return Verdict("same", "the same beside a rounded figure")
    if first.answer != "unknown" and not (first.answer == "unit" and len(ours) + len(theirs) > 2):
        return first
    others = [one_pair(one, other, food) for one, other in product(ours, theirs)]
    if any(_is_of_one_piece(one, other) for one, other in product(ours, theirs)):
        return Verdict("same", "the same beside a rounded figure")
    for answer in ("same", "amount", "unit"):
        for verdict in others:
            if verdict.answer == answer:
                return verdict
    return first


def _is_other_spoon(said: Measure, other: Measure) -> bool:
    """Whether a further written figure counts the very cups or spoons that were said, and counts others."""
    return other.unit == said.unit in CUPS and not by_figures(said, other, SAME_UNIT, "").same


def _is_of_one_piece(said: Measure, other: Measure) -> bool:
    """Whether two weights are of one piece, which nobody cuts to the gram: "4.3 pounds", "1 roast (about 4 1/3)"."""
    return said.unit == other.unit in WEIGHTS and by_figures(said, other, _PIECE, "").same


def _is_rounded(said: Measure, lead: Measure, other: Measure) -> bool:
    """Whether a further written figure is the said one, and the leading one its conversion, roundly."""
    sizes = [to_base(measure.unit, "uk") for measure in (said, lead)]
    if (
        (said.low, said.high, said.unit) != (other.low, other.high, other.unit)
        or not sizes[0]
        or not sizes[1]
    ):
        return False
    scaled = Measure(said.low * sizes[0][1] / sizes[1][1], said.high * sizes[0][1] / sizes[1][1], lead.unit)
    return sizes[0][0] == sizes[1][0] and by_figures(scaled, lead, _ROUNDLY, "").same


def in_unit_of(amount: Amount, other: Amount, food: str) -> Amount:
    """A bare number of a food that is measured, not counted, in the other amount's unit: "30 ml", "ten more".

    A number of one to a few may still count pieces, and stays unless it is the other's own. What a food's own name
    counts is in that unit too: "1/2 cinnamon stick", "1 rib".
    """
    if amount.unit == "" and other.unit and food and word_key(food.split()[-1]) == other.unit:
        return amount.model_copy(update={"unit": other.unit})
    bare = (
        amount.unit == "" and other.unit != "" and not _has_more(amount) and to_base(other.unit) is not None
    )
    many = amount.low > _FEW or (amount.low, amount.high) == (other.low, other.high)
    if not bare or not many or kinds_of(food).isdisjoint(uncounted_kinds()):
        return amount
    return amount.model_copy(update={"unit": other.unit})


def _has_more(amount: Amount) -> bool:
    """Whether an amount gives more figures than the one that leads."""
    return amount.size is not None or bool(amount.equivalents)


def _leading(amount: Amount) -> Measure:
    return Measure(_exactly(amount.low), _exactly(amount.high), amount.unit)


_exactly = lru_cache(maxsize=4096)(exact)


def total(amounts: Sequence[Amount]) -> Amount | None:
    """The sum of amounts of one kind, in the first one's unit; None where they cannot be added."""
    if not amounts:
        return None
    unit = amounts[0].unit
    base = to_base(unit)
    low = high = Fraction(0)
    for amount in amounts:
        other = to_base(amount.unit)
        if amount.unit == unit:
            factor = Fraction(1)
        elif base is not None and other is not None and base[0] == other[0]:
            factor = other[1] / base[1]
        else:
            return None
        low += exact(amount.low) * factor
        high += exact(amount.high) * factor
    return Amount(low=float(low), high=float(high), unit=unit)


def ratio(said: Amount, written: Amount) -> Fraction | None:
    """How many times the said amount was written; None where the two are not of one kind."""
    for one, other in product(measures(said), measures(written)):
        first, second = to_base(one.unit), to_base(other.unit)
        if not one.low:
            continue
        if one.unit == other.unit:
            return other.low / one.low
        if first is not None and second is not None and first[0] == second[0]:
            return other.low * second[1] / (one.low * first[1])
    return None
