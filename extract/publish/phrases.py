"""The lines of a published recipe as text, the same in every form that is text."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING

from extract.publish.wording import word
from extract.publish.words import capital

if TYPE_CHECKING:
    from extract.publish.recipe import Line, Recipe, Share

_FRACTIONS = {
    "1/2": "½",
    "1/3": "⅓",
    "2/3": "⅔",
    "1/4": "¼",
    "3/4": "¾",
    "1/5": "⅕",
    "2/5": "⅖",
    "3/5": "⅗",
    "4/5": "⅘",
    "1/6": "⅙",
    "5/6": "⅚",
    "1/8": "⅛",
    "3/8": "⅜",
    "5/8": "⅝",
    "7/8": "⅞",
}
_FIGURE = re.compile(r"([\d½⅓⅔¼¾⅛]) (?=(?:°[FC]|m?g|kg|[dm]l|[cm]m|min|h)\b)")
_MOMENT = re.compile(r"\s*\((?:\d+:)?\d+:\d\d\)")
_STOP = re.compile(r"(?<!\d)[.;:](?=\s|$)|\.$")
_NO_QUOTES = str.maketrans("", "", '“”"')
_FRACTION = re.compile(r"(?<![\d/.])(?:(\d+) )?(\d/\d)(?![\d/.])")


def typeset(text: str) -> str:
    """Text as print sets it: "1 1/2" is "1½", and a unit's sign stays on the line of its figure."""
    return kept_together(_FRACTION.sub(_set, text))


def kept_together(text: str) -> str:
    """Text in which no line can end between a figure and the sign of its unit: no-break spaces stand there."""
    return _FIGURE.sub("\\1\u00a0", text)


def _set(match: re.Match[str]) -> str:
    sign = _FRACTIONS.get(match[2])
    return match[0] if sign is None else f"{match[1] or ''}{sign}"


def line_text(line: Line) -> str:
    """One ingredient line: "3/4 cup (180 ml) milk, warmed, divided (or water; optional)"."""
    return f"{measure_text(line)} {line.name}{tail_text(line)}".strip()


def measure_text(line: Line) -> str:
    """Both measures of a line, "3/4 cup (180 ml)"; "" where no amount was said."""
    return f"{line.amount} ({line.other})" if line.other else line.amount


def tail_text(line: Line) -> str:
    """What stands behind the food's name: how it is prepared, what may stand in for it, whether it is optional."""
    after = [line.preparation] if line.preparation else []
    after += [word("divided").lower()] if line.divided else []
    asides = [f"{word('or')} {choice}" for choice in line.choices]
    asides += [word("optional")] if line.optional else []
    asides += [line.note] if line.note else []
    return "".join(f", {each}" for each in after) + (f" ({'; '.join(asides)})" if asides else "")


def share_line(share: Share) -> str:
    """One share of what was made: "Half of the glaze (about 169 ml): for the ribs"."""
    size = f" ({share.size})" if share.size else ""
    return f"{share.text}{size}{f': {share.into}' if share.into else ''}"


def facts(recipe: Recipe) -> Iterator[tuple[str, str]]:
    """What stands under the title, label and words: what it makes, and the times that were told."""
    if recipe.makes is not None:
        yield recipe.makes
    for kind in ("preparation", "cooking", "total"):
        if kind in recipe.times:
            yield recipe.times[kind].label, recipe.times[kind].words
    if recipe.diets:
        yield word("suitable"), ", ".join(diet.words for diet in recipe.diets)


def short(text: str, most: int) -> str:
    """The beginning of a step as a label of at most ``most`` characters: its first sentence, or what fits of it.

    A sentence of one word brings the next; what is too long ends at a comma, else between words. Moments in brackets
    and quotation marks, of which the label may hold only one, are left out.
    """
    plain = " ".join(_MOMENT.sub("", text).translate(_NO_QUOTES).split())
    sentences = _STOP.split(plain)
    first = (sentences[0] if " " in sentences[0].strip() else plain.rstrip(".")).strip()
    if len(first) <= most:
        return capital(first or text[:most])
    clause = first[:most].rpartition(",")[0]
    if 2 * len(clause) >= most:
        return capital(clause)
    cut = first[: most - 1].rsplit(" ", 1)[0]
    if cut.count("(") > cut.count(")"):
        cut = cut.rpartition("(")[0]
    return capital(f"{cut.rstrip(' ,;:.(–-') or first[: most - 1]}…")
