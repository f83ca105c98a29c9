"""How much a written recipe makes, wherever it says so: "Serves 4", "8 servings", "makes 1 loaf (10 slices)"."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache

from extract.check.written.layout.blocks import heading_words
from extract.check.written.lines.amounts import read_measure
from extract.check.written.lines.clean import clean_line
from extract.check.written.lines.figures import Figure, read_figure
from extract.check.written.lines.tokens import tokens_of
from extract.lexicon import read_lexicon
from extract.model import Yield
from extract.spot.names.foods import kinds_of

_PEOPLE = "servings"
_UNIT_WORDS = 3
_PARTS = re.compile(r"\s+[·•|]\s+")
_LEADING = 3  # words before the number in a line that says nothing else: "Recipe serves 4"


@dataclass(frozen=True, slots=True)
class _Found:
    """A number of things at tokens ``start`` to ``end``; ``unit`` is "servings" where it counts eaters."""

    figure: Figure
    unit: str
    end: int


def read_yield(text: str, *, assume: bool = False) -> Yield | None:
    """The yield that a text gives, with further ways of counting it; None where it gives none.

    ``assume``: the text is known to be one, so "8" alone counts.
    """
    tokens = [token for token in tokens_of(clean_line(text)) if token not in ("*", "_")]
    lower = [token.lower() for token in tokens]
    found = next(_counted(tokens, lower), None)
    if found is None and assume:
        at = next((place for place in range(len(tokens)) if read_figure(tokens, place)), None)
        found = _number_at(tokens, lower, at) or _measured_at(tokens, at) if at is not None else None
    if found is None:
        return None
    also = _bracketed(tokens, lower, found)
    return Yield(
        low=float(found.figure.low),
        high=float(found.figure.high),
        unit=found.unit,
        also=[also] if also else [],
    )


def _counted(tokens: Sequence[str], lower: Sequence[str]) -> Iterator[_Found]:
    """Every count of what is made, in order: behind a label, or before a word for eaters."""
    for at in range(len(tokens)):
        if (end := _label(lower, at)) is not None:
            found = _number_at(tokens, lower, end) or _measured_at(tokens, end)
            if found is not None and _is_count(lower, end, found):
                people = any(word in heading_words("yield of people") for word in lower[at:end])
                yield _Found(found.figure, _PEOPLE if people else found.unit, found.end)
        elif at == 0 and lower[:1] == ["for"] and (found := _number_at(tokens, lower, 1)):
            if found.end == len(tokens) and not found.unit:
                yield _Found(found.figure, _PEOPLE, found.end)
        elif at == 0 or lower[at - 1] in ("for", "|", ".", ":", "(", ",", "-"):
            found = _number_at(tokens, lower, at)
            if found is not None and found.unit == _PEOPLE:
                yield found


def _is_count(lower: Sequence[str], at: int, found: _Found) -> bool:
    """Whether a number counts what is made: "makes a loaf", not "makes a good stand-in"."""
    words = found.unit.lower().split()
    return lower[at] not in ("a", "an") or found.figure.low != 1 or not words or words[-1] in _made()


def _label(lower: Sequence[str], at: int) -> int | None:
    """The index after a label that begins at ``at`` ("serves", "enough for") and what stands behind it."""
    for length in (3, 2, 1):
        label = " ".join(lower[at : at + length])
        if label in heading_words("yield") and not (label in heading_words("order") and at):
            end = at + length
            while end < len(lower) and lower[end] in (
                ":",
                "-",
                "about",
                "approximately",
                "around",
                "up",
                "to",
                "|",
            ):
                end += 1
            return end
    return None


def _number_at(tokens: Sequence[str], lower: Sequence[str], at: int) -> _Found | None:
    """The number at ``at`` with the words of what it counts; "one 9-inch cake" is one cake."""
    figure = read_figure(tokens, at)
    if figure is None or read_measure(tokens, at) is not None:
        return None
    end = figure.end
    measure = read_measure(tokens, end)
    if measure is not None:
        end = measure[1]
    words: list[str] = []
    while end < len(tokens) and len(words) < _UNIT_WORDS and lower[end].replace("-", "").isalpha():
        if lower[end] in heading_words("ends count"):
            break
        words.append(tokens[end])
        end += 1
    people = any(word.lower() in heading_words("people") for word in words)
    return _Found(figure, _PEOPLE if people else " ".join(words), end)


def _measured_at(tokens: Sequence[str], at: int) -> _Found | None:
    """A measure behind a label: "Makes 2 cups"."""
    figure, measure = read_figure(tokens, at), read_measure(tokens, at)
    if figure is None or measure is None:
        return None
    return _Found(figure, tokens[measure[1] - 1].lower(), measure[1])


def _bracketed(tokens: Sequence[str], lower: Sequence[str], first: _Found) -> Yield | None:
    """A second count of the same, in brackets or behind a comma: "1 loaf (10 slices)", "4 (or 6 as a starter)"."""
    at = first.end
    if at >= len(tokens) or tokens[at] not in ("(", ",", "/"):
        return None
    begin = at + 1
    while begin < len(tokens) and lower[begin] in ("about", "or", "serves", "makes"):
        begin += 1
    found = _number_at(tokens, lower, begin)
    if found is None or not (found.unit or lower[at + 1] == "or"):
        return None
    unit = found.unit or first.unit
    return Yield(low=float(found.figure.low), high=float(found.figure.high), unit=unit)


def is_bare_yield(text: str, *, foods: bool = False) -> bool:
    """Whether a line, known to stand before the ingredients, is a count of what is baked: "2 loaves (8 pieces)".

    ``foods``: the list has a heading of its own, so that a count of a food is what is made: "Ten stuffed peppers".
    """
    return any(_is_bare_count(part, foods=foods) for part in _PARTS.split(clean_line(text)))


def _is_bare_count(text: str, *, foods: bool) -> bool:
    tokens = tokens_of(text)
    lower = [token.lower() for token in tokens]
    found = _number_at(tokens, lower, 0)
    if found is None or not found.unit:
        return False
    rest = tokens[found.end :]
    last = found.unit.split()[-1].lower()
    made = last in _made() or (foods and bool(kinds_of(last)))
    behind = rest[:1] == [","] and last in _made()  # "Thirty balls, ready in a week."
    return made and (not rest or behind or (rest[0] == "(" and rest[-1] == ")"))


@cache
def _made() -> frozenset[str]:
    rows = read_lexicon("count_words", columns=("words", "role"))
    return frozenset(row["words"] for row in rows if row["role"] in ("pieces", "bakes", "wholes"))


def is_yield(text: str) -> bool:
    """Whether a line says how much the recipe makes and little else: "Serves 4", "**Yield:** 12 buns".

    Of a line in several parts ("Serves 4 · 35 minutes") one may say it.
    """
    parts = _PARTS.split(text)
    return any(_says_little_else(part) for part in parts)


def _says_little_else(text: str) -> bool:
    tokens = tokens_of(clean_line(text))
    lower = [token.lower() for token in tokens]
    found = next(_counted(tokens, lower), None)
    if found is None:
        return False
    opens = any(_label(lower, at) is not None for at in range(_LEADING)) or read_figure(tokens, 0) is not None
    return (opens or lower[:1] == ["for"]) and len(tokens) <= found.end + 6
