"""Plain text of 72 columns, for mail and for a teleprompter: no marks, lines that never run over."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from extract.publish.phrases import facts, kept_together, line_text, share_line
from extract.publish.recipe import Edition, Recipe
from extract.publish.wording import word
from extract.publish.words import capital
from extract.publish.writers.writer import Writer

WIDTH = 72


def write(edition: Edition) -> str:
    """The recipes one after another, a rule between them, ending in a newline."""
    rule = f"\n{'-' * WIDTH}\n\n"
    return rule.join("\n".join(lines(recipe)).rstrip("\n") + "\n" for recipe in edition.recipes)


def lines(recipe: Recipe) -> Iterator[str]:
    """The lines of one recipe, none longer than 72 characters (save one word that is longer by itself)."""
    yield from wrapped(recipe.title.upper())
    yield ""
    for notice in recipe.notices:
        yield from wrapped(notice)
        yield ""
    told = [f"{label}: {words}" for label, words in facts(recipe)]
    yield from (line for fact in told for line in wrapped(fact))
    yield from [""] if told else []
    yield from headed(word("ingredients"))
    for part in recipe.parts:
        yield from [f"{capital(part.name)}:", ""] if part.name else []
        yield from (row for line in part.lines for row in wrapped(line_text(line), "- "))
        yield from (row for share in part.shares for row in wrapped(share_line(share), "- "))
        yield ""
    yield from listed("equipment", recipe.equipment)
    yield from headed(word("method"))
    for section in recipe.sections:
        yield from [*wrapped(f"{section.name}:"), ""] if section.name else []
        for step in section.steps:
            notes = "".join(f" {word('note')}: {note}" for note in step.notes)
            yield from wrapped(f"{step.text}{notes}", f"{step.number}. ")
            yield ""
    yield from listed("notes", recipe.notes)
    yield from listed("allergens", (*recipe.allergens, *([recipe.allergen_note] if recipe.allergens else [])))
    yield from listed("cautions", recipe.cautions)


def headed(heading: str) -> Iterator[str]:
    """A heading as plain text gives it, in capitals, and an empty line."""
    yield heading.upper()
    yield ""


def listed(key: str, items: tuple[str, ...]) -> Iterator[str]:
    """A headed list, nothing where there is nothing to list."""
    if items:
        yield from headed(word(key))
        yield from (row for item in items for row in wrapped(item, "- "))
        yield ""


def wrapped(text: str, lead: str = "") -> list[str]:
    """Text broken between words, later lines under the first letter of the first; "400 °F" is one word."""
    rows = textwrap.wrap(
        kept_together(text),
        WIDTH,
        initial_indent=lead,
        subsequent_indent=" " * len(lead),
        break_long_words=False,
        break_on_hyphens=False,
    )
    return [row.replace("\u00a0", " ") for row in rows]


WRITER = Writer(".txt", write)
