"""Where the words stand that a note of a talk rests on: one function a sign of ``+ ^ ~ =``."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from extract.reader.labels import FIGURES, THINGS
from extract.reader.training.form import Note, figures
from extract.reader.training.marked import (
    NEAR,
    NOTHING,
    SMALL,
    UNTRIED,
    Figure,
    Marked,
    Span,
    close,
    find_part,
    paint,
    stems,
)
from extract.spot.heat.figures import read_figure
from extract.spot.heat.levels import levels
from extract.spot.numbers.find import read_number
from extract.spot.numbers.values import number_words

STOP = 2  # the words that a comma or full stop counts for
SECONDS = {"second": 1, "minute": 60, "hour": 3600, "day": 86400}

BESIDE = re.compile(r" (?:from|with|in) ")  # "chickpeas from a jar": the jar is no name of theirs


def find_food(marked: Marked, number: int, names: Sequence[list[str]]) -> Span | None:
    """Where a line's food is named: in full, or by its head, in the note's sentence or near it."""
    for heads in (False, True):
        for span in marked.around(number, NEAR if heads else NEAR[:3]):
            for name in names:
                for found in marked.find(name[-1:] if heads else name, span):
                    if marked.things[found.start] not in (THINGS.index("food"), THINGS.index("food+")):
                        return widen(marked, found, names, span)
    return None


def widen(marked: Marked, found: Span, names: Sequence[list[str]], limit: Span) -> Span:
    """The span with the words beside it that belong to one of the names."""
    own = {word for name in names for word in name} - SMALL
    start, end = found
    while start > limit.start and (
        marked.stems[start - 1] in own
        or (marked.doc[start - 1].text == "-" and start - 1 > limit.start and marked.stems[start - 2] in own)
    ):
        start -= 1
    return Span(start, end)


def line(marked: Marked, number: int, note: Note) -> None:
    """An ingredient line: its food, its amount, its part, its preparation and what may stand in for it."""
    more = note.more()
    texts = [note.cell(2), *more.get("also", [])]
    names = sorted((stems(t) for t in texts if stems(t)), key=lambda n: (-len(n), n))
    food = find_food(marked, number, names)
    for other in more.get("alt", []):
        mark_other(marked, number, stems(BESIDE.split(other)[0]), names)
    if food is None:
        return
    paint(marked.things, food, THINGS.index("food"), THINGS.index("food+"))
    amount = find_amount(marked, number, note, food)
    if isinstance(amount, Span):
        paint(marked.figures, amount, FIGURES.index("amount"))
    for words in more.get("prep", []):
        mark_preparation(marked, number, stems(words), food)
    marked.lines.append(
        {
            "food": list(food),
            "amount": list(amount) if isinstance(amount, Span) else amount,
            "part": find_part(marked, number, note.cell(3)),
            "name": note.cell(3),
            "optional": int("opt" in more),
            "names": names,
            "dish": marked.talk.sentences[number].dish,
        }
    )


def find_amount(marked: Marked, number: int, note: Note, food: Span) -> Span | int:
    """The words of the amount: of the spans of its value those in its unit, the nearest, the longest of equal ones."""
    wanted = figures(note.cell(0))
    if wanted is None:
        return NOTHING
    for place in marked.around(number, (0, -1, 1, -2, 2)):
        fitting = [
            figure
            for figure in marked.amounts
            if place.start <= figure.at.start < place.end
            and close(figure.low, wanted[0])
            and close(figure.high, wanted[1])
        ]
        free = [figure for figure in fitting if not marked.figures[figure.at.start]] or fitting
        if free:
            own = [figure.at for figure in free if figure.unit == note.cell(1)] or [f.at for f in free]
            return min(own, key=lambda at: (apart(marked, at, food), at.start - at.end))
    return UNTRIED


def apart(marked: Marked, amount: Span, food: Span) -> int:
    """The words between an amount and a food; a stop between them counts for more than a word.

    In "a teaspoon of cumin, a teaspoon of mace" the first is the cumin's, though the second begins nearer to it.
    """
    between = range(min(amount.end, food.end), max(amount.start, food.start))
    return len(between) + sum(STOP for i in between if not marked.doc[i].is_alpha)


def mark_other(marked: Marked, number: int, other: list[str], names: Sequence[list[str]]) -> None:
    """Tag what may stand in for a food: by its name, its head, or what alone tells it from the food."""
    own = {word for name in names for word in name}
    distinct = [word for word in other if word not in own | SMALL and word not in number_words()]
    tries = [(other, (*NEAR, 4)), (other[-1:], NEAR[:5]), (distinct, NEAR[:5]), (distinct[:1], NEAR[:3])]
    for name, reach in tries:
        if own.issuperset(name):
            continue
        for span in marked.around(number, reach):
            for found in marked.find(name, span):
                if not any(marked.things[found.start : found.end]):
                    paint(marked.things, found, THINGS.index("instead"))
                    return


def mark_preparation(marked: Marked, number: int, words: list[str], food: Span) -> None:
    """Tag the words of a preparation that stand near the food, the longest run of them."""
    own = set(words) - SMALL
    for span in marked.around(number, (0, 1, -1)):
        for i in range(*span):
            near = abs(i - food.start) <= 12 or abs(i - food.end) <= 12
            if near and marked.stems[i] in own and not marked.things[i]:
                marked.things[i] = THINGS.index("preparation")


def heat(marked: Marked, number: int, note: Note) -> None:
    """A setting: its figure, or the words of its level."""
    gas = re.fullmatch(r"gas (?:mark )?(\d+)", note.cell(1))
    value = figures(gas[1] if gas else note.cell(1))
    tag = FIGURES.index(f"heat {note.cell(0)}")
    for span in marked.around(number, (0, 1, -1)):
        found = None
        if value is not None:
            found = next(iter(heat_figures(marked, span, value)), None)
        else:
            level = stems(note.cell(1))
            said = [
                *marked.find(level, span),
                *heat_levels(marked, span, note.cell(1)),
                *marked.find(level[:1], span),
            ]
            found = next((at for at in said if not marked.figures[at.start]), None)
        if found is not None:
            paint(marked.figures, found, tag)
            return


def heat_figures(marked: Marked, span: Span, value: tuple[float, float]) -> Iterator[Span]:
    """Where a temperature's figures stand."""
    for at in range(*span):
        read = read_figure(marked.words, at)
        if read is not None and close(float(read.low), value[0]) and close(float(read.high), value[1]):
            yield Span(at, read.end)
            continue
        number = read_number(marked.words, at)
        if number is not None and close(float(number.low), value[0]):
            yield Span(number.start, number.end)


