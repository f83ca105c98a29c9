"""Packages and pieces with a size: "three 300-gram tins", "a three inch piece"."""

from __future__ import annotations

from dataclasses import replace

from extract.spot.amounts.context import TABLE, is_length_of_food
from extract.spot.amounts.lead import ONE, Lead, skip_sizes
from extract.spot.numbers.find import read_number
from extract.spot.numbers.units import Unit, glued_unit, read_unit
from extract.spot.spans import Amount, Number
from extract.spot.words import Words, phrases

MEASURES = frozenset({"volume", "mass"})
PIECES = frozenset({"package", "part"})
LENGTHS = frozenset({"inch", "centimetre"})
PIECE_REACH = 8
SHORT = frozenset({"oz", "lb", "lbs", "g", "ml"})


def sized(words: Words, lead: Lead, number: Number) -> Amount | None:
    """ "three 300-gram tins", "a 14 ounce can", "a two-inch piece"."""
    after = words.skip_dash(number.end)
    inner = glued_unit(words, number.end - 1) or read_unit(words, after, after_figures=True)
    if inner is None or inner.kind not in (*MEASURES, "length"):
        return None
    outer_at = inner.end + (words.at(inner.end) == "." and words.at(inner.end - 1) in SHORT)
    outer = read_unit(words, skip_sizes(words, words.skip_dash(outer_at)))
    if outer is None or outer.kind not in PIECES:
        return None
    if inner.kind == "length":
        if outer.kind == "part" and (words.at(outer.end) == "of" or outer.singular):
            return Amount(lead.start, outer.end, number.low, number.high, inner.name, lead.approximate)
        return None
    size = (number.low * inner.times, number.high * inner.times, inner.name)
    return lead.amount(outer.end, outer.name, size=size)


def sized_after(words: Words, found: Amount) -> Amount:
    """ "one can, about 15 ounces, of beans": the size directly after the package."""
    place = words.skip_break(found.end)
    while length := phrases(TABLE, "about").match(words, place):
        place += length
    number = read_number(words, place)
    if number is None:
        return found
    unit = glued_unit(words, number.end - 1) or read_unit(
        words, words.skip_dash(number.end), after_figures=True
    )
    if unit is None or unit.kind not in MEASURES:
        return found
    if words.at(found.end) == "." and words.at(unit.end) == "of":
        return found  # "that's one sachet. 380 grams of water": the next food's own amount
    size = (number.low * unit.times, number.high * unit.times, unit.name)
    return replace(found, end=unit.end, size=size)


def piece_by_length(words: Words, found: Amount) -> Amount:
    """ "a piece of ginger about two inches long": the length says more than the one piece does."""
    for place in range(found.end + 1, found.end + PIECE_REACH):
        number = read_number(words, place)
        if number is None:
            if not words.at(place).isalpha():
                return found
            continue
        unit = read_unit(words, words.skip_dash(number.end))
        if unit is None or unit.name not in LENGTHS or words.at(unit.end) in ("thick", "wide", "apart"):
            return found
        return replace(
            found, low=number.low, high=number.high, unit=unit.name, approximate=number.approximate
        )
    return found


def length_of_food(words: Words, lead: Lead, unit: Unit) -> Amount | None:
    """A length of a food: "two inches of", "three inch piece of"."""
    if unit.name not in ("inch", "centimetre", "millimetre"):
        return None
    piece = read_unit(words, skip_sizes(words, words.skip_dash(unit.end)))
    if piece is not None and piece.name in ("piece", "stick", "knob") and piece.singular:
        if words.at(lead.start - 1) in ("into", "in"):
            return None
        return lead.amount(piece.end, unit.name)
    return lead.amount(unit.end, unit.name) if is_length_of_food(words, unit) else None


def size_alone(words: Words, lead: Lead, unit: Unit) -> Amount | None:
    """ "14 ounce can of": one package, its size before it."""
    outer = read_unit(words, words.skip_dash(unit.end))
    if outer is None or outer.kind != "package" or lead.article or not unit.singular:
        return None
    size = (lead.low * unit.times, lead.high * unit.times, unit.name)
    return Amount(lead.start, outer.end, ONE, ONE, outer.name, lead.approximate, size)
