"""Numbers and ranges as people say them and recognisers write them.

``read_number`` puts two values of ``numbers_values`` to a range and looks for "about" and "or so" near them.
"""

from __future__ import annotations

import re
from fractions import Fraction

from extract.spot.numbers.units import read_unit, split_glued
from extract.spot.numbers.values import (
    ANDS,
    Value,
    figure_value,
    kind_of,
    number_words,
    read_value,
    worth_of,
)
from extract.spot.spans import Number
from extract.spot.words import BREAKS, DASHES, Words, phrases

JOINED = re.compile(r"(.*[\d¼-¾⅐-⅞])[-–—](.*[\d¼-¾⅐-⅞])")
RANGE_WORDS = frozenset({"to", "or", "through", "till", "until"})


def _second(words: Words, first: Value) -> Value | None:
    """The upper end of a range whose lower end is ``first``."""
    low, after = first
    start = words.skip_break(after)
    if words.at(start) in RANGE_WORDS or words.at(start) in DASHES:
        second = read_value(words, words.skip_break(start + 1))
        return second if second is not None and second[0] > low else None
    second = read_value(words, start)
    if second is None or not low < second[0] <= max(low * Fraction(5, 2), low + 1) or words.capital(start):
        return None
    if words.at(after - 2) in ("mark", "gas", "number") or (start > after and second[0] > low * 2):
        return None
    if (start > after and _is_counting(words, after - 1, low)) or _is_a_thing(words, after - 1):
        return None
    unit = read_unit(words, words.skip_dash(second[1]))
    if unit is None and start > after and _are_near(words, low, second) and words.at(after - 2) not in BREAKS:
        return second
    if unit is None and start == after and _are_neighbours(low, second[0]):
        second = _last_in_row(words, second)
        return second if _counts(words, second[1]) else None
    if unit is None or (unit.kind != "time" and low < 1):
        return None
    sized = read_unit(words, words.skip_dash(unit.end))
    return None if sized is not None and sized.kind in ("package", "part") else second


def _is_counting(words: Words, place: int, value: Fraction) -> bool:
    """Whether the number at ``place`` goes on from the one before: "one, two, three tablespoons"."""
    before = place - 2 if words.at(place - 1) in BREAKS else place - 1
    return kind_of(words, before) == "digit" and worth_of(words, before) == value - 1


def _is_a_thing(words: Words, place: int) -> bool:
    """Whether the word is the "one" of "the big one, two hours"."""
    return words.at(place) == "one" and place > 0 and words.doc[place - 1].pos_ in ("ADJ", "DET")


def _last_in_row(words: Words, value: Value) -> Value:
    """The end of "three four five six wedges"."""
    while (after := read_value(words, value[1])) is not None and _are_neighbours(value[0], after[0]):
        value = after
    return value


def _are_neighbours(low: Fraction, high: Fraction) -> bool:
    """Whether two numbers said in a row are a range: "four five", "ten fifteen"."""
    return high == low + 1 or (low >= 5 and low % 5 == 0 and high == low + 5)


def _are_near(words: Words, low: Fraction, second: Value) -> bool:
    """Whether two numbers with a comma between are a range of things: "six, eight peppercorns"."""
    counted = words.doc[second[1]] if second[1] < len(words) else None
    plural = counted is not None and counted.tag_ in ("NNS", "NNPS")
    return plural and second[0] <= low + 2 and _counts(words, second[1])


def _counts(words: Words, place: int) -> bool:
    word = words.at(place)
    return (
        word[:1].isalpha() and word not in phrases("amount_words", "uncounted") and word not in number_words()
    )


def _joined(words: Words, place: int) -> tuple[Fraction, Fraction] | None:
    """The two ends of a range written as one word: "2–3", or "10-15min" with its unit."""
    word = words.at(place)
    glued = split_glued(word)
    match = JOINED.fullmatch(glued[0] if glued else word)
    if match is None:
        return None
    low, high = figure_value(match[1]), figure_value(match[2])
    return (low, high) if low is not None and high is not None and low < high else None


def _is_approximate(words: Words, start: int, end: int) -> bool:
    before, after = phrases("amount_words", "about"), phrases("amount_words", "or so")
    return before.ends_at(words, start) < start or after.match(words, words.skip_break(end)) > 0


def _read(words: Words, place: int) -> Number | None:
    if (joined := _joined(words, place)) is not None:
        return Number(place, place + 1, *joined, _is_approximate(words, place, place + 1))
    glued = split_glued(words.at(place))
    if glued is not None and (value := figure_value(glued[0])) is not None:
        return Number(place, place + 1, value, value, _is_approximate(words, place, place + 1))
    first = read_value(words, place)
    if first is None:
        return None
    second = _second(words, first)
    if second is None and words.at(place - 1) == "between" and words.at(first[1]) in ANDS:
        upper = read_value(words, first[1] + 1)
        second = upper if upper is not None and upper[0] > first[0] else None
    if second is None and (glued := split_glued(words.at(words.skip_dash(first[1])))) is not None:
        second = _glued_end(words, first, glued[0])
    low, end = first
    high, end = second or (low, end)
    return Number(place, end, low, high, _is_approximate(words, place, end))


def _glued_end(words: Words, first: Value, figures: str) -> Value | None:
    """The upper end of "10 - 15min", whose second token holds the unit as well."""
    upper = figure_value(figures)
    if words.at(first[1]) not in DASHES or upper is None or upper <= first[0]:
        return None
    return upper, first[1] + 2


def read_number(words: Words, place: int) -> Number | None:
    """The number or range that begins at ``place``, read once and kept."""
    if place not in words.read:
        words.read[place] = _read(words, place)
    return words.read[place]


def is_pronoun(words: Words, number: Number) -> bool:
    """Whether a "one" stands for a thing ("this one", "one of those") and counts nothing."""
    if number.end - number.start != 1 or words.at(number.start) not in ("one", "ones"):
        return False
    before, after = words.at(number.start - 1), words.at(number.end)
    if before in phrases("amount_words", "points at one"):
        return True
    return after in phrases("amount_words", "uncounted") and read_unit(words, number.end) is None
