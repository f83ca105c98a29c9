"""How much of a food the words say, wherever they say it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from extract.spot.amounts.context import MANY, TABLE, is_year
from extract.spot.amounts.corrections import correct
from extract.spot.amounts.joining import LARGE, UNIT_UNSAID, join
from extract.spot.amounts.lead import ONE, skip_sizes
from extract.spot.amounts.measures import read_measure
from extract.spot.amounts.told_after import with_sorts
from extract.spot.heat.figures import spoken_hundreds
from extract.spot.names.foods import look_up, word_key
from extract.spot.numbers.find import read_number
from extract.spot.numbers.units import Unit, forms, read_unit
from extract.spot.numbers.values import number_starts
from extract.spot.spans import Amount, Number
from extract.spot.words import BREAKS, Words, phrases

if TYPE_CHECKING:
    from spacy.tokens import Doc, Token

COUNTABLE = frozenset({"dab", "package", "part", "volume", "mass"})
PLAIN = frozenset({"some", "few", "several"})
VAGUE_REACH = 3
STOPS = frozenset({*BREAKS, "?", "!"})
ALONE = 3  # words of a sentence that only names a food: "Then some shallots."


def find_amounts(doc: Doc, words: Words | None = None) -> list[Amount]:
    """Every amount of the talk, in order and without overlaps.

    A count ("two large eggs", "an onion") has unit "" and spans the number and its size words alone: which
    food it counts, and whether it counts one at all, is for pairing to decide.
    """
    words = words or Words.of(doc)
    found: list[Amount] = []
    place = 0
    while place < len(words):
        amount = _read(words, place) or _bare_figure(words, place)
        if amount is not None:
            found.append(amount)
            place = max(amount.end, place + 1)
            continue
        place = _past_number(words, place)
    return correct(words, with_sorts(words, join(words, found)))


def _bare_figure(words: Words, place: int) -> Amount | None:
    """A figure before "of" with no unit, kept until the unit said before it can be looked at."""
    if spoken_hundreds(words, place) is not None or words.at(place - 1) in ("out", "in"):
        return None
    number = read_number(words, place)
    if number is None or number.low < 1:
        return None
    if words.at(number.end) != "of":
        return _told_after(words, number)
    if words.at(number.end + 1) in phrases(TABLE, "reference") and number.low == ONE:
        return None
    if words.at(number.end + 1) in ("them", "those", "these", "us", "you", "it"):
        return None
    return Amount(number.start, number.end, number.low, number.high, UNIT_UNSAID, number.approximate)


def _told_after(words: Words, number: Number) -> Amount | None:
    """ "Sugar, a hundred and fifty.", "Olives, about twenty", "Onions, just the one": a figure after its food."""
    after = number.end + phrases(TABLE, "or so").match(words, number.end)
    if words.at(after) not in BREAKS or number.low.denominator > 1 or is_year(number):
        return None
    first = phrases(TABLE, "no more than").ends_at(words, number.start)
    start = phrases(TABLE, "about").ends_at(words, first)
    if words.at(start - 1) not in (",", ".") or start < 2:
        return None
    amount = Amount(first, number.end, number.low, number.high, UNIT_UNSAID, number.approximate)
    single = first < number.start and number.high == ONE and _is_food(words, start - 2)
    if (
        number.low < MANY
        and (single or _names_several(words, start - 2))
        and _closes(words, start - 1, after)
    ):
        return replace(amount, unit="")
    if words.at(start - 1) == ".":
        return None
    return amount if number.low >= LARGE and words.doc[start - 2].pos_ in ("NOUN", "PROPN") else None


def _closes(words: Words, stop: int, end: int) -> bool:
    """Whether the figure counts what was named before it: after a full stop only what stands there alone.

    "Shallots. Five, peeled." counts; "Drain the beans. Five, six minutes." and "Add the beans. Two, and then stir"
    do not.
    """
    if read_number(words, end + 1) is not None and words.at(end + 2) not in ("at", "by"):
        return False
    if words.at(stop) == ",":
        return True
    alone = any(words.at(place) in (*BREAKS, "") for place in range(stop - ALONE - 1, stop - 1))
    return alone and words.at(end + 1) not in ("and", "then", "so", "but")


def _names_several(words: Words, last: int) -> bool:
    """Whether a plural food stands before a comma: "eggs,", "eggs in there,", "black ones,"."""
    last = phrases(TABLE, "there").ends_at(words, last + 1) - 1
    token = words.doc[last] if last >= 0 else None
    if token is None or not _is_plural(token) or token.lower_ in phrases(TABLE, "uncounted"):
        return False
    unit = read_unit(words, last)
    return unit is None and not phrases("count_words", "eaters").match(words, last)


def _is_food(words: Words, place: int) -> bool:
    """Whether one word names a food: "onion, just the one"."""
    return look_up((word_key(words.at(place)),)) is not None


def _is_plural(token: Token) -> bool:
    """A noun in the plural; a food that opens a sentence ("Eggs, three") is often taken for a name."""
    key = word_key(token.lower_)
    return token.tag_ in ("NNS", "NNPS") or (key != token.lower_ and look_up((key,), plural=True) is not None)


def _past_number(words: Words, place: int) -> int:
    """The place after a number that was no amount, or the next word."""
    if (hundreds := spoken_hundreds(words, place)) is not None:
        return hundreds[1]
    number = read_number(words, place)
    return number.end if number is not None else place + 1


def _read(words: Words, place: int) -> Amount | None:
    if spoken_hundreds(words, place) is not None:
        return None
    word = words.at(place)
    for reader, begins in (
        (_vague, phrases(TABLE, "vague").may_begin(word)),
        (_same, phrases(TABLE, "same").may_begin(word)),
        (read_measure, word == "another" or word in number_starts() or word[:1].isdigit()),
        (_bare_unit, word in forms()),
    ):
        if begins and (amount := reader(words, place)) is not None:
            return amount
    return None


def _vague(words: Words, place: int) -> Amount | None:
    """ "some", "a little", "a few": words that put a food in and give no figure."""
    length = phrases(TABLE, "vague").match(words, place)
    if not length:
        return None
    end = place + length
    more = phrases(TABLE, "vague more").match(words, place) > 0
    unit = read_unit(words, skip_sizes(words, end + (words.at(end) == "of")))
    if unit is not None and unit.kind in ("time", "temperature", "length"):
        return None
    if unit is not None and words.at(place) == "a" and words.at(end - 1) == "little" and unit.kind != "part":
        return None
    return Amount(place, end, None, None, more=more) if _is_of_something(words, place, end) else None


def _is_of_something(words: Words, start: int, end: int) -> bool:
    """Whether a thing follows, and not only a quality: "a little salt", not "a little thicker"."""
    if words.at(end - 1) == "of" or words.at(end) == "of":
        return True
    if not PLAIN.isdisjoint(words.low[start:end]):
        return words.at(end)[:1].isalpha() and words.at(end) not in phrases(TABLE, "uncounted")
    for token in words.doc[end : end + VAGUE_REACH]:
        if token.tag_ in ("JJR", "RBR") or not token.is_alpha or token.lower_ in phrases(TABLE, "uncounted"):
            return False
        if token.pos_ in ("NOUN", "PROPN"):
            return True
    return False


def _same(words: Words, place: int) -> Amount | None:
    length = phrases(TABLE, "same").match(words, place)
    return Amount(place, place + length, None, None, again=True) if length else None


def _bare_unit(words: Words, place: int) -> Amount | None:
    """ "pinch of salt", "the whole tin of tomatoes": one of the unit, its article unsaid."""
    unit = read_unit(words, place)
    if unit is None or unit.kind not in COUNTABLE or not unit.singular:
        return None
    if words.at(unit.end) != "of":
        return _unit_alone(words, unit, place)
    reference = phrases(TABLE, "reference")
    if words.at(unit.end + 1) in ("it", "them", "course"):
        return None
    start = place
    while words.at(start - 1) in phrases(TABLE, "size"):
        start -= 1
    whole = "whole" in words.low[start:place] or "entire" in words.low[start:place]
    referred = words.at(start - 1) in reference or words.at(unit.end + 1) in reference
    if referred and not whole:
        return None
    if words.doc[place].pos_ == "VERB" and unit.kind != "dab":
        return None
    return Amount(start, unit.end, ONE, ONE, unit.name)


def _unit_alone(words: Words, unit: Unit, place: int) -> Amount | None:
    """ "Black pepper? Tablespoon.", "and salt, pinch,": one of a measure that stands between two stops."""
    if (
        unit.kind not in ("volume", "dab")
        or words.at(place - 1) not in STOPS
        or words.at(unit.end) not in STOPS
    ):
        return None
    return Amount(place, unit.end, ONE, ONE, unit.name)
