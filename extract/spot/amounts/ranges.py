"""What follows a unit and still belongs to its amount: "and a half", "or two", "or so", "each"."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from extract.spot.amounts.context import TABLE
from extract.spot.amounts.lead import ONE, Lead, skip_of
from extract.spot.numbers.find import read_number
from extract.spot.numbers.units import Unit, read_unit
from extract.spot.numbers.values import ARTICLES, read_value
from extract.spot.spans import Amount
from extract.spot.words import BREAKS, Words, phrases


def half_after(words: Words, lead: Lead, unit: Unit) -> tuple[Lead, int]:
    """ "a cup and a half", "a pound and a quarter"."""
    end = unit.end
    if words.at(end) not in ("and", "&", "an") or lead.low.denominator > 1:
        return lead, end
    part = read_value(words, end + 1)
    if part is None or part[0] >= 1 or words.at(part[1]) in ARTICLES:
        return lead, end
    if words.at(part[1]) == "of" and words.at(part[1] + 1) in ARTICLES:
        return lead, end
    if read_unit(words, words.skip_dash(part[1])) is not None:
        return lead, end
    return replace(lead, low=lead.low + part[0], high=lead.high + part[0]), part[1]


def range_after(words: Words, lead: Lead, unit: Unit, end: int) -> tuple[Lead, int]:
    """ "a teaspoon or two", "half a cup to a cup", "a pound, pound and a half", "a tablespoon, maybe two"."""
    if lead.low != lead.high:
        return lead, end
    if words.at(end) in ("to", "or"):
        joint = end + 1
    else:
        joint = words.skip_break(end)
        joint += phrases(TABLE, "about").match(words, joint)
        if joint == end or (lead.low > 1 and read_unit(words, joint)):
            return lead, end
    upper = _bare_upper(words, lead, joint, comma=words.at(end) not in ("to", "or"))
    if upper is not None:
        return replace(lead, high=upper[0], approximate=lead.approximate), upper[1]
    return _upper_with_unit(words, lead, unit, end, joint)


def _bare_upper(words: Words, lead: Lead, place: int, *, comma: bool) -> tuple[Fraction, int] | None:
    """The "two" of "a teaspoon or two": a figure with neither unit nor food of its own."""
    number = read_number(words, place)
    if number is None or not lead.low < number.high <= lead.low * 3:
        return None
    after = words.at(number.end)
    if read_unit(words, words.skip_dash(number.end)) is not None or (comma and after and after[0].isalpha()):
        return None
    if comma and words.at(place - 1) in BREAKS:
        return None
    return number.high, number.end


def _upper_with_unit(words: Words, lead: Lead, unit: Unit, end: int, place: int) -> tuple[Lead, int]:
    """The "a tablespoon and a half" of "a tablespoon to a tablespoon and a half"."""
    number = read_number(words, place)
    if number is not None:
        low, after = number.high, number.end
    else:
        low, after = ONE, place + (words.at(place) in ARTICLES)
    after = skip_of(words, Lead(end, after, low, low), after)
    second = read_unit(words, words.skip_dash(after))
    if (
        second is None
        or second.name != unit.name
        or (words.at(end) not in ("to", "or") and number is not None)
    ):
        return lead, end
    upper, last = half_after(words, Lead(end, after, low, low), second)
    return (replace(lead, high=upper.high), last) if upper.high > lead.low else (lead, end)


def is_or_so(words: Words, end: int) -> bool:
    return phrases(TABLE, "or so").match(words, words.skip_break(end)) > 0


def shared_by(words: Words, found: Amount) -> Amount:
    """ "a teaspoon each of", "a quarter cup of both", "a tablespoon of each"."""
    shared = phrases(TABLE, "shared")
    place = words.skip_break(found.end)
    if words.at(place) in shared:
        return replace(found, end=place + 1, each=True)
    if words.at(found.end) == "of" and words.at(found.end + 1) in shared:
        return replace(found, end=found.end + 2, each=True)
    return found
