"""SubRip (.srt): numbered cues under a line of times. It has no standard, and files vary.

A comma or a dot before the milliseconds, numbers missing or out of order, no empty line between two cues, an
empty line inside one: all of them are read. A line with an arrow whose times cannot be made out is refused.
"""

from __future__ import annotations

import html
import re

from extract.transcript.raw import RawCue, split_lines
from extract.transcript.timings import ARROW, cut_short, read_timing

_TIMES = re.compile(r"^[ \t]*\d[\d:.,]*[ \t]*-->", re.MULTILINE | re.ASCII)
_TAG = re.compile(
    r"</?(?:[biusv]|font|c|lang|ruby|rt)(?:[\s.][^>]*)?>|\{\\[^}]*\}|<\d[\d:.]*>", re.IGNORECASE
)


def is_subrip(text: str) -> bool:
    """Whether any line of ``text`` is a line of times."""
    return _TIMES.search(text) is not None


def read_subrip(text: str, name: str) -> list[RawCue]:
    """The cues of a SubRip file, or of WebVTT without its first line.

    Raises CardwrightError, with the line, on malformed times and on a file that breaks off.
    """
    lines = split_lines(text)
    heads = [at for at, line in enumerate(lines) if ARROW in line]
    cues = []
    for at, following in zip(heads, [*heads[1:], len(lines)], strict=True):
        start, end = read_timing(lines[at], at + 1, name)
        body = lines[at + 1 : following]
        if following < len(lines) and body and body[-1].strip().isdecimal():
            body.pop()  # the number of the next cue
        words = html.unescape(_TAG.sub("", "\n".join(body)))
        cues.append(RawCue(start, end, words, line=at + 1))
    _check_last(lines, heads[-1], name)
    return cues


def _check_last(lines: list[str], head: int, name: str) -> None:
    """Refuse a file that ends right after a line of times, or after the number of a further cue."""
    body = lines[head + 1 :]
    if not any(line.strip() for line in body) and len(body) < 2:
        raise cut_short(head + 1, name)
    filled = [at for at, line in enumerate(lines) if line.strip()]
    last, before = filled[-1], filled[-2] if len(filled) > 1 else 0
    if lines[last].strip().isdecimal() and before > head and last - before > 1:
        raise cut_short(last + 1, name)
