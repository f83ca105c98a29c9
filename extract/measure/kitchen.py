"""Printing amounts and temperatures as kitchens write them: "1 1/2 cups", "2–3 cloves", "350 °F (180 °C)"."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import Literal

from extract.lexicon import read_lexicon
from extract.measure import figures
from extract.measure.figures import Figure, exact
from extract.measure.heat import ovens
from extract.measure.heat.bare import certain_scale
from extract.model import Amount, Dish, Heat

UNIT_COLUMNS = ("unit", "one", "many", "sign", "way")
_INCH_TIERS = ((1,), (2,), (4,), (8,), (16,))
_OUNCES = 16
_SPOON_EIGHTHS = (0, 1, 2, 4, 6, 8)  # spoons of 1/8, 1/4, 1/2 and 1 teaspoon; 3/4 is two of them
_BELOW_A_SPOON = "a pinch"


@dataclass(frozen=True, slots=True)
class PrintedUnit:
    """The words of a unit and the way its figures are written; see ``lexicons/words/unit_print.tsv``."""

    one: str
    many: str
    sign: str
    way: str

    def words(self, value: Fraction) -> str:
        """The unit after the figure ``value``."""
        return self.sign or (self.one if value <= 1 else self.many)


@cache
def _units() -> dict[str, PrintedUnit]:
    rows = read_lexicon("unit_print", columns=UNIT_COLUMNS)
    return {row["unit"]: PrintedUnit(row["one"], row["many"], row["sign"], row["way"]) for row in rows}


def printed_unit(unit: str) -> PrintedUnit:
    """How ``unit`` is printed; a unit that no lexicon knows is printed as it stands, with a plain s."""
    if not unit:
        return PrintedUnit("", "", "", "count")
    words = unit.replace("_", " ")
    return _units().get(unit) or PrintedUnit(
        words, words if words.endswith("s") else f"{words}s", "", "count"
    )


def print_amount(
    low: Figure,
    high: Figure,
    unit: str,
    *,
    approximate: bool = False,
    size: tuple[Figure, Figure, str] | None = None,
    worked_out: bool = False,
    system: str = "us",
) -> str:
    """An amount in words: "1 1/2 cups", "2–3 cloves", "125 g", "1 (14-ounce) can", "a pinch", "about 2".

    A figure that was said is printed as said. One that was ``worked_out`` (scaled, converted) is rounded to
    what spoons, cups and scales can do, never by more than 5 %, and may be put in other measures of the same
    ladder ("2 tablespoons + 2 teaspoons" for 1/6 cup; ``system`` says whose spoons). Under an eighth of a
    teaspoon it is "a pinch". Raises ValueError where the figures are not finite, negative or out of order.
    """
    bottom, top = exact(low), exact(high)
    if bottom < 0 or top < bottom:
        message = f"{low} to {high} is no amount"
        raise ValueError(message)
    about = "about " if approximate else ""
    if size is not None:
        return about + _sized(bottom, top, unit, size, worked_out=worked_out)
    way = printed_unit(unit).way
    if worked_out and bottom and way in {"kitchen", "pounds"}:
        return about + _by_ladder(bottom, top, unit, way, system)
    return about + _plain(bottom, top, unit, worked_out=worked_out)


def amount_words(amount: Amount, *, system: str = "us") -> str:
    """A draft's amount in words, the worked-out value in square brackets after the one that was said.

    "1 cup [125 g]": the cook said a cup, 125 g was worked out. Fields read: ``converted`` (a second amount)
    and ``unscaled`` (present where the figures were scaled and are thus worked out).
    """
    said = print_of(amount, worked_out=amount.unscaled is not None, system=system)
    if amount.converted is None:
        return said
    return f"{said} [{print_of(amount.converted, worked_out=True, system=system)}]"


def measure_notes(dish: Dish) -> list[str]:
    """What a printed dish has to say of its scaling and conversion, one note a line; [] if there was none."""
    notes = [*(dish.scaling.notes if dish.scaling else ())]
    if dish.conversion is not None:
        notes += ["Amounts in square brackets are worked out, not said.", *dish.conversion.notes]
    return notes


def print_of(amount: Amount, *, worked_out: bool, system: str) -> str:
    """One of a draft's amounts in print, without what was worked out beside it; see ``print_amount``."""
    size = amount.size
    return print_amount(
        amount.low,
        amount.high,
        amount.unit,
        approximate=amount.approximate,
        size=(size.low, size.high, size.unit) if size else None,
        worked_out=worked_out,
        system=system,
    )


