"""Whether a said and a written amount are the same: exactly, by conversion, or within kitchen rounding."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache, lru_cache
from itertools import product
from typing import Literal

from extract.check.scales import CUSTOMARY, to_base
from extract.lexicon import read_lexicon
from extract.measure.figures import exact
from extract.measure.weights import NoWeight, density, piece
from extract.model import Amount
from extract.spot.mentions.unit_unsaid import uncounted_kinds
from extract.spot.names.foods import kinds_of

Answer = Literal["same", "amount", "unit", "unknown"]
_FEW = 4
_SAME_UNIT = Fraction(1, 200)
_CONVERTED = Fraction(1, 20)
_ROUNDLY = Fraction(1, 8)
_WEIGHED = Fraction(1, 5)  # measured cups of one food differ by as much (the spread column of densities.tsv)
_POURED = frozenset(("liquid", "stock", "oil", "alcohol", "vinegar", "drink", "sauce"))
_METRIC = frozenset(("gram", "kilogram", "millilitre", "litre", "centimetre", "millimetre"))
_PIECES = frozenset(
    (
        "",
        "piece",
        "fillet",
        "breast",
        "thigh",
        "ear",
        "leaf",
        "head",
        "clove",
        "slice",
        "sprig",
        "cube",
        "loaf",
        "ball",
    )
)
_SAME_COUNT = {"stalk": "rib", "stick": "rib", "can": "can", "jar": "package", "block": "package"}


@dataclass(frozen=True, slots=True)
class Measure:
    """One figure of an amount: ``low`` to ``high`` in ``unit."""

    low: Fraction
    high: Fraction
    unit: str


@dataclass(frozen=True, slots=True)
class Verdict:
    """Whether two amounts agree and why; ``answer`` "unknown" where the two cannot be compared."""

    answer: Answer
    why: str = ""

    @property
    def same(self) -> bool:
        """Whether the amounts agree."""
        return self.answer == "same"


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
        return _by_figures(_leading(said), _leading(written), _SAME_UNIT, "the same")
    ours, theirs = measures(said), measures(written)
    if said.size is not None and written.size is not None:
        return _one_pair(ours[1], theirs[1], food)
    first = _one_pair(ours[0], theirs[0], food)
    if first.answer == "amount" and any(_is_rounded(ours[0], theirs[0], other) for other in theirs[1:]):
        return Verdict("same", "the same beside a rounded figure")
    if first.answer != "unknown" and not (first.answer == "unit" and len(ours) + len(theirs) > 2):
        return first
    others = [_one_pair(one, other, food) for one, other in product(ours, theirs)]
    for answer in ("same", "amount", "unit"):
        for verdict in others:
            if verdict.answer == answer:
                return verdict
    return first


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
    return sizes[0][0] == sizes[1][0] and _by_figures(scaled, lead, _ROUNDLY, "").same


def in_unit_of(amount: Amount, other: Amount, food: str) -> Amount:
    """A bare number of a food that is measured, not counted, in the other amount's unit: "30 ml", "ten more".

    A number of one to a few may still count pieces, and stays unless it is the other's own.
    """
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


def _one_pair(said: Measure, written: Measure, food: str) -> Verdict:
    if said.unit == written.unit:
        return _by_figures(said, written, _SAME_UNIT, "the same")
    kinds = {_kind(measure.unit) for measure in (said, written)}
    if len(kinds) == 1 and "count" not in kinds:
        return _by_scale(said, written)
    if kinds == {"count"}:
        return _by_count(said, written)
    if said.unit in _most() or written.unit in _most():
        return _by_feel(*((said, written) if said.unit in _most() else (written, said)), food)
    if "length" in kinds:
        return Verdict("unknown")
    if _is_slip(said, written, food):
        return Verdict("unit")
    return _by_weight(said, written, food)


def _is_slip(said: Measure, written: Measure, food: str) -> bool:
    """Whether grams and millilitres were mixed up: one figure for what is weighed, not poured."""
    figures = (said.low, said.high) == (written.low, written.high)
    units = {said.unit, written.unit} in ({"gram", "millilitre"}, {"kilogram", "litre"})
    return figures and units and kinds_of(food).isdisjoint(_POURED)


def _kind(unit: str) -> str:
    base = to_base(unit)
    return "count" if base is None else base[0]


def _by_figures(said: Measure, written: Measure, tolerance: Fraction, why: str) -> Verdict:
    if _close(said.low, written.low, tolerance) and _close(said.high, written.high, tolerance):
        return Verdict("same", why)
    return Verdict("amount")


def _close(one: Fraction, other: Fraction, tolerance: Fraction) -> bool:
    return abs(one - other) <= tolerance * max(abs(one), abs(other))


def _by_scale(said: Measure, written: Measure) -> Verdict:
    """Two units of one kind, in the measures of either country; the figure alone the same is a unit slip."""
    crossed = (said.unit in _METRIC) != (written.unit in _METRIC)
    tolerance = _CONVERTED if crossed else _SAME_UNIT
    for system in CUSTOMARY:
        one, other = to_base(said.unit, system), to_base(written.unit, system)
        assert one is not None
        assert other is not None
        factor = one[1] / other[1]
        scaled = Measure(said.low * factor, said.high * factor, written.unit)
        if _by_figures(scaled, written, tolerance, "").same:
            return Verdict(
                "same", "converted within kitchen rounding" if crossed else "the same in other units"
            )
    if _is_customary(said, written) or _is_customary(written, said):
        return Verdict("same", "the customary rounded pair")
    figures_alike = (said.low, said.high) == (written.low, written.high)
    return Verdict("unit" if figures_alike else "amount")


@cache
def _rounding() -> dict[tuple[str, str], tuple[Fraction, Fraction]]:
    rows = read_lexicon("kitchen_rounding", columns=("unit", "other", "low", "high", "source"))
    return {(row["unit"], row["other"]): (Fraction(row["low"]), Fraction(row["high"])) for row in rows}


def _is_customary(one: Measure, other: Measure) -> bool:
    """Whether ``other`` is a figure that kitchens print for ``one`` (lexicons/kitchen_rounding.tsv)."""
    bounds = _rounding().get((one.unit, other.unit))
    if bounds is None or not one.low or not one.high:
        return False
    return all(
        bounds[0] <= there / here <= bounds[1]
        for here, there in ((one.low, other.low), (one.high, other.high))
    )


def _by_count(said: Measure, written: Measure) -> Verdict:
    """Two counts: pieces by any name are one another; a pinch is no handful, a can no clove."""
    alike = _counted_as(said.unit) == _counted_as(written.unit)
    if alike or (said.unit in _PIECES and written.unit in _PIECES and "" in (said.unit, written.unit)):
        return _by_figures(said, written, _SAME_UNIT, "the same count")
    if said.unit in _most() and written.unit in _most():
        return Verdict("unit", "by feel")
    if {said.unit, written.unit} == {"bunch", ""}:
        return Verdict("unknown")  # a bunch holds as many as the grower ties
    return Verdict("unit")


def _counted_as(unit: str) -> str:
    return _SAME_COUNT.get(unit, unit)


@cache
def _most() -> dict[str, tuple[Fraction, str]]:
    """What each amount by feel comes to at most, from ``lexicons/by_feel.tsv``."""
    rows = read_lexicon("by_feel", columns=("unit", "most", "measure"))
    return {row["unit"]: (exact(row["most"]), row["measure"]) for row in rows}


def _by_feel(dab: Measure, other: Measure, food: str) -> Verdict:
    """A pinch against a spoon: one amount where the spoon is no more than such a pinch may be."""
    most, unit = _most()[dab.unit]
    bound = Measure(most * dab.high, most * dab.high, unit)
    kinds = (_kind(unit), _kind(other.unit))
    if kinds == ("volume", "volume"):
        sizes = [to_base(measure.unit) for measure in (bound, other)]
        small = sizes[0] and sizes[1] and other.high * sizes[1][1] <= bound.high * sizes[0][1]
        return Verdict("same", "an amount by feel, measured") if small else Verdict("unit")
    grams = (_grams(bound, food), _grams(other, food))
    if grams[0] is None or grams[1] is None:
        return Verdict("unknown")
    return Verdict("same", "an amount by feel, measured") if grams[1][1] <= grams[0][1] else Verdict("unit")


def _by_weight(said: Measure, written: Measure, food: str) -> Verdict:
    """A volume or a count against a weight, by what the food weighs; unknown where no figure is."""
    grams = [_grams(measure, food) for measure in (said, written)]
    if grams[0] is None or grams[1] is None:
        return Verdict("unknown")
    one, other = (Measure(low, high, "gram") for low, high in (grams[0], grams[1]))
    same = _by_figures(one, other, _WEIGHED, "")
    return Verdict("same", "the same by weight") if same.same else Verdict("amount")


def _grams(measure: Measure, food: str) -> tuple[Fraction, Fraction] | None:
    base = to_base(measure.unit)
    if base is not None and base[0] == "mass":
        return measure.low * base[1], measure.high * base[1]
    if base is not None:
        weight = density(food)
        return None if isinstance(weight, NoWeight) else _times(measure, weight.grams * base[1])
    if measure.unit in _most():
        return None
    one = piece(food, measure.unit)
    return None if isinstance(one, NoWeight) else _times(measure, one.grams)


def _times(measure: Measure, grams: Fraction) -> tuple[Fraction, Fraction]:
    return measure.low * grams, measure.high * grams


def is_by_feel(amount: Amount | None) -> bool:
    """Whether an amount is one that no spoon measures: a pinch, a drizzle, a handful."""
    return amount is not None and amount.unit in _most()


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
