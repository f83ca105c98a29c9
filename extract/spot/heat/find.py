"""Heat settings: oven figures, gas marks, hob levels, oil and core temperatures."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING

from extract.spot.heat.again import end_of, is_said_again, said_again
from extract.spot.heat.context import (
    BARE,
    CORE,
    could_be_bare,
    is_deep_oil,
    is_fan,
    is_in_the_middle,
    is_oven_said,
    is_racked,
    is_read_off,
    is_set,
    is_spoken,
    is_timed,
)
from extract.spot.heat.figures import Figure, read_figure
from extract.spot.heat.levels import NEARBY, TABLE, near, read_level
from extract.spot.numbers.find import read_number
from extract.spot.numbers.units import Unit, read_unit, split_glued
from extract.spot.numbers.values import number_words
from extract.spot.spans import HeatKind, HeatSetting
from extract.spot.words import Words, phrases

if TYPE_CHECKING:
    from spacy.tokens import Doc

LINK_REACH = 12
FIGURES = (Fraction(30), Fraction(1000))
OVEN_LEADS = 4  # words before a figure within which an oven is what is set


def find_heat(doc: Doc, words: Words | None = None) -> list[HeatSetting]:
    """Every heat setting of the talk, in order; one setting on several scales is one, with equivalents."""
    words = words or Words.of(doc)
    found: list[HeatSetting] = []
    place = 0
    while place < len(words):
        setting = _gas_mark(words, place) or _figure(words, place) or read_level(words, place)
        if setting is None and found:
            setting = said_again(words, found[-1], place)
        if setting is None:
            place += 1
            continue
        place = setting.end
        _append(words, found, setting)
    return found


def _append(words: Words, found: list[HeatSetting], setting: HeatSetting) -> None:
    last = found[-1] if found else None
    if last is not None and (_is_equivalent(words, last, setting) or is_said_again(words, last, setting)):
        found[-1] = replace(last, equivalents=(*last.equivalents, setting))
    else:
        found.append(setting)


def _is_equivalent(words: Words, first: HeatSetting, second: HeatSetting) -> bool:
    """ "170, that's the fan, or 190 without", "160 Celsius or gas mark 4"."""
    end = end_of(first)
    if first.low is None or second.low is None or second.start - end > LINK_REACH:
        return False
    scales = {(s.unit, s.fan) for s in (first, *first.equivalents)}
    if (second.unit, second.fan) in scales or first.low == second.low:
        return False
    links = phrases(TABLE, "link")
    return all(words.at(place) in links for place in range(end, second.start))


def _gas_mark(words: Words, place: int) -> HeatSetting | None:
    """ "gas mark 4", "gas 7", "mark six", "seven on the gas"."""
    if words.at(place) in ("gas", "mark"):
        number = read_number(words, place + 1 + (words.at(place + 1) == "mark"))
        end = number.end if number is not None else 0
        if words.at(place) == "mark" and "oven" not in words.low[max(0, place - NEARBY) : place]:
            return None
    else:
        number = read_number(words, place) if words.at(place)[:1].isalnum() else None
        end = number.end if number is not None else 0
        if words.low[end : end + 3] not in (["on", "the", "gas"], ["in", "the", "gas"]):
            return None
        end += 3
    if number is None or number.high > 10 or number.low < 1 or read_unit(words, number.end) is not None:
        return None
    return _setting(words, (place, end), "oven", (number.low, number.high), "gas_mark")


def _setting(
    words: Words,
    span: tuple[int, int],
    kind: HeatKind,
    figures: tuple[Fraction, Fraction],
    unit: str,
    *,
    fan: bool = False,
) -> HeatSetting:
    text = words.doc[span[0] : span[1]].text
    return HeatSetting(*span, kind, *figures, unit, None, text, fan)


def _figure(words: Words, place: int) -> HeatSetting | None:
    if _continues(words, place):
        return None
    figure = read_figure(words, place)
    if figure is None:
        return None
    glued = split_glued(words.at(figure.end - 1))
    if glued is not None and glued[1] in ("f", "c", "°f", "°c"):
        unit = "degF" if "f" in glued[1] else "degC"
        return _setting(
            words, (place, figure.end), _kind(words, place, figure), (figure.low, figure.high), unit
        )
    scale = _scale(words, figure.end)
    if scale is not None:
        return _with_degrees(words, place, figure, scale)
    return _bare(words, place, figure)


def _continues(words: Words, place: int) -> bool:
    """Whether the word is the tail of a number that began earlier."""
    return words.at(place - 1) in number_words() and words.at(place) in number_words()


def _scale(words: Words, place: int) -> Unit | None:
    """The degree words after a figure, to the last of them: "degrees, celsius"."""
    unit = read_unit(words, place, after_figures=words.at(place - 1)[-1:].isdigit())
    if unit is None or unit.kind != "temperature":
        named = read_unit(words, words.skip_break(place))
        unit = named if named is not None and named.name in ("degF", "degC") else unit
    if unit is None or unit.kind != "temperature":
        return None
    for after in (unit.end, words.skip_break(unit.end)):
        named = read_unit(words, after, after_figures=True)
        if named is not None and named.name in ("degF", "degC"):
            return named
    return unit


def _with_degrees(words: Words, place: int, figure: Figure, scale: Unit) -> HeatSetting | None:
    if not FIGURES[0] <= figure.low <= FIGURES[1]:
        return None
    if any(words.at(scale.end + i) in phrases(TABLE, "angle") for i in range(3)):
        return None
    unit = "" if scale.name == "degree" else scale.name
    kind = _kind(words, place, figure)
    span = (place, scale.end)
    return _setting(words, span, kind, (figure.low, figure.high), unit, fan=is_fan(words, scale.end))


def _bare(words: Words, place: int, figure: Figure) -> HeatSetting | None:
    """A figure without a scale, where the words before or after make it a temperature."""
    if not could_be_bare(words, figure):
        return None
    fan = is_fan(words, figure.end)
    hot = figure.low >= BARE[0]
    settled = words.at(figure.end) == "oven" or (hot and (fan or is_set(words, place)))
    settled = settled or (
        hot and (is_timed(words, figure) or is_spoken(words, place, figure) or is_racked(words, figure))
    )
    settled = settled or (hot and figure.low % 5 == 0 and is_oven_said(words, place))
    core = is_read_off(words, place) or is_in_the_middle(words, place, figure)
    settled = settled or (core and figure.high <= CORE[1])
    if not settled:
        return None
    kind = _kind(words, place, figure)
    unit = _named_scale(words, figure.end)
    return _setting(words, (place, figure.end), kind, (figure.low, figure.high), unit, fan=fan)


def _named_scale(words: Words, end: int) -> str:
    """The unit of "170, that's Fahrenheit"; "" where none is named."""
    place = words.skip_break(end)
    if words.at(place) != "that" or words.at(place + 1) not in ("'s", "is"):
        return ""
    named = read_unit(words, place + 2)
    return named.name if named is not None and named.name in ("degF", "degC") else ""


def _kind(words: Words, place: int, figure: Figure) -> HeatKind:
    if figure.high <= CORE[1] and (is_read_off(words, place) or is_in_the_middle(words, place, figure)):
        return "internal"
    scores: dict[HeatKind, int] = {"oven": 0, "oil": 0, "internal": 0, "other": 0}
    for kind in scores:
        scores[kind] = near(words, place, kind, ahead=kind != "internal")
    if (
        near(words, place, "oven", ahead=False) > NEARBY - OVEN_LEADS
    ):  # "turn your oven on to 350 and grease a pan"
        scores["oven"] = NEARBY + 1
    best = max(scores, key=scores.__getitem__)
    if scores[best] == 0 and is_deep_oil(words, place):
        return "oil"
    if scores[best] == 0 or (best == "internal" and figure.high > CORE[1]):
        return "oven" if figure.low >= 120 else "other"
    return best
