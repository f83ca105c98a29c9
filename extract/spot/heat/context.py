"""What tells a figure without a scale that is a temperature."""

from __future__ import annotations

from fractions import Fraction

from extract.spot.heat.figures import Figure, spoken_hundreds
from extract.spot.heat.levels import NEARBY, TABLE, near
from extract.spot.numbers.find import read_number
from extract.spot.numbers.units import read_unit
from extract.spot.numbers.values import number_words
from extract.spot.words import BREAKS, Words, phrases

BARE = (Fraction(100), Fraction(600))
CORE = (Fraction(40), Fraction(260))
SPOKEN_FROM = 200
READS_REACH = 18
SAYS_REACH = 8
SCALE_REACH = 9
FAN_REACH = 7
DEEP_REACH = 22


def is_fan(words: Words, end: int) -> bool:
    """Whether "fan" follows closely: "180 fan", "180, that's fan", "with the fan on", not "200 without a fan"."""
    for place in range(end, min(end + FAN_REACH, len(words))):
        word = words.at(place)
        if word == "fan":
            return True
        if word[:1].isdigit() or word in number_words() or word in phrases(TABLE, "no fan"):
            return False
    return False


def could_be_bare(words: Words, figure: Figure) -> bool:
    """Whether the figure has the size of a temperature and counts nothing that follows it."""
    if figure.low.denominator > 1 or figure.low < CORE[0] or figure.high > BARE[1]:
        return False
    after = words.at(figure.end)
    if after == "at":
        return False
    if (
        not after[:1].isalpha()
        or after in ("oven", "fan")
        or after in phrases(TABLE, "scale after")
        or after in phrases("amount_words", "uncounted")
    ):
        return True
    return (
        words.doc[figure.end].pos_ not in ("NOUN", "PROPN", "ADJ", "NUM")
        and read_unit(words, figure.end) is None
    )


def is_set(words: Words, place: int) -> bool:
    return ends_with(words, place, "set")


def is_timed(words: Words, figure: Figure) -> bool:
    """ "400, 45 minutes", "three ninety for fifty minutes": an oven figure, then a time."""
    if figure.low % 5 or not 140 <= figure.low <= 500:
        return False
    after = words.skip_break(figure.end)
    after += words.at(after) == "for"
    if after == figure.end:
        return False
    after += phrases("amount_words", "about").match(words, after)
    number = read_number(words, after) if words.at(after) not in ("a",) else None
    unit = read_unit(words, words.skip_dash(number.end)) if number is not None else None
    return unit is not None and unit.kind == "time"


def is_read_off(words: Words, place: int) -> bool:
    """ "until the core says 150", "the probe should read 170", "the thigh has to reach 175"."""
    reach = 0
    if ends_with(words, place, "reads"):
        if any(word in phrases(TABLE, "part") for word in words.low[max(0, place - SAYS_REACH) : place]):
            return True
        reach = READS_REACH
    elif ends_with(words, place, "says"):
        reach = SAYS_REACH
    return any(word in phrases(TABLE, "internal") for word in words.low[max(0, place - reach) : place])


def is_oven_said(words: Words, place: int) -> bool:
    """ "push the oven as far as it will, mine's 240"."""
    heated = phrases(TABLE, "heated")
    near = any(word in heated for word in words.low[max(0, place - NEARBY) : place])
    return near and ends_with(words, place, "oven says")


def is_spoken(words: Words, place: int, figure: Figure) -> bool:
    """ "three sixty" near an oven, oil or heat: nobody says another number so."""
    if spoken_hundreds(words, place) is None or figure.low % 5:
        return False
    scales = phrases(TABLE, "scale")
    if any(word in scales for word in words.low[figure.end : figure.end + SCALE_REACH]):
        return True
    if figure.low < SPOKEN_FROM:
        return False
    return any(near(words, place, role) for role in ("oven", "oil", "heat"))


def ends_with(words: Words, place: int, role: str) -> bool:
    """Whether a phrase of the role stands before ``place``, an "about" or a comma allowed between."""
    about = phrases("amount_words", "about").ends_at(words, place)
    starts = {place, about, about - (words.at(about - 1) in BREAKS)}
    return any(phrases(TABLE, role).ends_at(words, start) < start for start in starts)


def is_racked(words: Words, figure: Figure) -> bool:
    """ "350, on the middle rack"."""
    if figure.low % 5 or not figure.low >= BARE[0]:
        return False
    near_rack = words.low[figure.end : figure.end + 6]
    return any(word in phrases(TABLE, "rack") for word in near_rack)


def is_in_the_middle(words: Words, place: int, figure: Figure) -> bool:
    """ "put a probe in, 75 in the middle"."""
    after = words.low[figure.end : figure.end + 3]
    if after[:2] not in (["in", "the"], ["at", "the"]) or words.at(figure.end + 2) not in phrases(
        TABLE, "internal"
    ):
        return False
    return any(word in phrases(TABLE, "probe") for word in words.low[max(0, place - SAYS_REACH) : place])


def is_deep_oil(words: Words, place: int) -> bool:
    """Whether a pot of oil is what was spoken of: "oil in the pot, three inches, and you heat it up to 360"."""
    before = words.low[max(0, place - DEEP_REACH) : place]
    oil = any(word in phrases(TABLE, "oil") for word in before)
    return oil and any(word in phrases(TABLE, "deep") for word in before)
