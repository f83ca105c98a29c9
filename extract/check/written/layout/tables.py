"""Ingredient lists laid out in columns: Markdown tables, and plain text whose columns are set apart by blanks."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass

from extract.check.written.lines.amounts import read_quantity
from extract.check.written.lines.tokens import tokens_of

_COLUMNS = re.compile(r"\s{2,}|\t+")
_BOLD = re.compile(r"^(\*\*|__)(.+?):?\1:?$")
_PERCENT = re.compile(r"^\d+(?:[.,]\d+)?\s*%$")
_FEWEST = 3  # rows that make columns of a plain text


@dataclass(frozen=True, slots=True)
class Row:
    """One row of a list in columns, as the line that it amounts to; ``heads``: it names the part below it."""

    text: str
    heads: bool = False


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
    spaced = {at: cells for at, line in enumerate(lines) if at not in marked and (cells := _spaced(line))}
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


def _is_marked(line: str) -> bool:
    return line.lstrip().startswith("|") and line.count("|") > 1


def _cells(line: str) -> list[str]:
    return [cell.strip() for cell in line.strip().strip("|").split("|")]


def _spaced(line: str) -> list[str]:
    """The cells of a plain line: a food, and an amount in a later column; [] for any other line."""
    cells = [cell.strip() for cell in _COLUMNS.split(line.strip()) if cell.strip()]
    told = [cell for cell in cells[1:] if _amount_of(cell)]
    return cells if told and cells[0][:1].isalpha() and not _amount_of(cells[0]) else []


def _heads(at: int, lines: Sequence[str], rows: dict[int, list[str]]) -> bool:
    """Whether a line alone in its row stands over columns: "Soaker"."""
    line = lines[at].strip()
    alone = (
        bool(line) and at not in rows and len(line.split()) <= 4 and not any(char.isdigit() for char in line)
    )
    return alone and at + 1 in rows and (at == 0 or not lines[at - 1].strip())


def _amount_of(cell: str) -> str:
    """ "unit" for an amount with its unit, "count" for a bare number, "" for anything else."""
    tokens = tokens_of(cell)
    quantity = read_quantity(tokens) if tokens else None
    if quantity is None or quantity.end < len(tokens):
        return ""
    return "unit" if quantity.unit or quantity.size else "count"


def _row(cells: Sequence[str]) -> Row:
    """The line that the cells of a row amount to: the amounts, the food, how it is made ready."""
    filled = [cell for cell in cells if cell]
    heading = _BOLD.match(filled[0]) if len(filled) == 1 < len(cells) else None
    if heading:
        return Row(heading[2].strip(), heads=True)
    told = {cell: _amount_of(cell) for cell in filled}
    measured = [cell for cell in filled if told[cell] == "unit"]
    counted = [cell for cell in filled if told[cell] == "count"]  # beside a weight: a share of the flour
    rest = [cell for cell in filled if not told[cell] and not _PERCENT.match(cell)]
    amounts = measured or counted[:1]
    if not rest:
        return Row("")
    further = "".join(f"({amount}) " for amount in amounts[1:])
    return Row(f"{''.join(amounts[:1])} {further}{', '.join(rest)}".strip())
