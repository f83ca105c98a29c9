"""Spoons whose sort is told behind them: "two spoons of flour, tablespoons", "Passata, six table, tablespoons".

A count of spoons, or a bare figure, takes the sort that is named behind it with no figure of its own, or with the
article of a single spoon ("a spoon of oil on top, a tablespoon").
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from extract.spot.amounts.context import TABLE
from extract.spot.amounts.lead import ONE, skip_sizes
from extract.spot.numbers.find import read_number
from extract.spot.numbers.units import Unit, read_unit
from extract.spot.numbers.values import ARTICLES
from extract.spot.spans import Amount
from extract.spot.words import BREAKS, Words, phrases

SPOONS = frozenset({"teaspoon", "tablespoon"})
REACH, CLOSE = 12, 3


def with_sorts(words: Words, found: Sequence[Amount]) -> list[Amount]:
    """The amounts, counts of spoons in the measure that they turn out to be."""
    return [_with_sort(words, amount) for amount in found]


def _with_sort(words: Words, amount: Amount) -> Amount:
    if amount.low is None or amount.high is None or amount.unit or amount.size is not None:
        return amount
    place = skip_sizes(words, amount.end)
    loose = _is_spoon(words, amount.end - 1) or _is_spoon(words, place)
    place += _is_spoon(words, place)
    for after in range(place, place + (REACH if loose else CLOSE)):
        unit = read_unit(words, after)
        if unit is not None and unit.name in SPOONS:
            close = all(_breaks_off(words, between) for between in range(place, after))
            return _in_unit(words, amount, unit, after, close=close, loose=loose)
        if read_number(words, after) is not None and not (amount.low == ONE and words.at(after) == "one"):
            return amount
        if not loose and not _breaks_off(words, after):
            return amount
    return amount


def _is_spoon(words: Words, place: int) -> bool:
    unit = read_unit(words, place)
    return unit is not None and unit.kind == "loose" and words.at(place).startswith("spoon")


def _breaks_off(words: Words, place: int) -> bool:
    """Whether only a comma or the beginning of a spoon's name stands here: "six table, tablespoons"."""
    word = words.at(place)
    return word in BREAKS or (len(word) > 2 and any(name.startswith(word) for name in SPOONS))


def _in_unit(words: Words, amount: Amount, unit: Unit, at: int, *, close: bool, loose: bool) -> Amount:
    """The amount in a sort of spoon told at ``at``, unless that has a food or a figure of its own."""
    single = words.at(at - 1) in (*ARTICLES, "one")
    after = words.at(unit.end)
    own = after == "of" or not (after in BREAKS or after in phrases(TABLE, "uncounted") or not after)
    if own or (single and (amount.high != ONE or not loose)):
        return amount
    low, high = amount.low, amount.high
    if low is None or high is None:
        return amount
    end = unit.end if close and not single else amount.end
    return replace(amount, end=end, low=low * unit.times, high=high * unit.times, unit=unit.name)
