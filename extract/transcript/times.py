"""Clock times as captions and transcripts write them, to and from whole milliseconds."""

from __future__ import annotations

import re

# WebVTT (W3C, section 4.1) has HH:MM:SS.mmm with optional hours; SubRip writes a comma; people leave out the
# fraction and write one digit where two belong.
CLOCK = r"(?:(\d{1,4}):)?(\d{1,4}):(\d{2})(?:[.,](\d{1,9}))?"
_CLOCK = re.compile(CLOCK, re.ASCII)


def clock_time(text: str) -> int | None:
    """Milliseconds of ``[H:]MM:SS[.fff]`` (dot or comma), None where ``text`` is no such time.

    Minutes beside hours, and seconds, run from 0 to 59; minutes without hours may be more ("72:10").
    """
    found = _CLOCK.fullmatch(text.strip())
    if not found:
        return None
    hours, minutes, seconds = (int(part or 0) for part in found.groups()[:3])
    if seconds > 59 or (found[1] is not None and minutes > 59):
        return None
    return ((hours * 60 + minutes) * 60 + seconds) * 1000 + fraction_ms(found[4])


def fraction_ms(digits: str | None) -> int:
    """Milliseconds of the digits after a decimal point: "5" is 500, "0004" is 0 and "9996" is 1000."""
    if not digits:
        return 0
    scale: int = 10 ** len(digits)
    return (int(digits) * 2000 + scale) // (2 * scale)


def show_clock(ms: int) -> str:
    """``HH:MM:SS.mmm``, the form of WebVTT: 3723004 is 01:02:03.004."""
    seconds, rest = divmod(ms, 1000)
    minutes, seconds = divmod(seconds, 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours:02}:{minutes:02}:{seconds:02}.{rest:03}"
