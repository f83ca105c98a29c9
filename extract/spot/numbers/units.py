"""Units of the kitchen as they stand in speech: forms in words, abbreviations and mishearings."""

from __future__ import annotations

import re
from functools import cache
from typing import NamedTuple

from extract.lexicon import read_lexicon
from extract.spot.words import Words

COLUMNS = ("form", "unit", "kind", "times", "note")
GLUED = re.compile(r"(\d+(?:[.,]\d+)?(?:/\d+)?(?:[-–]\d+)?)([a-z°º\"″]+)")


class Unit(NamedTuple):
    """A unit read at a place: canonical name, kind (``lexicons/words/units.tsv``) and the token after it.

    ``times`` of the named unit make one of the spoken one: two teaspoons a dessertspoon.
    """

    name: str
    kind: str
    end: int
    singular: bool
    times: int = 1


class Form(NamedTuple):
    """One row of the lexicon: a way of saying a unit."""

    words: tuple[str, ...]
    unit: str
    kind: str
    times: int
    note: str


@cache
def forms() -> dict[str, list[Form]]:
    """Every form by its first word, longest first."""
    table: dict[str, list[Form]] = {}
    for row in read_lexicon("units", columns=COLUMNS):
        form = Form(tuple(row["form"].split()), row["unit"], row["kind"], int(row["times"]), row["note"])
        table.setdefault(form.words[0], []).append(form)
    for rows in table.values():
        rows.sort(key=lambda form: -len(form.words))
    return table


def read_unit(words: Words, place: int, *, after_figures: bool = False) -> Unit | None:
    """The unit that begins at ``place``. Short symbols ("g", "l") count only directly after figures."""
    for form in forms().get(words.at(place), ()):
        if form.note == "digits" and not after_figures:
            continue
        end = place + len(form.words)
        if len(form.words) > 1 and tuple(words.low[place:end]) != form.words:
            continue
        name = "" if form.unit == "-" else form.unit
        return Unit(name, form.kind, end, not form.words[-1].endswith("s"), form.times)
    return None


def split_glued(word: str) -> tuple[str, str] | None:
    """Figures and unit written as one word ("500ml", "10-15min"), or None."""
    match = GLUED.fullmatch(word)
    if match is None or match[2] not in forms():
        return None
    return match[1], match[2]


def glued_unit(words: Words, place: int) -> Unit | None:
    """The unit within the word at ``place`` where figures and unit are one word."""
    parts = split_glued(words.at(place))
    if parts is None:
        return None
    form = forms()[parts[1]][-1]
    return Unit(form.unit, form.kind, place + 1, singular=True, times=form.times)
