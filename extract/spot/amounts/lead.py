"""The figures of an amount with what may stand between them and their unit."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from extract.spot.amounts.context import TABLE
from extract.spot.numbers.units import read_unit
from extract.spot.numbers.values import ARTICLES
from extract.spot.spans import Amount
from extract.spot.words import Words, phrases

ONE = Fraction(1)
WHOLES = frozenset({"bunch", "head", "stick", "block"})
Size = tuple[Fraction, Fraction, str]


@dataclass(frozen=True, slots=True)
class Lead:
    """What stands before the unit: figures, the place after them and the marks they carry."""

    start: int
    end: int
    low: Fraction
    high: Fraction
    approximate: bool = False
    more: bool = False
    article: bool = False

    def amount(self, end: int, unit: str = "", *, times: int = 1, size: Size | None = None) -> Amount:
        """The amount of these figures in ``unit``, ending before token ``end``."""
        low, high = self.low * times, self.high * times
        return Amount(self.start, end, low, high, unit, self.approximate, size, more=self.more)


def skip_more(words: Words, place: int) -> tuple[int, bool]:
    place += phrases(TABLE, "or so").match(words, place)
    length = phrases(TABLE, "more").match(words, place)
    return place + length, length > 0


def skip_of(words: Words, lead: Lead, place: int) -> int:
    """Past the "of a" of "three quarters of a cup", the "a" of "half a cup", the "of" of "a couple of"."""
    if lead.high < 1 and (inside := _of_a_whole(words, place)):
        return inside
    if words.at(place) == "of" and (lead.high < 1 or words.at(place - 1) in ("couple", "dozen")):
        if words.at(place + 1) in ARTICLES:
            return place + 2
        return place + 1 if lead.high >= 1 or read_unit(words, place + 1) else place
    if lead.low.denominator > 1 and words.at(place) in ARTICLES and words.at(place - 1) not in ARTICLES:
        return place + 1
    if lead.high < 1 and words.at(words.skip_dash(place)) in ARTICLES:
        return words.skip_dash(place) + 1
    return place


def _of_a_whole(words: Words, place: int) -> int:
    """The unit of "half the tin", "a third of that bunch": a package or a part of a food; 0 where there is none."""
    place += words.at(place) == "of"
    if words.at(place) not in phrases(TABLE, "reference"):
        return 0
    unit = read_unit(words, place + 1)
    known = unit is not None and (
        unit.kind == "package" or unit.name in WHOLES or words.at(place + 1) == "force"
    )
    return place + 1 if known else 0


def skip_sizes(words: Words, place: int) -> int:
    """The place after any size words ("two large eggs") and the commas that split them."""
    sizes = phrases(TABLE, "size")
    while length := sizes.match(words, place):
        place = words.skip_dash(place + length)
    return place
