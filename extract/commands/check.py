"""``cardwright check``: a written recipe against a draft."""

from __future__ import annotations

import json
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from extract.check.report import Report


@click.command()
@click.argument("draft", type=click.Path(path_type=Path), metavar="DRAFT")
@click.argument("written", type=click.Path(path_type=Path), metavar="WRITTEN")
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "json", "html"]),
    default="text",
    show_default=True,
    help="Tables for reading, JSON for programs, or a page.",
)
@click.option("--all", "everything", is_flag=True, help="List what agrees too, with the reason.")
def check(draft: Path, written: Path, form: str, everything: bool) -> None:
    """Hold a written recipe against a draft of what was said.

    DRAFT is a NAME.draft.json; WRITTEN a recipe in Markdown, plain text or a web page. What only looks
    different is passed over: converted units, synonyms, lines merged with the same sum. Nothing here says
    which side is right.

    \b
    Examples:
      cardwright check drafts/broth.draft.json broth.md
      cardwright check drafts/broth.draft.json broth.html --format html > check.html

    Exit codes: 0 both agree but for wording, 1 there are differences, 2 it could not be done.
    """
    from extract.check.checking import check as compare
    from extract.check.written import read_written
    from extract.drafts import load_draft

    reports = compare(load_draft(draft), read_written(written))
    _print(reports, form, everything=everything)
    if any(found.weight != "wording" for report in reports for found in report.differences):
        raise click.exceptions.Exit(1)


def _print(reports: Sequence[Report], form: str, *, everything: bool) -> None:
    """Print one report as an object, several as a list; the other forms hold any number."""
    from extract.check.showing import html_page, show, show_note

    if form == "json":
        found = [report.model_dump(mode="json") for report in reports]
        click.echo(json.dumps(found[0] if len(found) == 1 else found, ensure_ascii=False, indent=2))
    elif form == "html":
        click.echo(html_page(reports, agreements=everything), nl=False)
    else:
        from rich.console import Console

        console = Console(file=sys.stdout, highlight=False)
        for number, report in enumerate(reports):
            if number:
                console.print()
            show(report, console, agreements=everything)
        show_note(reports, console)
