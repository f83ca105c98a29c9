"""How long things take: figures, ranges, "an hour and a quarter", "overnight"."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING

from extract.spot.numbers.find import read_number
from extract.spot.numbers.units import Unit, glued_unit, read_unit
from extract.spot.numbers.values import ANDS, ARTICLES, number_words, read_value
from extract.spot.spans import Duration, Number
from extract.spot.times.bare import TABLE, Read, read_bare
from extract.spot.words import Words, phrases

if TYPE_CHECKING:
    from spacy.tokens import Doc

SECONDS = {"second": 1, "minute": 60, "hour": 3600, "day": 86400, "week": 604800}
STOPS = frozenset({".", "?", "!", ";"})
COUNTED = frozenset({"NOUN", "PROPN", "ADJ", "NUM", "SYM"})
MOST_LONGER = 2  # a time said right after another is its upper end up to so many times as long
VAGUE = frozenset({"few", "several", "some", "many", "little"})


def find_durations(doc: Doc, words: Words | None = None) -> list[Duration]:
    """Every length of time in the talk, in order; weeks are given as days, months and years by their name."""
    words = words or Words.of(doc)
    found, place = [], 0
    while place < len(words):
        read = _read(words, place)
        if read is None:
            number = read_number(words, place)
            place = number.end if number is not None else place + 1
            continue
        found.append(_duration(words, read))
        place = read.end
    return found


def _duration(words: Words, read: Read) -> Duration:
    weeks = 7 if read.unit == "week" else 1
    low = read.low * weeks if read.low is not None else None
    high = read.high * weeks if read.high is not None else None
    unit = "day" if read.unit == "week" else read.unit
    text = words.doc[read.start : read.end].text
    approximate = read.approximate or _is_approximate(words, read.start, read.end)
    return Duration(read.start, read.end, low, high, unit, text, approximate)


def _is_approximate(words: Words, start: int, end: int) -> bool:
    before, after = phrases("amount_words", "about"), phrases("amount_words", "or so")
    return before.ends_at(words, start) < start or after.match(words, words.skip_break(end)) > 0


def _read(words: Words, place: int) -> Read | None:
    word = words.at(place)
    if length := phrases(TABLE, "open").match(words, place):
        return Read(place, place + length, None, None, "day")
    if (bare := read_bare(words, place)) is not None:
        return bare
    if not (
        word in number_words() or word in ARTICLES or word in VAGUE or word == "another" or word[:1].isdigit()
    ):
        unit = read_unit(words, place) if word in ("hour", "minute") else None
        if unit is not None and unit.singular and words.at(place - 1) not in ("-", "the", "this", "that"):
            return _after_unit(words, Read(place, place, Fraction(1), Fraction(1), ""), unit, alone=True)
        return None
    if word == "another":
        inner = _plain(words, place + 1) or _with_unit(
            words, Read(place, place + 1, Fraction(1), Fraction(1), "")
        )
        return replace(inner, start=place) if inner is not None else None
    return _plain(words, place)


def _plain(words: Words, place: int) -> Read | None:
    number = read_number(words, place)
    if number is not None:
        figures = Read(place, number.end, number.low, number.high, "", number.approximate)
        if (unit := glued_unit(words, number.end - 1)) is not None:
            return (
                _after_unit(words, replace(figures, end=number.end - 1), unit)
                if unit.kind == "time"
                else None
            )
        return _with_unit(words, replace(figures, end=_skip_of(words, number)))
    if words.at(place) in ARTICLES:
        if words.at(place + 1) in VAGUE:
            return _with_unit(words, Read(place, place + 2, None, None, ""))
        return _from_article(words, place)
    if words.at(place) in VAGUE:
        return _with_unit(words, Read(place, place + 1, None, None, ""))
    return None


def _skip_of(words: Words, number: Number) -> int:
    """Past the "of an" of "a quarter of an hour", the "an" of "half an hour", the "of" of "a couple of"."""
    place = number.end
    if words.at(place) == "of" and number.high < 1 and words.at(place + 1) in ARTICLES:
        return place + 2
    if words.at(place) in ARTICLES and number.low.denominator > 1 and words.at(number.start) not in ARTICLES:
        return place + 1
    return place + (words.at(place) == "of" and words.at(place - 1) == "couple")


def _from_article(words: Words, place: int) -> Read | None:
    """ "an hour", "a good 20 minutes", "a further five minutes"."""
    after = _skip_more(words, place + 1)
    number = read_number(words, after)
    if number is not None:
        return _with_unit(words, Read(place, number.end, number.low, number.high, "", number.approximate))
    return _with_unit(words, Read(place, place + 1, Fraction(1), Fraction(1), ""))


def _skip_more(words: Words, place: int) -> int:
    while length := phrases(TABLE, "more").match(words, place):
        place += length
    return words.skip_dash(place)


def _with_unit(words: Words, figures: Read) -> Read | None:
    place = _skip_more(words, figures.end)
    place += words.at(place) == "of" and figures.low is None
    if place > figures.end and (number := read_number(words, place)) is not None and number.low > 1:
        figures, place = replace(figures, low=number.low, high=number.high), words.skip_dash(number.end)
    unit = read_unit(words, place) or read_unit(words, words.skip_break(place))
    if unit is None or unit.kind != "time":
        return None
    if unit.name == "second" and unit.singular and _is_ordinal(words, figures, unit):
        return None
    return _after_unit(words, figures, unit)


def _is_ordinal(words: Words, figures: Read, unit: Unit) -> bool:
    """ "the second side", "a second look"."""
    after = words.doc[unit.end].pos_ if unit.end < len(words) else ""
    return figures.low != Fraction(1) or after in ("NOUN", "PROPN", "ADJ")


def _after_unit(words: Words, figures: Read, unit: Unit, *, alone: bool = False) -> Read | None:
    """The figures with their unit, "and a half" and the upper end of a range taken in."""
    read = replace(figures, end=unit.end, unit=unit.name)
    if read.low is None:
        return read
    read = _half_after(words, read)
    read = _smaller_unit(words, read)
    ranged = _range_after(words, read)
    ranged = _longer_after(words, read) if ranged is read else ranged
    if alone and read.end == unit.end and ranged is read:
        return None
    return ranged


def _half_after(words: Words, read: Read) -> Read:
    """ "an hour and a half", "an hour and a quarter"."""
    if words.at(read.end) not in ANDS or read.low is None or read.high is None:
        return read
    part = read_value(words, read.end + 1)
    if part is None or part[0] >= 1 or read_unit(words, words.skip_dash(part[1])) is not None:
        return read
    if words.at(part[1]) in ARTICLES or words.at(part[1]) == "of":
        return read
    return replace(read, low=read.low + part[0], high=read.high + part[0], end=part[1])


def _smaller_unit(words: Words, read: Read) -> Read:
    """ "an hour and 20 minutes", "two minutes 30 seconds", "an hour and ten": one time."""
    after = read.end + (words.at(read.end) in ("and", "&"))
    number = read_number(words, after)
    if number is None or read.low is None or read.low != read.high:
        return read
    unit = read_unit(words, words.skip_dash(number.end))
    name, end = (unit.name, unit.end) if unit is not None else ("minute", number.end)
    if unit is None and not _is_minutes_of_hour(words, read, number, after):
        return read
    big, small = SECONDS.get(read.unit, 0), SECONDS.get(name, 0)
    if not 0 < small < big or number.high * small >= big:
        return read
    base = read.low * Fraction(big, small)
    return replace(read, low=base + number.low, high=base + number.high, unit=name, end=end)


def _is_minutes_of_hour(words: Words, read: Read, number: Number, after: int) -> bool:
    """Whether the "ten" of "an hour and ten" is minutes: nothing follows that it counts."""
    if read.unit != "hour" or after == read.end or number.low % 5 or number.low < 5:
        return False
    return not words.at(number.end)[:1].isalpha() or words.at(number.end) in phrases(TABLE, "after bare")


def _range_after(words: Words, read: Read) -> Read:
    """ "a minute or two", "thirty minutes to an hour", "an hour to an hour and a quarter"."""
    joint = words.skip_break(read.end)
    if words.at(joint) not in ("to", "or") or read.low is None or read.low != read.high:
        return read
    if joint == read.end and (number := _or_number(words, joint, read.low)) is not None:
        return replace(read, high=number.high, end=number.end)
    upper = _plain(words, joint + 1)
    if upper is not None and upper.unit != read.unit and joint > read.end:
        return read
    if upper is None:
        bare = read_unit(words, joint + 1)
        if bare is None or bare.kind != "time" or not bare.singular:
            return read
        upper = _half_after(words, Read(joint + 1, bare.end, Fraction(1), Fraction(1), bare.name))
    return _joined(read, upper)


def _or_number(words: Words, joint: int, low: Fraction) -> Number | None:
    """The "two" of "a minute or two"."""
    number = read_number(words, joint + 1) if words.at(joint) == "or" else None
    if number is None or number.end - number.start > 1 or not low < number.high <= low * 3:
        return None
    return number if read_unit(words, words.skip_dash(number.end)) is None else None


def _longer_after(words: Words, read: Read) -> Read:
    """ "Forty minutes, fifty", "eight hours, or ten", "an hour and a half two hours": the longer one said next."""
    if read.low is None or read.low != read.high:
        return read
    ended = read.end + phrases(TABLE, "more").match(words, read.end)
    joint = words.skip_break(ended)
    led = phrases(TABLE, "or longer").match(words, joint)
    new_sentence = words.at(ended) in STOPS
    upper = _plain(words, joint + led)
    if upper is not None:
        return read if new_sentence and not led else _joined(read, upper, most=MOST_LONGER)
    number = read_number(words, joint + led)
    if number is None or number.low != number.high or _counts_more(words, number.end):
        return read
    if new_sentence and not led and words.at(number.end) not in phrases(TABLE, "after longer"):
        return read
    return _joined(read, Read(joint, number.end, number.low, number.high, read.unit), most=MOST_LONGER)


def _counts_more(words: Words, place: int) -> bool:
    """Whether a thing or a unit follows, which the number before it counts: "ten minutes, 15 almonds"."""
    if place >= len(words):
        return False
    after = words.at(place)
    counted = words.doc[place].pos_ in COUNTED or read_unit(words, words.skip_dash(place)) is not None
    return counted or after == "of" or after in phrases(TABLE, "more")


def _joined(read: Read, upper: Read, *, most: int = 0) -> Read:
    """A time with its upper end, which is at most ``most`` times the lower; the time itself where it is no range."""
    if upper.low is None or upper.high is None or read.low is None:
        return read
    unit = read.unit
    if upper.unit != read.unit:
        if upper.unit not in SECONDS or read.unit not in SECONDS:
            return read
        unit = min(read.unit, upper.unit, key=SECONDS.__getitem__)
    low = read.low * Fraction(SECONDS.get(read.unit, 1), SECONDS.get(unit, 1))
    high = upper.high * Fraction(SECONDS.get(upper.unit, 1), SECONDS.get(unit, 1))
    if high <= low or (most and high > most * low):
        return read
    return replace(read, low=low, high=high, unit=unit, end=upper.end)
