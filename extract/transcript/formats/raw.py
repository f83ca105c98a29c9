"""What a format's reader hands over: a cue as it stands in the file, its markup gone."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class RawCue:
    """``text`` keeps its line breaks, speaker labels and sounds; times are milliseconds, ``line`` is 1-based.

    ``end`` is None where the format gives only a beginning (stamped text).
    """

    start: int
    end: int | None
    text: str
    speaker: str = ""
    line: int = 0


def split_lines(text: str) -> list[str]:
    """The lines of a file as an editor counts them: LF, CRLF and CR end a line, nothing else does."""
    return text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
