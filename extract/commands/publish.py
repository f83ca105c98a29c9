"""``cardwright publish``: a reviewed draft as what an editor hands on."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from extract.commands.work.publishing import Source


def _known_kind(ctx: click.Context, parameter: click.Parameter, kind: str) -> str:
    from extract.publish.writers import kinds

    if kind not in kinds():
        problem = f"{kind!r} is none of {', '.join(kinds())}"
        raise click.BadParameter(problem, ctx, parameter)
    return kind


@click.command()
@click.argument("drafts", nargs=-1, required=True, type=click.Path(path_type=Path), metavar="DRAFT...")
@click.option(
    "--as",
    "kind",
    required=True,
    metavar="KIND",
    callback=_known_kind,
    help="page, jsonld, markdown, text, docx, captions, chapters, sheet, or one that you added.",
)
@click.option("--dish", metavar="NAME", default="", help="Only the dish of this title, or with NAME in it.")
@click.option(
    "--out",
    type=click.Path(path_type=Path),
    metavar="PATH",
    help="A file, or a folder for several; without it the one text is printed.",
)
@click.option("--media-url", default="", metavar="URL", help="Where the recording can be seen.")
@click.option("--anyway", is_flag=True, help="Publish though nobody reviewed it or a question is open.")
@click.option("--replace", is_flag=True, help="Write over files that are there.")
def publish(
    drafts: tuple[Path, ...],
    kind: str,
    dish: str,
    out: Path | None,
    media_url: str,
    anyway: bool,
    replace: bool,
) -> None:
    """Turn reviewed drafts into what readers get.

    \b
    KIND is one of
      page       an HTML page a dish, for screen and print, with schema.org data
      jsonld     that data alone
      markdown   CommonMark
      text       72 columns, for mail and teleprompter
      docx       a document, the open questions as comments
      captions   WebVTT: each ingredient as it comes up
      chapters   WebVTT: dishes and stages for a player
      sheet      CSV: what has to be on the counter for the next shoot

    \b
    Examples:
      cardwright publish drafts/broth.draft.json --as page --out published/
      cardwright publish drafts/show.draft.json --as text --dish "fish pie"
      cardwright publish drafts/*.draft.json --as sheet --out shoot.csv

    Cautions and allergens go with every recipe. Exit codes: 0 done, 1 nothing written since a draft is not
    reviewed or a question that must be answered is open, 2 bad input.
    """
    from extract.commands.work.publishing import check_media_url, editions, objections, write_all
    from extract.publish.writers import writer_for

    chosen = _chosen(drafts, dish)
    check_media_url(media_url, len(drafts))
    _tell([objection for source in chosen for objection in objections(source)], anyway=anyway)
    files = editions(chosen, writer_for(kind), media_url)
    for path in write_all(files, out, drafts, replace=replace):
        click.echo(f"wrote {path}", err=True)


def _chosen(drafts: tuple[Path, ...], dish: str) -> list[Source]:
    """The drafts with the dishes that are asked for, those without any left out."""
    from extract.commands.work.publishing import Source
    from extract.drafts import load_draft

    sources = [Source.of(path, load_draft(path), dish) for path in drafts]
    chosen = [source for source in sources if source.dishes]
    if dish and not chosen:
        _no_such_dish(sources, dish)
    return chosen


def _tell(against: list[str], *, anyway: bool) -> None:
    """Say what speaks against publishing; without ``anyway`` that is the end."""
    for objection in against:
        click.echo(objection, err=True)
    if against and not anyway:
        click.echo("Nothing was written. Review the draft first, or add --anyway.", err=True)
        raise click.exceptions.Exit(1)


def _no_such_dish(sources: list[Source], name: str) -> None:
    from extract.errors import CardwrightError

    titles = ", ".join(f'"{dish.title}"' for source in sources for dish in source.draft.dishes)
    problem = f'no dish is called "{name}"'
    raise CardwrightError(problem, path=sources[0].path, remedy=f"there is {titles or 'none at all'}")
