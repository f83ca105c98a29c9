"""SubRip (.srt): numbered cues under a line of times. It has no standard, and files vary.

A comma or a dot before the milliseconds, numbers missing or out of order, no empty line between two cues, an
empty line inside one: all of them are read. A line with an arrow whose times cannot be made out is refused.
"""

from __future__ import annotations

import html
import re

from extract.transcript.formats.raw import RawCue, split_lines
from extract.transcript.formats.timings import ARROW, Timing, check_whole, cut_short, read_timing

_TIMES = re.compile(r"^[ \t]*\d[\d:.,]*[ \t]*-->", re.MULTILINE | re.ASCII)
_TAG = re.compile(
    r"</?(?:[biusv]|font|c|lang|ruby|rt)(?:[\s.][^>]{0,500})?>|\{\\[^}]{0,500}\}|<\d[\d:.]{0,20}>",
    re.IGNORECASE,
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
        timing = read_timing(lines[at], at + 1, name)
        body = [_words_behind(timing), *lines[at + 1 : following]]
        if following < len(lines) and _counter(body[-1]) is not None:
            body.pop()  # the number of the next cue
        words = html.unescape(_TAG.sub("", "\n".join(body)))
        cues.append(RawCue(timing.start, timing.end, words, line=at + 1))
    _check_last(lines, heads[-1], read_timing(lines[heads[-1]], heads[-1] + 1, name), name)
    return cues


def _words_behind(timing: Timing) -> str:
    """Words that stand on the line of times itself; coordinates ("X1:40 Y1:20") and settings are none."""
    return "" if ":" in timing.rest.partition(" ")[0] else timing.rest


def _check_last(lines: list[str], head: int, timing: Timing, name: str) -> None:
    """Refuse a file that ends right after a line of times, or after the number of a further cue."""
    body = lines[head + 1 :]
    if not any(line.strip() for line in body) and len(body) < 2 and not timing.rest:
        raise cut_short(head + 1, name)
    if not timing.rest or any(line.strip() for line in body):
        check_whole(lines, head, name)
    last = max(at for at, line in enumerate(lines) if line.strip())
    alone = last > head and not lines[last - 1].strip()
    if (
        alone
        and _counter(lines[last]) is not None
        and _counter(lines[last]) == _counter(lines[head - 1], plus=1)
    ):
        raise cut_short(last + 1, name)


def _counter(line: str, *, plus: int = 0) -> int | None:
    """The number of a cue (and ``plus``), None where ``line`` is none."""
    return int(line) + plus if re.fullmatch(r"\s*\d{1,6}\s*", line, re.ASCII) else None
