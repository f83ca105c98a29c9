"""Text with a time before each paragraph: ``[3:42] words``, ``00:03:42 words``, ``3:42 - words``.

The stamp may stand on a line of its own, in brackets or bare, in Markdown's bold, after a speaker's name, or
be a pair of times (``[3:42 - 3:50]``). Two figures are minutes and seconds, three are hours, minutes and
seconds, and a fourth, the frame, is left out. A file keeps to one shape: once it has shown ``[3:42]``, a line
that begins with "10:30 in the morning" is speech.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field

from extract.errors import CardwrightError
from extract.transcript.formats.raw import RawCue, split_lines
from extract.transcript.times import clock_time

_TIME = r"\d{1,3}:\d{2}(?::\d{2})?(?:[.,]\d{1,3}|:\d{2})?"
_TIMES = rf"(?P<start>{_TIME})(?:\s*(?:-->|-|–|—|to|,)\s*(?P<end>{_TIME}))?"
_BEFORE = r"[*_>\s-]*"
_NAME = r"(?P<name>[A-Z][\w.']*(?: (?:[A-Z][\w.']*|\d{1,2})){0,2})[*_:]*\s+"
_AFTER = r"[*_]*\s*(?:[-–—:|]+(?=\s|$))?\s*(?P<words>.*)"
SHAPES = {
    "brackets": re.compile(rf"{_BEFORE}(?:{_NAME})?\[\s*{_TIMES}\s*\]{_AFTER}"),
    "parentheses": re.compile(rf"{_BEFORE}(?:{_NAME})?\(\s*{_TIMES}\s*\){_AFTER}"),
    "bare": re.compile(rf"{_BEFORE}(?P<name>){_TIMES}(?=[\s:|*_–—-]|$){_AFTER}"),
    "behind a name": re.compile(rf"{_BEFORE}{_NAME}{_TIMES}[*_:]*\s*(?P<words>$)"),
}
_INLINE = re.compile(rf"(?<=\S)\s+(?=\[{_TIME}\])")
_LIKE_STAMP = re.compile(r"\s*[\[(]\s*\d+:\d[\d:.,]*\s*[\])]")
_HEADING = re.compile(r"\s*#{1,6}\s|\s*-{3,}\s*$|[A-Z][a-z]+: \S")  # and lines such as "Title: words"
ENOUGH = 3  # stamped lines that make a stamped text of one that does not begin with a stamp


@dataclass(slots=True)
class _Stamped:
    """A cue whose words are still being gathered."""

    start: int
    end: int | None
    speaker: str
    line: int
    words: list[str] = field(default_factory=list)


def is_stamped(text: str) -> bool:
    """Whether a stamp opens the first line that is no heading, or opens three lines and more."""
    return _shape_of(text) != ""


def read_stamped(text: str, name: str) -> list[RawCue]:
    """The paragraphs of ``text`` with their times, ends left open where the file gives none.

    Raises CardwrightError on a bracketed stamp that is no time.
    """
    shape = SHAPES[_shape_of(text)]
    cues: list[_Stamped] = []
    for number, line in enumerate(split_lines(text), start=1):
        for piece in _pieces(line, shape):
            found = _stamp(piece, shape)
            if found is not None:
                cues.append(_open(found, number))
            elif _LIKE_STAMP.match(piece):
                problem = f'"{" ".join(piece.split())[:12]}" does not begin with a time'
                remedy = "write it as [3:42] or [1:03:42]"
                raise CardwrightError(problem, path=name, line=number, remedy=remedy)
            elif cues:
                cues[-1].words.append(piece)
            elif piece.strip() and not _HEADING.match(piece):
                cues.append(_Stamped(0, None, "", number, [piece]))
    return [RawCue(cue.start, cue.end, "\n".join(cue.words), cue.speaker, cue.line) for cue in cues]


def _shape_of(text: str) -> str:
    """The shape of the text's stamps, "" where it has none."""
    lines = [line for line in split_lines(text) if line.strip()]
    first = next((line for line in lines if not _HEADING.match(line)), "")
    for name, shape in SHAPES.items():
        opens = _stamp(first, shape) is not None
        if opens or sum(_stamp(line, shape) is not None for line in lines) >= ENOUGH:
            return name
    return "brackets" if _LIKE_STAMP.match(first) else ""


def _pieces(line: str, shape: re.Pattern[str]) -> Iterator[str]:
    """``line`` cut before every further stamp in brackets within it."""
    found = _stamp(line, shape)
    head = found.start("words") if found else 0
    rest = _INLINE.split(line[head:])
    yield line[:head] + rest[0]
    yield from rest[1:]


def _stamp(line: str, shape: re.Pattern[str]) -> re.Match[str] | None:
    found = shape.fullmatch(line)
    return found if found is not None and _clock(found["start"]) is not None else None


def _clock(text: str | None) -> int | None:
    """Milliseconds; the frame that may stand as a fourth figure is left out."""
    if text is not None and text.count(":") == 3:
        text = text.rpartition(":")[0]
    return None if text is None else clock_time(text)


def _open(found: re.Match[str], number: int) -> _Stamped:
    start = _clock(found["start"]) or 0
    return _Stamped(start, _clock(found["end"]), (found["name"] or "").strip(), number, [found["words"]])
