"""Batches: what was made on camera as a multiple of what the cook normally makes.

``lexicons/words/batches.tsv`` holds the sayings, as patterns of words, numbers and named phrases.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from functools import cache
from typing import NamedTuple

from extract.lexicon import read_lexicon
from extract.spot.numbers.values import Value, number_starts, read_value
from extract.spot.spans import Count, CountForm
from extract.spot.words import Words, phrases

TABLE = "count_words"
STOPS = frozenset({".", "?", "!"})
REACHES = {"possible": 4, "advised": 4, "not": 3}
ELSEWHERE_REACH = 16
SENTENCE_REACH = 25
LARGEST = 12
FIGURES = "0"
NAMES = ("NOUN", "PROPN", "ADJ")
FRACTION, MULTIPLE, WHOLE, NOUN, END = "N", "M", "K", "#", "|"
NUMBERS = frozenset({FRACTION, MULTIPLE, WHOLE})


# The numbers read while the sayings that may begin at one place are tried, by their first token.
Values = dict[int, Value | None]


class Saying(NamedTuple):
    """One row of the lexicon: its parts, its factor and what kind of statement it is."""

    parts: tuple[str, ...]
    factor: str
    kind: str


class Found(NamedTuple):
    """A saying met in the talk: the token after it and the number in it."""

    saying: Saying
    end: int
    number: Fraction


@cache
def _rows() -> tuple[Saying, ...]:
    rows = read_lexicon("batches", columns=("words", "factor", "kind"))
    return tuple(Saying(_parts(row["words"]), row["factor"], row["kind"]) for row in rows)


def _parts(text: str) -> tuple[str, ...]:
    """The words of a pattern; a name in angle brackets is one part, its spaces kept."""
    parts: list[str] = []
    for word in text.split():
        if parts and parts[-1].startswith("<") and not parts[-1].endswith(">"):
            parts[-1] += f" {word}"
        else:
            parts.append(word)
    return tuple(parts)


@cache
def _by_first_word() -> dict[str, list[Saying]]:
    """The sayings by every word with which they may begin; those that may with figures under "0" as well."""
    table: dict[str, list[Saying]] = {}
    for saying in _rows():
        if saying.kind != "multiple":
            for word in _first_words(saying.parts[0]):
                table.setdefault(word, []).append(saying)
    return table


def _first_words(part: str) -> Iterator[str]:
    if part in NUMBERS:
        yield from {*number_starts(), *_multiples(), FIGURES}
    elif part.startswith("<"):
        rows = read_lexicon(TABLE, columns=("words", "role"))
        yield from {row["words"].split()[0] for row in rows if row["role"] == part[1:-1]}
    else:
        yield part


@cache
def _multiples() -> dict[str, list[tuple[tuple[str, ...], Fraction]]]:
    """The words for a multiple by their first, longest first."""
    table: dict[str, list[tuple[tuple[str, ...], Fraction]]] = {}
    for saying in sorted(_rows(), key=lambda row: -len(row.parts)):
        if saying.kind == "multiple":
            table.setdefault(saying.parts[0], []).append((saying.parts, Fraction(saying.factor)))
    return table


def batch_at(words: Words, place: int) -> Count | None:
    """The batch that the words from ``place`` state, the longest saying first."""
    found = sorted(_sayings_at(words, place), key=lambda f: (-f.end, f.saying.kind == "elsewhere"))
    for saying, end, number in found:
        if not _is_meant(words, saying.kind, place, end):
            continue
        factor = _factor(saying.factor, number)
        if saying.kind == "normal" or _is_said(words, place, "not"):
            factor = Fraction(1)
        form: CountForm = "everywhere" if _is_around(words, place, end, "whole show") else "stated"
        return Count(place, end, factor, factor, "batch", form)
    return None


def _is_meant(words: Words, kind: str, place: int, end: int) -> bool:
    """Whether the sentence makes a fact of the saying, and not advice or talk of the food in hand."""
    if kind == "elsewhere" and not _is_elsewhere(words, place, end):
        return False
    if kind == "home" and not _is_around(words, place, end, "home"):
        return False
    advised = kind not in ("told", "home") and _is_said(words, place, "advised")
    return not advised and not _is_said(words, place, "possible")


def _factor(written: str, number: Fraction) -> Fraction:
    if written.rpartition("/")[2] in NUMBERS:
        return 1 / number if written.startswith("1/") else number
    return Fraction(written)


def _sayings_at(words: Words, place: int) -> Iterator[Found]:
    word, values = words.at(place), Values()
    for saying in _by_first_word().get(FIGURES if word[:1].isdigit() else word, ()):
        met = _met(words, place, saying.parts, values)
        if met is not None:
            yield Found(saying, *met)


def _met(words: Words, place: int, parts: tuple[str, ...], values: Values) -> tuple[int, Fraction] | None:
    """The token after a pattern that begins at ``place`` and the number in it (1 where it has none)."""
    number = Fraction(1)
    for part in parts:
        if part in NUMBERS:
            value = _number(words, place, part, values)
            if value is None:
                return None
            number, place = value
        elif part == END:
            if _is_named(words, place):
                return None
        else:
            length = _length(words, place, part)
            if not length:
                return None
            place += length
    return place, number


def _is_named(words: Words, place: int) -> bool:
    """Whether a noun follows that the words before would belong to: "a double boiler", not "a double today"."""
    named = place < len(words) and words.doc[place].pos_ in NAMES
    return named and not phrases(TABLE, "reason").match(words, place)


def _length(words: Words, place: int, part: str) -> int:
    """How many tokens one part of a pattern takes at ``place``."""
    if part.startswith("<"):
        return phrases(TABLE, part[1:-1]).match(words, place)
    if part == NOUN:
        return int(place < len(words) and words.doc[place].pos_ in ("NOUN", "PROPN"))
    return int(words.at(place) == part)


def _number(words: Words, place: int, kind: str, values: Values) -> Value | None:
    if kind == MULTIPLE:
        for multiple, value in _multiples().get(words.at(place), ()):
            if tuple(words.low[place : place + len(multiple)]) == multiple:
                return value, place + len(multiple)
    if place not in values:
        values[place] = read_value(words, place)
    number = values[place]
    if number is None or number[0] > LARGEST:
        return None
    value, end = number
    if kind == FRACTION:
        return number if value < 1 else None
    if kind == MULTIPLE:
        return (value, end + 1) if words.at(end) == "times" and value > 1 else None
    return number if value >= 2 and value.denominator == 1 else None


def _sentence_start(words: Words, place: int, reach: int) -> int:
    """The first token of the sentence of ``place``, at most ``reach`` back."""
    start = place
    while start > max(0, place - reach) and words.at(start - 1) not in STOPS:
        start -= 1
    return start


def _is_said(words: Words, place: int, role: str) -> bool:
    """Whether a phrase of that role stands shortly before ``place`` in its sentence."""
    start = _sentence_start(words, place, REACHES[role])
    return any(phrases(TABLE, role).match(words, at) for at in range(start, place))


def _is_elsewhere(words: Words, place: int, end: int) -> bool:
    """Whether somebody cooks so on other days, which the sentence names before or after."""
    if phrases(TABLE, "there").match(words, end):
        return phrases(TABLE, "cooks").ends_at(words, place) < place
    start = _sentence_start(words, place, ELSEWHERE_REACH)
    for at in range(start, place):
        if length := phrases(TABLE, "elsewhere").match(words, at):
            after = range(at + length, place + 1)
            return words.at(at + length - 1) == "'d" or any(
                phrases(TABLE, "cooks").match(words, a) for a in after
            )
    return False


def _is_around(words: Words, place: int, end: int, role: str) -> bool:
    """Whether a phrase of that role stands in the sentence of a saying."""
    start = _sentence_start(words, place, SENTENCE_REACH)
    last = end
    while last < min(len(words), end + SENTENCE_REACH) and words.at(last) not in STOPS:
        last += 1
    return any(phrases(TABLE, role).match(words, at) for at in range(start, last))
