"""Where a scaled or converted draft goes: to a file, or as a page to the screen, with its notes."""

from __future__ import annotations

from pathlib import Path

from extract.commands.work.outputs import write_worked
from extract.commands.work.printing import print_lines, print_page
from extract.measure.kitchen import measure_notes
from extract.model import RecipeDraft


def deliver(draft: RecipeDraft, out: Path | None, by: str, *, replace: bool) -> None:
    """Write ``draft`` to ``out`` in one move, or show it as a Markdown page where that is None.

    What stands at ``out`` is written over only where the command ``by`` wrote it and nobody changed it since, or with
    ``replace``. Notes on scaling and conversion that the page does not hold go to standard error.
    """
    shown = ""
    if out is not None:
        write_worked(out, draft, by, replace=replace)
    else:
        from extract.publish.markdown import page

        shown = page(draft)
        print_page(shown)
    for dish in draft.dishes:
        for note in measure_notes(dish):
            if note not in shown:
                print_lines([f"{dish.title}: {note}"], err=True)
