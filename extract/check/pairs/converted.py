"""Whether two figures in whatever units are the same: by scale, by count, by feel, by what the food weighs."""

from __future__ import annotations

from fractions import Fraction
from functools import cache

from extract.check.pairs.figures import SAME_UNIT, Measure, Verdict, by_figures
from extract.check.scales import CUSTOMARY, to_base
from extract.lexicon import read_lexicon
from extract.measure.figures import exact
from extract.measure.weights import NoWeight, density, piece
from extract.model import Amount
from extract.spot.names.foods import kinds_of

_CONVERTED = Fraction(1, 20)
_WEIGHED = Fraction(1, 5)  # measured cups of one food differ by as much (the spread column of densities.tsv)
_POURED = frozenset(("liquid", "stock", "oil", "alcohol", "vinegar", "drink", "sauce"))
_SPOONS = frozenset(("teaspoon", "tablespoon"))
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


def one_pair(said: Measure, written: Measure, food: str) -> Verdict:
    """Whether two figures agree; ``food`` lets a weight stand for a volume or a count of it."""
    if said.unit == written.unit:
        return by_figures(said, written, SAME_UNIT, "the same")
    kinds = {_kind(measure.unit) for measure in (said, written)}
    if len(kinds) == 1 and "count" not in kinds:
        return _by_scale(said, written)
    if kinds == {"count"}:
        return _by_count(said, written)
    if said.unit in _most() or written.unit in _most():
        return _by_feel(*((said, written) if said.unit in _most() else (written, said)), food)
    if "length" in kinds:
        return Verdict("unknown")
    if _is_spooned(said, written, food):
        return Verdict("amount")
    if _is_slip(said, written, food):
        return Verdict("unit")
    return _by_weight(said, written, food)


def _is_spooned(said: Measure, written: Measure, food: str) -> bool:
    """Whether what is poured has a bare figure on one side, which counts spoons, and other spoons on the other."""
    units = {said.unit, written.unit} - {""}
    poured = "" in (said.unit, written.unit) and not kinds_of(food).isdisjoint(_POURED)
    return poured and units <= _SPOONS and (said.low, said.high) != (written.low, written.high)


def _is_slip(said: Measure, written: Measure, food: str) -> bool:
    """Whether grams and millilitres were mixed up: one figure for what is weighed, not poured."""
    figures = (said.low, said.high) == (written.low, written.high)
    units = {said.unit, written.unit} in ({"gram", "millilitre"}, {"kilogram", "litre"})
    return figures and units and kinds_of(food).isdisjoint(_POURED)


def _kind(unit: str) -> str:
    base = to_base(unit)
    return "count" if base is None else base[0]


def _by_scale(said: Measure, written: Measure) -> Verdict:
    """Two units of one kind, in the measures of either country; the figure alone the same is a unit slip."""
    crossed = (said.unit in _METRIC) != (written.unit in _METRIC)
    tolerance = _CONVERTED if crossed else SAME_UNIT
    for system in CUSTOMARY:
        one, other = to_base(said.unit, system), to_base(written.unit, system)
        assert one is not None
        assert other is not None
        factor = one[1] / other[1]
        scaled = Measure(said.low * factor, said.high * factor, written.unit)
        if by_figures(scaled, written, tolerance, "").same:
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
    """Whether ``other`` is a figure that kitchens print for ``one`` (lexicons/tables/kitchen_rounding.tsv)."""
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
        return by_figures(said, written, SAME_UNIT, "the same count")
    if said.unit in _most() and written.unit in _most():
        return Verdict("unit", "by feel")
    if {said.unit, written.unit} == {"bunch", ""}:
        return Verdict("unknown")  # a bunch holds as many as the grower ties
    return Verdict("unit")


def _counted_as(unit: str) -> str:
    return _SAME_COUNT.get(unit, unit)


@cache
def _most() -> dict[str, tuple[Fraction, str]]:
    """What each amount by feel comes to at most, from ``lexicons/tables/by_feel.tsv``."""
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
    same = by_figures(one, other, _WEIGHED, "")
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
