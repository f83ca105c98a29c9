"""What tells a figure that is no amount of food: prices, ages, scores, dates, tin sizes, tools."""

from __future__ import annotations

from fractions import Fraction

from extract.spot.numbers.units import Unit, read_unit
from extract.spot.spans import Number
from extract.spot.words import BREAKS, Words, phrases

TABLE = "amount_words"
CURRENCY = frozenset({"$", "£", "€", "#"})
MANY = 50
SPOONS = frozenset({"teaspoon", "tablespoon"})


def is_amount_figure(words: Words, number: Number) -> bool:
    """Whether the figure could be an amount at all, by the words directly around it."""
    before, after = words.at(number.start - 1), words.at(number.end)
    if before in CURRENCY or after in phrases(TABLE, "money") or after in ("%", "percent"):
        return False
    if words.at(words.skip_dash(number.end)) in ("year", "years") or _is_label(words, number):
        return False
    if after == "out" and words.at(number.end + 1) == "of":
        return False
    if before == "of" and words.at(number.start - 2) == "out":
        return False
    return not (_is_score(words, number) or _is_dimension(words, number) or _is_address(words, number))


def _is_label(words: Words, number: Number) -> bool:
    """ "number 9", "step two", "the half shell": the figure names, it does not count."""
    before = words.at(number.start - 1)
    before = words.at(number.start - 2) if before in BREAKS else before
    if before in ("number", "age", "aged", "mark", "step", "part", "chapter"):
        return True
    after = words.skip_dash(number.end)
    after += words.at(after) in ("a", "an")
    share = number.high < 1 and words.at(number.start - 1) in phrases(TABLE, "reference")
    return share and read_unit(words, after) is None


def _is_score(words: Words, number: Number) -> bool:
    """ "21 to 14", "3-1": a falling pair."""
    joint = words.at(number.end)
    return (
        number.low >= 3
        and number.low == number.high
        and joint in ("to", "-", "–")
        and words.at(number.end + 1)[:1].isdigit()
        and words.at(number.start)[:1].isdigit()
    )


def _is_dimension(words: Words, number: Number) -> bool:
    """ "nine by 13": either side of the "by", where a figure or a vessel stands on the other."""
    return words.at(number.end) in ("by", "x") or words.at(number.start - 1) in ("by", "x")


def _is_address(words: Words, number: Number) -> bool:
    if number.low < 1 or number.low.denominator > 1 or not words.capital(number.end):
        return False
    roads = phrases(TABLE, "road")
    return any(words.at(number.end + i) in roads and words.capital(number.end + i) for i in (1, 2))


def is_length_of_food(words: Words, unit: Unit) -> bool:
    """Whether a length is how much of a food: "two inches of ginger", "a three inch piece"."""
    after = words.skip_dash(unit.end)
    return words.at(after) == "of" and words.at(after + 1) not in phrases(TABLE, "no length")


def is_container(words: Words, start: int, unit: Unit) -> bool:
    """Whether an article and a package name what something is kept in: "tip it into a jar"."""
    if unit.kind not in ("package", "part") or words.at(unit.end) == "of":
        return False
    before = words.doc[start - 1] if start else None
    return before is not None and (before.tag_ in ("IN", "RP", "TO") or before.lower_ in ("like", "than"))


def is_tool(words: Words, start: int, unit: Unit) -> bool:
    """Whether an article and a spoon name the thing in the hand: "grab a teaspoon and scrape"."""
    if unit.name not in SPOONS:
        return False
    after = words.at(unit.end)
    if after in ("of", "each", "full") or (after == "and" and words.at(unit.end + 1) in ("a", "half")):
        return False
    if words.at(start - 1) not in phrases(TABLE, "tool before"):
        return False
    return after in BREAKS or after in phrases(TABLE, "uncounted") or after == ""


def counts_something(words: Words, place: int) -> bool:
    """Whether the word at ``place`` could be a thing that a number counts."""
    word = words.at(place)
    if not word or not (word[0].isalpha()) or word in phrases(TABLE, "uncounted"):
        return False
    unit = read_unit(words, place)
    return unit is None or unit.kind not in ("time", "temperature", "length")


def is_many(words: Words, number: Number, place: int) -> bool:
    """Whether a large figure counts a plural: "60 almonds", but not "145 sitting"."""
    if number.low < MANY:
        return True
    return any(token.tag_ in ("NNS", "NNPS") for token in words.doc[place : place + 3])


def is_share(words: Words, number: Number) -> bool:
    """Whether a fraction is a share of something made: "a third of the sauce", "half of that"."""
    if number.high >= 1 or words.at(number.end) not in ("of", "the", "that", "this"):
        return False
    return words.at(number.end) != "of" or words.at(number.end + 1) not in ("a", "an")


def is_year(number: Number) -> bool:
    """A bare whole number that could be a year."""
    return number.low == number.high and number.low.denominator == 1 and Fraction(1800) <= number.low <= 2100
