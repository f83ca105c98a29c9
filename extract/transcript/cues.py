"""What every reader returns: a transcript as a row of timed cues."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Cue:
    """One caption, paragraph or segment: the words spoken and when.

    ``index`` is its 0-based place in the file, ``start`` and ``end`` whole milliseconds from the transcript's
    zero, ``text`` the speech alone (no tags, speaker names, music or laughter), ``line`` the 1-based line of
    the file on which it begins.
    """

    index: int
    start: int
    end: int
    text: str
    speaker: str = ""
    line: int = 0


@dataclass(frozen=True, slots=True)
class Transcript:
    """The words of one recording. ``timed`` is false for a text without any times (all cues are at 0)."""

    file: str
    sha256: str
    cues: tuple[Cue, ...]
    timed: bool = True
    format: str = ""
