"""Markdown (CommonMark): a recipe to paste into a page or a manuscript."""

from __future__ import annotations

import re
from collections.abc import Iterator

from extract.publish.phrases import facts, line_text, share_line
from extract.publish.recipe import Edition, Part, Recipe, Section
from extract.publish.wording import word
from extract.publish.words import capital
from extract.publish.writers.writer import Writer

_MARKS = re.compile(r"([\\`*_\[\]<>#|&~])")
_OPENS = re.compile(r"^(\d{1,9})([.)])(?=\s|$)|^([-+=])")


def write(edition: Edition) -> str:
    """The recipes one after another, ending in a newline."""
    return "\n".join("\n\n".join(blocks(recipe)) + "\n" for recipe in edition.recipes)


def blocks(recipe: Recipe) -> Iterator[str]:
    """The paragraphs, headings and lists of one recipe."""
    yield f"# {escaped(recipe.title)}"
    yield from (f"*{escaped(notice)}*" for notice in recipe.notices)
    yield from _list([f"**{escaped(label)}:** {escaped(words)}" for label, words in facts(recipe)])
    yield f"## {word('ingredients')}"
    for part in recipe.parts:
        yield from part_blocks(part)
    yield from _headed("equipment", recipe.equipment)
    yield f"## {word('method')}"
    for section in recipe.sections:
        yield from section_blocks(section)
    yield from _headed("notes", recipe.notes)
    yield from _headed(
        "allergens", [*recipe.allergens, *([recipe.allergen_note] if recipe.allergens else [])]
    )
    yield from _headed("cautions", recipe.cautions)


def part_blocks(part: Part) -> Iterator[str]:
    """The lines of one part and, below them, what is divided of it."""
    if part.name:
        yield f"### {escaped(capital(part.name))}"
    yield from _list([escaped(line_text(line)) for line in part.lines])
    yield from _list([f"*{escaped(share_line(share))}*" for share in part.shares])


def section_blocks(section: Section) -> Iterator[str]:
    """The numbered steps, counted through from the first section to the last."""
    if section.name:
        yield f"### {escaped(section.name)}"
    for step in section.steps:
        indent = " " * (len(str(step.number)) + 2)
        notes = [f"{indent}*{word('note')}: {escaped(note)}*" for note in step.notes]
        yield "\n".join([f"{step.number}. {escaped(step.text)}", *notes])


def _headed(key: str, lines: tuple[str, ...] | list[str]) -> Iterator[str]:
    if lines:
        yield f"## {word(key)}"
        yield from _list([escaped(line) for line in lines])


def _list(items: list[str]) -> Iterator[str]:
    if items:
        yield "\n".join(f"- {item}" for item in items)


def escaped(text: str) -> str:
    """Text in one line with every character that CommonMark would read as a mark made plain."""
    plain = _MARKS.sub(r"\\\1", text)
    return _OPENS.sub(lambda match: f"{match[1]}\\{match[2]}" if match[1] else f"\\{match[3]}", plain)


WRITER = Writer(".md", write)
