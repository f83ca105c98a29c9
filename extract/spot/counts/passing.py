"""Yields said in passing, which the same words may say of an ingredient: "Eight slices.", "cut it in nine".

Only where they stand in a dish tells them apart, so these are looked for late in a dish and not in the talk.
"""

from __future__ import annotations

from extract.spot.amounts.lead import skip_sizes
from extract.spot.counts.yields import (
    HELPINGS,
    PIECES,
    STOPS,
    Counted,
    count_of,
    counted,
    ends,
    is_each,
    is_supposed,
    match,
    whole_number,
)
from extract.spot.names.foods import word_key
from extract.spot.spans import Count, Number
from extract.spot.words import BREAKS, Words

EACH_REACH = 4
SHAPE_REACH = 7
LEAST_PARTS = 3
GRID = range(2, 13)
Names = frozenset[str]


def passing_yields(words: Words, start: int, end: int, names: Names = frozenset()) -> list[Count]:
    """The yields said in passing between two tokens, in order.

    ``names`` are the last words of the dish's title as ``word_key`` gives them: "24 knots" is a yield of
    cardamom knots. "Cut it in nine" has the form "cut", all others "bare".
    """
    found: list[Count] = []
    for place in range(start, end):
        if found and place < found[-1].end:
            continue
        made = _passing_at(words, place, names)
        if made is not None and not is_supposed(words, place):
            found.append(made)
    return found


def _passing_at(words: Words, place: int, names: Names) -> Count | None:
    return (
        _cut(words, place)
        or _told(words, place, names)
        or _bare(words, place, names)
        or _answered(words, place, names)
        or _shared(words, place)
        or _of_them(words, place)
    )


def _what(words: Words, number: Number, names: Names) -> Counted | None:
    """What a number counts: eaters, helpings, pieces or the dish's own name."""
    what = counted(words, number, ("eaters", *HELPINGS, *PIECES))
    at = skip_sizes(words, number.end)
    if what is None and words.at(at) and word_key(words.at(at)) in names:
        return Counted(at + 1, words.at(at), "own")
    return what


def _closes(words: Words, what: Counted) -> bool:
    """Whether nothing more is said of what was counted: "eight wedges.", not "eight slices, thick"."""
    after = words.at(what.end)
    if after == "," and what.role != "eaters":
        return match(words, "ends", what.end + 1) > 0
    if after in BREAKS or after in STOPS:
        return True
    role = "closes" if what.role == "eaters" else "ends"
    return not is_each(words, what.end) and match(words, role, what.end) > 0


def _told(words: Words, place: int, names: Names) -> Count | None:
    """ "That's thirty sticks", "so ten wedges", "there'll be nine pieces"."""
    length = match(words, "states", place)
    passing = not length
    length = length or match(words, "so", place) or match(words, "there are", place)
    number = whole_number(words, place + length) if length else None
    what = _what(words, number, names) if number is not None else None
    if number is None or what is None or is_each(words, what.end) or words.at(what.end) == "of":
        return None
    of_us = words.at(what.end - 1) == "us" and match(words, "so", place)
    if passing and not of_us and not _closes(words, what):
        return None
    return count_of(place, number, what, "bare")


def _bare(words: Words, place: int, names: Names) -> Count | None:
    """ "Eight wedges." and "four people get one each" as sentences of their own, "a chop each, six people".

    Helpings are no ingredients, so they may follow any comma: "there you are, eight portions".
    """
    before = words.at(place - 1)
    each = before == "," and any(match(words, "each", at) for at in range(place - EACH_REACH, place - 1))
    number = whole_number(words, place) if before in STOPS or before == "," else None
    what = _what(words, number, names) if number is not None else None
    if number is None or what is None or (before == "," and not each and what.role not in HELPINGS):
        return None
    taken = what.role == "eaters" and _take_one_each(words, what.end)
    return count_of(place, number, what, "bare") if taken or _closes(words, what) else None


def _take_one_each(words: Words, place: int) -> bool:
    """Whether people "get a jar each"."""
    after = place + match(words, "takers", place)
    return after > place and any(match(words, "each", at) for at in range(after, after + EACH_REACH))


def _answered(words: Words, place: int, names: Names) -> Count | None:
    """ "So that's your knots, it's twenty four": the name first."""
    if words.at(place + 1) != "," or not words.at(place) or word_key(words.at(place)) not in names:
        return None
    length = match(words, "states", place + 2)
    number = whole_number(words, place + 2 + length) if length else None
    what = Counted(number.end, words.at(place), "own") if number is not None else None
    return count_of(place, number, what, "bare") if number and what and _closes(words, what) else None


def _shared(words: Words, place: int) -> Count | None:
    """ "Divide it between six plates"."""
    number = whole_number(words, place + 1, LEAST_PARTS) if match(words, "among", place) else None
    what = counted(words, number, (*HELPINGS, "eaters")) if number is not None else None
    if number is None or what is None or words.at(what.end) == "of":
        return None
    return count_of(place, number, what, "bare")


def _cut(words: Words, place: int) -> Count | None:
    """ "Cut it in nine", "slice it into ten wedges", "cut it three by four"."""
    length = match(words, "divides", place)
    what = match(words, "divided", place + length) if length else 0
    if not what:
        return None
    after = place + length + what
    if (grid := _grid(words, place, after)) is not None:
        return grid
    number = whole_number(words, after + 1, LEAST_PARTS) if words.at(after) in ("in", "into") else None
    if number is None:
        return None
    parts = counted(words, number, (*HELPINGS, *PIECES))
    if parts is None and not ends(words, number.end):
        return None
    return count_of(place, number, parts or Counted(number.end, "pieces", "pieces"), "cut")


def _grid(words: Words, start: int, place: int) -> Count | None:
    """The pieces of "cut it three by four"."""
    rows = whole_number(words, place)
    columns = whole_number(words, rows.end + 1) if rows is not None and words.at(rows.end) == "by" else None
    if rows is None or columns is None or rows.low not in GRID or columns.low not in GRID:
        return None
    pieces = rows.low * columns.low
    return Count(start, columns.end, pieces, pieces, "pieces", "cut")


def _of_them(words: Words, place: int) -> Count | None:
    """ "I'm cutting round a saucer, six of those": pieces as they are shaped."""
    number = whole_number(words, place, LEAST_PARTS)
    length = match(words, "of them", number.end) if number is not None else 0
    if number is None or not any(match(words, "shapes", at) for at in range(place - SHAPE_REACH, place)):
        return None
    what = Counted(number.end + length, "pieces", "pieces")
    return count_of(place, number, what, "cut") if length and _closes(words, what) else None
