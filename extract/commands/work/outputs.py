"""The files that a draft is written to, and how a person's changes to them are told and kept.

What the program writes carries its own marks under ``source.generated``: the digests of the draft and of its page, the
digest of the page that it replaces, the command that wrote it and the transcript it was made from. A file that no
longer matches has been changed by hand (a line corrected, the page edited) and is never written over unasked. Draft and
page are moved into place one right after the other, the draft first: where a run ends between the two, the draft knows
both the old page and the new one, and the next run puts the new one there. Answers given to questions are carried over
to every later draft of the same recording.
"""

from __future__ import annotations

import os
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from extract.commands.work.marks import (
    BY,
    FROM,
    LEDGERS,
    PAGES,
    Marked,
    digest,
    is_page_of_draft,
    marked_json,
    told_apart,
    whole_json,
    with_marks,
)
from extract.drafts import load_draft
from extract.errors import CardwrightError
from extract.model import RecipeDraft, Unplaced
from extract.writing import write_together

ATTEMPTS = 5  # at a draft whose questions somebody is answering while it is written
STDIN = "-"


class ChangedByHand(Exception):
    """A file holds what the program did not write there."""

    def __init__(self, path: Path) -> None:
        super().__init__(str(path))
        self.path = path


@dataclass(frozen=True, slots=True)
class Written:
    """What came of writing a draft: the files, and the answers that no question of it asks for any more."""

    files: tuple[Path, ...]
    unplaced: tuple[Unplaced, ...] = ()


class Outputs:
    """``NAME.draft.json``, ``NAME.md`` and ``NAME.ledger.txt`` of one transcript in ``folder``."""

    def __init__(self, folder: Path, name: str, source: Path | None = None) -> None:
        self.folder = folder
        self.draft = folder / f"{name}.draft.json"
        self.page = folder / f"{name}.md"
        self.ledger = folder / f"{name}.ledger.txt"
        self.source = source
        if source is not None and _same_file(self.page, source):
            self.page = folder / f"{name}.draft.md"  # the transcript itself is called NAME.md

    def check_recording(self, sha256: str) -> None:
        """Raise CardwrightError where the draft that stands there is of another recording.

        A recording is the same where its transcript is, byte for byte, or comes from the same file.
        """
        there = Marked.at(self.draft)
        if not there.sha256 or there.sha256 == sha256 or there.marks.get(FROM) == self._from():
            return
        other = str(there.marks.get(FROM) or there.file)
        problem = f"{self.draft} is the draft of another recording ({other})"
        remedy = "choose another folder with --out, or move that draft away"
        raise CardwrightError(problem, path=self.source or "standard input", remedy=remedy)

    def changed_by_hand(self, *, ledger: bool = False) -> Path | None:
        """The file that holds what the program did not write there, None where all may be written over.

        The ledger is looked at where it is to be written too.
        """
        there = Marked.at(self.draft)
        if there.exists and (not there.is_unchanged or there.marks.get(BY, "draft") != "draft"):
            return self.draft
        if not self._page_is_ours(there):
            return self.page
        known = [there.marks.get(key) for key in LEDGERS]
        old = _bytes(self.ledger) if ledger else None
        return None if old is None or digest(old) in known else self.ledger

    def _page_is_ours(self, there: Marked) -> bool:
        page = _bytes(self.page)
        if page is None or digest(page) in [there.marks.get(key) for key in PAGES]:
            return True
        return there.exists and page == self._page_now()

    def _page_now(self) -> bytes | None:
        """The page of the draft as it stands, None where it cannot be made."""
        from extract.publish.markdown import page

        try:
            return page(load_draft(self.draft)).encode()
        except CardwrightError:
            return None

    def page_is_older(self) -> bool:
        """Whether the page does not show the draft as a person has corrected it."""
        page, now = _bytes(self.page), self._page_now()
        return now is not None and page != now

    def write(self, drafted: RecipeDraft, ledger: str | None, *, replace: bool) -> Written:
        """Write draft, page and ledger, all or none, with the answers that stand in the draft they replace.

        What a person saved since the writing began is looked at once more, right before the files are moved. Raises
        ChangedByHand unless ``replace``, and CardwrightError where the folder cannot be made or written to.
        """
        try:
            self.folder.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            problem = f"this folder cannot be made: {error.strerror}"
            raise CardwrightError(problem, path=self.folder) from error
        for attempt in range(ATTEMPTS):
            try:
                return self._write_once(drafted, ledger, replace=replace)
            except _Moved:
                if attempt == ATTEMPTS - 1:
                    raise ChangedByHand(self.draft) from None
        raise AssertionError

    def _write_once(self, drafted: RecipeDraft, ledger: str | None, *, replace: bool) -> Written:
        from extract.publish.markdown import page

        before = self._as_it_stands()
        changed = None if replace else self.changed_by_hand(ledger=ledger is not None)
        if changed is not None:
            raise ChangedByHand(changed)
        answered = self._with_answers(drafted)
        shown = page(answered)
        marks = {FROM: self._from(), **told_apart(PAGES, shown, before[1])}
        if ledger is not None:
            marks |= told_apart(LEDGERS, ledger, before[2])
        else:
            marks |= {key: mark for key, mark in Marked.at(self.draft).marks.items() if key in LEDGERS}
        marked = marked_json(answered, marks)
        files = [(self.draft, marked), (self.page, shown)]
        if ledger is not None:
            files.append((self.ledger, ledger))

        def moved() -> None:
            if self._as_it_stands() != before:
                raise _Moved

        write_together(files, unless=moved)
        return Written(tuple(path for path, _ in files), tuple(answered.unplaced))

    def _as_it_stands(self) -> tuple[bytes | None, ...]:
        return _bytes(self.draft), _bytes(self.page), _bytes(self.ledger)

    def _with_answers(self, draft: RecipeDraft) -> RecipeDraft:
        """The draft with the answers that people gave in the one it replaces."""
        from extract.answers import write_in_answers
        from extract.draft.questions import carry_answers

        try:
            if not self.draft.exists():
                return draft
            return write_in_answers(carry_answers(load_draft(self.draft), draft))
        except CardwrightError:
            return draft  # what stands there is no draft, and was asked to be replaced

    def _from(self) -> str:
        """The transcript's file as seen from the draft's folder, so that both can be moved together."""
        if self.source is None:
            return STDIN
        try:
            return Path(os.path.relpath(_real(self.source), _real(self.folder))).as_posix()
        except ValueError:  # on another drive
            return _real(self.source).as_posix()


