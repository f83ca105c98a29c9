"""One amount worked out in other measures, as the cooks who use those measures would take it.

A metric cook weighs flour, pours milk by the millilitre and still takes a teaspoon; an American one scoops
flour by the cup and buys beef by the pound. What no figure is known for stays as it was said.
"""

from __future__ import annotations

from fractions import Fraction

from extract.measure.figures import exact
from extract.measure.units import Span, convert_figure, dimension, to_millilitres, to_plain_grams
from extract.measure.weights import NoWeight, Weight, density, measure_of, piece
from extract.model import Amount, Size
from extract.spot.names.foods import kinds_of

TARGETS = ("metric", "us", "uk")
METRIC = frozenset({"metric", "uk"})
_METRIC_UNITS = frozenset({"gram", "kilogram", "milligram", "millilitre", "decilitre", "litre"})
_METRIC_LENGTHS = frozenset({"centimetre", "millimetre", "metre"})
_US_UNITS = frozenset({"ounce", "pound"})
_NATIVE = {"metric": _METRIC_UNITS, "uk": _METRIC_UNITS, "us": _US_UNITS | {"cup", "tablespoon", "teaspoon"}}
_SPOONS = frozenset({"teaspoon", "tablespoon", "dessertspoon"})
_LIQUID_KINDS = frozenset({"liquid", "alcohol", "drink", "oil", "vinegar", "stock"})
_SPOON_LIMIT = (
    2  # so many tablespoons of what is weighed are still spooned in a metric kitchen; common practice
)
_JUG_LIMIT = 4  # and so many of what is poured
_SCALE_LIMIT = Fraction(15)  # grams below which spoons stay spoons; common practice
_AGREE = Fraction(1, 20)

Worked = tuple[Amount, str] | NoWeight | None


def to_grams(amount: Amount, food: str, state: str = "", system: str = "us") -> tuple[Span, str] | NoWeight:
    """What ``amount`` of ``food`` weighs: ((low, high) in grams, what it rests on), or why that is not known.

    ``state`` is what was said of the food ("finely chopped", "large"); ``system`` whose cups and spoons they
    are. A weight is turned as it is, a volume by the food's density, a count by the weight of a piece, a can
    by its said size.
    """
    low, high = exact(amount.low), exact(amount.high)
    plain = to_plain_grams(amount, system)
    if plain is not None:
        return plain, "by definition"
    volume = to_millilitres(amount, system)
    if volume is not None:
        found = density(food, state)
        per = volume
    elif amount.size is not None:
        one = to_plain_grams(
            Amount(low=amount.size.low, high=amount.size.high, unit=amount.size.unit), system
        )
        if one is None:
            return NoWeight(f"the size of one {amount.unit or food} is no weight")
        return (low * one[0], high * one[1]), "the size that was said"
    else:
        found = piece(food, amount.unit, state)
        per = (low, high)
    if isinstance(found, NoWeight):
        return found
    return (per[0] * found.grams, per[1] * found.grams), found.basis


def work_out(amount: Amount, food: str, said: str, to: str, system: str) -> Amount:
    """``amount`` with its ``converted`` counterpart in the measures ``to``, and the ``basis`` of it.

    Nothing is worked out where the amount is in those measures already, is no measure ("a handful", "2
    cloves"), or no figure is known; in the last case ``basis`` says "not converted: …".
    """
    result = amount.model_copy(update={"converted": None, "basis": ""}, deep=True)
    if any(given.unit in _NATIVE[to] for given in amount.equivalents):
        return result  # the words give it themselves
    worked = _metric(amount, food, said, system) if to in METRIC else _american(amount, food, said, system)
    if isinstance(worked, NoWeight):
        result.basis = f"not converted: {worked.reason}"
    elif worked is not None:
        result.converted, result.basis = worked
    return result


def _metric(amount: Amount, food: str, said: str, system: str) -> Worked:
    """In grams, millilitres and centimetres."""
    unit = amount.unit
    if unit in _METRIC_UNITS or unit in _METRIC_LENGTHS:
        return None
    if amount.size is not None:
        return _sized(amount, "gram", system)
    kind = dimension(unit, system)
    if kind == "length":
        return _exactly(amount, "centimetre", system)
    if kind == "volume":
        return _metric_volume(amount, food, said, system)
    if kind == "mass" and unit == "ounce" and pours(food):
        poured = amount.model_copy(update={"unit": "fluid_ounce"})
        return _exactly(poured, "millilitre", system)[0], "ounces of a liquid taken as fluid ounces"
    if kind == "mass":
        return _exactly(amount, "gram", system)
    return _weighed(amount, food, said, system) if unit == "stick" else None


