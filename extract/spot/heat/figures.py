"""Figures of temperature as said: "three fifty" is 350, "four twenty-five" 425."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from extract.spot.numbers.find import read_number
from extract.spot.numbers.values import kind_of, number_words, read_value
from extract.spot.words import BREAKS, DASHES, Words, phrases

JOINTS = frozenset({"to", "or", "and", "in"})


class Figure(NamedTuple):
    """One temperature or a range of them, with the token after it."""

    low: Fraction
    high: Fraction
    end: int


def spoken_hundreds(words: Words, place: int) -> tuple[Fraction, int] | None:
    """ "three fifty", "four twenty-five", "two oh five": a digit, then tens or a nought without "hundred"."""
    if kind_of(words, place) != "digit":
        return None
    table = number_words()
    after = words.skip_dash(place + 1)
    if words.at(after) in phrases("heat_words", "zero") and kind_of(words, after + 1) == "digit":
        return table[words.at(place)][1] * 100 + table[words.at(after + 1)][1], after + 2
    if kind_of(words, after) not in ("ten", "teen"):
        return None
    value = table[words.at(place)][1] * 100 + table[words.at(after)][1]
    if kind_of(words, after) == "teen":
        return value, after + 1
    unit = words.skip_dash(after + 1)
    if kind_of(words, unit) == "digit" and kind_of(words, words.skip_dash(unit + 1)) not in (
        "ten",
        "teen",
        "power",
    ):
        return value + table[words.at(unit)][1], unit + 1
    return value, after + 1


def _one(words: Words, place: int) -> tuple[Fraction, int] | None:
    return spoken_hundreds(words, place) or read_value(words, place)


def _over_comma(words: Words, low: Fraction, end: int) -> tuple[Fraction, int] | None:
    """The upper end of "sixty, sixty five degrees"."""
    second = _one(words, end + 1) if words.at(end) == "," else None
    if second is None or not low < second[0] <= low + 25 or words.at(second[1]) not in ("degrees", "degree"):
        return None
    return second


def read_figure(words: Words, place: int) -> Figure | None:
    """The temperature figure that begins at ``place``; whether it is one is for the context to say."""
    word = words.at(place)
    if not (word in number_words() or word[:1].isdigit() or word == "a"):
        return None
    first = _one(words, place)
    if first is None:
        number = read_number(words, place)
        return Figure(number.low, number.high, number.end) if number is not None else None
    low, end = first
    if (second := _over_comma(words, low, end)) is not None:
        return Figure(low, *second)
    joint = words.skip_break(end)
    if words.at(joint) in ("and", "in") and "between" not in words.low[max(0, place - 3) : place]:
        return Figure(low, low, end)
    start = words.skip_break(joint + 1) if words.at(joint) in JOINTS or words.at(joint) in DASHES else end
    second = _one(words, start) if words.at(start) not in BREAKS else None
    hot = low >= 40 or (
        second is not None and words.at(second[1]) == "°"
    )  # print says which figures are degrees
    if second is not None and low < second[0] <= low * Fraction(3, 2) and hot:
        return Figure(low, second[0], second[1])
    return Figure(low, low, end)
