"""Amounts taken back on camera: "three tablespoons, no, five", "sorry, tablespoons".

The amount that counts is kept, with those it replaced as its ``slips``. Words that always take back
("sorry", "I mean", "I've told you wrong") are looked for some way off; words that mostly do something else
("no", "wait", "actually") only directly after the amount or its food.
"""

from __future__ import annotations

from dataclasses import replace
from typing import NamedTuple

from extract.spot.amounts.context import TABLE
from extract.spot.numbers.find import read_number
from extract.spot.numbers.units import read_unit
from extract.spot.numbers.values import ARTICLES
from extract.spot.spans import Amount, Number
from extract.spot.words import BREAKS, DASHES, Words, phrases

REACH = 25
FOOD_REACH = 5
RESTATE_REACH = 6
SETTLE_REACH = 40


class Mark(NamedTuple):
    """A correction's words: where they begin and the token after them."""

    start: int
    end: int


def correct(words: Words, found: list[Amount]) -> list[Amount]:
    """``found`` with every slip moved into the amount that replaced it."""
    kept = list(found)
    at = 0
    while at < len(kept):
        kept[at] = _with_bare_slip(words, kept[at], kept[at - 1].end if at else 0)
        following = _next_figure(words, kept, at)
        mark = _mark_after(words, kept[at], kept[following] if following < len(kept) else None)
        if mark is not None and _settle(words, kept, at, following, mark):
            del kept[at]
        else:
            at += 1
    return kept


def _next_figure(words: Words, kept: list[Amount], at: int) -> int:
    """The index of the next amount that may be a correction: no "some", no mere "an"."""
    for index in range(at + 1, len(kept)):
        amount = kept[index]
        if amount.low is None or (words.at(amount.start) in ARTICLES and not _is_measure(words, amount)):
            continue
        return index
    return len(kept)


def _is_measure(words: Words, amount: Amount) -> bool:
    unit = read_unit(words, amount.end - 1)
    return unit is not None and unit.kind in ("volume", "mass", "dab")


def _mark_after(words: Words, amount: Amount, following: Amount | None) -> Mark | None:
    """The words that take ``amount`` back, if any do."""
    if amount.low is None:
        return None
    certain, doubtful = phrases(TABLE, "takes back"), phrases(TABLE, "doubts")
    reach = SETTLE_REACH if words.at(amount.end) == "of" and not amount.unit else REACH
    for place in range(amount.end, min(amount.end + reach, len(words))):
        if following is not None and place >= following.end + FOOD_REACH:
            return None
        if (length := certain.match(words, place)) and words.at(place + length) not in ("about", "for", "if"):
            return Mark(place, place + length)
        length = doubtful.match(words, place)
        if length and place - amount.end <= FOOD_REACH and _turns(words, amount, place, place + length):
            return Mark(place, place + length)
    return None


def _turns(words: Words, amount: Amount, start: int, end: int) -> bool:
    """Whether a "no" or "wait" breaks off what was being said, as no "no more salt" does."""
    between = words.low[amount.end : start]
    if any(word in BREAKS for word in between[:-1]) or (
        between and between[-1] not in (*BREAKS, *DASHES, "of")
    ):
        return False
    after = words.at(end)
    return after in BREAKS or after in DASHES or _restated(words, end) is not None


def _restated(words: Words, place: int) -> Number | None:
    """The figure that follows, perhaps after "it's" or "make that"."""
    end = min(place + RESTATE_REACH, len(words))
    while place < end:
        number = read_number(words, place)
        if number is not None:
            return number
        length = phrases(TABLE, "restates").match(words, place) or phrases(TABLE, "takes back").match(
            words, place
        )
        if not length and words.at(place) not in BREAKS and words.at(place) not in DASHES:
            return None
        place += length or 1
    return None


