"""Text with a time before each paragraph: ``[3:42] words``, ``00:03:42 words``, ``3:42 - words``.

The stamp may stand on a line of its own, in brackets or bare, in Markdown's bold, after a speaker's name, or
be a pair of times (``[3:42 - 3:50]``). Two figures are minutes and seconds, three are hours, minutes and
seconds, and a fourth, the frame, is left out.
"""

from __future__ import annotations

import re

from extract.errors import CardwrightError
from extract.transcript.raw import RawCue, split_lines
from extract.transcript.times import clock_time

_TIME = r"\d{1,3}:\d{2}(?::\d{2})?(?:[.,]\d{1,3}|:\d{2})?"
_RANGE = rf"(?P<start>{_TIME})(?:\s*(?:-->|-|–|—|to|,)\s*(?P<end>{_TIME}))?"
_STAMP = re.compile(
    rf"[*_>\s-]*(?P<name>[A-Z][\w.' ]{{0,30}}?:?\s+(?=[\[(\d]))?"
    rf"(?:\[\s*{_RANGE}\s*\]|\(\s*{_RANGE.replace('<start>', '<start2>').replace('<end>', '<end2>')}\s*\)"
    rf"|{_RANGE.replace('<start>', '<start3>').replace('<end>', '<end3>')}(?=[\s:*_–—-]|$))"
    rf"[*_]*\s*(?:[-–—:|]+(?=\s|$))?\s*(?P<words>.*)"
)
_INLINE = re.compile(rf"(?<=\S)\s+(?=\[{_TIME}\])")
_LIKE_STAMP = re.compile(r"\s*[\[(]\s*\d+:[\d:.,]*\s*[\])]")
_HEADING = re.compile(r"\s*#{1,6}\s|\s*-{3,}\s*$|[A-Z][a-z]+: \S")  # and lines such as "Title: words"


def is_stamped(text: str) -> bool:
    """Whether a stamp opens the first line that is no heading, or opens three lines and more."""
    lines = [line for line in split_lines(text) if line.strip()]
    first = next((line for line in lines if not _HEADING.match(line) or _match(line)), "")
    return _match(first) is not None or sum(_match(line) is not None for line in lines) >= 3


def read_stamped(text: str, name: str) -> list[RawCue]:
    """The paragraphs of ``text`` with their times, ends left open where the file gives none.

    Raises CardwrightError on a bracketed stamp that is no time.
    """
    cues: list[_Open] = []
    for number, line in enumerate(split_lines(text), start=1):
        for piece in _INLINE.split(line):
            found = _match(piece)
            if found:
                cues.append(_open(found, number))
            elif _LIKE_STAMP.match(piece):
                problem = f'"{piece.split("]")[0].strip()[:20]}]" is not a time'
                raise CardwrightError(
                    problem, path=name, line=number, remedy="write it as [3:42] or [1:03:42]"
                )
            elif cues:
                cues[-1].words.append(piece)
            elif piece.strip() and not _HEADING.match(piece):
                cues.append(_Open(0, None, "", number, [piece]))
    return [RawCue(cue.start, cue.end, "\n".join(cue.words), cue.speaker, cue.line) for cue in cues]


class _Open:
    """A cue whose words are still being gathered."""

    __slots__ = ("end", "line", "speaker", "start", "words")

    def __init__(self, start: int, end: int | None, speaker: str, line: int, words: list[str]) -> None:
        self.start, self.end, self.speaker, self.line, self.words = start, end, speaker, line, words


def _match(line: str) -> re.Match[str] | None:
    found = _STAMP.fullmatch(line)
    if found is None or _time(found, "start") is None:
        return None
    in_a_sentence = found["name"] and found["start3"] and found["words"]  # "About 10:30 we went"
    return None if in_a_sentence else found


def _time(found: re.Match[str], which: str) -> int | None:
    text = next((found[which + n] for n in ("", "2", "3") if found[which + n]), None)
    if text is None:
        return None
    if text.count(":") == 3:
        text = text.rpartition(":")[0]
    return clock_time(text)


def _open(found: re.Match[str], number: int) -> _Open:
    start = _time(found, "start") or 0
    speaker = (found["name"] or "").strip(" :")
    return _Open(start, _time(found, "end"), speaker, number, [found["words"]])
