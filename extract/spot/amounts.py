"""How much of a food the words say, wherever they say it."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING

from extract.spot.amounts_context import TABLE
from extract.spot.amounts_corrections import correct
from extract.spot.amounts_measure import ONE, read_measure, skip_sizes
from extract.spot.numbers import number_starts, read_number
from extract.spot.spans import Amount
from extract.spot.units import forms, read_unit
from extract.spot.words import Words, phrases

if TYPE_CHECKING:
    from spacy.tokens import Doc

BARE_FROM = Fraction(20)
CARRIED = frozenset({"gram", "millilitre", "ounce"})
COUNTABLE = frozenset({"dab", "package", "part", "volume", "mass"})
PACKAGES = frozenset({"can", "jar", "package"})
WEIGHED = frozenset({"ounce", "pound", "gram", "kilogram", "millilitre", "litre", "fluid_ounce"})
SIZE_REACH = 8


def find_amounts(doc: Doc, words: Words | None = None) -> list[Amount]:
    """Every amount of the talk, in order and without overlaps.

    A count ("two large eggs", "an onion") has unit "" and spans the number and its size words alone: which
    food it counts, and whether it counts one at all, is for pairing to decide.
    """
    words = words or Words.of(doc)
    found, place = [], 0
    while place < len(words):
        amount = _read(words, place)
        if amount is not None:
            found.append(amount)
            place = max(amount.end, place + 1)
            continue
        number = read_number(words, place)
        place = number.end if number is not None else place + 1
    return correct(words, _place_sizes(words, _carry_units(words, found)))


def _read(words: Words, place: int) -> Amount | None:
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
    if words.at(end) in ("while", "later", "longer", "too", "way", "ways", "bit"):
        return None
    return Amount(place, end, None, None, more=more)


def _same(words: Words, place: int) -> Amount | None:
    length = phrases(TABLE, "same").match(words, place)
    return Amount(place, place + length, None, None, again=True) if length else None


def _bare_unit(words: Words, place: int) -> Amount | None:
    """ "pinch of salt", "the whole tin of tomatoes": one of the unit, its article unsaid."""
    unit = read_unit(words, place)
    if unit is None or unit.kind not in COUNTABLE or not unit.singular or words.at(unit.end) != "of":
        return None
    reference = phrases(TABLE, "reference")
    if words.at(unit.end + 1) in reference or words.at(unit.end + 1) in ("it", "them", "course"):
        return None
    start = place
    while words.at(start - 1) in phrases(TABLE, "size"):
        start -= 1
    whole = "whole" in words.low[start:place] or "entire" in words.low[start:place]
    if words.at(start - 1) in reference and not whole:
        return None
    if words.doc[place].pos_ == "VERB" and unit.kind != "dab":
        return None
    return Amount(start, unit.end, ONE, ONE, unit.name)


def _place_sizes(words: Words, found: list[Amount]) -> list[Amount]:
    """ "can of dark beer, the 12 ounce": the size of a package, said after what is in it."""
    placed: list[Amount] = []
    for amount in found:
        last = placed[-1] if placed else None
        if last is not None and _is_size_of(words, last, amount):
            assert amount.low is not None
            assert amount.high is not None
            placed[-1] = replace(last, size=(amount.low, amount.high, amount.unit))
        else:
            placed.append(amount)
    return placed


def _is_size_of(words: Words, package: Amount, amount: Amount) -> bool:
    if package.unit not in PACKAGES or package.size is not None or amount.unit not in WEIGHED:
        return False
    if amount.start - package.end > SIZE_REACH or amount.low is None:
        return False
    return words.at(amount.start - 1) == "the" and words.at(amount.end) != "of"


def _carry_units(words: Words, found: list[Amount]) -> list[Amount]:
    """ "500 grams of flour, 250 of butter": the unit said before holds for a bare figure with "of"."""
    carried: list[Amount] = []
    last = ""
    for amount in _with_bare_figures(words, found):
        if amount.low is not None and _is_bare(words, amount):
            if last not in CARRIED or words.at(amount.end + 1) in ("them", "those", "these", "us"):
                continue
            amount = replace(amount, unit=last)
        last = amount.unit or last
        carried.append(amount)
    return carried


def _is_bare(words: Words, amount: Amount) -> bool:
    """Whether a figure of twenty or more stands before "of" without a unit."""
    bare = amount.unit == "" and amount.low is not None and amount.low >= BARE_FROM
    return bare and words.at(amount.end) == "of"


def _with_bare_figures(words: Words, found: list[Amount]) -> list[Amount]:
    """``found`` and every "NUMBER of" of twenty and more between them."""
    taken = {place for amount in found for place in range(amount.start, amount.end)}
    extra = [
        Amount(n.start, n.end, n.low, n.high, approximate=n.approximate)
        for start, n in words.read.items()
        if n is not None
        and n.low >= BARE_FROM
        and words.at(n.end) == "of"
        and start not in taken
        and words.at(n.start - 1) not in ("out", "in")
    ]
    return sorted([*found, *extra], key=lambda amount: amount.start)
