"""Heat settings: oven figures, gas marks, hob levels, oil and core temperatures."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING

from extract.spot.heat_levels import NEARBY, TABLE, near, read_level
from extract.spot.heat_numbers import Figure, read_figure, spoken_hundreds
from extract.spot.numbers import read_number
from extract.spot.numbers_values import number_words
from extract.spot.spans import HeatKind, HeatSetting
from extract.spot.units import Unit, read_unit, split_glued
from extract.spot.words import BREAKS, Words, phrases

if TYPE_CHECKING:
    from spacy.tokens import Doc

LINK_REACH = 12
FIGURES = (Fraction(30), Fraction(1000))
BARE = (Fraction(100), Fraction(600))
SPOKEN_FROM = 200
READS_REACH = 18
SAYS_REACH = 8
CORE = (Fraction(40), Fraction(260))


def find_heat(doc: Doc, words: Words | None = None) -> list[HeatSetting]:
    """Every heat setting of the talk, in order; one setting on several scales is one, with equivalents."""
    words = words or Words.of(doc)
    found: list[HeatSetting] = []
    place = 0
    while place < len(words):
        setting = _gas_mark(words, place) or _figure(words, place) or read_level(words, place)
        if setting is None:
            place += 1
            continue
        place = setting.end
        _append(words, found, setting)
        if (again := _linked(words, setting)) is not None:
            found[-1] = replace(found[-1], equivalents=(*found[-1].equivalents, again))
            place = again.end
    return found


def _append(words: Words, found: list[HeatSetting], setting: HeatSetting) -> None:
    last = found[-1] if found else None
    if last is not None and _is_equivalent(words, last, setting):
        found[-1] = replace(last, equivalents=(*last.equivalents, setting))
    else:
        found.append(setting)


def _is_equivalent(words: Words, first: HeatSetting, second: HeatSetting) -> bool:
    """ "170, that's the fan, or 190 without", "160 Celsius or gas mark 4"."""
    end = max(first.end, *(e.end for e in first.equivalents)) if first.equivalents else first.end
    if first.low is None or second.low is None or second.start - end > LINK_REACH:
        return False
    scales = {(s.unit, s.fan) for s in (first, *first.equivalents)}
    if (second.unit, second.fan) in scales or first.low == second.low:
        return False
    links = phrases(TABLE, "link")
    return all(words.at(place) in links for place in range(end, second.start))


def _gas_mark(words: Words, place: int) -> HeatSetting | None:
    """ "gas mark 4", "gas 7", "mark six"."""
    after = place + 1
    if words.at(place) == "gas":
        after += words.at(after) == "mark"
    elif words.at(place) != "mark":
        return None
    number = read_number(words, after)
    if number is None or number.high > 10 or read_unit(words, number.end) is not None:
        return None
    if words.at(place) == "mark" and "oven" not in words.low[max(0, place - NEARBY) : place]:
        return None
    return _setting(words, (place, number.end), "oven", (number.low, number.high), "gas_mark")


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
    return _setting(words, span, kind, (figure.low, figure.high), unit, fan=_is_fan(words, scale.end))


def _is_fan(words: Words, end: int) -> bool:
    """Whether "fan" follows closely: "180 fan", "180, that's fan", "with the fan on"."""
    for place in range(end, min(end + 5, len(words))):
        if words.at(place) == "fan":
            return True
        if words.at(place)[:1].isdigit() or words.at(place) in number_words():
            return False
    return False


def _bare(words: Words, place: int, figure: Figure) -> HeatSetting | None:
    """A figure without a scale, where the words before or after make it a temperature."""
    if not _could_be_bare(words, figure):
        return None
    fan = _is_fan(words, figure.end)
    hot = figure.low >= BARE[0]
    settled = words.at(figure.end) == "oven" or (hot and (fan or _is_set(words, place)))
    settled = settled or (hot and (_is_timed(words, figure) or _is_spoken(words, place, figure)))
    settled = settled or (hot and figure.low % 5 == 0 and _is_oven_said(words, place))
    settled = settled or (_is_read_off(words, place) and figure.high <= CORE[1])
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


def _could_be_bare(words: Words, figure: Figure) -> bool:
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


def _linked(words: Words, first: HeatSetting) -> HeatSetting | None:
    """The same setting said again without a scale: "170, that's the fan, or 190 without"."""
    if first.low is None or not (first.fan or first.unit):
        return None
    links = phrases(TABLE, "link")
    place = first.end
    while place - first.end < LINK_REACH and words.at(place) in links and not words.at(place)[:1].isdigit():
        place += 1
        if words.at(place) not in links or words.at(place) in ("a", "one"):
            break
    figure = read_figure(words, place)
    if figure is None or not _could_be_bare(words, figure) or figure.low < BARE[0] or figure.low == first.low:
        return None
    if _scale(words, figure.end) is not None or not words.low[first.end : place]:
        return None
    fan = _is_fan(words, figure.end)
    if not (fan or "fan" in words.low[first.end : place]):
        return None
    return _setting(words, (place, figure.end), first.kind, (figure.low, figure.high), "", fan=fan)


def _is_spoken(words: Words, place: int, figure: Figure) -> bool:
    """ "three sixty" near an oven, oil or heat: nobody says another number so."""
    if spoken_hundreds(words, place) is None or figure.low % 5 or figure.low < SPOKEN_FROM:
        return False
    return any(near(words, place, role) for role in ("oven", "oil", "heat"))


def _ends_with(words: Words, place: int, role: str, *, longest: int = 4) -> bool:
    """Whether a phrase of the role stands before ``place``, an "about" or a comma allowed between."""
    about = phrases("amount_words", "about").ends_at(words, place)
    starts = {place, about, about - (words.at(about - 1) in BREAKS)}
    return any(phrases(TABLE, role).ends_at(words, start, longest=longest) < start for start in starts)


def _is_set(words: Words, place: int) -> bool:
    return _ends_with(words, place, "set")


def _is_timed(words: Words, figure: Figure) -> bool:
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


def _is_read_off(words: Words, place: int) -> bool:
    """ "until the core says 150", "the probe should read 170"."""
    reach = 0
    if _ends_with(words, place, "reads"):
        reach = READS_REACH
    elif _ends_with(words, place, "says"):
        reach = SAYS_REACH
    return any(word in phrases(TABLE, "internal") for word in words.low[max(0, place - reach) : place])


def _is_oven_said(words: Words, place: int) -> bool:
    """ "push the oven as far as it will, mine's 240"."""
    heated = phrases(TABLE, "heated")
    near = any(word in heated for word in words.low[max(0, place - NEARBY) : place])
    return near and _ends_with(words, place, "oven says")


def _kind(words: Words, place: int, figure: Figure) -> HeatKind:
    if _is_read_off(words, place) and figure.high <= CORE[1]:
        return "internal"
    scores: dict[HeatKind, int] = {"oven": 0, "oil": 0, "internal": 0, "other": 0}
    for kind in scores:
        scores[kind] = near(words, place, kind, ahead=kind != "internal")
    best = max(scores, key=scores.__getitem__)
    if scores[best] == 0 or (best == "internal" and figure.high > CORE[1]):
        return "oven" if figure.low >= 120 else "other"
    return best
