"""Heats, times, yields and shares where the reader sees one; the number grammar gives the values."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from functools import cache
from itertools import groupby
from typing import TYPE_CHECKING, get_args

from extract.lexicon import read_lexicon
from extract.reader.labels import FIGURES
from extract.spot.heat.figures import read_figure
from extract.spot.heat.levels import levels
from extract.spot.numbers.find import read_number
from extract.spot.numbers.units import read_unit
from extract.spot.spans import Count, Duration, HeatKind, HeatSetting, Share
from extract.spot.words import Words

if TYPE_CHECKING:
    from extract.reader.reading import Reading

LIKELY, POSSIBLE = 0.5, 0.3
HOTTEST, COOLEST, HOTTEST_GAS = 900, 30, 10
SCALES = {"c": "degC", "celsius": "degC", "centigrade": "degC", "f": "degF", "fahrenheit": "degF"}
NEAR = 5
BEFORE, AFTER = 40, 12  # words before and after a share among which the thing shared is looked for
NOUNS = ("NOUN", "PROPN")


def runs(reading: Reading, kind: str) -> Iterator[tuple[int, int, str]]:
    """The token spans of a kind of figure ("heat", "share"), each with its full name."""
    tags = reading.figures.argmax(1).tolist()
    for tag, run in groupby(range(len(tags)), key=lambda i: tags[i]):
        name = FIGURES[tag]
        if name.split(" ")[0] == kind:
            places = list(run)
            yield places[0], places[-1] + 1, name.partition(" ")[2]


def cooking_times(words: Words, reading: Reading, found: Sequence[Duration]) -> list[Duration]:
    """The lengths of time that belong to the method, those among them whose unit was left unsaid too."""
    own = [d for d in found if reading.is_figure(d.start, d.end, "time") >= LIKELY]
    taken = {i for d in own for i in range(d.start, d.end)}
    for start, end, _ in runs(reading, "time"):
        if taken.isdisjoint(range(start, end)) and (bare := _bare_time(words, start, end)) is not None:
            own.append(bare)
    return sorted(own, key=lambda d: d.start)


def _bare_time(words: Words, start: int, end: int) -> Duration | None:
    """ "Thirty-five to forty": a time in figures alone is minutes, as cooks tell them."""
    number = read_number(words, start)
    if number is None or number.low < 1 or _counts(words, number.end, "temperature"):
        return None
    end = max(end, number.end)
    text = words.doc[start:end].text
    return Duration(start, end, number.low, number.high, "minute", text, number.approximate)


def _counts(words: Words, end: int, kind: str) -> bool:
    """Whether a unit of a kind stands behind a figure: "until it is 18 degrees" is no time, "20 minutes" no heat."""
    unit = read_unit(words, end)
    return unit is not None and unit.kind == kind


def settings(words: Words, reading: Reading, found: Sequence[HeatSetting]) -> list[HeatSetting]:
    """The heats of the method: those read as one that the reader takes for one, and figures that it alone does."""
    own = [_with_kind(reading, h) for h in found if reading.is_figure(h.start, h.end, "heat") >= POSSIBLE]
    own = [h for h in own if _can_be(h)]
    taken = {i for h in own for s in (h, *h.equivalents) for i in range(s.start, s.end)}
    for start, end, kind in runs(reading, "heat"):
        if (
            taken.isdisjoint(range(start, end))
            and (new := _setting(words, start, end, kind))
            and _can_be(new)
        ):
            own.append(new)
    return sorted(own, key=lambda h: h.start)


def _can_be(heat: HeatSetting) -> bool:
    """Whether a figure without a scale is one that an oven, oil or a core can have on any."""
    ranges = _ranges().get(heat.kind, ())
    if heat.unit or heat.low is None or heat.high is None or not ranges:
        return True
    return any(low <= heat.low and heat.high <= high for low, high in ranges)


@cache
def _ranges() -> dict[str, list[tuple[Fraction, Fraction]]]:
    """What each kind of heat can be, on every scale."""
    found: dict[str, list[tuple[Fraction, Fraction]]] = {}
    for row in read_lexicon("heat_ranges", columns=("kind", "unit", "low", "high")):
        found.setdefault(row["kind"], []).append((Fraction(row["low"]), Fraction(row["high"])))
    return found


def _with_kind(reading: Reading, heat: HeatSetting) -> HeatSetting:
    """The setting with what it is of, where the reader is sure of another kind than the words beside it tell."""
    for kind in get_args(HeatKind):
        if kind != heat.kind and reading.is_figure(heat.start, heat.end, f"heat {kind}") >= 0.8:
            return replace(heat, kind=kind)
    return heat


def _setting(words: Words, start: int, end: int, kind: str) -> HeatSetting | None:
    figure = next((f for at in range(start, end) if (f := read_figure(words, at)) is not None), None)
    if figure is None:
        return _level(words, start, end, kind)
    bare = figure.high < COOLEST and kind in ("oven", "oil")
    gas = "gas" in words.low[max(0, start - 3) : end + 2] and figure.high <= HOTTEST_GAS
    if figure.high > HOTTEST or figure.low <= 0 or (bare and not gas) or _counts(words, figure.end, "time"):
        return None
    scale = next((SCALES[w] for w in words.low[figure.end : figure.end + 3] if w in SCALES), "")
    unit = "gas_mark" if gas else scale
    end = max(end, figure.end)
    return HeatSetting(start, end, kind, figure.low, figure.high, unit, None, words.doc[start:end].text)  # type: ignore[arg-type]


def _level(words: Words, start: int, end: int, kind: str) -> HeatSetting | None:
    """A level in the words of the lexicon, wherever in the span they stand."""
    phrases, meanings = levels()
    for at in range(start, end):
        length = phrases.match(words, at)
        if length:
            said = " ".join(words.low[at : at + length])
            text = words.doc[at : at + length].text
            return HeatSetting(at, at + length, kind, None, None, "", meanings[said][0], text)  # type: ignore[arg-type]
    return None


def counts(words: Words, reading: Reading, found: Sequence[Count]) -> list[Count]:
    """What the dishes make: the counts read as a yield that the reader does not deny, and those that it alone sees."""
    own = [c for c in found if reading.is_figure(c.start, c.end, "yield") >= POSSIBLE]
    taken = {i for c in own for i in range(c.start, c.end)}
    for start, end, _ in runs(reading, "yield"):
        number = next((n for at in range(start, end) if (n := read_number(words, at)) is not None), None)
        if number is not None and taken.isdisjoint(range(start, number.end)):
            unit = _counted(words, number.end)
            own.append(Count(number.start, number.end, number.low, number.high, unit))
    return sorted(own, key=lambda c: c.start)


def _counted(words: Words, at: int) -> str:
    """The noun behind a figure ("twelve pasties"), "servings" where none follows."""
    for token in words.doc[at : at + 3]:
        if token.pos_ == "NOUN":
            return str(token.lower_) if token.lower_ not in ("people", "folks", "person") else "servings"
        if token.pos_ not in ("ADJ", "DET"):
            break
    return "servings"


def shares(words: Words, reading: Reading, found: Sequence[Share]) -> list[Share]:
    """The shares taken of made things: those read as one near where the reader sees one, and its own."""
    own: list[Share] = []
    used: set[int] = set()
    for start, _, name in runs(reading, "share"):
        near = [
            (abs(share.start - start), k)
            for k, share in enumerate(found)
            if k not in used and share.start - NEAR <= start < share.end + NEAR and _agrees(share, name)
        ]
        if near:
            used.add(min(near)[1])
            share = found[min(near)[1]]
            # "The last third" is the rest; "the other half" is as well told as a half.
            rest = name == "rest" and share.further and share.measure is None
            own.append(replace(share, fraction="rest") if rest else share)
        elif (new := _share(words, reading, start, name)) is not None:
            own.append(new)
    spared = [
        share
        for k, share in enumerate(found)
        if k not in used and reading.is_figure(share.start, share.end, "share") >= POSSIBLE
    ]
    told = (s if s.of else replace(s, meant=_thing(words, reading, s.start)) for s in (*own, *spared))
    return sorted(told, key=lambda share: share.start)


def _agrees(share: Share, name: str) -> bool:
    if isinstance(share.fraction, Fraction):
        return name == "part" or (name == "rest" and (share.other or share.further))
    return share.fraction == name or share.measure is not None


def _share(words: Words, reading: Reading, at: int, name: str) -> Share | None:
    """A share that only the reader sees: its fraction, and the made thing that it is of."""
    if name == "all":
        return None
    fraction: Fraction | str = name
    end = at + 1
    if name == "part":
        number = next((n for k in (at, at - 1, at - 2) if (n := read_number(words, k)) is not None), None)
        if number is None or number.low <= 0 or number.low == 1:
            return None
        fraction, end = min(number.low, 1 / number.low), max(at + 1, number.end)  # "cut it in six" too
    return Share(at, end, fraction, of=_thing(words, reading, at))  # type: ignore[arg-type]


def _thing(words: Words, reading: Reading, at: int) -> str:
    """The name near a share that the reader takes for the thing shared, "" where it is none of them."""
    import numpy as np

    places = np.array(
        [i for i in range(max(0, at - BEFORE), min(len(words), at + AFTER)) if words.doc[i].pos_ in NOUNS]
    )
    if not len(places):
        return ""
    scores = reading.name_scores(at, places, share=True)
    best = int(scores.argmax())
    return _whole_name(words, int(places[best - 1])) if best else ""


def _whole_name(words: Words, at: int) -> str:
    """The name of which a noun is a word: "lemon salt" for both of its."""
    end = at + 1
    while end < len(words) and words.doc[end - 1].dep_ == "compound" and words.doc[end].pos_ in NOUNS:
        end += 1
    start = at
    while start and words.doc[start - 1].dep_ == "compound":
        start -= 1
    return " ".join(words.at(i) for i in range(start, end))
