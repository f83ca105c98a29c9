"""Lengths in words: the sizes of tins and pieces, and how much a tin holds by its area."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from extract.lexicon import read_lexicon
from extract.measure.figures import by_length, decimal, exact, mixed

TIN_COLUMNS = ("word", "shape")
NUMBER_COLUMNS = ("word", "kind", "value")
_INCH = Fraction(254, 100)
_NO_FRACTION = re.compile(r"/\s*0+(?!\d)")
_INCHES = frozenset({"inch", "inches", '"', "″"})
_FIGURE = r"\d+(?:\.\d+)?(?:[ -]\d/\d)?|\d/\d"
_LENGTH = re.compile(
    rf"\b(?P<first>{_FIGURE})(?:(?:[ -]*(?:cm|centimetres?|inch(?:es)?|\"))?\s*(?P<join>x|×|by|to|–)\s*"
    rf"(?P<second>{_FIGURE}))?[ -]*(?P<unit>cm|centimetres?|centimeters?|inch(?:es)?|\"|″)(?![a-z])",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class Length:
    """A length or two in words: ``sides`` in ``unit`` ("inch" or "centimetre"); ``text`` as it stands.

    ``across``: two sides of one thing ("9 by 13 inch"), not a range ("1 to 2 inches").
    """

    text: str
    end: int
    sides: tuple[Fraction, ...]
    unit: str
    across: bool

    def other_scale(self) -> str:
        """The same in the other unit, rounded as tins and knives are: "23 x 33 cm", "2.5 cm", "8 inches"."""
        metric = self.unit == "inch"
        worked = [
            by_length(side * _INCH if metric else side / _INCH, inches=not metric) for side in self.sides
        ]
        write = decimal if metric else mixed
        figures = (" x " if self.across else "–").join(dict.fromkeys(write(side) for side in worked))
        if metric and max(self.sides) * _INCH < 1:
            return f"{'–'.join(dict.fromkeys(str(round(side * _INCH * 10)) for side in self.sides))} mm"
        if metric:
            return f"{figures} cm"
        return f"{figures} {'inch' if max(worked) <= 1 else 'inches'}"


@dataclass(frozen=True, slots=True)
class Tin:
    """A tin or dish of a said size; ``area`` in square ``unit``."""

    text: str
    shape: str
    sides: tuple[Fraction, ...]
    unit: str

    @property
    def area(self) -> float:
        """The area of its floor: a circle's, a square's or a rectangle's."""
        if self.shape == "round":
            return math.pi * float(self.sides[0]) ** 2 / 4
        return float(self.sides[0] * self.sides[-1])

    def resized(self, factor: Fraction) -> str:
        """A tin of the same shape with ``factor`` times the area, in whole units: "11-inch round"."""
        stretch = math.sqrt(factor)
        sides = " x ".join(str(round(float(side) * stretch)) for side in self.sides)
        shape = f" {self.shape}" if len(self.sides) == 1 else ""
        return f"{sides} {'inch' if self.unit == 'inch' else 'cm'}{shape}"


def find_lengths(text: str) -> Iterator[Length]:
    """The lengths with a unit of inches or centimetres in ``text``; parts of an inch in words come last."""
    yield from _in_words(text)
    for match in _LENGTH.finditer(_in_figures(text)):
        ends = [match["first"], match["second"]] if match["second"] else [match["first"]]
        unit = "inch" if match["unit"].lower() in _INCHES else "centimetre"
        across = (match["join"] or "").lower() in {"x", "×", "by"}
        if any(_NO_FRACTION.search(end) for end in ends):
            continue
        sides = tuple(exact(end.replace("-", " ")) for end in ends)
        if all(sides):
            yield Length(match.group(), match.end(), sides, unit, across)


def _in_words(text: str) -> Iterator[Length]:
    """ "An eighth of an inch", "half an inch", "a quarter inch"."""
    for match in _part_words().finditer(text):
        part = _parts()[match["part"].lower()]
        count = int(_numbers().get((match["count"] or "1").lower(), 1))
        yield Length(match.group(), match.end(), (count * part,), "inch", across=False)


@cache
def _parts() -> dict[str, Fraction]:
    rows = read_lexicon("numbers", columns=NUMBER_COLUMNS)
    return {row["word"]: Fraction(row["value"]) for row in rows if row["kind"] == "part"}


@cache
def _part_words() -> re.Pattern[str]:
    parts = "|".join(sorted(map(re.escape, _parts()), key=len, reverse=True))
    counts = "|".join(map(re.escape, _numbers()))
    return re.compile(
        rf"\b(?:(?:an?|(?P<count>{counts}))[ -])?(?P<part>{parts})(?:[ -]of)?(?:[ -]an?)?[ -]inch\b",
        re.IGNORECASE,
    )


def find_tins(text: str) -> Iterator[Tin]:
    """The tins and dishes of a said size in ``text``: "a 9-inch square tin". Without a shape it is round."""
    text = _in_figures(text)
    for length in find_lengths(text):
        following = text[length.end : length.end + 40].lower().replace("-", " ").split()[:4]
        shapes = _shapes()
        vessel = next((place for place, word in enumerate(following) if shapes.get(word) == "vessel"), None)
        if vessel is None:
            continue
        said = [shapes[word] for word in following[:vessel] if shapes.get(word, "vessel") != "vessel"]
        shape = "rectangle" if len(length.sides) == 2 else said[0] if said else "round"
        if not (len(length.sides) == 2 and not length.across):
            yield Tin(f"{length.text} {' '.join(following[: vessel + 1])}", shape, length.sides, length.unit)


def _in_figures(text: str) -> str:
    """``text`` with the number words that stand before a length's unit as figures: "a nine-inch tin"."""
    return _number_words().sub(lambda match: _numbers()[match.group().lower()], text)


@cache
def _numbers() -> dict[str, str]:
    rows = read_lexicon("numbers", columns=NUMBER_COLUMNS)
    return {row["word"]: row["value"] for row in rows if row["kind"] in {"digit", "teen", "ten"}}


@cache
def _number_words() -> re.Pattern[str]:
    words = "|".join(map(re.escape, _numbers()))
    before_a_unit = r"(?=(?:[ -]+(?:by|to|x)[ -]+[\w/]+)?[ -]*(?:inch|cm\b|centimet))"
    return re.compile(rf"\b(?:{words})\b{before_a_unit}", re.IGNORECASE)


@cache
def _shapes() -> dict[str, str]:
    return {row["word"]: row["shape"] for row in read_lexicon("tins", columns=TIN_COLUMNS)}
