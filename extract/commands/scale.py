"""``cardwright scale``: a draft made larger or smaller."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from extract.commands.work.dish_option import dish_option

if TYPE_CHECKING:
    from extract.model import RecipeDraft


@click.command()
@click.argument("draft", type=click.Path(path_type=Path), metavar="DRAFT")
@click.option("--by", metavar="NUMBER", help='Times as large: 2, 0.5, "1 1/2".')
@click.option(
    "--servings", metavar="NUMBER", help="For so many servings, where the cook said how many it makes."
)
@click.option("--normal-batch", is_flag=True, help="Undo the double or half batch that was made on camera.")
@dish_option
@click.option("--out", type=click.Path(path_type=Path), metavar="FILE", help="Write the scaled draft here.")
@click.option(
    "--replace", is_flag=True, help="Write over a file that scale did not write or a person has changed."
)
def scale(
    draft: Path,
    by: str | None,
    servings: str | None,
    normal_batch: bool,
    dishes: tuple[str, ...],
    out: Path | None,
    replace: bool,
) -> None:
    """Make a draft larger or smaller.

    Amounts, those in the steps too, yields and the volumes of portions change; times, temperatures and tins
    stay as said, with notes on what to think of. --normal-batch touches only what was made as a multiple, and
    waits for the answer where it is still to be asked which amounts were said for it. Without --out the
    scaled draft is shown as a page; DRAFT itself is written to only where --out names it.

    \b
    Examples:
      cardwright scale show.draft.json --by 1.5
      cardwright scale show.draft.json --servings 10 --dish pie --out party.draft.json
      cardwright scale show.draft.json --normal-batch --out normal.draft.json
    """
    if sum((by is not None, servings is not None, normal_batch)) != 1:
        problem = "say one of --by NUMBER, --servings NUMBER, --normal-batch"
        raise click.UsageError(problem)
    from extract.commands.work.worked_draft import deliver
    from extract.drafts import load_draft

    deliver(_scaled(load_draft(draft), by, servings, dishes), out, "scale", replace=replace)


def _scaled(draft: RecipeDraft, by: str | None, servings: str | None, dishes: tuple[str, ...]) -> RecipeDraft:
    from extract.measure.drafts import scale as scaling

    if by is not None:
        return scaling.scale(draft, by, dishes)
    if servings is not None:
        return scaling.scale_to_servings(draft, servings, dishes)
    return scaling.scale_to_normal_batch(draft, dishes)