def _settle(words: Words, kept: list[Amount], at: int, following: int, mark: Mark) -> bool:
    """Put what replaces ``kept[at]`` into ``kept``, with the slip in it; whether there is such an amount."""
    slip = kept[at]
    slips = (*slip.slips, replace(slip, slips=()))
    unit = _other_unit(words, slip, mark)
    if unit is not None and _insert(kept, at, replace(unit, slips=slips)):
        return True
    if following < len(kept) and _replaces(words, slip, mark, kept[following]):
        kept[following] = replace(kept[following], slips=slips)
        return True
    number = _restated(words, mark.end)
    if number is None or words.at(number.end) in ("of", "more"):
        return False
    after = read_unit(words, words.skip_dash(number.end))
    if after is not None and after.kind in ("time", "temperature"):
        return False
    if following < len(kept) and _says_again(kept[following], slip, number):
        kept[following] = replace(kept[following], slips=slips)
        return True
    bare = Amount(
        number.start, number.end, number.low, number.high, slip.unit, number.approximate, slips=slips
    )
    return _insert(kept, at, bare)


def _says_again(amount: Amount, slip: Amount, number: Number) -> bool:
    """Whether an amount a little later is the right figure once more, now with its unit."""
    return (amount.unit, amount.low) == (slip.unit, number.low) and amount.start - number.end < SETTLE_REACH


def _insert(kept: list[Amount], at: int, amount: Amount) -> bool:
    """Put an amount in its place after index ``at``, unless it would overlap another."""
    place = next((i for i in range(at + 1, len(kept)) if kept[i].end > amount.start), len(kept))
    if place < len(kept) and kept[place].start < amount.end:
        return False
    kept.insert(place, amount)
    return True


def _other_unit(words: Words, slip: Amount, mark: Mark) -> Amount | None:
    """ "two teaspoons of salt, sorry, tablespoons": the same figure in another unit."""
    place = words.skip_break(mark.end)
    unit = read_unit(words, place)
    if unit is None or unit.name == slip.unit or not slip.unit or unit.kind not in ("volume", "mass", "dab"):
        return None
    return replace(
        slip, start=place, end=unit.end, unit=unit.name, slips=(*slip.slips, replace(slip, slips=()))
    )


def _replaces(words: Words, slip: Amount, mark: Mark, amount: Amount) -> bool:
    """Whether ``amount``, which comes next, is the right figure for ``slip``."""
    if amount.low is None or (amount.low, amount.high, amount.unit) == (slip.low, slip.high, slip.unit):
        return False
    close = 0 <= amount.start - mark.end <= 2 and _is_measure(words, slip) and _is_measure(words, amount)
    if amount.unit != slip.unit and not close:
        return False
    if amount.start - mark.end > REACH or mark.end > amount.end + FOOD_REACH:
        return False
    before, after = _food_words(words, slip.end), _food_words(words, amount.end)
    alone = words.at(slip.end) in BREAKS and not after  # "onions, two, sorry, three of them"
    if slip.unit == "" and not (before & after) and words.at(slip.end) != "of" and not alone:
        return False
    return not before or not after or bool(before & after)


def _food_words(words: Words, place: int) -> frozenset[str]:
    """The words of what an amount is of, as far as the next break or function word."""
    place += words.at(place) == "of"
    place += words.at(place) in ("the", "them", "those")
    found = set()
    for word in words.low[place : place + FOOD_REACH]:
        if not word.isalpha() or word in phrases(TABLE, "uncounted") or word in phrases(TABLE, "takes back"):
            break
        found.add(word.rstrip("s"))
    return frozenset(found)


def _with_bare_slip(words: Words, amount: Amount, floor: int) -> Amount:
    """ "two, no, three cups": a figure without a unit, taken back at once."""
    if amount.low is None:
        return amount
    place = amount.start
    while place > floor and (words.at(place - 1) in BREAKS or _restate_before(words, place) < place):
        place = place - 1 if words.at(place - 1) in BREAKS else _restate_before(words, place)
    start = place
    for role in ("takes back", "doubts"):
        start = min(start, phrases(TABLE, role).ends_at(words, place))
    if start == place:
        return amount
    end = start - 1 if words.at(start - 1) in BREAKS or words.at(start - 1) in DASHES else start
    number = next(
        (n for p in range(max(floor, end - 5), end) if (n := read_number(words, p)) and n.end == end), None
    )
    if number is None or (number.low, number.high) == (amount.low, amount.high):
        return amount
    if any(slip.start == number.start for slip in amount.slips):
        return amount
    slip = Amount(number.start, number.end, number.low, number.high, amount.unit, number.approximate)
    return replace(amount, slips=(*amount.slips, slip))


def _restate_before(words: Words, place: int) -> int:
    return phrases(TABLE, "restates").ends_at(words, place, longest=2)
