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
