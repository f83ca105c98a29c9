"""Text for reading: wrapped between words, what goes on in a new line set in under its beginning."""

from __future__ import annotations

import re
import shutil
import sys
import textwrap
from collections.abc import Iterable

import click

NARROWEST = 40
WIDTH = 80  # where nothing tells how wide the reader's terminal is
_MARK = re.compile(r"\s*(?:[-*>]\s+|#{1,6}\s+|\d+\.\s+(?:\d[\d:]*\s+)?|Answer:\s+)*")


def width() -> int:
    """How many characters a line may have."""
    return max(NARROWEST, shutil.get_terminal_size((WIDTH, 24)).columns)


def wrapped(line: str, columns: int | None = None) -> str:
    """A line of text broken between words at ``columns``, further lines set in behind its number or mark."""
    columns = width() if columns is None else columns
    if len(line) <= columns:
        return line
    mark = _MARK.match(line)
    indent = min(len(mark[0]) if mark else 0, columns // 2)
    lead = line[: len(line) - len(line.lstrip())]
    return textwrap.fill(
        line.strip(),
        columns,
        initial_indent=lead,
        subsequent_indent=" " * max(indent, len(lead)),
        break_long_words=False,
        break_on_hyphens=False,
    )


def print_lines(lines: Iterable[str], *, err: bool = False) -> None:
    """Print each line of text wrapped."""
    for line in lines:
        click.echo(wrapped(line), err=err)


def print_page(text: str) -> None:
    """Print a page: as it is into a file or a pipe, wrapped on a terminal."""
    if sys.stdout.isatty():
        print_lines(text.splitlines())
    else:
        click.echo(text, nl=False)
