"""``cardwright questions``: what the cook left unsaid."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Iterator, Sequence
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from extract.model import RecipeDraft

HEADER = (
    "draft",
    "dish",
    "id",
    "rank",
    "must answer",
    "time",
    "kind",
    "about",
    "question",
    "words",
    "answer",
)


@dataclass(frozen=True, slots=True)
class Asked:
    """One question of one draft, as it is printed. ``start`` is in seconds, None where no words are kept."""

    draft: str
    dish: str
    id: str
    rank: int
    must: bool
    weight: int
    kind: str
    about: str
    start: float | None
    question: str
    words: str
    answer: str


@click.command()
@click.argument("drafts", nargs=-1, required=True, type=click.Path(path_type=Path), metavar="DRAFT...")
@click.option("--all", "every", is_flag=True, help="The lesser questions too.")
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "json", "csv"]),
    default="text",
    show_default=True,
    help="For reading, for programs, or a production sheet.",
)
def questions(drafts: tuple[Path, ...], every: bool, form: str) -> None:
    """List what the cook left unsaid, most important first.

    DRAFT is a NAME.draft.json. Each question comes with its id, its time and the words, and can be read out to the
    cook as it stands; about seven a dish are listed. One that was answered in the draft, or whose line was
    mended there, is not asked again. "cardwright answer" takes the answers.

    \b
    Examples:
      cardwright questions drafts/broth.draft.json
      cardwright questions drafts/*.draft.json --format csv > to-ask.csv

    Exit codes: 0 nothing that must be answered is open, 1 something is
    or a draft has no dish, 2 a draft could not be read.
    """
    from extract.commands.work.printing import print_lines
    from extract.drafts import load_draft

    loaded = [(path, load_draft(path)) for path in drafts]
    asked = [question for path, draft in loaded for question in _asked(path, draft, every=every)]
    empty = [path for path, draft in loaded if not draft.dishes]
    if form == "json":
        click.echo(json.dumps([asdict(question) for question in asked], ensure_ascii=False, indent=2))
    elif form == "csv":
        click.echo(_sheet(asked), nl=False)
    else:
        print_lines(_text(asked, nothing_left=not empty))
    for path in empty:
        click.echo(f"{path}: no dish was heard, so there is nothing to publish", err=True)
    if empty or any(question.must and not question.answer for question in asked):
        raise click.exceptions.Exit(1)


def _asked(path: Path, draft: RecipeDraft, *, every: bool) -> Iterator[Asked]:
    """The questions of every dish, ranked dish by dish; the few worth asking unless ``every`` one is wanted."""
    from extract.draft.questions import find_questions, must_answer, shown

    for dish in draft.dishes:
        found = find_questions(dish, draft)
        listed = found if every else shown(found)
        for number, question in enumerate(found, start=1):
            if question not in listed:
                continue
            yield Asked(
                draft=str(path),
                dish=dish.title,
                id=question.id,
                rank=number,
                must=must_answer(question),
                weight=question.weight,
                kind=question.kind,
                about=question.about,
                start=min((said.start for said in question.said), default=None),
                question=question.text,
                words=" / ".join(said.text for said in question.said),
                answer=(question.answer or "").strip(),
            )


def _sheet(asked: Sequence[Asked]) -> str:
    """A sheet with one row a question (RFC 4180), the time as m:ss for the person at the player."""
    from extract.publish.words import clock

    stream = io.StringIO()
    writer = csv.writer(stream)
    writer.writerow(HEADER)
    for row in asked:
        time = "" if row.start is None else clock(row.start)
        must = "yes" if row.must else "no"
        cells = (row.draft, row.dish, row.id, row.rank, must, time, row.kind, row.about, row.question)
        writer.writerow((*(_harmless(cell) for cell in cells), _harmless(row.words), _harmless(row.answer)))
    return stream.getvalue()


def _harmless(cell: str | int) -> str | int:
    """A cell that no spreadsheet takes for a formula."""
    return f"'{cell}" if isinstance(cell, str) and cell[:1] in ("=", "+", "-", "@") else cell


def _text(asked: Sequence[Asked], *, nothing_left: bool) -> Iterator[str]:
    """Dish by dish: what must be answered, what else to ask, what has been answered."""
    if not asked and nothing_left:
        yield "Nothing is left to ask."
    for draft, dish in dict.fromkeys((row.draft, row.dish) for row in asked):
        rows = [row for row in asked if (row.draft, row.dish) == (draft, dish)]
        yield f"{dish[:1].upper()}{dish[1:]} ({draft})"
        open_rows = [row for row in rows if not row.answer]
        yield from _part("  Before it can be published", [row for row in open_rows if row.must])
        yield from _part("  Also to ask", [row for row in open_rows if not row.must])
        yield from _part("  Answered", [row for row in rows if row.answer])
        yield ""


def _part(head: str, rows: Sequence[Asked]) -> Iterator[str]:
    from textwrap import wrap

    from extract.publish.words import clock

    if rows:
        yield head
    for row in rows:
        time = "" if row.start is None else clock(row.start)
        lines = wrap(row.question, WIDTH - INDENT)
        yield f"    {row.id:<5} {time:>7}  {lines[0] if lines else ''}"
        yield from (" " * INDENT + line for line in lines[1:])
        yield from (
            " " * INDENT + line for line in wrap(f"Answer: {row.answer}", WIDTH - INDENT) if row.answer
        )


WIDTH, INDENT = 80, 19
