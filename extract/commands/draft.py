"""``cardwright draft``: transcripts in, recipe drafts out."""

from __future__ import annotations

from pathlib import Path

import click

STDIN = "-"


@click.command()
@click.argument("files", nargs=-1, required=True, metavar="FILE...")
@click.option(
    "--out", type=click.Path(path_type=Path), metavar="DIR", help="Write NAME.draft.json and NAME.md here."
)
@click.option(
    "--ledger", is_flag=True, help="Show the kitchen ledger: what went in, what came out, what is left."
)
@click.option("--replace", is_flag=True, help="Write over drafts that a person has changed.")
def draft(files: tuple[str, ...], out: Path | None, ledger: bool, replace: bool) -> None:
    """Turn timed transcripts into recipe drafts.

    FILE is a transcript, a folder of them, or - for standard input: WebVTT, SubRip, TTML, JSON segments,
    stamped text or plain text, told apart by content. One transcript without --out prints its draft as a
    Markdown page, to read beside the video; with --out, each is written as a draft to review and as a page.

    \b
    Examples:
      cardwright draft show.vtt
      cardwright draft transcripts/ --out drafts
      cardwright draft show.vtt --ledger
      cat show.vtt | cardwright draft -

    A draft that a person has changed since it was written is kept, and you are told so; --replace writes
    over it. Where one transcript cannot be read the others are still drafted, the faults are listed at the
    end, and the exit code is 2. It is 1 where no dish was heard in a talk.
    """
    from extract.commands.work.drafting import Batch, find_sources

    sources = find_sources(files)
    if out is None and len(sources) > 1:
        problem = f"{len(sources)} transcripts need a place to go: add --out DIR"
        raise click.UsageError(problem)
    raise click.exceptions.Exit(Batch(sources, out, ledger=ledger, replace=replace).run())
