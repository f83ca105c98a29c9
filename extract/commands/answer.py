"""``cardwright answer``: the cook's answers, written into the draft."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from extract.answers import Reply, Taken


@click.command()
@click.argument("draft", type=click.Path(path_type=Path), metavar="DRAFT")
@click.argument("question", required=False, metavar="[ID]")
@click.argument("words", required=False, metavar="[ANSWER]")
@click.option(
    "--sheet", type=click.Path(path_type=Path), metavar="FILE", help="Take all the answers of a sheet (CSV)."
)
def answer(draft: Path, question: str | None, words: str | None, sheet: Path | None) -> None:
    """Write the answer to a question into the draft.

    DRAFT is a NAME.draft.json, ID the question's as the page and "cardwright questions" show it. The answer is kept
    beside the question and put into the line, step or fact that it is about, with "reviewer" as its evidence; the
    page beside the draft is written anew, unless it was changed by hand. A sheet is what "cardwright questions
    --format csv" printed, with its answer column filled in; all of its answers are taken, or none.

    \b
    Examples:
      cardwright answer show.draft.json k7mf "2 teaspoons"
      cardwright answer show.draft.json --sheet answers.csv
    """
    from extract.answers import read_sheet, take_answers
    from extract.commands.work.outputs import write_answered
    from extract.drafts import load_draft
    from extract.errors import CardwrightError

    replies = read_sheet(sheet, draft) if sheet is not None else [_one(question, words)]
    if sheet is not None and question is not None:
        problem = "give either an ID with its answer or --sheet FILE"
        raise click.UsageError(problem)
    try:
        answered, taken = take_answers(load_draft(draft), replies)
    except CardwrightError as error:
        if error.path is not None:
            raise
        place = sheet if sheet is not None else draft
        raise CardwrightError(error.problem, path=place, line=error.line, remedy=error.remedy) from error
    if not taken:
        click.echo("No row of the sheet has a new answer to a question of this draft.")
        return
    for one in taken:
        click.echo(_told(one))
    for line in write_answered(draft, answered):
        click.echo(line)


def _one(question: str | None, words: str | None) -> Reply:
    from extract.answers import Reply

    if question is None or words is None:
        problem = "give an ID with its answer, or --sheet FILE"
        raise click.UsageError(problem)
    return Reply(question, words)


def _told(taken: Taken) -> str:
    written = taken.written or "kept beside the question; nothing of the recipe was changed by it"
    return f"{taken.question.id}  {taken.dish}: {written}"
