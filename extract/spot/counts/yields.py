"""Yields: how many a dish serves, how many pieces it comes to.

A number is a yield where a phrase of ``lexicons/words/count_words.tsv`` leads to it ("that'll feed", "you'll get")
and what follows it is eaters, helpings or pieces, or nothing at all. One person's share ("two each"), advice
("if you cut them small") and what somebody feeds elsewhere ("I feed forty a day") are none. What is said
without such a phrase is read by ``yields_passing``.
"""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from extract.spot.amounts.lead import skip_sizes
from extract.spot.numbers.find import read_number
from extract.spot.numbers.units import read_unit
from extract.spot.spans import Count, CountForm, Number
from extract.spot.words import BREAKS, Words, phrases

TABLE = "count_words"
STOPS = frozenset({".", "?", "!", ""})
MOST = 200
LEAST_UNNAMED = 4
ADJECTIVES = 2
CONDITION_REACH = 7
NAMED = ("NOUN", "PROPN", "ADJ", "NUM", "SYM", "X")
MEASURES = frozenset({"time", "temperature", "mass", "length", "volume"})
HELPINGS = ("servings", "helpings")
# What a dish is cut or shaped into; ingredients are counted by these names too.
PIECES = ("pieces", "bakes")
ANY = ("eaters", *HELPINGS, *PIECES, "wholes")


class Counted(NamedTuple):
    """What a number counts: the token after it, its name and the role of that name."""

    end: int
    unit: str
    role: str


def match(words: Words, role: str, place: int) -> int:
    """How many tokens the phrase with this role that begins at ``place`` has."""
    return phrases(TABLE, role).match(words, place)


def yield_at(words: Words, place: int) -> Count | None:
    """The yield that the words from ``place`` state, None where they state none."""
    for reader in (_fed, _for, _made, _got, _taken_out, _there, _stated):
        made = reader(words, place)
        if made is not None:
            return None if is_supposed(words, place) else made
    return None


def whole_number(words: Words, place: int, least: int = 2) -> Number | None:
    """The whole number of things at ``place`` or after "about", "a tray of"; a measure is none."""
    place += match(words, "group", place)
    number = read_number(words, place + phrases("amount_words", "about").match(words, place))
    if number is None or number.low.denominator > 1 or not least <= number.low or number.high > MOST:
        return None
    unit = read_unit(words, skip_sizes(words, number.end))
    return None if unit is not None and unit.kind in MEASURES else number


def counted(words: Words, number: Number, roles: tuple[str, ...]) -> Counted | None:
    """What the number counts, by a name of one of the ``roles``; sizes may stand before it."""
    place = skip_sizes(words, number.end)
    for at in range(place, place + ADJECTIVES + 1):
        for role in roles:
            if length := match(words, role, at):
                people = role in ("eaters", "mouths")
                return Counted(at + length, "people" if people else words.at(at + length - 1), role)
        if at >= len(words) or words.doc[at].pos_ != "ADJ":
            break
    return None


def is_each(words: Words, end: int) -> bool:
    """Whether the number before ``end`` is one person's or one batch's."""
    return match(words, "each", end) > 0


def ends(words: Words, place: int) -> bool:
    """Whether a number stands alone: "serves four", not "serve two cups"."""
    after = words.at(place)
    if is_each(words, place) or after == "of":
        return False
    if not after or not after[0].isalpha():
        return True
    return match(words, "ends", place) > 0 or words.doc[place].pos_ not in NAMED


def is_supposed(words: Words, place: int) -> bool:
    """Whether the words before ``place`` only suppose it: "if you cut them small you'll get 20"."""
    for at in range(place - 1, max(-1, place - 1 - CONDITION_REACH), -1):
        if words.at(at) in STOPS or match(words, "condition ends", at):
            return False
        if match(words, "condition", at):
            return True
    return False


def count_of(start: int, number: Number, what: Counted, form: CountForm = "stated") -> Count:
    """The count of ``number`` things named ``what``."""
    return Count(start, what.end, number.low, number.high, what.unit, form)


def _people(words: Words, start: int, number: Number, form: CountForm = "stated") -> Count | None:
    """The number as eaters, by name or standing alone, up to the higher one of "six, or eight at a push"."""
    what = counted(words, number, ("eaters", "mouths"))
    if what is None and (helping := counted(words, number, (*HELPINGS, *PIECES))) is not None:
        return count_of(start, number, helping, form)
    if what is None and not ends(words, number.end):
        return None
    high, end = _stretched(words, what.end if what else number.end, number)
    return Count(start, end, number.low, high, "people", form)