def _metric_volume(amount: Amount, food: str, said: str, system: str) -> Worked:
    """Spoons stay spoons while they are few; beyond that a liquid is poured and anything else weighed."""
    low, high = exact(amount.low), exact(amount.high)
    tablespoons = amount.unit == "tablespoon"
    if pours(food):
        if amount.unit in _SPOONS and not (tablespoons and high >= _JUG_LIMIT):
            return _own_spoons(amount, system, "metric")
        return _exactly(amount, "millilitre", system)
    if amount.unit in _SPOONS and not (tablespoons and low >= _SPOON_LIMIT):
        return _own_spoons(amount, system, "metric")
    return _weighed(amount, food, said, system, least=_SCALE_LIMIT if amount.unit in _SPOONS else Fraction(0))


def _american(amount: Amount, food: str, said: str, system: str) -> Worked:
    """In cups and spoons, pounds and ounces, and inches."""
    unit = amount.unit
    if amount.size is not None and unit not in _METRIC_UNITS:
        return _sized(amount, "ounce", system)
    kind = dimension(unit, system)
    if kind == "length" and unit in _METRIC_LENGTHS:
        return _exactly(amount, "inch", system)
    if kind == "volume":
        return _cups(amount, system) if unit in _METRIC_UNITS else _own_spoons(amount, system, "us")
    if kind != "mass" or unit in _US_UNITS:
        return None
    measure, found = measure_of(food), density(food, said)
    if measure and isinstance(found, Weight) and (measure.us == "cup" or found.stated):
        grams = to_plain_grams(amount, system)
        assert grams is not None
        return _cups_of(grams[0] / found.grams, grams[1] / found.grams), found.basis
    return _exactly(amount, "ounce", system)


def pours(food: str) -> bool:
    """Whether metric cooks take the food by volume: known so, or of a liquid kind."""
    measure = measure_of(food)
    return measure.by == "volume" if measure is not None else bool(kinds_of(food) & _LIQUID_KINDS)


def _exactly(amount: Amount, to: str, system: str) -> tuple[Amount, str]:
    """The same amount in a unit of the same kind, with kilograms, litres and pounds from one upwards."""
    ends = [convert_figure(exact(end), amount.unit, to, system=system) for end in (amount.low, amount.high)]
    return _tidy(ends[0], ends[1], to), "by definition"


def _tidy(low: Fraction, high: Fraction, unit: str) -> Amount:
    large, times = {
        "gram": ("kilogram", 1000),
        "millilitre": ("litre", 1000),
        "ounce": ("pound", 16),
    }.get(unit, ("", 0))
    if times and low >= times:
        return Amount(low=float(low / times), high=float(high / times), unit=large)
    return Amount(low=float(low), high=float(high), unit=unit)


def _weighed(amount: Amount, food: str, said: str, system: str, least: Fraction = Fraction(0)) -> Worked:
    """In grams; None where that is under ``least``, which a spoon does better."""
    worked = to_grams(amount, food, said, system)
    if isinstance(worked, NoWeight):
        return worked if not least else None
    (low, high), basis = worked
    if low < least:
        return None
    return _tidy(low, high, "gram"), basis


def _cups(amount: Amount, system: str) -> tuple[Amount, str]:
    span = to_millilitres(amount, system)
    assert span is not None
    return _cups_of(*span), "by definition"


def _cups_of(low: Fraction, high: Fraction) -> Amount:
    """Millilitres as US cups, tablespoons or teaspoons, whichever the size calls for."""
    for unit, least in (("cup", Fraction(1, 4)), ("tablespoon", Fraction(1)), ("teaspoon", Fraction(0))):
        ends = [convert_figure(end, "millilitre", unit, system="us") for end in (low, high)]
        if ends[0] >= least:
            break
    return Amount(low=float(ends[0]), high=float(ends[1]), unit=unit)


def _own_spoons(amount: Amount, system: str, to_system: str) -> tuple[Amount, str] | None:
    """Spoons, cups and pints as another system's own, where theirs differ by more than 5 % in size."""
    one = convert_figure(Fraction(1), amount.unit, amount.unit, system=system, to_system=to_system)
    if abs(one - 1) <= _AGREE:
        return None
    if to_system == "us":
        return _cups(amount, system)
    low, high = exact(amount.low) * one, exact(amount.high) * one
    return Amount(low=float(low), high=float(high), unit=amount.unit), "the spoons differ in size"


def _sized(amount: Amount, to: str, system: str) -> tuple[Amount, str] | None:
    """Cans and packets with the size of one in grams or ounces."""
    size = amount.size
    assert size is not None
    metric = size.unit in _METRIC_UNITS
    if dimension(size.unit, system) not in {"mass", "volume"} or metric == (to == "gram"):
        return None
    target = to if dimension(size.unit, system) == "mass" else "millilitre" if to == "gram" else "fluid_ounce"
    theirs = "us" if to == "ounce" else system
    sides = (size.low, size.high)
    ends = [convert_figure(exact(side), size.unit, target, system=system, to_system=theirs) for side in sides]
    one = _tidy(ends[0], ends[1], target)
    worked = Size(low=one.low, high=one.high, unit=one.unit)
    return Amount(low=amount.low, high=amount.high, unit=amount.unit, size=worked), "by definition"
