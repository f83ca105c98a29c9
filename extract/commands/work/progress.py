"""How far a long run has come, for a person who watches; silent in pipes and for what is quickly done."""

from __future__ import annotations

import sys
from threading import Timer
from types import TracebackType
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    import rich.progress

PATIENCE = 1.0  # seconds


class Progress:
    """A bar on standard error that appears after a second, where that is a terminal."""

    def __init__(self, total: int) -> None:
        self.total = total
        self.bar: rich.progress.Progress | None = None
        self.timer: Timer | None = None

    def __enter__(self) -> Progress:
        if sys.stderr.isatty():
            self.bar = _bar(self.total)
            self.timer = Timer(PATIENCE, self.bar.start)
            self.timer.daemon = True
            self.timer.start()
        return self

    def advance(self, note: str) -> None:
        """One more transcript is done; ``note`` is a line for standard error, "" for none."""
        if self.bar is not None:
            self.bar.advance(self.bar.task_ids[0])
        if note and self.bar is not None:
            self.bar.console.print(note, markup=False, highlight=False, soft_wrap=True)
        elif note:
            click.echo(note, err=True)

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        if self.bar is not None and self.timer is not None:
            self.timer.cancel()
            self.timer.join()
            self.bar.stop()


def _bar(total: int) -> rich.progress.Progress:
    from rich.console import Console
    from rich.progress import BarColumn, MofNCompleteColumn, SpinnerColumn, TextColumn, TimeRemainingColumn
    from rich.progress import Progress as Bar

    many = (BarColumn(), MofNCompleteColumn(), TimeRemainingColumn()) if total > 1 else ()
    console = Console(stderr=True)
    columns = (SpinnerColumn(), TextColumn("drafting"), *many)
    bar = Bar(*columns, console=console, transient=True, redirect_stdout=False, redirect_stderr=False)
    bar.add_task("drafting", total=total if total > 1 else None)
    return bar
