"""What neighbouring amounts make together: units carried over, sizes said late, sums and restatements."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from functools import cache

from extract.lexicon import read_lexicon
from extract.spot.amounts.context import TABLE
from extract.spot.spans import Amount
from extract.spot.words import BREAKS, Words, phrases

UNIT_UNSAID = "?"
CARRY_LARGE = frozenset({"gram", "millilitre", "ounce"})
CARRY_SMALL = frozenset(
    {"teaspoon", "tablespoon", "cup", "ounce", "pound", "dash", "pinch", "handful", "can"}
)
PACKAGES = frozenset({"can", "jar", "package"})
WEIGHED = frozenset({"ounce", "pound", "gram", "kilogram", "millilitre", "litre", "fluid_ounce"})
LARGE = Fraction(20)
CARRY_REACH = 14
RECENT = 5
RECENT_REACH = 60
SIZE_REACH = 8
FOOD_REACH = 4
EXACT = frozenset({*WEIGHED, "teaspoon", "tablespoon", "cup", "pint", "quart", "gallon", "stick"})


def join(words: Words, found: list[Amount]) -> list[Amount]:
    """``found`` with neighbours put together; figures that stay without a unit before "of" are dropped."""
    return _place_sizes(words, _restated(words, _summed(words, _carried(words, found))))


def _carried(words: Words, found: list[Amount]) -> list[Amount]:
    """ "500 grams of flour, 250 of butter", "a teaspoon of salt and two of sugar": the unit said before."""
    kept: list[Amount] = []
    last: Amount | None = None
    for amount in found:
        if amount.unit == UNIT_UNSAID:
            unit = _carried_unit(words, kept, last, amount)
            if not unit:
                continue
            amount = replace(amount, unit=unit)
        last = amount if amount.unit else last
        kept.append(amount)
    return kept


def _carried_unit(words: Words, kept: list[Amount], last: Amount | None, amount: Amount) -> str:
    """The unit that a figure takes from the amounts before it, "" where it takes none."""
    if last is None or amount.low is None:
        return ""
    if words.at(amount.end) != "of":
        recent = [a for a in kept[-RECENT:] if a.unit and amount.start - a.end <= RECENT_REACH]
        return "gram" if any(a.unit in ("gram", "kilogram") for a in recent) else ""
    if amount.low >= LARGE:
        return last.unit if last.unit in CARRY_LARGE else ""
    return last.unit if last.unit in CARRY_SMALL and amount.start - last.end <= CARRY_REACH else ""


@cache
def unit_steps() -> dict[tuple[str, str], int]:
    """How many of the smaller unit make one of the larger, by (larger, smaller)."""
    rows = read_lexicon("unit_steps", columns=("larger", "smaller", "count"))
    return {(row["larger"], row["smaller"]): int(row["count"]) for row in rows}


def _summed(words: Words, found: list[Amount]) -> list[Amount]:
    """ "a pound and two ounces", "one cup plus two tablespoons": one amount, in the larger unit."""
    kept: list[Amount] = []
    for amount in found:
        last = kept[-1] if kept else None
        if last is not None and (total := _total(words, last, amount)) is not None:
            kept[-1] = total
        else:
            kept.append(amount)
    return kept


def _total(words: Words, first: Amount, second: Amount) -> Amount | None:
    step = unit_steps().get((first.unit, second.unit))
    between = words.low[first.end : second.start]
    if step is None or between not in ([], ["and"], ["plus"], ["&"], ["+"], [",", "plus"]) or first.each:
        return None
    if first.low is None or first.high is None or second.low is None or second.high is None:
        return None
    if second.low >= step or (not between and first.unit not in WEIGHED):
        return None  # "a kilo, a thousand grams", "oil one tablespoon one teaspoon mustard"
    low, high = first.low + second.low / step, first.high + second.high / step
    approximate = first.approximate or second.approximate
    return replace(first, end=second.end, low=low, high=high, approximate=approximate, each=second.each)


def _restated(words: Words, found: list[Amount]) -> list[Amount]:
    """ "one cup, that's 130 grams, of flour", "a pound of lard, which is 450 grams": said once."""
    kept: list[Amount] = []
    for amount in found:
        last = kept[-1] if kept else None
        if last is None or not _are_two_scales(last, amount):
            kept.append(amount)
        elif _is_link(words, last.end, amount.start):
            kept[-1] = replace(last, end=amount.end)
        elif not _is_restated_after_food(words, last, amount):
            kept.append(amount)
    return kept


def _are_two_scales(first: Amount, second: Amount) -> bool:
    """Whether both are exact measures in different units, of which neither counts the other's parts."""
    if first.low is None or second.low is None or first.unit == second.unit or first.slips:
        return False
    return {first.unit, second.unit} <= EXACT


def _is_link(words: Words, start: int, end: int) -> bool:
    links = phrases(TABLE, "same as")
    place = words.skip_break(start)
    length = links.match(words, place)
    if not length:
        return False
    place = words.skip_break(place + length)
    place += phrases(TABLE, "about").match(words, place)
    return place == end


def _is_restated_after_food(words: Words, first: Amount, second: Amount) -> bool:
    """Whether a food and "which is" alone stand between, and the second has no food of its own."""
    if words.at(first.end) != "of" or words.at(second.end) == "of":
        return False
    stop = phrases(TABLE, "uncounted")
    place = first.end + 1
    while place - first.end <= FOOD_REACH and words.at(place).isalpha() and words.at(place) not in stop:
        place += 1
    return place > first.end + 1 and _is_link(words, place, second.start)


def _place_sizes(words: Words, found: list[Amount]) -> list[Amount]:
    """ "jar of plum jam, the 10 ounce": the size of a package, said after what is in it."""
    placed: list[Amount] = []
    for amount in found:
        last = placed[-1] if placed else None
        if (
            last is not None
            and amount.low is not None
            and amount.high is not None
            and _is_size(words, last, amount)
        ):
            placed[-1] = replace(last, size=(amount.low, amount.high, amount.unit))
        else:
            placed.append(amount)
    return placed


def _is_size(words: Words, package: Amount, amount: Amount) -> bool:
    if package.unit not in PACKAGES or package.size is not None or amount.unit not in WEIGHED:
        return False
    if amount.start - package.end > SIZE_REACH:
        return False
    if words.at(amount.start - 1) == ",":
        return words.at(amount.end) in BREAKS or not words.at(amount.end)
    return words.at(amount.start - 1) == "the" and words.at(amount.end) != "of"
