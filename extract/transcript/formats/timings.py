"""The line of times that WebVTT and SubRip share: ``00:01.000 --> 00:04.000 settings``."""

from __future__ import annotations

import re
from dataclasses import dataclass

from extract.errors import CardwrightError
from extract.transcript.times import clock_time

ARROW = "-->"
_TIMING = re.compile(r"\s*([\d:.,]+)\s*-->\s*([\d:.,]+)(?:\s(.*))?", re.ASCII)


@dataclass(frozen=True, slots=True)
class Timing:
    """Start and end in milliseconds, and what stands behind them on the line (settings, as a rule)."""

    start: int
    end: int
    rest: str


def read_timing(line: str, number: int, name: str) -> Timing:
    """The timing line at ``number`` of file ``name``.

    Raises CardwrightError where a time is missing or malformed.
    """
    found = _TIMING.fullmatch(line)
    start, end = (clock_time(found[1]), clock_time(found[2])) if found else (None, None)
    if start is None or end is None:
        shown = " ".join(line.split())[:60]
        problem = f'"{shown}" does not give a start and an end'
        raise CardwrightError(
            problem, path=name, line=number, remedy="write it as 00:01:05.000 --> 00:01:09.500"
        )
    return Timing(start, end, (found[3] or "").strip() if found else "")


def cut_short(number: int, name: str) -> CardwrightError:
    """The error for a file that ends in the middle of a cue."""
    problem = "the file ends in the middle of this cue"
    return CardwrightError(problem, path=name, line=number, remedy="save or download the whole file again")


_WHOLE = re.compile(r"[.!?…。][\"'”’»)\]♪*]*$|[)\]♪♫*]$|-{2}$|—$")
_TAGS = re.compile(r"</?[A-Za-z][^<>]{0,200}>|\{\\[^}]{0,200}\}")
# What the line of a further cue begins with: its number, a time, an arrow.
_HEAD = re.compile(r"\s*(?:\d{1,6}|\d{1,4}:[\d:.,]*(?:\s*-{0,2}>?\s*[\d:.,]*)?)\s*", re.ASCII)


def check_whole(lines: list[str], timing: int, name: str) -> None:
    """Raise CardwrightError where a file stops within its last cue, whose line of times is at ``timing`` (0-based).

    A whole file ends its last line; or its last words end a sentence, for writers that leave the line open. What begins
    another cue and goes no further is broken off in any case.
    """
    body = [line for line in lines[timing + 1 :] if line.strip()]
    last = max(at for at, line in enumerate(lines) if line.strip())
    if len(body) > 1 and _HEAD.fullmatch(lines[last]) and (":" in lines[last] or not lines[last - 1].strip()):
        raise cut_short(last + 1, name)
    if lines[-1].strip() and not _WHOLE.search(_TAGS.sub("", lines[-1])):
        problem = "the file ends in the middle of this cue, and its last line is not ended"
        remedy = (
            "save or download the whole file again; if these are its last words, end them with a line break"
        )
        raise CardwrightError(problem, path=name, line=timing + 1, remedy=remedy)
