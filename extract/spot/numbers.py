"""Numbers as people say and recognisers write them: words, figures, fractions, ranges.

A newcomer's way in: ``_value`` reads one number ("two and a half", "1 1/2", "three quarters", "a couple"),
``read_number`` puts two of them to a range and looks for "about" and "or so" around them. Speech recognition
puts commas and full stops inside numbers ("one hundred and twenty. five grams") and writes a fraction as two
numbers ("one, four teaspoon" for 1/4); both are mended here, only where a unit follows.
"""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING

from extract.lexicon import read_lexicon
from extract.spot.spans import Number
from extract.spot.units import read_unit, split_glued
from extract.spot.words import BREAKS, DASHES, Words, phrases

if TYPE_CHECKING:
    from spacy.tokens import Doc

Value = tuple[Fraction, int]
FIGURES = re.compile(r"(?:\d{1,3}(?:,\d{3})+|\d+)(?:\.\d+)?|\.\d+")
RATIO = re.compile(r"(\d+)/(\d+)")
GLYPHED = re.compile(r"(\d*)([¼-¾⅐-⅞])")
JOINED = re.compile(r"(.*[\d¼-¾⅐-⅞])[-–—](.*[\d¼-¾⅐-⅞])")
ARTICLES = frozenset({"a", "an"})
ANDS = frozenset({"and", "an", "&", "n"})
RANGE_WORDS = frozenset({"to", "or", "through", "till", "until"})


@cache
def _lexicon() -> dict[str, tuple[str, Fraction]]:
    rows = read_lexicon("numbers", columns=("word", "kind", "value"))
    return {row["word"]: (row["kind"], Fraction(row["value"])) for row in rows}


@cache
def number_words() -> dict[str, tuple[str, Fraction]]:
    """Kind and value of every word that is a number wherever it stands."""
    return {word: row for word, row in _lexicon().items() if row[0] != "misheard"}


@cache
def number_starts() -> frozenset[str]:
    """Every word with which a number may begin, articles and misheard words too."""
    return frozenset(_lexicon()) | ARTICLES


def _kind(words: Words, place: int) -> str:
    return number_words().get(words.at(place), ("", Fraction(0)))[0]


def _worth(words: Words, place: int) -> Fraction:
    return number_words()[words.at(place)][1]


def figure_value(text: str) -> Fraction | None:
    """The value of one word of figures ("350", "1,000", "2.5", "1/4", "1½"), or None."""
    if FIGURES.fullmatch(text):
        return Fraction(text.replace(",", ""))
    if (ratio := RATIO.fullmatch(text)) and int(ratio[2]):
        return Fraction(int(ratio[1]), int(ratio[2]))
    if (glyphed := GLYPHED.fullmatch(text)) and glyphed[2] in number_words():
        return Fraction(glyphed[1] or 0) + number_words()[glyphed[2]][1]
    return None


def _measured(words: Words, place: int) -> bool:
    """Whether a unit stands at ``place`` or one adjective later."""
    place = words.skip_dash(place)
    return read_unit(words, place) is not None


def _below_hundred(words: Words, place: int) -> Value | None:
    kind = _kind(words, place)
    if kind in ("digit", "teen"):
        return _worth(words, place), place + 1
    if kind != "ten":
        return None
    tens, after = _worth(words, place), place + 1
    joint = words.skip_dash(after)
    if _kind(words, joint) == "digit":
        return tens + _worth(words, joint), joint + 1
    if _continues_over_break(words, after):
        return tens + _worth(words, after + 1), after + 2
    return tens, after


def _continues_over_break(words: Words, place: int) -> bool:
    """Whether a comma or full stop stands within a number: "twenty. five grams"."""
    if words.at(place) not in BREAKS or _kind(words, place + 1) != "digit" or words.capital(place + 1):
        return False
    return _measured(words, place + 2)


def _cardinal(words: Words, place: int) -> Value | None:
    """A whole number in words: "a hundred and twenty", "four hundred fifty", "two thousand"."""
    start = place
    if words.at(place) in ARTICLES and _kind(words, place + 1) == "power":
        count, place = Fraction(1), place + 1
    elif _kind(words, place) == "power":
        count = Fraction(1)
    else:
        first = _below_hundred(words, place)
        if first is None:
            return None
        count, place = first
    total = Fraction(0)
    while _kind(words, place) == "power":
        power = _worth(words, place)
        place += 1
        if power == 100:
            count *= 100
            count, place = _rest_of_hundred(words, count, place)
        else:
            total, count = (total + count) * power, Fraction(0)
            if (rest := _cardinal_below(words, place)) is not None:
                return total + rest[0], rest[1]
    return (total + count, place) if place > start else None


def _cardinal_below(words: Words, place: int) -> Value | None:
    """What follows "thousand": "two hundred", "and fifty"."""
    place += words.at(place) in ANDS
    return _cardinal(words, place) if _kind(words, place) in ("digit", "teen", "ten") else None


