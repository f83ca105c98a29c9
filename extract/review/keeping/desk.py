"""The desk on which a draft lies while it is reviewed: its state, its journal, and the file on the disk.

Every change is written to the journal, then to the draft, before anybody is told that it is saved. The file is
looked at before every write: what another program or person put there meanwhile is taken in, never written over.
"""

from __future__ import annotations

import threading
from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import Any

from extract.drafts import load_draft, save_draft, write_atomic
from extract.errors import CardwrightError
from extract.model import Dish, RecipeDraft
from extract.review.edits import apply, read_edit
from extract.review.edits.applying import brought_up, touched
from extract.review.keeping.again import put_over
from extract.review.keeping.changes import applied, differences
from extract.review.keeping.journal import EDIT, REDO, UNDO, Entry, Journal, begin, journal_path, open_journal
from extract.review.keeping.matching import NEW, with_keys
from extract.review.keeping.printing import Printer
from extract.review.keys import KEY, LAST, give_keys, items_of, key_of
from extract.review.mark import digest

Clock = Callable[[], datetime]


class Conflict(CardwrightError):
    """An edit that would write over what somebody else did meanwhile; nothing was changed."""


class Desk:
    """One draft under review. Safe to be called from several threads."""

    def __init__(self, path: Path, now: Clock) -> None:
        self.path = path
        self.now = now
        self.lock = threading.RLock()
        self._seen: tuple[int, int, int] | None = None
        self._printer = Printer()
        self.changed: dict[str, int] = {}  # by the key of a dish: the entry at which it last changed
        self.journal, self.draft = self._opened()

    @property
    def state(self) -> dict[str, Any]:
        """The draft as plain values, as it was last saved."""
        return self.journal.state

    @property
    def number(self) -> int:
        """The number of the last entry, 0 before the first."""
        return len(self.journal.entries)

    def edit(self, data: object, base: int, window: str, by: str) -> str:
        """Make and save an edit that was asked for when entry ``base`` was the last; what was done, in words.

        Raises CardwrightError where it is no edit, cannot be done or saved; Conflict where it would write over
        what another window or program changed since.
        """
        with self.lock:
            self.look(by)
            edit = read_edit(data)
            done = apply(self.draft, edit, now=self.now())
            self._refuse_overwriting(done.touched, base, window)
            after = self._plain(done.draft)
            changes = differences(self.state, after)
            if changes:
                entry = self._entry(EDIT, done.words, by, window, sorted(done.touched), changes)
                self._save(entry, done.draft)
            return done.words

    def undo(self, base: int, window: str, by: str, *, sure: bool = False) -> str:
        """Take the last edit back; what was undone. Raises CardwrightError where there is none.

        Raises Conflict where another reviewer made it, unless ``sure``.
        """
        with self.lock:
            self.look(by)
            stack = self.journal.undoable
            last = self.journal.entries[stack[-1] - 1] if stack else None
            if last is not None and last.by and by and last.by != by and not sure:
                problem = f"not undone: it was {last.by} who did this last ({last.words})"
                raise Conflict(problem, remedy="ask, or undo it all the same")
            return self._step(UNDO, stack, base, window, by)

    def redo(self, base: int, window: str, by: str) -> str:
        """Make the edit again that was last taken back; what it was."""
        with self.lock:
            self.look(by)
            return self._step(REDO, self.journal.redoable, base, window, by)

    def back_to(self, number: int, window: str, by: str) -> str:
        """Make the draft what it was after entry ``number``, as an edit that can itself be undone."""
        with self.lock:
            self.look(by)
            if not 0 <= number <= self.number:
                problem = "there is no such earlier state"
                raise CardwrightError(problem)
            return self._become(self.journal.state_at(number), EDIT, f"back to state {number}", by, window)

    def again(self, new: RecipeDraft, by: str, window: str = "") -> str:
        """Take in the show drafted again: the reviewer's values stay, notes tell what changed under them."""
        with self.lock:
            self.look(by)
            return self._again(new, by, window)

    def look(self, by: str) -> bool:
        """Whether the file had been changed by something else, which was then taken in.

        Raises CardwrightError where what stands there now is no draft or cannot be read.
        """
        with self.lock:
            seen = _signature(self.path)
            if seen == self._seen:
                return False
            found = load_draft(self.path)
            self._seen = seen
            return self._take(found, by)

    def put_back(self, by: str) -> str:
        """Write the draft as it was last saved over whatever stands there now. To be asked for only."""
        with self.lock:
            save_draft(self.path, self.draft)
            self._seen = _signature(self.path)
            return f"written again by {by}" if by else "written again"

    def _opened(self) -> tuple[Journal, RecipeDraft]:
        self._seen = _signature(self.path)
        found = load_draft(self.path)
        given = _as_numbered(found)
        journal = open_journal(journal_path(self.path), given.to_dict())
        self.journal, self.draft = journal, RecipeDraft.model_validate(journal.state)
        if journal.size and _bare(found.to_dict()) != _bare(journal.state):
            before = journal.state_at(max(0, self.number - 1))
            if self.number and _bare(found.to_dict()) == _bare(before):
                save_draft(self.path, self.draft)  # stopped between the journal and the draft
                self._seen = _signature(self.path)
            else:
                self._take(found, "")
        return self.journal, self.draft

    def _take(self, found: RecipeDraft, by: str) -> bool:
        """Take in what something else wrote; whether it differs from what was saved."""
        if _bare(found.to_dict()) == _bare(self.state):
            return False
        if any(key_of(item) for dish in found.dishes for item in items_of(dish)):
            words = "the file was changed by something else"
            self._become(_as_numbered(found).to_dict(), "outside", words, by, "", write=False)
        else:
            self._again(found, by, "")
        return True

    def _again(self, new: RecipeDraft, by: str, window: str) -> str:
        numbered = _as_numbered(new).to_dict()
        merged, alone, notes = put_over(self.journal.base, self.state, numbered)
        draft = RecipeDraft.model_validate(with_keys(merged, lambda key: "" if key.startswith(NEW) else key))
        give_keys(draft)
        draft = brought_up(self.draft, draft)
        changes = differences(self.state, draft.to_dict())
        words = "drafted again"
        entry = self._entry(
            "again", words, by, window, sorted(touched(self.draft, draft)), changes, notes=notes, base=alone
        )
        self._save(entry, draft)
        return words

    def _become(
        self, state: dict[str, Any], kind: str, words: str, by: str, window: str, *, write: bool = True
    ) -> str:
        changes = differences(self.state, state)
        draft = self._read(applied(self.state, changes))
        entry = self._entry(kind, words, by, window, sorted(touched(self.draft, draft)), changes)
        self._save(entry, draft, write=write)
        return words

    def _step(self, kind: str, stack: list[int], base: int, window: str, by: str) -> str:
        if not stack:
            problem = f"there is nothing to {kind}"
            raise CardwrightError(problem)
        of = stack[-1]
        entry = self.journal.entries[of - 1]
        self._refuse_overwriting(frozenset(entry.touched), base, window)
        changes = self.journal.undo_of(of) if kind == UNDO else entry.changes
        draft = self._read(applied(self.state, changes))
        self._save(self._entry(kind, entry.words, by, window, entry.touched, changes, of=of), draft)
        return f"{kind}: {entry.words}"

    def _refuse_overwriting(self, keys: frozenset[str], base: int, window: str) -> None:
        for entry in self.journal.entries[max(base, 0) :]:
            if entry.window != window and keys & set(entry.touched):
                who = entry.by or "somebody else"
                problem = f"not done: meanwhile {who} changed the same ({entry.words})"
                raise Conflict(problem, remedy="look at it and decide")

    def _plain(self, draft: RecipeDraft) -> dict[str, Any]:
        """``draft`` as plain values; what is as it was on the desk is shared with the state, not made anew."""
        known = dict(zip(map(id, self.draft.dishes), self.state["dishes"], strict=True))
        rest = draft.model_dump(mode="json", by_alias=True, exclude={"dishes"})
        dishes = [known.get(id(dish)) or dish.model_dump(mode="json", by_alias=True) for dish in draft.dishes]
        return {name: dishes if name == "dishes" else rest.get(name) for name in {**self.state, **rest}}

    def _read(self, state: dict[str, Any]) -> RecipeDraft:
        """The draft in ``state``; dishes that it shares with the state on the desk are not read anew."""
        known = dict(zip(map(id, self.state["dishes"]), self.draft.dishes, strict=True))
        dishes = [known.get(id(dish)) or Dish.model_validate(dish) for dish in state["dishes"]]
        draft = RecipeDraft.model_validate({**state, "dishes": []})
        return draft.model_copy(update={"dishes": dishes})

    def _entry(
        self,
        kind: str,
        words: str,
        by: str,
        window: str,
        keys: list[str],
        changes: list[dict[str, Any]],
        **more: Any,
    ) -> Entry:
        at = self.now().isoformat(timespec="seconds")
        return Entry(kind, words, by, at, window, keys, changes, **more)

    def _save(self, entry: Entry, draft: RecipeDraft, *, write: bool = True) -> None:
        """To the journal, then to the draft; where the draft cannot be written the journal is as before."""
        _refuse_protected(self.path)
        begin(self.journal)
        size = self.journal.size
        self.journal.append(entry)
        try:
            if write:
                write_atomic(self.path, self._printer.text(draft))
        except CardwrightError:
            self.journal.take_back(size)
            raise
        before = set(map(id, self.draft.dishes))
        self.changed |= {key_of(dish): self.number for dish in draft.dishes if id(dish) not in before}
        self.draft = draft
        self._seen = _signature(self.path)


def _as_numbered(draft: RecipeDraft) -> RecipeDraft:
    """A copy of ``draft`` in which everything has a key."""
    copy = draft.model_copy(deep=True)
    give_keys(copy)
    return copy


def _signature(path: Path) -> tuple[int, int, int] | None:
    """By which a file is known to be the one that was seen; None where there is none."""
    try:
        found = path.stat()
    except OSError:
        return None
    return found.st_ino, found.st_size, found.st_mtime_ns


def _refuse_protected(path: Path) -> None:
    """Raise CardwrightError where nobody may write to the file: it could be replaced, against somebody's wish."""
    try:
        protected = not path.stat().st_mode & 0o222
    except OSError:
        protected = False
    if protected:
        problem = "not saved: this file is read-only"
        raise CardwrightError(problem, path=path, remedy="make it writable, or review a copy")


def _bare(value: Any) -> str:
    """The digest of a draft without the keys that the review gives."""
    return digest(_unkeyed(value))


def _unkeyed(value: Any) -> Any:
    if isinstance(value, dict):
        return {name: _unkeyed(one) for name, one in value.items() if name not in {KEY, LAST}}
    if isinstance(value, list):
        return [_unkeyed(one) for one in value]
    return value
