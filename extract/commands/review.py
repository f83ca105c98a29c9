"""``cardwright review``: the draft beside the recording, in the reviewer's own browser."""

from __future__ import annotations

import getpass
from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    import socket

    from extract.review.server import Table


@click.command()
@click.argument("draft", type=click.Path(path_type=Path), metavar="DRAFT")
@click.option(
    "--media", type=click.Path(path_type=Path), metavar="FILE", help="The recording, video or sound."
)
@click.option(
    "--transcript", type=click.Path(path_type=Path), metavar="FILE", help="The transcript of the draft."
)
@click.option(
    "--written", type=click.Path(path_type=Path), metavar="FILE", help="A written recipe to hold it against."
)
@click.option("--by", metavar="NAME", default="", help="Who reviews; otherwise your name on this machine.")
@click.option("--port", type=click.IntRange(0, 65535), default=0, help="The port; otherwise any free one.")
@click.option("--no-browser", is_flag=True, help="Only print the address.")
@click.option(
    "--talk",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="Write the reviewed draft as a talk, and end.",
)
def review(
    draft: Path,
    media: Path | None,
    transcript: Path | None,
    written: Path | None,
    by: str,
    port: int,
    no_browser: bool,
    talk: Path | None,
) -> None:
    """Go through a draft beside its recording, in your browser.

    DRAFT is a NAME.draft.json. The transcript and a recording called NAME are found beside it, or named.
    Every correction is saved as it is made; NAME.review.jsonl beside the draft keeps all earlier states. The
    page is served to this machine alone and loads nothing from the network. End it with Ctrl+C.

    \b
    Examples:
      cardwright review drafts/show.draft.json
      cardwright review drafts/show.draft.json --transcript show.vtt --media show.mp4
      cardwright review drafts/show.draft.json --transcript show.vtt --talk show.talk

    Exit codes: 0 done, 2 the draft, or something beside it, could not be read.
    """
    from extract.review.running import hold, listening, serve

    if talk is not None:
        _write_talk(_laid(draft, media, transcript, written, by), talk)
        return
    with hold(draft), listening(port) as found:
        table = _laid(draft, media, transcript, written, by or _login())
        _say(table, found)
        serve(table, found, browser=not no_browser)


def _laid(draft: Path, media: Path | None, transcript: Path | None, written: Path | None, by: str) -> Table:
    """The draft on its desk, with all that lies beside it."""
    from datetime import datetime

    from extract.review.keeping.desk import Desk
    from extract.review.server import Table
    from extract.review.shown.preview import WrittenSide
    from extract.review.shown.sources import find_media, find_talk

    desk = Desk(draft, lambda: datetime.now().astimezone())
    talk = find_talk(draft, desk.draft, transcript)
    recording = find_media(draft, talk, media)
    return Table(desk, talk, recording, WrittenSide(written) if written else None, by)


def _write_talk(table: Table, path: Path) -> None:
    from extract.drafts import write_atomic
    from extract.errors import CardwrightError
    from extract.review.shown.hearing import hear
    from extract.review.shown.talk import talk_text

    if table.talk.path is None:
        problem = "the transcript was not found, and a talk needs all its words"
        raise CardwrightError(problem, path=table.desk.path, remedy="name it with --transcript")
    write_atomic(path, talk_text(table.desk.draft, hear(table.talk.path), path.stem))
    click.echo(f"wrote {path}")


def _say(table: Table, found: socket.socket) -> None:
    """Tell where the page is and what it has found."""
    from extract.review.running import address

    if table.talk.note:
        click.echo(f"Note: {table.talk.note}", err=True)
    if table.media is None:
        click.echo("Note: no recording was found; nothing can be played (--media names one).", err=True)
    click.echo(f"The review is at {address(table, found)} (Ctrl+C ends it)")


def _login() -> str:
    try:
        return getpass.getuser()
    except (OSError, KeyError, ImportError):
        return ""