def _rest_of_hundred(words: Words, count: Fraction, place: int) -> Value:
    after = place + (words.at(place) in ("and", "&"))
    after = after + 1 if words.at(after) in BREAKS and _kind(words, after + 1) == "ten" else after
    rest = _below_hundred(words, after)
    if rest is None or (after > place and words.at(place) in BREAKS and not _measured(words, rest[1])):
        return count, place
    if _kind(words, rest[1]) in ("part", "power"):
        return count, place
    return count + rest[0], rest[1]


def _part(words: Words, place: int) -> Value | None:
    """A fraction in words: "half", "a quarter", "three quarters", "two-thirds", "one fourth"."""
    if _kind(words, place) == "part":
        return (_worth(words, place), place + 1) if _is_share(words, place) else None
    count, after = Fraction(1), place + 1
    if words.at(place) not in ARTICLES:
        if _kind(words, place) not in ("digit", "teen"):
            value = figure_value(words.at(place))
            if value is None or value > 15 or value.denominator > 1:
                return None
            count = value
        else:
            count = _worth(words, place)
    after = words.skip_dash(after)
    if _kind(words, after) != "part":
        return None
    part = _worth(words, after)
    if count * part >= 2 or (
        count > 1 and not words.at(after).endswith("s") and count.numerator % 2 == 0 and part > Fraction(1, 3)
    ):
        return None
    return count * part, after + 1


def _is_share(words: Words, place: int) -> bool:
    """Whether a bare "half", "third" names an amount and is not "in half", "the third step", "halfway"."""
    word, before, after = words.at(place), words.at(place - 1), words.at(place + 1)
    if before in ("in", "into") or after == "way":
        return False
    if word in ("half", "quarter"):
        return after != "'s" and before not in ("other", "second", "first")
    if word in ("halves", "quarters", "thirds"):
        return False
    if after == "of" and words.at(place + 2) in ARTICLES:
        return True
    return before not in ("the", "my", "your", "this", "that") and _measured(words, place + 1)


def _group(words: Words, place: int) -> Value | None:
    """ "a dozen", "half a dozen", "a couple", "a pair"."""
    count, after = Fraction(1), place
    if (part := _part(words, place)) is not None:
        count, after = part
        after = words.skip_dash(after)
        after = words.skip_dash(after + (words.at(after) in ARTICLES))
    elif words.at(place) in ARTICLES:
        after = place + 1
    elif (first := _below_hundred(words, place)) is not None:
        count, after = first
    elif (value := figure_value(words.at(place))) is not None:
        count, after = value, place + 1
    if _kind(words, after) != "group" or (count != 1 and words.at(after) != "dozen"):
        return None
    if words.at(after) == "pair" and words.at(after + 1) != "of":
        return None
    return count * _worth(words, after), after + 1


def _fraction_after(words: Words, place: int) -> Value | None:
    """The "and a half" after a whole number: also "and 1/2", "½"."""
    joint = place + 1 if words.at(place) in ANDS or words.at(place) in DASHES else place
    value = figure_value(words.at(joint))
    if value is not None and value < 1 and value.denominator > 1:
        return value, joint + 1
    if joint == place or words.at(place) in DASHES:
        return None
    part = _part(words, joint)
    if part is None or part[0] >= 1 or words.at(part[1]) in ARTICLES or _kind(words, part[1]) == "group":
        return None
    return part


def _misheard_fraction(words: Words, place: int) -> Value | None:
    """ "one, four teaspoon": a fraction read out as two numbers before a unit in the singular."""
    if words.at(place) not in ("one", "three", "1", "3"):
        return None
    below = words.skip_break(place + 1)
    if words.at(below) not in ("two", "three", "four", "eight", "2", "3", "4", "8"):
        return None
    unit = read_unit(words, below + 1)
    if unit is None or not unit.singular or unit.kind not in ("volume", "mass", "length"):
        return None
    top = Fraction(1 if words.at(place) in ("one", "1") else 3)
    bottom = Fraction(
        {"two": 2, "three": 3, "four": 4, "eight": 8}.get(words.at(below)) or int(words.at(below))
    )
    return (top / bottom, below + 1) if top < bottom else None


def _misheard_word(words: Words, place: int) -> Value | None:
    """ "full cloves of garlic" for four, "have cup" for half a cup: only where the unit agrees."""
    kind, value = _lexicon().get(words.at(place), ("", Fraction(0)))
    if kind != "misheard":
        return None
    unit = read_unit(words, place + 1)
    if unit is None or unit.kind not in ("volume", "mass", "part", "dab"):
        return None
    if value < 1:
        return (value, place + 1) if unit.singular and unit.kind == "volume" else None
    prepositional = words.at(place) in ("to", "for") and (unit.kind == "part" or words.at(unit.end) != "of")
    return None if unit.singular or prepositional else (value, place + 1)


def read_value(words: Words, place: int) -> Value | None:
    """One number beginning at ``place``, as its value and the token after it."""
    word = words.at(place)
    if not (word in number_starts() or word[:1].isdigit() or word[:1] == "."):
        return None
    for reader in (_group, _misheard_fraction, _misheard_word, _part):
        if (found := reader(words, place)) is not None:
            return found
    value = figure_value(word)
    if value is not None:
        whole: Value | None = (value, place + 1)
        if _kind(words, place + 1) == "power":
            whole = (value * _worth(words, place + 1), place + 2)
    else:
        whole = _cardinal(words, place)
    if whole is None:
        return None
    if whole[0].denominator == 1 and (rest := _fraction_after(words, whole[1])) is not None:
        return whole[0] + rest[0], rest[1]
    return whole


