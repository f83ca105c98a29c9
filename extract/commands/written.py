"""``cardwright written``: how a written recipe is read."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from extract.model import RecipeDraft

ENDING = ".written.json"


@click.command()
@click.argument("files", nargs=-1, required=True, type=click.Path(path_type=Path), metavar="FILE...")
@click.option(
    "--out",
    type=click.Path(path_type=Path, file_okay=False),
    metavar="DIR",
    help="Write NAME.written.json here.",
)
@click.option(
    "--replace", is_flag=True, help="Write over what written did not write or a person has changed."
)
def written(files: tuple[Path, ...], out: Path | None, replace: bool) -> None:
    """Show how a written recipe is read.

    FILE is a recipe as editors write it: Markdown, plain text, or a web page with its text or its schema.org
    data. With --out each is written as NAME.written.json, in the form of a draft; without, one is printed.

    \b
    Examples:
      cardwright written broth.md
      cardwright written recipes/*.md --out read

    Files that cannot be read are told, the others are written all the same; the exit code is then 2.
    """
    if out is None and len(files) > 1:
        problem = f"{len(files)} recipes need a place to go: add --out DIR"
        raise click.UsageError(problem)
    names = [_name(file) for file in files]
    read = [_show(file, out, names, replace=replace) for file in files]
    if not all(read):
        raise click.exceptions.Exit(2)


def _show(file: Path, out: Path | None, names: list[str], *, replace: bool) -> bool:
    """Read one file and write or print it; whether that went well."""
    from extract.check.written import read_written
    from extract.commands.work.outputs import check_names
    from extract.errors import CardwrightError

    try:
        draft = read_written(file)
        if out is None:
            click.echo(draft.to_json(), nl=False)
        else:
            check_names(names, file, _name(file), ENDING)
            _write(draft, out, file, replace=replace)
    except CardwrightError as error:
        click.echo(f"Error: {error}", err=True)
        return False
    return True


def _name(file: Path) -> str:
    return file.stem.removesuffix(".written")


def _write(draft: RecipeDraft, out: Path, file: Path, *, replace: bool) -> None:
    from extract.commands.work.outputs import write_worked
    from extract.errors import CardwrightError

    try:
        out.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        problem = f"this folder cannot be made: {error.strerror}"
        raise CardwrightError(problem, path=out) from error
    target = out / f"{_name(file)}{ENDING}"
    write_worked(target, draft, "written", replace=replace)
    click.echo(f"wrote {target}", err=True)
