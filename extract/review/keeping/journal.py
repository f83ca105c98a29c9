"""The journal of a review: every state that the draft has been in, a line an edit, never rewritten.

``NAME.review.jsonl`` beside the draft. The first line holds the draft as it was first opened, each later one
what was done, by whom, when, and the changes to make of the values before. A line counts once its line feed is
there, so that a half line (the machine stopped, the disk was full) is no line and is cut off.
"""

from __future__ import annotations

import json
import os
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from extract.errors import CardwrightError
from extract.review.keeping.changes import applied, inverse
from extract.review.mark import digest

FORMAT = "cardwright-review/1"
UNDO, REDO, EDIT = "undo", "redo", "edit"


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of the journal. ``kind``: edit, undo, redo, outside (the file was changed by something else),
    again (the show was drafted again). ``of`` is the number of the entry that an undo or redo is about.
    ``notes`` and ``base`` belong to "again": what changed under the reviewer, and the new draft itself."""

    kind: str
    words: str
    by: str
    at: str
    window: str
    touched: list[str]
    changes: list[dict[str, Any]]
    of: int = 0
    notes: list[dict[str, str]] = field(default_factory=list)
    base: dict[str, Any] | None = None


@dataclass(slots=True)
class Journal:
    """The entries so far, the state after the last, and what can be undone and redone (entry numbers)."""

    path: Path
    first: dict[str, Any]
    state: dict[str, Any]
    entries: list[Entry] = field(default_factory=list)
    undoable: list[int] = field(default_factory=list)
    redoable: list[int] = field(default_factory=list)
    size: int = 0

    @property
    def base(self) -> dict[str, Any]:
        """What the program made of the show last, before any person changed it."""
        return next((entry.base for entry in reversed(self.entries) if entry.base), self.first)

    def append(self, entry: Entry) -> None:
        """Write ``entry`` to the disk, then count it. Raises CardwrightError; nothing is changed then."""
        line = json.dumps(_plain(entry), ensure_ascii=False, separators=(",", ":")) + "\n"
        state = applied(self.state, entry.changes)
        self.size = _write(self.path, line.encode(), self.size)
        self._count(entry, state)

    def take_back(self, size: int) -> None:
        """Cut the last entry off again, where the draft itself could not be written; ``size`` as before it."""
        with self.path.open("r+b") as stream:
            stream.truncate(size)
        entries, self.size = self.entries[:-1], size
        self.entries, self.undoable, self.redoable, self.state = [], [], [], self.first
        for entry in entries:
            self._count(entry, applied(self.state, entry.changes))

    def state_at(self, number: int) -> dict[str, Any]:
        """The draft after entry ``number``; 0 is as it was first opened."""
        state = self.first
        for entry in self.entries[:number]:
            state = applied(state, entry.changes)
        return state

    def undo_of(self, number: int) -> list[dict[str, Any]]:
        """The changes that take entry ``number`` back."""
        return inverse(self.entries[number - 1].changes)

    def _count(self, entry: Entry, state: dict[str, Any]) -> None:
        self.entries.append(entry)
        self.state = state
        if entry.kind == UNDO:
            self.redoable.append(self.undoable.pop())
        elif entry.kind == REDO:
            self.undoable.append(self.redoable.pop())
        else:
            self.undoable.append(len(self.entries))
            self.redoable.clear()


def journal_path(draft: Path) -> Path:
    """Where the journal of ``draft`` stands: "show.draft.json" has "show.review.jsonl"."""
    name = draft.name.removesuffix(".json").removesuffix(".draft")
    return draft.with_name(f"{name}.review.jsonl")


def open_journal(path: Path, state: dict[str, Any]) -> Journal:
    """The journal in ``path``, a new one (not written yet) for ``state`` where there is none.

    Raises CardwrightError, with the line, where it is none or is damaged in the middle.
    """
    try:
        data = path.read_bytes()
    except FileNotFoundError:
        return Journal(path, state, state)
    except OSError as error:
        raise CardwrightError(error.strerror or "cannot be read", path=path) from error
    whole = data[: data.rfind(b"\n") + 1]
    lines = whole.split(b"\n")[:-1]
    if not lines:
        return Journal(path, state, state)
    first = _read(lines[0], path, 1)
    if first.get("format") != FORMAT or not isinstance(first.get("draft"), dict):
        problem = "this is no journal of a review"
        raise CardwrightError(problem, path=path, line=1, remedy="move the file aside to begin a new one")
    journal = Journal(path, first["draft"], first["draft"], size=len(whole))
    for number, line in enumerate(lines[1:], start=2):
        fields = _read(line, path, number)
        try:
            entry = Entry(**fields)
            journal._count(entry, applied(journal.state, entry.changes))
        except (TypeError, LookupError) as error:
            raise _damaged(path, number) from error
    return journal


def begin(journal: Journal) -> None:
    """Write the first line of a journal that has none yet. Raises CardwrightError."""
    if journal.size:
        return
    head = {"format": FORMAT, "draft": journal.first, "sha256": digest(journal.first)}
    line = json.dumps(head, ensure_ascii=False, separators=(",", ":")) + "\n"
    journal.size = _write(journal.path, line.encode(), 0)


def _write(path: Path, data: bytes, size: int) -> int:
    """Append ``data`` behind the first ``size`` bytes and make it last; the new size. All or nothing."""
    try:
        path.touch()
        with path.open("r+b", buffering=0) as stream:
            try:
                stream.truncate(size)  # a half line of an earlier try
                stream.seek(size)
                view = memoryview(data)
                while view:
                    view = view[stream.write(view) :]
                os.fsync(stream.fileno())
            except OSError:
                with suppress(OSError):  # where even this fails: a half line has no line feed and is no line
                    stream.truncate(size)
                raise
    except OSError as error:
        problem = f"not saved: {error.strerror or error}"
        remedy = "the draft stands as it was last saved"
        raise CardwrightError(problem, path=path, remedy=remedy) from error
    return size + len(data)


def _read(line: bytes, path: Path, number: int) -> dict[str, Any]:
    try:
        value = json.loads(line)
    except ValueError as error:
        raise _damaged(path, number) from error
    if not isinstance(value, dict):
        raise _damaged(path, number)
    return value


def _damaged(path: Path, number: int) -> CardwrightError:
    problem = "the journal of the review is damaged here"
    remedy = "the draft itself is whole; move the journal aside to go on without the earlier states"
    return CardwrightError(problem, path=path, line=number, remedy=remedy)


def _plain(entry: Entry) -> dict[str, Any]:
    return dict(_fields(entry))


def _fields(entry: Entry) -> Iterator[tuple[str, Any]]:
    for name in ("kind", "words", "by", "at", "window", "touched", "changes"):
        yield name, getattr(entry, name)
    for name in ("of", "notes", "base"):
        if getattr(entry, name):
            yield name, getattr(entry, name)