def _second(words: Words, first: Value) -> Value | None:
    """The upper end of a range whose lower end is ``first``."""
    low, after = first
    start = words.skip_break(after)
    if words.at(start) in RANGE_WORDS or words.at(start) in DASHES:
        second = read_value(words, words.skip_break(start + 1))
        return second if second is not None and second[0] > low else None
    second = read_value(words, start)
    if second is None or not low < second[0] <= max(low * Fraction(5, 2), low + 1) or words.capital(start):
        return None
    if words.at(after - 2) in ("mark", "gas", "number") or (start > after and second[0] > low * 2):
        return None
    unit = read_unit(words, words.skip_dash(second[1]))
    if unit is None and start == after and _are_neighbours(low, second[0]):
        second = _last_in_row(words, second)
        return second if _counts(words, second[1]) else None
    if unit is None or (unit.kind != "time" and low < 1):
        return None
    sized = read_unit(words, words.skip_dash(unit.end))
    return None if sized is not None and sized.kind in ("package", "part") else second


def _last_in_row(words: Words, value: Value) -> Value:
    """The end of "five six seven eight pieces"."""
    while (after := read_value(words, value[1])) is not None and _are_neighbours(value[0], after[0]):
        value = after
    return value


def _are_neighbours(low: Fraction, high: Fraction) -> bool:
    """Whether two numbers said in a row are a range: "four five", "ten fifteen"."""
    return high == low + 1 or (low >= 5 and low % 5 == 0 and high == low + 5)


def _counts(words: Words, place: int) -> bool:
    word = words.at(place)
    return (
        word[:1].isalpha() and word not in phrases("amount_words", "uncounted") and word not in number_words()
    )


def _joined(words: Words, place: int) -> tuple[Fraction, Fraction] | None:
    """The two ends of a range written as one word: "2–3", or "10-15min" with its unit."""
    word = words.at(place)
    glued = split_glued(word)
    match = JOINED.fullmatch(glued[0] if glued else word)
    if match is None:
        return None
    low, high = figure_value(match[1]), figure_value(match[2])
    return (low, high) if low is not None and high is not None and low < high else None


def _is_approximate(words: Words, start: int, end: int) -> bool:
    before, after = phrases("amount_words", "about"), phrases("amount_words", "or so")
    return before.ends_at(words, start) < start or after.match(words, words.skip_break(end)) > 0


def _read(words: Words, place: int) -> Number | None:
    if (joined := _joined(words, place)) is not None:
        return Number(place, place + 1, *joined, _is_approximate(words, place, place + 1))
    glued = split_glued(words.at(place))
    if glued is not None and (value := figure_value(glued[0])) is not None:
        return Number(place, place + 1, value, value, _is_approximate(words, place, place + 1))
    first = read_value(words, place)
    if first is None:
        return None
    second = _second(words, first)
    if second is None and words.at(place - 1) == "between" and words.at(first[1]) in ANDS:
        upper = read_value(words, first[1] + 1)
        second = upper if upper is not None and upper[0] > first[0] else None
    if second is None and (glued := split_glued(words.at(words.skip_dash(first[1])))) is not None:
        second = _glued_end(words, first, glued[0])
    low, end = first
    high, end = second or (low, end)
    return Number(place, end, low, high, _is_approximate(words, place, end))


def _glued_end(words: Words, first: Value, figures: str) -> Value | None:
    """The upper end of "10 - 15min", whose second token holds the unit as well."""
    upper = figure_value(figures)
    if words.at(first[1]) not in DASHES or upper is None or upper <= first[0]:
        return None
    return upper, first[1] + 2


def read_number(words: Words, place: int) -> Number | None:
    """The number or range that begins at ``place``, read once and kept."""
    if place not in words.read:
        words.read[place] = _read(words, place)
    return words.read[place]


def is_pronoun(words: Words, number: Number) -> bool:
    """Whether a "one" stands for a thing ("this one", "one of those") and counts nothing."""
    if number.end - number.start != 1 or words.at(number.start) not in ("one", "ones"):
        return False
    before, after = words.at(number.start - 1), words.at(number.end)
    if before in (
        "this",
        "that",
        "the",
        "which",
        "every",
        "each",
        "no",
        "any",
        "another",
        "other",
        "last",
        "first",
    ):
        return True
    return after in phrases("amount_words", "uncounted") and read_unit(words, number.end) is None


def find_numbers(doc: Doc, words: Words | None = None) -> list[Number]:
    """Every number and range of the talk, in order, each as long as it goes."""
    words = words or Words.of(doc)
    found, place = [], 0
    while place < len(words):
        number = read_number(words, place)
        if number is None:
            place += 1
            continue
        if not is_pronoun(words, number):
            found.append(number)
        place = number.end
    return found
