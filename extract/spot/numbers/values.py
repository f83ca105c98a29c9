"""One number as people say it and recognisers write it: words, figures, fractions.

``read_value`` tries the readers in turn ("two and a half", "1 1/2", "three quarters", "a couple"). Speech
recognition puts commas and full stops inside numbers ("two hundred and thirty. six grams") and writes a
fraction as two numbers ("one, eight teaspoon" for 1/8); both are mended here, only where a unit follows.
"""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache

from extract.lexicon import read_lexicon
from extract.spot.numbers.units import read_unit
from extract.spot.words import BREAKS, DASHES, Words

Value = tuple[Fraction, int]
FIGURES = re.compile(r"(?:\d{1,3}(?:,\d{3})+|\d+)(?:\.\d+)?|\.\d+")
RATIO = re.compile(r"(\d+)/(\d+)")
GLYPHED = re.compile(r"(\d*)([¼-¾⅐-⅞])")
ARTICLES = frozenset({"a", "an"})
ANDS = frozenset({"and", "an", "&", "n"})


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


LONGEST = 12  # characters of a figure; what is longer is no amount of anything


@cache
def _kinds() -> dict[str, str]:
    return {word: row[0] for word, row in number_words().items()}


def kind_of(words: Words, place: int) -> str:
    """The kind of the number word at ``place``, "" for any other word."""
    return _kinds().get(words.at(place), "")


def worth_of(words: Words, place: int) -> Fraction:
    """The value of the number word at ``place``."""
    return number_words()[words.at(place)][1]


def figure_value(text: str) -> Fraction | None:
    """The value of one word of figures ("350", "1,000", "2.5", "1/4", "1½"), or None."""
    if len(text) > LONGEST:
        return None
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
    kind = kind_of(words, place)
    if kind in ("digit", "teen"):
        return worth_of(words, place), place + 1
    if kind != "ten":
        return None
    tens, after = worth_of(words, place), place + 1
    joint = words.skip_dash(after)
    if kind_of(words, joint) == "digit":
        return tens + worth_of(words, joint), joint + 1
    if _continues_over_break(words, after):
        return tens + worth_of(words, after + 1), after + 2
    return tens, after


def _continues_over_break(words: Words, place: int) -> bool:
    """Whether a comma or full stop stands within a number: "thirty. six grams"."""
    if words.at(place) not in BREAKS or kind_of(words, place + 1) != "digit" or words.capital(place + 1):
        return False
    return _measured(words, place + 2)


def _cardinal(words: Words, place: int) -> Value | None:
    """A whole number in words: "a hundred and twenty", "four hundred fifty", "two thousand"."""
    start = place
    if words.at(place) in ARTICLES and kind_of(words, place + 1) == "power":
        count, place = Fraction(1), place + 1
    elif kind_of(words, place) == "power":
        count = Fraction(1)
    else:
        first = _below_hundred(words, place)
        if first is None:
            return None
        count, place = first
    total = Fraction(0)
    while kind_of(words, place) == "power":
        power = worth_of(words, place)
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
    return _cardinal(words, place) if kind_of(words, place) in ("digit", "teen", "ten") else None


def _rest_of_hundred(words: Words, count: Fraction, place: int) -> Value:
    after = place + (words.at(place) in ("and", "&"))
    after = after + 1 if words.at(after) in BREAKS and kind_of(words, after + 1) == "ten" else after
    rest = _below_hundred(words, after)
    if rest is None or (after > place and words.at(place) in BREAKS and not _measured(words, rest[1])):
        return count, place
    if kind_of(words, rest[1]) in ("part", "power"):
        return count, place
    if words.at(after - 1) in BREAKS and _are_minutes(words, rest[1]):
        return count, place
    return count + rest[0], rest[1]


def _are_minutes(words: Words, place: int) -> bool:
    """Whether a unit of time stands there: "two hundred, twenty minutes" is a heat and a time."""
    unit = read_unit(words, words.skip_dash(place))
    return unit is not None and unit.kind == "time"