def _figure(value: Fraction, unit: str, *, worked_out: bool) -> str:
    """One figure in the way of its unit; only worked-out decimals are rounded."""
    way = printed_unit(unit).way
    if way == "decimal":
        return figures.decimal(figures.round_decimal(value, unit) if worked_out else value)
    if not value:
        return "0"
    if way == "inches":
        return figures.mixed(figures.nearest_fraction(value, _INCH_TIERS))
    return figures.mixed(figures.nearest_fraction(value))


def _plain(low: Fraction, high: Fraction, unit: str, *, worked_out: bool) -> str:
    words = printed_unit(unit)
    first, last = _figure(low, unit, worked_out=worked_out), _figure(high, unit, worked_out=worked_out)
    if first == last == "1" and words.way == "vague":
        return f"a {words.one}"
    span = first if first == last else f"{first}–{last}"
    return f"{span} {words.words(high)}".rstrip()


def _sized(
    low: Fraction, high: Fraction, unit: str, size: tuple[Figure, Figure, str], *, worked_out: bool
) -> str:
    """A count of packages or pieces with the size of one: "2 (14-ounce) cans", "1 (400 g) can"."""
    words = printed_unit(size[2])
    ends = [_figure(exact(end), size[2], worked_out=worked_out) for end in size[:2]]
    span = "–".join(dict.fromkeys(ends))
    one = f"{span} {words.sign}" if words.sign else f"{span}-{words.one.replace(' ', '-')}".rstrip("-")
    count = _plain(low, high, "", worked_out=False)
    return f"{count} ({one}) {printed_unit(unit).words(high)}".rstrip()


def _by_ladder(low: Fraction, high: Fraction, unit: str, way: str, system: str) -> str:
    """A worked-out volume in spoons and cups, or a worked-out weight in pounds and ounces."""
    first = _terms(low, unit, way, system)
    last = first if low == high else _terms(high, unit, way, system)
    if first == last:
        return _say(first)
    if len(first) == len(last) == 1 and first[0][1] == last[0][1]:
        return f"{figures.mixed(first[0][0])}–{_say(last)}"
    return f"{_say(first)} to {_say(last)}"


def _terms(value: Fraction, unit: str, way: str, system: str) -> tuple[figures.Term, ...]:
    if way == "pounds":
        return _pounds_and_ounces(value * _OUNCES if unit == "pound" else value)
    tablespoon, cup = figures.spoon_ladder(system)
    size = {"tablespoon": Fraction(tablespoon), "cup": cup, "dessertspoon": Fraction(2)}.get(
        unit, Fraction(1)
    )
    return figures.spoons_and_cups(value * size, system)


def _pounds_and_ounces(ounces: Fraction) -> tuple[figures.Term, ...]:
    """Whole, half and quarter pounds; else pounds and whole ounces; below a pound, ounces."""
    quarters = Fraction(round(ounces / 4), 4)
    if ounces >= _OUNCES and abs(quarters * _OUNCES - ounces) <= ounces / 40:
        return ((quarters, "pound"),)
    if ounces >= _OUNCES:
        pounds, rest = divmod(Fraction(round(ounces)), _OUNCES)
        return ((Fraction(pounds), "pound"), (Fraction(rest), "ounce"))
    return ((figures.nearest_fraction(ounces, _INCH_TIERS), "ounce"),)


def _say(terms: tuple[figures.Term, ...]) -> str:
    if not terms:
        return _BELOW_A_SPOON
    return " + ".join(
        f"{figures.mixed(n)} {printed_unit(unit).words(n)}{_hint(n, unit)}" for n, unit in terms
    )


