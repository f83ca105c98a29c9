"""Minutes that nobody calls minutes: "leave it ten", "another twenty, twenty five"."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from extract.spot.numbers.find import read_number
from extract.spot.spans import Number
from extract.spot.words import BREAKS, Words, phrases

TABLE = "time_words"
FEWEST, MOST = 2, 90
NEARBY = 14


@dataclass(frozen=True, slots=True)
class Read:
    """A time as read: figures (None for "a few minutes"), unit and the token after it."""

    start: int
    end: int
    low: Fraction | None
    high: Fraction | None
    unit: str
    approximate: bool = False


def read_bare(words: Words, place: int) -> Read | None:
    """A figure without a unit that can only be minutes, by the words before and after it."""
    left = phrases(TABLE, "leave").ends_at(words, place, longest=3) < place
    led = left or phrases(TABLE, "bare before").ends_at(words, place, longest=2) < place
    number = read_number(words, place) if led or words.at(place)[:1].isalnum() else None
    if number is None or not FEWEST <= number.low <= number.high <= MOST or number.low.denominator > 1:
        return None
    if _is_more(words, number):
        return Read(place, number.end + 1, number.low, number.high, "minute", number.approximate)
    if not led or (not left and not _is_round(words, number)):
        return None
    after = words.at(number.end)
    if after[:1].isalpha() and after not in phrases(TABLE, "after bare"):
        return None
    high, end = _upper(words, number)
    return Read(place, end, number.low, high, "minute", number.approximate)


def _is_more(words: Words, number: Number) -> bool:
    """ "ten to fifteen more till it's freckled"."""
    if words.at(number.end) != "more" or number.low % 5:
        return False
    return words.at(number.end + 1) in phrases(TABLE, "until")


def _is_round(words: Words, number: Number) -> bool:
    near = words.low[max(0, number.start - NEARBY) : number.start + NEARBY]
    cooking = any(word in phrases(TABLE, "cooking") for word in near)
    return cooking and number.low % 5 == 0 and words.at(number.end) in BREAKS


def _upper(words: Words, number: Number) -> tuple[Fraction, int]:
    """The upper end of "twenty, twenty five", which no unit helps to find."""
    second = read_number(words, number.end + 1) if words.at(number.end) == "," else None
    if second is None or not number.low < second.low == second.high <= number.low * 2:
        return number.high, number.end
    if number.low != number.high or words.at(second.end)[:1].isalpha():
        return number.high, number.end
    return second.high, second.end