def _part(words: Words, place: int) -> Value | None:
    """A fraction in words: "half", "a quarter", "three quarters", "two-thirds", "one fourth"."""
    if kind_of(words, place) == "part":
        return (worth_of(words, place), place + 1) if _is_share(words, place) else None
    count, after = Fraction(1), place + 1
    if words.at(place) not in ARTICLES:
        if kind_of(words, place) not in ("digit", "teen"):
            value = figure_value(words.at(place))
            if value is None or value > 15 or value.denominator > 1:
                return None
            count = value
        else:
            count = worth_of(words, place)
    after = words.skip_dash(after)
    if kind_of(words, after) != "part":
        return None
    part = worth_of(words, after)
    if count * part >= 2 or (
        count > 1 and not words.at(after).endswith("s") and count.numerator % 2 == 0 and part > Fraction(1, 3)
    ):
        return None
    return count * part, after + 1


def _is_share(words: Words, place: int) -> bool:
    """Whether a bare "half", "third" names an amount and is not "in half", "the third step", "halfway"."""
    word, before, after = words.at(place), words.at(place - 1), words.at(place + 1)
    if after == "way" or (before in ("in", "into") and not _measured(words, place + 1 + (after in ARTICLES))):
        return False
    if word in ("half", "quarter"):
        other = before in ("other", "second", "first") and not _measured(words, place + 1)
        return after != "'s" and not other
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
    if kind_of(words, after) != "group" or (count != 1 and words.at(after) != "dozen"):
        return None
    if words.at(after) == "pair" and words.at(after + 1) != "of":
        return None
    return count * worth_of(words, after), after + 1


def _fraction_after(words: Words, place: int) -> Value | None:
    """The "and a half" after a whole number: also "and 1/2", "½"."""
    joint = place + 1 if words.at(place) in ANDS or words.at(place) in DASHES else place
    value = figure_value(words.at(joint))
    if value is not None and value < 1 and value.denominator > 1:
        return value, joint + 1
    if joint == place or words.at(place) in DASHES:
        return None
    part = _part(words, joint)
    if part is None or part[0] >= 1 or words.at(part[1]) in ARTICLES or kind_of(words, part[1]) == "group":
        return None
    return part


def _misheard_fraction(words: Words, place: int) -> Value | None:
    """ "one, eight teaspoon": a fraction read out as two numbers before a unit in the singular."""
    if words.at(place) not in ("one", "three", "1", "3"):
        return None
    below = words.skip_break(place + 1)
    if words.at(below) not in ("two", "three", "four", "eight", "2", "3", "4", "8"):
        return None
    unit = read_unit(words, below + 1)
    if unit is None or not unit.singular or unit.kind not in ("volume", "mass", "length"):
        return None
    sized = read_unit(words, unit.end)
    if sized is not None and sized.kind in ("package", "part"):
        return None
    top = Fraction(1 if words.at(place) in ("one", "1") else 3)
    bottom = Fraction(
        {"two": 2, "three": 3, "four": 4, "eight": 8}.get(words.at(below)) or int(words.at(below))
    )
    return (top / bottom, below + 1) if top < bottom else None


def _misheard_word(words: Words, place: int) -> Value | None:
    """ "full sprigs of sage" for four, "have cup" for half a cup: only where the unit agrees."""
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


def _decimal(words: Words, whole: Value) -> Value | None:
    """ "One point two", "two point two five": the digits behind the point, as long as they go on."""
    value, place = whole
    if words.at(place) != "point" or value.denominator != 1:
        return None
    digits, after = "", place + 1
    while kind_of(words, after) == "digit" or (words.at(after).isdigit() and not digits):
        digits += words.at(after) if words.at(after).isdigit() else str(worth_of(words, after))
        after += 1
    return (value + Fraction(int(digits), 10 ** len(digits)), after) if digits else None


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
        if kind_of(words, place + 1) == "power":
            whole = (value * worth_of(words, place + 1), place + 2)
    else:
        whole = _cardinal(words, place)
    if whole is None:
        return None
    if (decimal := _decimal(words, whole)) is not None:
        return decimal
    if whole[0].denominator == 1 and (rest := _fraction_after(words, whole[1])) is not None:
        return whole[0] + rest[0], rest[1]
    return whole
