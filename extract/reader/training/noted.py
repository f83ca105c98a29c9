"""Where the words stand that a note of a talk rests on: one function a sign of ``+ % ^ ~ =``."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from extract.reader.labels import FIGURES, SHARES, THINGS
from extract.reader.training.form import Note, figures
from extract.reader.training.marked import NEAR, SMALL, Marked, Span, paint, stem, stems
from extract.spot.heat.figures import read_figure
from extract.spot.numbers.find import read_number

UNTRIED = -2  # a pair that the words do not settle: not learned from
NOTHING = -1  # learned as "none"
STOP = 2  # the words that a comma or full stop counts for
SECONDS = {"second": 1, "minute": 60, "hour": 3600, "day": 86400}
BATCH_WORDS = frozenset(
    "double doubled doubling twice triple tripled tripling half halved halving two three quarter".split()
)


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
        mark_other(marked, number, stems(other), THINGS.index("instead"), (0, 1, -1, 2, 3))
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


def close(one: float, other: float) -> bool:
    """Whether two figures are the same to two parts in a hundred."""
    return abs(one - other) <= 0.02 * max(abs(one), abs(other), 1e-9)


def mark_other(marked: Marked, number: int, name: list[str], tag: int, reach: Sequence[int]) -> None:
    """Tag the first place near a sentence where a name stands."""
    for heads in (False, True):
        for span in marked.around(number, reach):
            for found in marked.find(name[-1:] if heads else name, span):
                if not marked.things[found.start]:
                    paint(marked.things, found, tag)
                    return


def mark_preparation(marked: Marked, number: int, words: list[str], food: Span) -> None:
    """Tag the words of a preparation that stand near the food, the longest run of them."""
    own = set(words) - SMALL
    for span in marked.around(number, (0, 1, -1)):
        for i in range(*span):
            near = abs(i - food.start) <= 12 or abs(i - food.end) <= 12
            if near and marked.stems[i] in own and not marked.things[i]:
                marked.things[i] = THINGS.index("preparation")


def find_part(marked: Marked, number: int, part: str) -> list[int] | int:
    """The tokens that name a line's part anywhere in its dish."""
    if not part:
        return NOTHING
    name = stems(part)
    dish = marked.talk.sentences[number].dish
    found = [i for span in marked.dish_spans(dish) for at in marked.find(name, span) for i in range(*at)]
    if not found:
        found = [at.start for span in marked.dish_spans(dish) for at in marked.find(name[-1:], span)]
    return found or UNTRIED


SHARE_WORDS = {
    "rest": {"rest", "remaining", "remainder", "other", "leftover", "left"},
    "all": {"all", "whole", "lot", "every", "everything"},
    "some": {"some", "little", "bit", "few", "spoonful", "spoon", "drizzle", "splash", "ladle"},
}
PARTS = {0.5: {"half", "halves"}, 0.33: {"third"}, 0.25: {"quarter"}, 0.67: {"third"}, 0.75: {"quarter"}}


def share(marked: Marked, number: int, note: Note) -> None:
    """A share of a made thing: the word that tells how much, or the thing itself where none does."""
    kind, value = note.cell(0), figures(note.cell(0))
    wanted = SHARE_WORDS.get(kind, set())
    if value is not None:
        wanted = next((w for v, w in PARTS.items() if abs(v - value[0]) < 0.02), set())
    thing = stems(note.cell(1))
    for span in marked.around(number, (0, 1, -1)):
        made = next(iter([*marked.find(thing, span), *marked.find(thing[-1:], span)]), None)
        anchor = next((i for i in range(*span) if marked.stems[i] in wanted), None)
        if anchor is None and value is not None:
            fits = (f.at for f in marked.amounts if f.at.start in range(*span) and close(f.low, value[0]))
            anchor = next((at.end - 1 for at in fits), None)
        if anchor is None and made is not None:
            anchor = made.end - 1
        if anchor is None:
            continue
        tag = SHARES[kind] if kind in SHARES else SHARES["part"]
        marked.figures[anchor] = FIGURES.index(tag)
        marked.shares.append(
            {
                "at": anchor,
                "of": find_part(marked, number, note.cell(1)),
                "dish": marked.talk.sentences[number].dish,
            }
        )
        return


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
            found = next(iter([*marked.find(level, span), *marked.find(level[:1], span)]), None)
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


def time(marked: Marked, number: int, note: Note) -> None:
    """A time: the words of its figures and unit."""
    value = figures(note.cell(0))
    if value is None:
        return
    seconds = [v * SECONDS[note.cell(1)] for v in value]
    for span in marked.around(number, (0, 1, -1)):
        for d in marked.durations:
            inside = span.start <= d.start < span.end and d.low is not None and d.unit in SECONDS
            if inside and d.low is not None and close(float(d.low) * SECONDS[d.unit], seconds[0]):
                paint(marked.figures, Span(d.start, d.end), FIGURES.index("time"))
                return
        for at in range(*span):
            read = read_number(marked.words, at)
            if read is not None and close(float(read.low), value[0]):
                paint(marked.figures, Span(read.start, read.end), FIGURES.index("time"))
                return


def count(marked: Marked, number: int, note: Note) -> None:
    """What it makes, or the multiple of the normal batch."""
    value = figures(note.cell(1))
    tag = FIGURES.index(note.cell(0))
    for span in marked.around(number, (0, 1, -1)):
        if note.cell(0) == "batch":
            found = next((i for i in range(*span) if stem(marked.doc[i].text) in BATCH_WORDS), None)
            if found is not None:
                marked.figures[found] = tag
                return
        for figure in marked.amounts:
            if figure.at.start in range(*span) and value is not None and close(figure.low, value[0]):
                paint(marked.figures, figure.at, tag)
                return
