"""The amounts that stand in the words of the method, made larger or smaller and put into other measures."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from fractions import Fraction
from functools import cache

from extract.lexicon import read_lexicon
from extract.measure.figures import exact, spoon_ladder
from extract.measure.kitchen import UNIT_COLUMNS, amount_words, print_amount
from extract.measure.tins import TIN_COLUMNS, find_lengths
from extract.measure.units import dimension
from extract.measure.worked import METRIC, work_out
from extract.model import Amount, Dish, Ingredient, Step
from extract.spot.names.foods import food_words, name_keys, not_foods, word_key

_NEAR = 6  # words around an amount among which its food stands
_ADDED = re.compile(r" \[[^\][]*\]")  # what a conversion puts behind an amount
_VESSELS = ("can", "tin", "jar", "packet", "package", "carton", "bottle", "tub")
_FIGURE = r"\d+ \d+/\d+|\d+/\d+|\d+(?:\.\d+)?"


Factors = Callable[[Step], Fraction]


def keep_edits(dish: Dish, factors: Factors, system: str) -> None:
    """Take over what a person has since changed in scaled or converted steps, before they are restated.

    ``factors``, ``system`` and the dish's conversion are those by which the steps were last restated.
    """
    for step in dish.method:
        if step.as_said and step.text != _restated(step.as_said, factors(step), dish, system):
            step.as_said = _scaled(_ADDED.sub("", step.text), 1 / factors(step), system)


def restate(dish: Dish, factors: Factors, system: str) -> None:
    """Put the amounts of every step at ``factors`` of what was said, with the measures of the dish's conversion.

    ``Step.as_said`` keeps the words before any of it; it is "" where nothing was changed.
    """
    for step in dish.method:
        said = step.as_said or step.text
        step.text = _restated(said, factors(step), dish, system)
        step.as_said = said if step.text != said else ""


def _restated(said: str, factor: Fraction, dish: Dish, system: str) -> str:
    foods = [line for component in dish.components for line in component.ingredients]
    text = _scaled(said, factor, system)
    return _converted(text, foods, dish.conversion.to, system) if dish.conversion else text


def _scaled(text: str, factor: Fraction, system: str) -> str:
    if factor == 1:
        return text

    def larger(amount: Amount, found: str, at: int) -> str:
        low, high = exact(amount.low) * factor, exact(amount.high) * factor
        low, high, unit = fitting_unit(low, high, amount.unit, system)
        return print_amount(low, high, unit, worked_out=True, system=system)

    return _changed(text, larger)


def _converted(text: str, foods: Sequence[Ingredient], to: str, system: str) -> str:
    """The text with the worked-out measure in square brackets behind each amount and each length."""

    def beside(amount: Amount, found: str, at: int) -> str:
        food = _food_near(text, at, at + len(found), foods)
        worked = work_out(amount, food or "water", "", to, system)
        return amount_words(worked, system=system) if worked.converted is not None else found

    return _with_lengths(_changed(text, beside), to)


def _with_lengths(text: str, to: str) -> str:
    foreign = "inch" if to in METRIC else "centimetre"
    for length in find_lengths(text):
        if length.unit == foreign and length.text in text:
            text = text.replace(length.text, f"{length.text} [{length.other_scale()}]", 1)
    return text


def _changed(text: str, change: Callable[[Amount, str, int], str]) -> str:
    """The text with every measured amount of food changed; sizes of tins and packages are left as they are."""

    def put(match: re.Match[str]) -> str:
        if _is_size(text[match.end() :]):
            return match[0]
        low = exact(match["low"])
        high = exact(match["high"]) if match["high"] else low
        unit = _units()[match["unit"]]
        return change(Amount(low=float(low), high=float(high), unit=unit), match[0], match.start())

    return measures_in_words().sub(put, text)


def _is_size(after: str) -> bool:
    """Whether the words behind an amount name the vessel or the package that it is the size of."""
    if after[:1] == "-":
        return True
    phrase = re.match(r"[A-Za-z ]*", after)
    for word in (phrase.group() if phrase else "").split()[:3]:
        if word.lower() in food_words("lead"):
            return False
        key = word_key(word)
        if key in _VESSELS or not_foods().get(key) == "vessel" or key in _tins():
            return True
    return False


@cache
def _tins() -> frozenset[str]:
    rows = read_lexicon("tins", columns=TIN_COLUMNS)
    return frozenset(row["word"] for row in rows if row["shape"] == "vessel")


def _food_near(text: str, start: int, end: int, foods: Sequence[Ingredient]) -> str:
    """The listed food that stands nearest behind an amount, or else before it ("the butter (40 g)")."""
    behind = name_keys(" ".join(text[end:].split()[:_NEAR]))
    before = name_keys(" ".join(text[:start].split()[-_NEAR:]))
    sides = (behind, tuple(reversed(before)))
    for words in reversed(sides) if text[:start].endswith("(") else sides:
        places = {
            line.name: words.index(key)
            for line in foods
            if (key := (name_keys(line.name) or ("",))[-1]) in words
        }
        if places:
            return min(places, key=lambda name: places[name])
    return ""


@cache
def _units() -> dict[str, str]:
    """Printed words of volumes and weights with their unit."""
    rows = read_lexicon("unit_print", columns=UNIT_COLUMNS)
    kept = [row for row in rows if dimension(row["unit"]) in {"volume", "mass"}]
    return {row[form]: row["unit"] for row in kept for form in ("one", "many", "sign") if row[form]}


@cache
def measures_in_words() -> re.Pattern[str]:
    """A figure with a unit of volume or weight, as the method prints it."""
    words = "|".join(sorted(map(re.escape, _units()), key=len, reverse=True))
    return re.compile(rf"\b(?P<low>{_FIGURE})(?:–(?P<high>{_FIGURE}))? (?P<unit>{words})\b")


_LARGER = {"gram": ("kilogram", 1000), "millilitre": ("litre", 1000), "ounce": ("pound", 16)}
_SMALLER = {large: (small, times) for small, (large, times) in _LARGER.items()}


def fitting_unit(low: Fraction, high: Fraction, unit: str, system: str) -> tuple[Fraction, Fraction, str]:
    """The amount in teaspoons, tablespoons or cups by size; grams as kilograms from 1000, and so on."""
    if unit in {"teaspoon", "tablespoon", "cup"}:
        tablespoon, cup = spoon_ladder(system)
        size = {"teaspoon": Fraction(1), "tablespoon": Fraction(tablespoon), "cup": cup}
        spoons = low * size[unit]
        fit = "cup" if spoons >= cup / 4 else "tablespoon" if spoons >= tablespoon else "teaspoon"
        return low * size[unit] / size[fit], high * size[unit] / size[fit], fit
    larger, times = _LARGER.get(unit, ("", 0))
    if times and low >= times:
        return low / times, high / times, larger
    smaller, times = _SMALLER.get(unit, ("", 0))
    if times and low < 1 and unit != "pound":
        return low * times, high * times, smaller
    return low, high, unit
