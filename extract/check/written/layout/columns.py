"""Text set in two columns side by side, read down the one and then down the other."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from itertools import groupby

from extract.check.written.layout.tables import CELLS, is_amount
from extract.check.written.lines.amounts import read_quantity
from extract.check.written.lines.tokens import tokens_of

Numbered = tuple[int, str]
_RULED = re.compile(r"(?<=\s)[|│](?=\s|$)")
_CELL = re.compile(r"(?<=\S\s\s)\s*(?=\S)")
_RULE = re.compile(r"^\s*(?=.*[-=*_~+])[-=*_~ |+]*$")
_INDENT = 4  # blanks before a line that goes on with the one above it
_FEWEST = 3  # lines with words on both sides of a gutter
_LISTED = 0.5  # of the cells of one side begin with an amount where it is an ingredient list


def unfolded(lines: Sequence[str], is_label: Callable[[str], bool]) -> list[Numbered]:
    """The lines with their 1-based numbers, those of two columns one column after the other."""
    numbered = list(enumerate(lines, start=1))
    found: list[Numbered] = []
    for _, group in groupby(numbered, lambda line: bool(_RULE.match(line[1]))):
        found += _unfolded(list(group), is_label)
    return found


def _unfolded(stretch: list[Numbered], is_label: Callable[[str], bool]) -> list[Numbered]:
    """A stretch between two rules, its columns from the first line that has both on."""
    gutter = _ruled(stretch) or _blank(stretch)
    if gutter is None:
        return stretch
    place, width = gutter
    first = next(at for at, (_, line) in enumerate(stretch) if _is_cut(line, place, width))
    while first and stretch[first - 1][1].strip() and _keeps(stretch[first - 1][1], place, width):
        first -= 1
    last = max(at for at, (_, line) in enumerate(stretch) if _is_cut(line, place, width))
    end = next((at for at in range(last, len(stretch)) if not _keeps(stretch[at][1], place, width)), None)
    inside, after = stretch[first:end], [] if end is None else stretch[end:]
    left = [(number, line[:place].rstrip()) for number, line in inside]
    right = [(number, line[place + width :].rstrip()) for number, line in inside]
    break_ = (inside[-1][0], "")
    columns = [*_flowing(left, is_label), break_, *_flowing(right, is_label), break_]
    return [*stretch[:first], *columns, *after]


def _ruled(stretch: Sequence[Numbered]) -> tuple[int, int] | None:
    """A gutter drawn with bars below one another; none in a table, whose rows begin with one."""
    places = Counter(
        found[0].start()
        for _, line in stretch
        if len(found := list(_RULED.finditer(line))) == 1 and not line.lstrip().startswith("|")
    )
    place, count = places.most_common(1)[0] if places else (0, 0)
    cells = _cells(stretch, place, 1)
    return (place, 1) if count > _FEWEST and len(cells) >= _FEWEST and _stand_alone(cells) else None


def _blank(stretch: Sequence[Numbered]) -> tuple[int, int] | None:
    """A gutter of blanks where one side at least lists foods, and neither holds the amounts of the other."""
    places = Counter(match.end() for _, line in stretch for match in _CELL.finditer(line.rstrip()))
    for place, count in places.most_common():
        cells = _cells(stretch, place, 0)
        if count < _FEWEST or len(cells) < _FEWEST:
            return None
        if _stand_alone(cells) and any(_lists([pair[side] for pair in cells]) for side in (0, 1)):
            return place, 0
    return None


def _cells(stretch: Sequence[Numbered], place: int, width: int) -> list[tuple[str, str]]:
    """What stands on either side of a gutter in the lines that have both."""
    both = [line for _, line in stretch if _is_cut(line, place, width)]
    return [(line[:place].strip(), line[place + width :].strip()) for line in both]


def _stand_alone(cells: Sequence[tuple[str, str]]) -> bool:
    """Whether neither side holds the amounts of the other, as a table's columns do."""
    return not any(is_amount(cell) for pair in cells for side in pair for cell in CELLS.split(side))


def _lists(cells: Sequence[str]) -> bool:
    begun = [cell for cell in cells if (tokens := tokens_of(cell)) and read_quantity(tokens) is not None]
    return len(begun) >= _LISTED * len(cells)


def _is_cut(line: str, place: int, width: int) -> bool:
    """Whether a line has words on both sides of the gutter."""
    return _keeps(line, place, width) and bool(line[:place].strip()) and bool(line[place + width :].strip())


def _keeps(line: str, place: int, width: int) -> bool:
    """Whether a line leaves the gutter free, or is drawn there where it is drawn."""
    if width:
        return line[place : place + 1] in ("|", "│")
    begun = line[place : place + _INDENT]
    return not line[max(0, place - 2) : place].strip() and (not begun or bool(begun.strip()))


def _flowing(column: Sequence[Numbered], is_label: Callable[[str], bool]) -> Iterator[Numbered]:
    """The lines of a column, those of a paragraph that ends in a full stop put together again."""
    for empty, group in groupby(column, lambda line: not line[1].strip()):
        lines = list(group)
        while lines and not empty and is_label(lines[0][1].strip()):
            yield lines.pop(0)
        if not empty and len(lines) > 1 and lines[-1][1].endswith((".", "!", "?")):
            yield lines[0][0], " ".join(line.strip() for _, line in lines)
        else:
            yield from lines
