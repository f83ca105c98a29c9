"""Ingredient lists laid out in columns: Markdown tables, and plain text whose columns are set apart by blanks."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, replace

from extract.check.written.lines.amounts import read_quantity
from extract.check.written.lines.tokens import joined, tokens_of
from extract.check.written.lines.words import words_of

CELLS = re.compile(r"\s*(?:\.{3,}|…+|(?:\.\s){3,})\s*|\s{2,}|\t+")  # blanks, or a row of dots
_BOLD = re.compile(r"^(\*\*|__)(.+?):?\1:?$")
_PERCENT = re.compile(r"^\d+(?:[.,]\d+)?\s*%$")
_NUMBER = re.compile(r"^\s*\d{1,2}[.)]\s+(?=\D)")  # of a list with numbers
_FEWEST = 3  # rows that make columns of a plain text


@dataclass(frozen=True, slots=True)
class Row:
    """One row of a list in columns, as the line that it amounts to; ``heads``: it names the part below it.

    ``part``: the part that begins with this row, named in a column of its own; "" where none does.
    """

    text: str
    heads: bool = False
    part: str = ""


def table_rows(lines: Sequence[str], labels: Collection[str] = ()) -> dict[int, Row]:
    """The rows of every list in columns, by their index in ``lines``; a row that says nothing has an empty text.

    ``labels``: what stands before a figure and is no food ("serves").
    """
    marked = {at: _cells(line) for at, line in enumerate(lines) if _is_marked(line)}
    labelled = {at: cells for at, cells in marked.items() if cells[0].strip("*: ").lower() in labels}
    found = {
        at: Row(" ".join(labelled[at])) if at in labelled else _row(cells) for at, cells in marked.items()
    }
    found |= dict(_headed(lines, marked, labels))
    parted = dict(_parted(lines, marked))
    found |= parted
    taken = marked.keys() | parted.keys()
    spaced = {at: cells for at, line in enumerate(lines) if at not in taken and (cells := _spaced(line))}
    if len(spaced) >= _FEWEST:
        found |= {at: _row(cells) for at, cells in spaced.items()}
        found |= {
            at: Row(lines[at].strip(), heads=True) for at in range(len(lines)) if _heads(at, lines, spaced)
        }
    return found


def _headed(
    lines: Sequence[str], marked: dict[int, list[str]], labels: Collection[str]
) -> Iterator[tuple[int, Row]]:
    """The row under a head of labels, which is no food: "Makes", "Bake" over "24", "35 minutes"."""
    for at, heads in marked.items():
        ruled = at + 2 in marked and not any(char.isalnum() for char in lines[at + 1])
        if ruled and any(head.strip("*: ").lower() in labels for head in heads):
            cells = zip(heads, marked[at + 2], strict=False)
            yield at + 2, Row(" · ".join(f"{head} {cell}" for head, cell in cells))


def _parted(lines: Sequence[str], marked: dict[int, list[str]]) -> Iterator[tuple[int, Row]]:
    """The rows of a list whose first column names the part, once for all of its rows: "Marinade", "Garlic", "2"."""
    start = 0  # where the column of foods begins in a plain text; 0 outside such a list
    within = False
    for at, line in enumerate(lines):
        cells = marked.get(at) or [cell for cell in CELLS.split(line.strip()) if cell]
        if _names_parts(cells):
            within, start = True, 0 if at in marked else line.index(cells[1])
            yield at, Row("")
        elif within and at in marked:
            yield at, replace(_row(cells[1:]), part=cells[0].strip("*: "))
        elif within and start and line[start:].strip() and line[start - 1] == " " and line[start] != " ":
            rest = [cell for cell in CELLS.split(line[start:]) if cell]
            yield at, replace(_row(rest), part=line[:start].strip())
        elif line.strip() and any(char.isalnum() for char in line):
            within = False


def _names_parts(heads: Sequence[str]) -> bool:
    """Whether the heads of a list are of parts, of foods and of amounts, in this order."""
    words = [head.strip("*: ").lower() for head in heads]
    foods = [at for at, word in enumerate(words) if word in words_of("head of foods")]
    amounts = any(word in words_of("head of amounts") for word in words[2:])
    return len(words) >= _FEWEST and foods == [1] and amounts


def _is_marked(line: str) -> bool:
    return line.lstrip().startswith("|") and line.count("|") > 1


def _cells(line: str) -> list[str]:
    return [cell.strip() for cell in line.strip().strip("|").split("|")]


def _spaced(line: str) -> list[str]:
    """The cells of a plain line: a food, and an amount in a later column; [] for any other line."""
    cells = [cell.strip() for cell in CELLS.split(_NUMBER.sub("", line).strip()) if cell.strip()]
    told = [cell for cell in cells[1:] if is_amount(cell)]
    return cells if told and cells[0][:1].isalpha() and not is_amount(cells[0]) else []


def _heads(at: int, lines: Sequence[str], rows: dict[int, list[str]]) -> bool:
    """Whether a line alone in its row stands over columns: "Soaker"."""
    line = lines[at].strip()
    alone = (
        bool(line) and at not in rows and len(line.split()) <= 4 and not any(char.isdigit() for char in line)
    )
    return alone and at + 1 in rows and (at == 0 or not lines[at - 1].strip())


def listed_rows(rows: Sequence[Sequence[str]], labels: Collection[str] = ()) -> list[Row] | None:
    """The rows of a web page's table as lines of a list, None where it lists no foods; an empty text says nothing.

    A row of one cell heads those below it, the first row without an amount names the columns.
    """
    told = [any(map(is_amount, cells)) for cells in rows]
    if sum(told) < _FEWEST:
        return None
    return [_listed_row(at, cells, told[at], labels) for at, cells in enumerate(rows)]


def _listed_row(at: int, cells: Sequence[str], has_amount: bool, labels: Collection[str]) -> Row:
    if len(cells) == 1:
        return Row(cells[0], heads=bool(cells[0]))
    if cells[0].strip("*: ").lower() in labels:
        return Row(" ".join(cells))
    return _row(cells) if has_amount or at else Row("")


def amount_first(pieces: Sequence[str]) -> str:
    """The text of a line's pieces, an amount that is the last of them put before its food: "Ghee", "1 tbsp"."""
    told = [piece.strip() for piece in pieces if piece.strip()]
    if len(told) > 1 and is_amount(told[-1]) and not any(map(is_amount, told[:-1])):
        return " ".join((told[-1], *told[:-1]))
    return "".join(pieces)


