"""A CSV of what has to be on the counter for the next shoot: food, equipment, and what is made ahead."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator

from extract.publish.phrases import tail_text
from extract.publish.recipe import Edition, Line, Recipe
from extract.publish.words import capital
from extract.publish.writers.writer import Writer

HEAD = ("show", "dish", "part", "what", "item", "amount", "other measure", "preparation", "ready")
_FORMULA = ("=", "+", "-", "@", "\t", "\r")


def write(edition: Edition) -> str:
    """One row a thing (RFC 4180), the column "ready" left for the person who ticks it off."""
    stream = io.StringIO()
    writer = csv.writer(stream)
    writer.writerow(HEAD)
    for recipe in edition.recipes:
        for cells in _rows(recipe):
            writer.writerow([_harmless(cell) for cell in (recipe.show, recipe.title, *cells, "")])
    return stream.getvalue()


def _rows(recipe: Recipe) -> Iterator[tuple[str, ...]]:
    for part in recipe.parts:
        for line in part.lines:
            yield (capital(part.name), "ingredient", *_line(line))
    for item in recipe.equipment:
        yield ("", "equipment", item, "", "", "")
    for section in recipe.sections:
        for step in section.steps:
            if step.ahead:
                yield (capital(section.part), "made ahead", step.text, "", "", "")
    for caution in recipe.cautions:
        yield ("", "caution", caution, "", "", "")
    for notice in recipe.notices:
        yield ("", "note", notice, "", "", "")


def _line(line: Line) -> tuple[str, ...]:
    return line.name, line.amount.removesuffix(" of"), line.other, tail_text(line).lstrip(", ")


def _harmless(cell: str) -> str:
    """A cell that no spreadsheet takes for a formula."""
    return f"'{cell}" if cell.startswith(_FORMULA) else cell


WRITER = Writer(".csv", write, each="all")
