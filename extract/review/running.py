"""Bringing the page up: one review a draft, a free port of this machine, the browser, a clean end."""

from __future__ import annotations

import contextlib
import os
import secrets
import socket
import sys
import threading
import webbrowser
from collections.abc import Iterator
from pathlib import Path

from extract.errors import CardwrightError
from extract.review.server import Table, application


@contextlib.contextmanager
def hold(draft: Path) -> Iterator[None]:
    """Keep a second review from opening the same draft while this one runs.

    The lock is the machine's, on the draft's folder entry ".NAME.lock", and goes with the process however that
    ends. Raises CardwrightError where another review has it.
    """
    path = draft.resolve().with_name(f".{draft.name}.lock")
    try:
        descriptor = os.open(path, os.O_RDWR | os.O_CREAT, 0o600)
    except FileNotFoundError as error:
        problem = "No such file or directory"
        raise CardwrightError(problem, path=draft) from error
    except OSError as error:
        problem = f"nothing can be saved beside this draft: {error.strerror}"
        raise CardwrightError(problem, path=draft, remedy="review a copy in a folder of your own") from error
    try:
        _lock(descriptor, draft)
        try:
            yield
        finally:
            path.unlink(missing_ok=True)
    finally:
        os.close(descriptor)


def _lock(descriptor: int, draft: Path) -> None:
    if sys.platform == "win32":
        return  # two reviews still refuse to write over one another: each looks at the file before it writes
    import fcntl

    try:
        fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError as error:
        holder = os.pread(descriptor, 20, 0).decode("ascii", "replace").strip()
        which = f" (process {holder})" if holder else ""
        problem = f"another review of this draft is open{which}"
        raise CardwrightError(problem, path=draft, remedy="use its window, or end it first") from error
    os.ftruncate(descriptor, 0)
    os.pwrite(descriptor, str(os.getpid()).encode(), 0)


@contextlib.contextmanager
def listening(port: int) -> Iterator[socket.socket]:
    """A socket of this machine's own address. Raises CardwrightError where the port is taken."""
    found = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    found.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        found.bind(("127.0.0.1", port))
        found.listen(64)  # from here on the address can be asked, and waits for its answer
    except OSError as error:
        found.close()
        problem = f"port {port} cannot be used: {error.strerror}"
        raise CardwrightError(problem, remedy="leave --port out to take any free one") from error
    with found:
        yield found


def address(table: Table, found: socket.socket) -> str:
    """Where the page is, with the token of this run."""
    table.port = found.getsockname()[1]
    table.token = table.token or secrets.token_urlsafe(24)
    return f"http://127.0.0.1:{table.port}/?run={table.token}"


def serve(table: Table, found: socket.socket, *, browser: bool) -> None:
    """Serve until Ctrl+C."""
    import uvicorn

    where = address(table, found)
    settings = uvicorn.Config(
        application(table), log_level="warning", access_log=False, server_header=False, lifespan="off"
    )
    if browser:
        threading.Timer(0.3, webbrowser.open, (where,)).start()
    threading.Thread(target=_warm, args=(table,), daemon=True).start()
    with contextlib.suppress(KeyboardInterrupt):
        uvicorn.Server(settings).run(sockets=[found])


def _warm(table: Table) -> None:
    """Load what the first edit, page and check would have to wait for."""
    from extract.review.edits.applying import brought_up
    from extract.review.shown.preview import page_html

    draft = table.desk.draft.model_copy(deep=True)
    brought_up(table.desk.draft, draft)
    if draft.dishes:
        page_html(draft, 0)
    if table.written is not None:
        table.written.differences(draft)
