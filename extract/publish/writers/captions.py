"""WebVTT captions: each ingredient with its amount as it comes up, long enough to be read."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from dataclasses import dataclass

from extract.publish.phrases import measure_text, typeset
from extract.publish.recipe import Edition, Line
from extract.publish.words import capital
from extract.publish.writers.vtt import Cue, document
from extract.publish.writers.writer import Writer

# Reading speed and line length as subtitlers keep them: 160 to 180 words a minute, 37 characters a line, two lines
# (BBC Subtitle Guidelines, from memory); a second and a half at least (common practice, no source).
_WORDS_A_MINUTE = 160
_LINE = 37
_LINES = 2
_LEAST = 1500
_STAYS = 3000  # milliseconds that a caption stays where nothing follows it, however short it is
_MOST_LATE = (
    4000  # milliseconds that a caption may come behind the word; beyond that it shares the one before
)


@dataclass(slots=True)
class _Shown:
    """A caption in the making: when it comes up, and the ingredients it shows."""

    start: int
    items: list[str]

    def lines(self) -> tuple[str, ...]:
        """An ingredient a line, or the one ingredient over as many lines as it needs."""
        return tuple(row for item in self.items for row in _wrapped(item))

    def needs(self) -> int:
        """Milliseconds that a reader needs."""
        words = sum(len(item.split()) for item in self.items)
        return max(_LEAST, round(60_000 * words / _WORDS_A_MINUTE))


def write(edition: Edition) -> str:
    """The captions of every recipe of one recording, in the order in which the foods come up."""
    recipes = edition.recipes
    said = [
        (round(1000 * line.start), caption(line))
        for recipe in recipes
        for line in recipe.lines
        if line.start is not None
    ]
    notes = [note for recipe in recipes for note in (*recipe.notices, *recipe.cautions)]
    cues = [
        Cue(shown.start, end, shown.lines())
        for shown, end in _timed(sorted(dict.fromkeys(said), key=lambda row: row[0]))
    ]
    return document(recipes[0].show if recipes else "", dict.fromkeys(notes), cues)


def caption(line: Line) -> str:
    """A line as it can be read in passing: the amount and the food, both measures where they fit."""
    full = " ".join(filter(None, (measure_text(line), line.name)))
    text = full if len(full) <= _LINE else f"{line.amount} {line.name}"
    return typeset(capital(text.strip()))


def _wrapped(text: str) -> list[str]:
    """The lines of a caption; a word is never cut, nor what is spelled of several characters."""
    return textwrap.wrap(text, _LINE, break_long_words=False, break_on_hyphens=False)


def _timed(said: list[tuple[int, str]]) -> Iterator[tuple[_Shown, int]]:
    """The captions with their ends; none begins before the one above it has been read."""
    shown: list[_Shown] = []
    free = 0
    for start, text in said:
        last = shown[-1] if shown else None
        if last is not None and _shares(last, start, text, free):
            last.items.append(text)
        else:
            shown.append(_Shown(max(start, free), [text]))
        free = shown[-1].start + shown[-1].needs()
    for place, caption_shown in enumerate(shown):
        end = caption_shown.start + max(_STAYS, caption_shown.needs())
        following = shown[place + 1].start if place + 1 < len(shown) else None
        yield caption_shown, end if following is None else min(end, following)


def _shares(last: _Shown, start: int, text: str, free: int) -> bool:
    """Whether a food joins the caption on the screen: said while it comes up, or the next would come too late."""
    room = len(last.lines()) + len(_wrapped(text)) <= _LINES
    return room and (start <= last.start + 500 or free - start > _MOST_LATE)


WRITER = Writer(".captions.vtt", write, each="show", timed=True)
