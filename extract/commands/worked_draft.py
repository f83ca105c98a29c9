"""Where a scaled or converted draft goes: to a file, or as a page to the screen, with its notes."""

from __future__ import annotations

from pathlib import Path

import click

from extract.drafts import save_draft
from extract.measure.kitchen import measure_notes
from extract.model import RecipeDraft


def deliver(draft: RecipeDraft, out: Path | None) -> None:
    """Write ``draft`` to ``out`` in one move, or show it as a Markdown page where that is None.

    Notes on scaling and conversion that the page does not hold go to standard error.
    """
    shown = ""
    if out is not None:
        save_draft(out, draft)
    else:
        from extract.publish.markdown import page

        shown = page(draft)
        click.echo(shown, nl=False)
    for dish in draft.dishes:
        for note in measure_notes(dish):
            if note not in shown:
                click.echo(f"{dish.title}: {note}", err=True)
