"""What every WebVTT file has: times, escapes and comments (W3C WebVTT, the syntax of section 4)."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

_ESCAPES = {"&": "&amp;", "<": "&lt;", ">": "&gt;"}


@dataclass(frozen=True, slots=True)
class Cue:
    """One cue: whole milliseconds from the recording's zero, and its lines."""

    start: int
    end: int
    lines: tuple[str, ...]


def document(title: str, notes: Iterable[str], cues: Iterable[Cue]) -> str:
    """A WebVTT file: a title in its head, comments, numbered cues."""
    blocks = [f"WEBVTT - {_comment(title)}".rstrip(" -")]
    blocks += [f"NOTE {_comment(note)}" for note in notes]
    blocks += _numbered(cues)
    return "\n\n".join(blocks) + "\n"


def _numbered(cues: Iterable[Cue]) -> Iterator[str]:
    for number, cue in enumerate(cues, start=1):
        text = "\n".join(escaped(line) for line in cue.lines)
        yield f"{number}\n{timestamp(cue.start)} --> {timestamp(cue.end)}\n{text}"


def escaped(text: str) -> str:
    """Cue text in which nothing is a tag, an entity or an arrow."""
    return "".join(_ESCAPES.get(char, char) for char in text)


def _comment(text: str) -> str:
    """Text of a comment or the head, where an arrow may not stand and cannot be escaped."""
    while "-->" in text:
        text = text.replace("-->", "->")
    return text


def timestamp(milliseconds: int) -> str:
    """A time as "hh:mm:ss.ttt", hours of two figures or more."""
    seconds, rest = divmod(milliseconds, 1000)
    return f"{seconds // 3600:02d}:{seconds % 3600 // 60:02d}:{seconds % 60:02d}.{rest:03d}"
