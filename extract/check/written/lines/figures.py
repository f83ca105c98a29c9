"""Written numbers and ranges: "1 1/2", "½", "1-1/2", "0.5", "two dozen", "2 to 3"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from extract.check.written.lines.words import number_words, words_of

_INTEGER = re.compile(r"\d+|\d{1,3}(?:,\d{3})+")
_FRACTION = re.compile(r"(\d+)/(\d+)")
_DECIMAL = re.compile(r"\d*[.,]\d+")
_JOINS = ("-", "to", "or", "~")


@dataclass(frozen=True, slots=True)
class Figure:
    """A number or range read from tokens; ``end`` is the index after it."""

    low: Fraction
    high: Fraction
    end: int
    approximate: bool = False


def read_figure(tokens: Sequence[str], start: int) -> Figure | None:
    """The number or range that begins at ``start``, None where none does."""
    approximate = False
    at = start
    while at < len(tokens) and tokens[at].lower().rstrip(".") in words_of("approximate"):
        approximate, at = True, at + 1
        if at < len(tokens) and tokens[at] == ".":
            at += 1
    between = at < len(tokens) and tokens[at].lower() == "between"
    first = read_number(tokens, at + between)
    if first is None:
        return None
    low, end = first
    high = _range_end(tokens, end, low, between=between)
    if high is None:
        return Figure(low, low, end, approximate)
    return Figure(low, high[0], high[1], approximate)


def _range_end(
    tokens: Sequence[str], at: int, low: Fraction, *, between: bool
) -> tuple[Fraction, int] | None:
    joins = ("and",) if between else _JOINS
    if at >= len(tokens) or tokens[at].lower() not in joins:
        return None
    second = read_number(tokens, at + 1, articles=False)
    return second if second is not None and second[0] > low else None


def read_number(tokens: Sequence[str], at: int, *, articles: bool = True) -> tuple[Fraction, int] | None:
    """One number at ``at`` and the index after it; "a" and "an" count as one where ``articles``."""
    if at >= len(tokens):
        return None
    token = tokens[at].lower()
    value = _digits(token)
    if value is None:
        return _spoken(tokens, at, articles=articles)
    at += 1
    if value.denominator == 1 and "/" not in token:
        part = _fraction_after(tokens, at)
        if part is not None:
            return value + part[0], part[1]
        if at < len(tokens) and tokens[at].lower() == "dozen":
            return value * 12, at + 1
    return value, at


def _digits(token: str) -> Fraction | None:
    if _INTEGER.fullmatch(token):
        return Fraction(token.replace(",", ""))
    match = _FRACTION.fullmatch(token)
    if match:
        return Fraction(int(match[1]), int(match[2])) if int(match[2]) else None
    return Fraction(token.replace(",", ".")) if _DECIMAL.fullmatch(token) else None


def _fraction_after(tokens: Sequence[str], at: int) -> tuple[Fraction, int] | None:
    """The proper fraction of a mixed number: "1 1/2", "1-1/2", "1 & 1/2", "1 and a half"."""
    for skip in (0, 1):
        here = at + skip
        if here >= len(tokens) or (skip and tokens[at].lower() not in ("-", "&", "and")):
            continue
        if "/" in tokens[here]:
            value = _digits(tokens[here])
            if value is not None and 0 < value < 1:
                return value, here + 1
        if skip and tokens[at].lower() in ("&", "and"):
            return _spoken_fraction(tokens, here)
    return None


def _spoken_fraction(tokens: Sequence[str], at: int) -> tuple[Fraction, int] | None:
    """ "half", "a half", "three quarters"."""
    words = number_words()
    count = Fraction(1)
    here = at
    first = tokens[here].lower() if here < len(tokens) else ""
    if first in ("a", "an") or (first in words and words[first] >= 1):
        count = words.get(first, Fraction(1))
        here += 1
    name = tokens[here].lower() if here < len(tokens) else ""
    value = words.get(name, words.get(name.removesuffix("s")))
    return (count * value, here + 1) if value is not None and value < 1 else None


def _spoken(tokens: Sequence[str], at: int, *, articles: bool) -> tuple[Fraction, int] | None:
    words = number_words()
    token = tokens[at].lower()
    fraction = _spoken_fraction(tokens, at)
    if fraction is not None:
        value, end = fraction
        articled = end < len(tokens) and tokens[end].lower() in ("a", "an")
        dozen = end + articled
        if dozen < len(tokens) and tokens[dozen].lower() == "dozen":
            return value * 12, dozen + 1
        return value, end + articled
    if token in ("a", "an"):
        following = tokens[at + 1].lower() if at + 1 < len(tokens) else ""
        if following in ("dozen", "couple"):
            end = at + 2
            end += following == "couple" and end < len(tokens) and tokens[end].lower() == "of"
            return words[following], end
        return (Fraction(1), at + 1) if articles else None
    value_or_none = words.get(token)
    if value_or_none is None:
        return None
    if at + 1 < len(tokens) and tokens[at + 1].lower() == "dozen":
        return value_or_none * 12, at + 2
    part = _fraction_after(tokens, at + 1)
    return (value_or_none + part[0], part[1]) if part else (value_or_none, at + 1)