def is_amount(cell: str) -> bool:
    """Whether a cell holds an amount and no food."""
    return _told(cell) is not None


@dataclass(frozen=True, slots=True)
class _Told:
    """An amount in a cell, whether it has a unit, and what else the cell says: "minced" of "3 stalks, minced"."""

    amount: str
    has_unit: bool
    remark: str


def _told(cell: str) -> _Told | None:
    """The amount that a cell holds, None for any other; what follows it is set off by a comma or a bracket."""
    tokens = tokens_of(cell)
    quantity = read_quantity(tokens) if tokens else None
    end = quantity.end if quantity else 0
    while end < len(tokens) and tokens[end].lower() in words_of("size"):
        end += 1
    if quantity is None or (end < len(tokens) and tokens[end] not in (",", "(")):
        return None
    amount, remark = joined(tokens[: quantity.end]), joined(tokens[quantity.end :])
    return _Told(amount, bool(quantity.unit or quantity.size), remark.lstrip(", "))


def _row(cells: Sequence[str]) -> Row:
    """The line that the cells of a row amount to: the amounts, the food, how it is made ready."""
    filled = [cell for cell in cells if cell and cell.lower() not in words_of("no figure")]
    if filled and filled[0].strip("*_: ").lower() in words_of("sum of rows"):
        return Row("")
    heading = _BOLD.match(filled[0]) if len(filled) == 1 < len(cells) else None
    if heading:
        return Row(heading[2].strip(), heads=True)
    read = [(cell, _told(cell)) for cell in filled]
    told = [one for _, one in read if one is not None]
    counted = [one for one in told if not one.has_unit]  # beside a weight: a share of the flour
    amounts = [one for one in told if one.has_unit] or counted[:1]
    rest = [cell for cell, one in read if one is None and not _PERCENT.match(cell)]
    if not rest:
        return Row("")
    rest += [one.remark for one in amounts if one.remark]
    further = "".join(f"({one.amount}) " for one in amounts[1:])
    first = "".join(f"{one.amount} " for one in amounts[:1])
    return Row(f"{first}{further}{', '.join(rest)}".strip())
