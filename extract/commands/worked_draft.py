"""Where a scaled or converted draft goes: to a file, or as a page to the screen."""

from __future__ import annotations

from pathlib import Path

import click

from extract.drafts import save_draft
from extract.model import RecipeDraft


def deliver(draft: RecipeDraft, out: Path | None) -> None:
    """Write ``draft`` to ``out`` in one move, or show it as a Markdown page where that is None."""
    if out is not None:
        save_draft(out, draft)
        return
    from extract.publish.markdown import page

    click.echo(page(draft), nl=False)