def _stretched(words: Words, end: int, number: Number) -> tuple[Fraction, int]:
    """The upper end, and the token after it, where a clause that follows raises it.

    "It's for eight, or it's for ten if they've eaten" is eight to ten; "ten, or two of my cousins" is ten.
    """
    place = words.skip_break(end + (words.at(end) in ("too", "easily")))
    if words.at(place) != "or":
        return number.high, end
    place += 1 + (words.at(place + 1) in ("it", "that"))
    place += match(words, "is for", place)
    place += words.at(place) == "for"
    other = whole_number(words, place)
    if other is None or not number.high < other.low <= 2 * number.high or not ends(words, other.end):
        return number.high, end
    return other.high, other.end


def _fed(words: Words, place: int) -> Count | None:
    """ "Serves four", "that'll feed six to eight", "dinner for six"."""
    table = match(words, "table", place)
    length = table or match(words, "does", place)
    if not length and phrases(TABLE, "hosts").ends_at(words, place) == place:
        length = match(words, "feeds", place)
    number = whole_number(words, place + length) if length else None
    return None if number is None else _people(words, place, number, "table" if table else "stated")


def _for(words: Words, place: int) -> Count | None:
    """ "It's for eight", "the whole thing is for six of us"."""
    length = match(words, "is for", place)
    number = whole_number(words, place + length) if length else None
    if number is None or match(words, "shares", place - 1):
        return None
    return _people(words, place, number)


def _made(words: Words, place: int) -> Count | None:
    """ "Makes 12 pancakes", "makes 20": what is made by any name."""
    length = match(words, "makes", place)
    after = place + length
    number = whole_number(words, after + (words.at(after) in BREAKS), least=1) if length else None
    if number is None:
        return None
    what = counted(words, number, ANY)
    if what is None and number.low > 1 and ends(words, number.end):
        what = Counted(number.end, "pieces", "pieces")
    what = what or _any_name(words, number)
    return None if what is None or is_each(words, what.end) else count_of(place, number, what)


def _any_name(words: Words, number: Number) -> Counted | None:
    place = skip_sizes(words, number.end)
    if number.low < 2 or place >= len(words) or words.doc[place].tag_ not in ("NNS", "NN"):
        return None
    return None if match(words, "not made", place) else Counted(place + 1, words.at(place), "made")


def _got(words: Words, place: int) -> Count | None:
    """ "You'll get ten slices": by a known name."""
    length = match(words, "gets", place)
    number = whole_number(words, place + length, least=1) if length else None
    what = counted(words, number, ANY) if number is not None else None
    if number is None or what is None or is_each(words, what.end) or words.at(what.end) == "of":
        return None
    return count_of(place, number, what)


def _taken_out(words: Words, place: int) -> Count | None:
    """ "I get eight out of it", "you'll cut nine slices from that"."""
    length = match(words, "takes out", place)
    number = whole_number(words, place + length) if length else None
    if number is None:
        return None
    what = counted(words, number, ANY) or Counted(number.end, "pieces", "pieces")
    length = match(words, "out of it", what.end)
    return count_of(place, number, what._replace(end=what.end + length)) if length else None


def _there(words: Words, place: int) -> Count | None:
    """ "There's eight in that"."""
    length = match(words, "there are", place)
    number = whole_number(words, place + length) if length else None
    if number is None:
        return None
    what = counted(words, number, ("eaters", *HELPINGS, "pieces"))
    if what is None and number.low >= LEAST_UNNAMED:
        what = Counted(number.end, "people", "eaters")
    if what is None:
        return None
    length = match(words, "in it", what.end)
    end = what.end + length
    of_another = end < len(words) and words.doc[end].pos_ in NAMED
    return count_of(place, number, what._replace(end=end)) if length and not of_another else None


def _stated(words: Words, place: int) -> Count | None:
    """ "That's six bowls", "which is four people", "the whole thing's six portions"."""
    length = match(words, "states", place)
    roles: tuple[str, ...] = ("eaters", *HELPINGS, "wholes")
    if not length and (length := match(words, "is", place)):
        roles = ("servings",)
    number = whole_number(words, place + length, least=1) if length else None
    what = counted(words, number, roles) if number is not None else None
    if number is None or what is None or (number.low < 2 and what.role != "wholes"):
        return None
    if is_each(words, what.end) or words.at(what.end) == "of":
        return None
    return count_of(place, number, what)
