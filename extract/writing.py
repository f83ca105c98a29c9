"""Files written whole or not at all, several of them as one: the only place from which the program writes.

Every text is first written out beside its place under a name of its own, and moved there only when all of them are on
the disk. A program that is killed leaves the old files, or one move of two; what it left lying is swept up later.
"""

from __future__ import annotations

import os
import re
import tempfile
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import ExitStack, contextmanager, suppress
from pathlib import Path

from extract.errors import CardwrightError

_OURS = re.compile(r"\..+\.(?:json|md|txt)\.[\w-]{8}\.tmp")
IDLE = 3600.0  # seconds after which a file that is still being written has been given up, where no lock tells
JUST_MADE = 1.0


def write_together(
    files: Sequence[tuple[Path, str | bytes]], *, unless: Callable[[], None] = lambda: None
) -> None:
    """Put each text (as UTF-8) or bytes in its place, keeping the permissions of what stood there.

    ``unless`` is called when all texts are on the disk, right before the first is moved, and stops the writing by
    raising. Raises CardwrightError where a place cannot be written to; nothing has been moved then.
    """
    with ExitStack() as held:
        staged = []
        for path, text in files:
            with _told(path):
                staged.append(_stage(path, text, held))
        unless()
        for temporary, target in staged:
            with _told(target):
                temporary.replace(target)


@contextmanager
def _told(path: Path) -> Iterator[None]:
    """What the system says of a place, as the one line that a user is shown."""
    try:
        yield
    except (OSError, UnicodeEncodeError, RuntimeError, ValueError) as error:
        problem = f"cannot be written: {getattr(error, 'strerror', None) or error}"
        raise CardwrightError(problem, path=path) from error


def _stage(path: Path, text: str | bytes, held: ExitStack) -> tuple[Path, Path]:
    """``text`` on the disk beside its place: the file that holds it and the place, behind any links.

    The file is held open, so that nobody sweeps it up, and taken away with ``held`` where it has not been moved.
    """
    target = path.resolve()
    if target.is_dir():
        problem = "there is a folder of this name"
        raise OSError(0, problem)
    descriptor, name = tempfile.mkstemp(dir=target.parent, prefix=f".{target.name}.", suffix=".tmp")
    temporary = Path(name)
    held.callback(temporary.unlink, missing_ok=True)
    stream = held.enter_context(os.fdopen(descriptor, "wb"))
    _lock(descriptor)
    stream.write(text.encode() if isinstance(text, str) else text)
    stream.flush()
    os.fsync(descriptor)
    temporary.chmod(_mode_for(target))
    return temporary, target


def _mode_for(target: Path) -> int:
    """The permissions of the file to be replaced, or those a new file would get."""
    try:
        return target.stat().st_mode & 0o7777
    except FileNotFoundError:
        mask = os.umask(0)
        os.umask(mask)
        return 0o666 & ~mask


def sweep(folder: Path) -> int:
    """Take away what a killed run left half-written in ``folder``; how many files that were.

    A file that another run is writing at this moment is left alone.
    """
    swept = 0
    with suppress(OSError):
        for entry in os.scandir(folder):
            if (
                _OURS.fullmatch(entry.name)
                and entry.is_file(follow_symlinks=False)
                and _is_given_up(entry.path)
            ):
                with suppress(OSError):
                    Path(entry.path).unlink()
                    swept += 1
    return swept


def _lock(descriptor: int) -> None:
    """Hold a file for as long as this process has it open; where the system has no locks, go on without."""
    with suppress(ImportError, OSError):
        import fcntl

        fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)


def _is_given_up(path: str) -> bool:
    """Whether nobody is writing a file any more: it has stood still for an hour, or its lock is free.

    One that was only just made may be about to be locked.
    """
    with suppress(ImportError, OSError):
        still = time.time() - Path(path).stat().st_mtime
        if still > IDLE:
            return True
        import fcntl

        with Path(path).open("rb") as stream:
            fcntl.flock(stream.fileno(), fcntl.LOCK_EX | fcntl.LOCK_NB)
            return still > JUST_MADE
    return False
