"""``cardwright page``: the page of a draft as a person has corrected it."""

from __future__ import annotations

from pathlib import Path

import click


@click.command()
@click.argument("drafts", nargs=-1, required=True, type=click.Path(path_type=Path), metavar="DRAFT...")
def page(drafts: tuple[Path, ...]) -> None:
    """Print the page of a draft as it has been corrected.

    DRAFT is a NAME.draft.json. The page shows it as it stands in the file, with the answers that were given; nothing is
    read from the transcript again and nothing is written.

    \b
    Examples:
      cardwright page drafts/broth.draft.json
      cardwright page drafts/broth.draft.json > drafts/broth.md
    """
    from extract.commands.work.printing import print_page
    from extract.drafts import load_draft
    from extract.publish.markdown import page as page_of

    for number, draft in enumerate([load_draft(path) for path in drafts]):
        if number:
            click.echo()
        print_page(page_of(draft))