def _hint(count: Fraction, unit: str) -> str:
    """What to take where no spoon measures ``count`` teaspoons: 1/6 is "a generous 1/8"."""
    if unit != "teaspoon" or not count * 8 % 1:
        return ""
    spoons = (count // 1 + Fraction(eighths, 8) for eighths in _SPOON_EIGHTHS)
    near = min(spoons, key=lambda spoon: abs(spoon - count))
    return f" (a {'generous' if near < count else 'scant'} {figures.mixed(near)})"


_SCALES: dict[str, Literal["degC", "degF"]] = {"degF": "degC", "degC": "degF"}
_SIGNS = {"degF": "°F", "degC": "°C"}


def print_temperature(heat: Heat) -> str:
    """A heat setting in words, with the other scale by the customary rounding: "350 °F (180 °C)".

    Settings said on several scales stand side by side, the ordinary oven before the fan oven and the gas mark last
    ("200 °C / 180 °C fan / gas mark 6"); what was worked out follows in brackets, for an ordinary oven. A gas mark
    shows both degrees, a fan setting says so, a level is given in the cook's words. A figure said without a scale has
    the one it must be on (an oven at 350), else it says that none was said.
    """
    if heat.low is None:
        return heat.level or heat.text
    settings = _with_scales([each for each in (heat, *heat.equivalents) if each.low is not None])
    given = sorted((each for each in settings if not each.worked_out), key=_place_in_print)
    scales = {(each.unit, each.fan) for each in settings}
    worked = [_setting(each) for each in sorted(settings, key=_place_in_print) if each.worked_out]
    worked += [text for unit, fan, text in _other_scales(_leading(given)) if (unit, fan) not in scales]
    said = " / ".join(map(_setting, given))
    return f"{said} ({', '.join(worked)})" if worked else said


def _place_in_print(heat: Heat) -> tuple[bool, bool]:
    """An ordinary oven's degrees first, then a fan oven's, then the gas mark; what was said first leads its kind."""
    return heat.unit == "gas_mark", heat.fan


def _leading(given: list[Heat]) -> Heat:
    """The setting that the others are worked out from: a gas mark, which has degrees of its own, before a figure."""
    if given[-1].unit == "gas_mark":
        return given[-1]
    return next((each for each in given if not each.fan), given[0])


def _with_scales(settings: list[Heat]) -> list[Heat]:
    """The settings with the scale of a bare figure filled in where it can be no other (350 in an oven)."""
    found = []
    for each in settings:
        unit = each.unit or certain_scale(each, settings)[0]
        found.append(each if unit == each.unit else each.model_copy(update={"unit": unit}))
    return found


def _setting(heat: Heat) -> str:
    assert heat.low is not None
    fan = " fan" if heat.fan else ""
    low, high = exact(heat.low), exact(heat.high if heat.high is not None else heat.low)
    if heat.unit == "gas_mark":
        return f"gas mark {_span(low, high, fractions=True)}{fan}"
    if heat.unit in _SIGNS:
        return f"{_span(low, high)} {_SIGNS[heat.unit]}{fan}"
    return f"{_span(low, high)}{fan} (scale not said)"


def _other_scales(heat: Heat) -> list[tuple[str, bool, str]]:
    """The scales that ``heat`` was not said on, each as (unit, whether a fan oven's, words).

    A fan oven's degrees Celsius bring those of an ordinary oven: a "325 °F fan" beside them is no one's dial.
    """
    assert heat.low is not None
    ends = [exact(heat.low), exact(heat.high if heat.high is not None else heat.low)]
    try:
        if heat.unit == "gas_mark":
            ends = [ovens.gas_to_fahrenheit(end) for end in ends]
            celsius = _span(*(ovens.oven_celsius(end) for end in ends))
            fahrenheit = _span(*(Fraction(round(end)) for end in ends))
            return [("degC", False, f"{celsius} °C"), ("degF", False, f"{fahrenheit} °F")]
    except ValueError:
        return []
    if heat.fan and heat.unit == "degC":
        ends = [ovens.conventional_celsius(end) for end in ends]
        fahrenheit = _span(*(ovens.oven_fahrenheit(end) for end in ends))
        return [("degC", False, f"{_span(*ends)} °C"), ("degF", False, f"{fahrenheit} °F")]
    other = _SCALES.get(heat.unit)
    if other is None:
        return []
    fan = " fan" if heat.fan else ""
    figures_said = _span(*(ovens.rounded(end, other, heat.kind) for end in ends))
    return [(other, heat.fan, f"{figures_said} {_SIGNS[other]}{fan}")]


def _span(low: Fraction, high: Fraction, *, fractions: bool = False) -> str:
    write = figures.mixed if fractions else figures.decimal
    return write(low) if low == high else f"{write(low)}–{write(high)}"
