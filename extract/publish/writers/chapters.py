"""WebVTT chapters for a player: the dishes of a recording, and within each the stages of its making."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from extract.publish.phrases import short
from extract.publish.recipe import Edition, Recipe
from extract.publish.wording import word
from extract.publish.writers.vtt import Cue, document
from extract.publish.writers.writer import Writer

_TITLE = 48
_LEAST = 8000  # milliseconds below which a stage is no place to jump to
Stretch = tuple[int, int, str, Recipe]


def write(edition: Edition) -> str:
    """One chapter for every stretch in which a dish is cooked, and inside it one for each stage."""
    cues = [cue for stretch in _stretches(edition.recipes) for cue in _chapter(*stretch)]
    return document(edition.recipes[0].show if edition.recipes else "", (), cues)


def _stretches(recipes: Sequence[Recipe]) -> Iterator[Stretch]:
    """The stretches of all dishes in order, cut where the next begins: chapters do not cross."""
    told = sorted(
        (round(1000 * start), round(1000 * end), place, number)
        for place, recipe in enumerate(recipes)
        for number, (start, end) in enumerate(recipe.stretches)
    )
    for at, (start, end, place, number) in enumerate(told):
        until = min([end, *(later[0] for later in told[at + 1 :])])
        title = recipes[place].title
        if start < until:
            name = title if not number else word("continued").format(title=title)
            yield start, until, name, recipes[place]


def _chapter(start: int, end: int, title: str, recipe: Recipe) -> Iterator[Cue]:
    yield Cue(start, end, (title,))
    stages = list(_stages(start, end, recipe))
    if len(stages) > 1:
        yield from stages


def _stages(start: int, end: int, recipe: Recipe) -> Iterator[Cue]:
    """The stages of a stretch: parts of the dish as they are taken up, else the steps, one after another."""
    begins = _long_enough(start, end, sorted(set(_beginnings(start, end, recipe))))
    for at, (begin, name) in enumerate(begins):
        until = begins[at + 1][0] if at + 1 < len(begins) else end
        yield Cue(begin, until, (name,))


def _beginnings(start: int, end: int, recipe: Recipe) -> Iterator[tuple[int, str]]:
    """When each stage begins within a stretch, and its name."""
    shown = sorted(
        (round(1000 * step.start), step.number, section.part, step.text)
        for section in recipe.sections
        for step in section.steps
        if step.start is not None and start <= round(1000 * step.start) < end
    )
    for part, run in groupby(shown, key=lambda row: row[2]):
        steps = list(run)
        if part:
            yield steps[0][0], short(part, _TITLE)
        else:
            yield from ((begin, short(text, _TITLE)) for begin, _, _, text in steps)


def _long_enough(start: int, end: int, begins: list[tuple[int, str]]) -> list[tuple[int, str]]:
    """The stages without those that are over too soon to be jumped to; what they show falls to the one before."""
    kept: list[tuple[int, str]] = []
    for begin, name in begins:
        last = kept[-1][0] if kept else start - _LEAST
        if begin - last >= _LEAST and end - begin >= _LEAST and (not kept or kept[-1][1] != name):
            kept.append((begin, name))
    return kept


WRITER = Writer(".chapters.vtt", write, each="show", timed=True)
