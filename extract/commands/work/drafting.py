"""The work behind ``cardwright draft``: which files, one after another, what came of each."""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from mimetypes import guess_type
from pathlib import Path
from typing import TYPE_CHECKING

import click

from extract.commands.work.printing import print_page
from extract.commands.work.progress import Progress
from extract.draft.heard import NOT_HEARD
from extract.ending import BAD_INPUT, FAULT, fault_words
from extract.errors import CardwrightError
from extract.transcript import Transcript, read_transcript
from extract.writing import sweep

if TYPE_CHECKING:
    from extract.commands.work.outputs import Outputs, Written
    from extract.model import RecipeDraft

STDIN = "-"
OURS = (".draft.json", ".draft.md", ".written.json", ".ledger.txt", ".review.jsonl")
NOT_TEXT = ("video/", "audio/", "image/", "font/")


@dataclass(frozen=True, slots=True)
class Source:
    """One transcript to draft; ``path`` is None for standard input, ``name`` begins its files' names."""

    path: Path | None
    name: str


def find_sources(files: Sequence[str]) -> list[Source]:
    """The transcripts named by ``files``, each once, folders opened (their own files, not their folders').

    Raises CardwrightError where a folder cannot be read or holds no transcript.
    """
    found: dict[Path | None, Source] = {}
    for text in files:
        try:
            _add_sources(found, text)
        except (OSError, RuntimeError, ValueError) as error:
            problem = f"this cannot be read: {getattr(error, 'strerror', None) or error}"
            raise CardwrightError(problem, path=text) from error
    return list(found.values())


def _add_sources(found: dict[Path | None, Source], text: str) -> None:
    """The transcript, or those of the folder, that one word of the command line names."""
    path = Path(text)
    if not text.strip():
        problem = "an empty name was given for a file"
        raise CardwrightError(problem)
    if text == STDIN:
        found.setdefault(None, Source(None, "stdin"))
    elif path.is_dir():
        inside = _in_folder(path)
        if not inside:
            problem = "no transcript in this folder"
            raise CardwrightError(problem, path=path)
        for one in inside:
            found.setdefault(one.resolve(), Source(one, one.stem))
    else:
        found.setdefault(path.resolve(), Source(path, path.stem))


def _in_folder(folder: Path) -> list[Path]:
    """The files of ``folder`` that may be transcripts: no recordings, nothing hidden, nothing of another kind."""
    inside = []
    for path in sorted(folder.iterdir()):
        kind = guess_type(path.name)[0] or ""
        other = path.name.startswith((".", "README")) or path.name.endswith(OURS) or kind.startswith(NOT_TEXT)
        if not other and path.is_file() and not _is_other(path):
            inside.append(path)
    return inside


def _is_other(path: Path) -> bool:
    """Whether a file is told by its content to be no transcript. What cannot be read is told of later."""
    from extract.commands.work.marks import is_page_of_draft
    from extract.transcript.reading import kind_of_file

    return is_page_of_draft(path) or kind_of_file(path) != ""


class Batch:
    """Drafts sources one after another and keeps account of what failed and what was kept."""

    def __init__(self, sources: Sequence[Source], out: Path | None, *, ledger: bool, replace: bool) -> None:
        self.sources = sources
        self.out = out
        self.ledger = ledger
        self.replace = replace
        self.failed: list[str] = []
        self.faulty = False
        self.empty: list[str] = []
        self.shown: list[str] = []
        self.names = Counter(source.name for source in sources)

    def run(self) -> int:
        """Draft every source; the exit code of what came of them. A person watching sees how far it has come."""
        if self.out is not None:
            sweep(self.out)
        with Progress(len(self.sources)) as progress:
            for source in self.sources:
                note = self._one(source)
                progress.advance(note)
        for text in self.shown:
            print_page(text)
        if len(self.sources) > 1 and self.failed:
            click.echo(f"{len(self.failed)} of {len(self.sources)} transcripts were not drafted:", err=True)
        for line in self.failed:
            click.echo(f"Error: {line}", err=True)
        for place in self.empty:
            click.echo(f"{place}: {NOT_HEARD}", err=True)
        return FAULT if self.faulty else BAD_INPUT if self.failed else 1 if self.empty else 0

    def _one(self, source: Source) -> str:
        """Draft one source, and say what was done; a fault in it is noted, and the others go on."""
        try:
            if self.out is not None:
                return self._write(source, self.out)
            self.shown.append(self._page(_read(source)))
        except CardwrightError as error:
            self.failed.append(str(error))
        except Exception as error:
            if len(self.sources) == 1:
                raise
            place = source.path or "standard input"
            self.failed.append(f"{place}: {fault_words(error)}")
            self.faulty = True
        return ""

    def _page(self, transcript: Transcript) -> str:
        if self.ledger:
            from extract.reconcile import ledger_text

            return ledger_text(transcript)
        from extract.publish.markdown import page

        return page(self._drafted(transcript))

    def _write(self, source: Source, folder: Path) -> str:
        from extract.commands.work.outputs import ChangedByHand, Outputs

        if self.names[source.name] > 1:
            problem = f"several transcripts would be written as {source.name}.draft.json"
            raise CardwrightError(problem, path=source.path, remedy="draft them into different folders")
        outputs = Outputs(folder, source.name, source.path)
        transcript = _read(source)
        outputs.check_recording(transcript.sha256)
        kept = None if self.replace else outputs.changed_by_hand(ledger=self.ledger)
        if kept is not None:
            return _kept(outputs, kept)
        drafted = self._drafted(transcript)
        try:
            written = outputs.write(drafted, self._ledger_of(transcript), replace=self.replace)
        except ChangedByHand as changed:
            return _kept(outputs, changed.path)
        return _wrote(written)

    def _drafted(self, transcript: Transcript) -> RecipeDraft:
        """The draft; a talk without a dish is told of at the end."""
        from extract.pipeline import draft_transcript

        drafted = draft_transcript(transcript)
        if not drafted.dishes:
            self.empty.append(transcript.file)
        return drafted

    def _ledger_of(self, transcript: Transcript) -> str | None:
        if not self.ledger:
            return None
        from extract.reconcile import ledger_text

        return ledger_text(transcript)


def _wrote(written: Written) -> str:
    """What was written, and what of a person's work found no place in it."""
    *some, last = map(str, written.files)
    note = f"wrote {', '.join(some)} and {last}"
    if written.unplaced:
        count = len(written.unplaced)
        answers = "1 answer is" if count == 1 else f"{count} answers are"
        note += f"; {answers} kept under unplaced: the dish that was asked about is no longer there"
    return note


def _kept(outputs: Outputs, path: Path) -> str:
    """What was left as it stands, and whether the page beside it shows it."""
    note = f"kept {path}: changed since it was written (--replace writes over it)"
    if path == outputs.draft and outputs.page_is_older():
        note += f"; {outputs.page} is older than it (cardwright page {outputs.draft} prints it anew)"
    return note


def _read(source: Source) -> Transcript:
    if source.path is not None:
        return read_transcript(source.path)
    from extract.transcript.reading import LIMIT

    return read_transcript(None, sys.stdin.buffer.read(LIMIT + 1), "standard input")