class _Moved(Exception):
    """Somebody saved one of the files while they were being written."""


def _real(path: Path) -> Path:
    return Path(os.path.realpath(path))


def write_answered(path: Path, draft: RecipeDraft) -> list[str]:
    """Write an answered draft to ``path``, and its page anew where that is as the program wrote it; what to say of it.

    Both are written or neither. The draft then counts as changed by hand, so that no later run writes over its answers
    unasked.
    """
    from extract.publish.markdown import page

    marks = dict(Marked.at(path).marks)
    beside = [path.with_name(path.name.removesuffix(".draft.json") + end) for end in (".md", ".draft.md")]
    pages = [each for each in beside if each.exists() and marks]
    known = [marks.get(key) for key in PAGES]
    ours = next((each for each in pages if digest(each.read_bytes()) in known), None)
    if ours is None:
        write_together([(path, with_marks(draft, marks))])
        return [f"kept {each}: changed since it was written" for each in pages if is_page_of_draft(each)]
    text = page(draft)
    marks |= told_apart(PAGES, text, ours.read_bytes())
    write_together([(path, with_marks(draft, marks)), (ours, text)])
    return [f"wrote {path} and {ours.name}"]


def _same_file(one: Path, other: Path) -> bool:
    try:
        return one.samefile(other)
    except OSError:
        return False


def _bytes(path: Path) -> bytes | None:
    """What a file holds, None where there is none. Raises CardwrightError where it cannot be read."""
    try:
        return path.read_bytes()
    except FileNotFoundError:
        return None
    except OSError as error:
        problem = f"cannot be read or written over: {error.strerror or error}"
        raise CardwrightError(problem, path=path) from error


def write_worked(path: Path, draft: RecipeDraft, by: str, *, replace: bool) -> None:
    """Write what the command ``by`` made of a draft to ``path``.

    Raises CardwrightError where something stands there that this command did not write, or that a person has changed
    since, unless ``replace``; and where the place cannot be written to.
    """
    before = _bytes(path)

    def ours() -> None:
        if before is not None and not replace and not Marked.at(path).is_whole_from(by):
            problem = f"this was not written by cardwright {by}, or has been changed since"
            raise CardwrightError(problem, path=path, remedy="choose another --out, or add --replace")
        if _bytes(path) != before:
            problem = "somebody has just saved this file"
            raise CardwrightError(problem, path=path, remedy="look at it, then try again")

    ours()
    write_together([(path, whole_json(draft, by))], unless=ours)


def check_names(names: Sequence[str], path: Path, name: str, ending: str) -> None:
    """Raise CardwrightError where several of ``names`` would be written to one file."""
    if names.count(name) > 1:
        problem = f"several inputs would be written as {name}{ending}"
        raise CardwrightError(problem, path=path, remedy="write them into different folders")
