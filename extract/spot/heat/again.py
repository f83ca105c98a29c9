"""One oven setting said again on another scale: "180 fan, that's 200 in an ordinary one, gas mark 6".

The figures themselves tell: by the rows of ``lexicons/tables/oven.tsv`` they must come to one setting, so that the
words between them may be any that do not change the oven.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache

from extract.lexicon import read_lexicon
from extract.spot.heat.context import BARE, could_be_bare, is_fan
from extract.spot.heat.figures import read_figure
from extract.spot.heat.levels import TABLE
from extract.spot.numbers.find import read_number
from extract.spot.numbers.units import read_unit
from extract.spot.spans import HeatSetting
from extract.spot.words import BREAKS, Words, phrases

AGAIN_REACH = 12
MARK_REACH = 18  # a gas mark is no other figure's, and so may stand further off
GAS_REACH = 4
HIGHEST_MARK = 10
FAN_STEP = (
    20  # °C by which a fan oven is set lower: the fan column of lexicons/tables/oven.tsv, NSW Health's chart
)
NEAR = 12  # °C within which two figures are one setting: tables print 325 °F as 160 to 170 °C
HOTTEST_CELSIUS = 290  # household ovens stop at 250 to 300 °C (common practice); above it a bare figure is °F


@cache
def _marks() -> dict[Fraction, Fraction]:
    """Degrees Celsius of each gas mark in an ordinary oven."""
    columns = ("deg_f", "deg_c", "gas_mark", "fan_deg_c", "word", "source")
    rows = read_lexicon("oven", columns=columns)
    return {Fraction(row["gas_mark"]): Fraction(row["deg_c"]) for row in rows if row["gas_mark"]}


def _scale(setting: HeatSetting) -> tuple[str, bool]:
    """The scale a figure must be on, where it was said bare, and whether it is a fan oven's."""
    unit = setting.unit
    if not unit and setting.low is not None:
        unit = "degF" if setting.low > HOTTEST_CELSIUS else "degC"
    return unit, setting.fan


def _celsius(setting: HeatSetting) -> Fraction | None:
    """What an ordinary oven is set to for it, in degrees Celsius; None where no table has the figure."""
    unit, fan = _scale(setting)
    if setting.low is None or unit == "gas_mark":
        return _marks().get(setting.low) if setting.low is not None else None
    degrees = (setting.low - 32) * Fraction(5, 9) if unit == "degF" else setting.low
    return degrees + FAN_STEP * fan


def end_of(setting: HeatSetting) -> int:
    """One past the last token of a setting and of everything it was said again on."""
    return (
        max(setting.end, *(other.end for other in setting.equivalents))
        if setting.equivalents
        else setting.end
    )


def is_said_again(words: Words, first: HeatSetting, second: HeatSetting) -> bool:
    """Whether ``second`` is ``first`` on another scale, by the figures and the words between."""
    if first.kind != "oven" or first.low != first.high or second.low != second.high:
        return False
    end = end_of(first)
    reach = MARK_REACH if second.unit == "gas_mark" else AGAIN_REACH
    if not 0 < second.start - end <= reach or _changes(words, end, second.start):
        return False
    said = (first, *first.equivalents)
    if _scale(second) in {_scale(setting) for setting in said}:
        return False
    ours, theirs = _celsius(second), [_celsius(setting) for setting in said]
    return ours is not None and all(other is not None and abs(ours - other) <= NEAR for other in theirs)


def _changes(words: Words, start: int, end: int) -> bool:
    """ "220 for ten minutes, then 200": words that set the oven anew, or a time that it stays so."""
    between = words.low[start:end]
    return between.count(".") > 1 or any(word in phrases(TABLE, "change") for word in between)


def said_again(words: Words, first: HeatSetting, place: int) -> HeatSetting | None:
    """The figure at ``place`` where it is nothing but ``first`` said again: "200 in an ordinary one", "gas, a four"."""
    if first.kind != "oven" or place - end_of(first) > MARK_REACH:
        return None
    found = _mark_after_gas(words, first, place) or _figure_again(words, place)
    return found if found is not None and is_said_again(words, first, found) else None


def _mark_after_gas(words: Words, first: HeatSetting, place: int) -> HeatSetting | None:
    """ "And if you're on gas that's a four"."""
    if "gas" not in words.low[max(end_of(first), place - GAS_REACH) : place]:
        return None
    number = read_number(words, place)
    if number is None or number.high > HIGHEST_MARK or _counts(words, number.end):
        return None
    return _setting(words, place, number.end, number.low, "gas_mark")


def _figure_again(words: Words, place: int) -> HeatSetting | None:
    """ "180 fan, and 200 in an ordinary one"."""
    figure = read_figure(words, place)
    if (
        figure is None
        or figure.low < BARE[0]
        or not could_be_bare(words, figure)
        or _counts(words, figure.end)
    ):
        return None
    return _setting(words, place, figure.end, figure.low, "", fan=is_fan(words, figure.end))


def _counts(words: Words, end: int) -> bool:
    """Whether the figure that ends here counts or measures what follows."""
    after = words.at(end)
    if after in BREAKS or not after:
        return False
    noun = words.doc[end].pos_ in ("NOUN", "PROPN") and after not in phrases(TABLE, "scale after")
    return after in ("of", "%", "percent") or noun or read_unit(words, end) is not None


def _setting(
    words: Words, start: int, end: int, figure: Fraction, unit: str, *, fan: bool = False
) -> HeatSetting:
    text = words.doc[start:end].text
    return HeatSetting(start, end, "oven", figure, figure, unit, None, text, fan)