def heat_levels(marked: Marked, span: Span, level: str) -> Iterator[Span]:
    """Where a level is told in other words: "as high as it goes", "right down"."""
    phrases, meanings = levels()
    for at in range(*span):
        length = phrases.match(marked.words, at)
        if length and meanings[" ".join(marked.words.low[at : at + length])][0] == level:
            yield Span(at, at + length)


def time(marked: Marked, number: int, note: Note) -> None:
    """A time: the words of its figures and unit."""
    value = figures(note.cell(0))
    if value is None:
        return
    seconds = [v * SECONDS[note.cell(1)] for v in value]
    for span in marked.around(number, (0, 1, -1)):
        spans = [
            Figure(
                Span(d.start, d.end),
                float(d.low) * SECONDS[d.unit],
                float(d.high or d.low) * SECONDS[d.unit],
            )
            for d in marked.durations
            if span.start <= d.start < span.end and d.low is not None and d.unit in SECONDS
        ]
        bare = [
            Figure(Span(read.start, read.end), float(read.low), float(read.high))
            for at in range(*span)
            if (read := read_number(marked.words, at)) is not None
        ]
        found = nearest(marked, spans, seconds) or nearest(marked, bare, value)
        if found is not None:
            paint(marked.figures, found, FIGURES.index("time"))
            return


def nearest(marked: Marked, found: Sequence[Figure], wanted: Sequence[float]) -> Span | None:
    """The first span of such a value, before all one of both its ends that tells nothing else yet."""
    fitting = [
        (bool(marked.figures[one.at.start]), not close(one.high, wanted[1]), one.at)
        for one in found
        if close(one.low, wanted[0])
    ]
    return min(fitting)[2] if fitting else None


MULTIPLES = {
    0.5: {"half", "halve", "halved", "halving"},
    2: {"double", "doubled", "doubling", "twice", "two", "2"},
    3: {"triple", "tripled", "tripling", "three", "3"},
    4: {"quadruple", "four", "4"},
}
TURNED = {"half", "halve", "halving", "quarter"}  # "so you make half of what I say"


def count(marked: Marked, number: int, note: Note) -> None:
    """What it makes, or the multiple of the normal batch."""
    value = figures(note.cell(1))
    if value is None:
        return
    tag = FIGURES.index(note.cell(0))
    for span in marked.around(number, (0, 1, -1)):
        if note.cell(0) == "batch":
            wanted = MULTIPLES.get(value[0], set())
            places = [[i for i in range(*span) if marked.stems[i] in words] for words in (wanted, TURNED)]
            at = next((found[0] for found in places if found), None)
            found = None if at is None else Span(at, at + 1)
        else:
            inside = [one for one in marked.amounts if one.at.start in range(*span)]
            found = nearest(marked, inside, value)
        if found is not None:
            paint(marked.figures, found, tag)
            return
