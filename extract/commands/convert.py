"""``cardwright convert``: a draft in the measures of another kitchen."""

from __future__ import annotations

from pathlib import Path

import click


@click.command()
@click.argument("draft", type=click.Path(path_type=Path), metavar="DRAFT")
@click.option(
    "--to", "to", required=True, metavar="metric|us|uk", help="The measures to put beside the cook's."
)
@click.option(
    "--measures",
    default="",
    metavar="us|metric|uk|au|ca",
    help="Whose cups and spoons the cook spoke; settled from the talk where this is not given.",
)
@click.option(
    "--out", type=click.Path(path_type=Path), metavar="FILE", help="Write the converted draft here."
)
@click.option(
    "--replace", is_flag=True, help="Write over a file that convert did not write or a person has changed."
)
def convert(draft: Path, to: str, measures: str, out: Path | None, replace: bool) -> None:
    """Put a draft into other units.

    Every amount, length and temperature keeps what the cook said and gains the worked-out value, in square
    brackets on the page. Volumes become weights only where the weight of that food is known; the rest is
    named. Without --out the draft is shown as a page.

    \b
    Examples:
      cardwright convert show.draft.json --to metric
      cardwright convert show.draft.json --to uk --measures us --out show.uk.draft.json
    """
    from extract.commands.work.worked_draft import deliver
    from extract.drafts import load_draft
    from extract.measure.drafts.convert import convert as work_out

    deliver(work_out(load_draft(draft), to, measures), out, "convert", replace=replace)
