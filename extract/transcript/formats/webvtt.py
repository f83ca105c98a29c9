"""WebVTT as the W3C describes it (Candidate Recommendation of 4 April 2019, sections 4 and 6).

Faults that the W3C's parser passes over in silence (a malformed time, for one) would cost the cook's words
here, so they are refused with their line.
"""

from __future__ import annotations

import html
import re

from extract.errors import CardwrightError
from extract.transcript.formats.raw import RawCue, split_lines
from extract.transcript.formats.timings import ARROW, check_whole, cut_short, read_timing

SIGNATURE = "WEBVTT"
# Lengths are bounded so that a damaged file costs no more than a whole one.
_RUBY_TEXT = re.compile(r"<rt[^>]{0,200}>.{0,200}?</rt>", re.DOTALL)
_VOICE = re.compile(r"<v(?:\.[^\s>]{0,200})?\s+([^>]{0,200})>")
_TAG = re.compile(r"<[^>]{0,500}>")
_OPEN_TAG = re.compile(r"<[/\w][^>]*")


def is_webvtt(text: str) -> bool:
    """Whether ``text`` carries WebVTT's signature."""
    return text.startswith(SIGNATURE) and (len(text) == 6 or text[6] in " \t\r\n")


def read_webvtt(text: str, name: str) -> list[RawCue]:
    """The cues of a WebVTT file.

    Raises CardwrightError, with the line, on a malformed timing line and on a file that breaks off.
    """
    lines = split_lines(text)
    cues: list[RawCue] = []
    at = 1
    while at < len(lines) and lines[at] and ARROW not in lines[at]:  # header lines after the signature
        at += 1
    while at < len(lines):
        if ARROW in lines[at]:
            stop = _payload_end(lines, at + 1)
            cues.append(_cue(lines, at, stop, name))
            at = stop
        else:
            at = _skip(lines, at)
    _check_last(lines, cues, name)
    return cues


def _skip(lines: list[str], at: int) -> int:
    """Past a blank line, an identifier, or a NOTE, STYLE or REGION block."""
    if not lines[at]:
        return at + 1
    while at < len(lines) and lines[at] and ARROW not in lines[at]:
        at += 1
    return at


def _payload_end(lines: list[str], at: int) -> int:
    """A cue runs to the first empty line or the next timing line."""
    while at < len(lines) and lines[at] and ARROW not in lines[at]:
        at += 1
    return at


def _cue(lines: list[str], at: int, stop: int, name: str) -> RawCue:
    timing = read_timing(lines[at], at + 1, name)
    payload = "\n".join(lines[at + 1 : stop])
    voices = {html.unescape(voice).strip() for voice in _VOICE.findall(payload)}
    speaker = voices.pop() if len(voices) == 1 else ""
    return RawCue(timing.start, timing.end, plain_words(payload), speaker, at + 1)


def plain_words(payload: str) -> str:
    """Cue text without tags, inline times and readings over characters, its entities resolved."""
    return html.unescape(_TAG.sub("", _RUBY_TEXT.sub("", payload)))


def _check_last(lines: list[str], cues: list[RawCue], name: str) -> None:
    """Refuse a file that breaks off after a timing line or inside a tag, or that holds no cue at all."""
    if not cues:
        problem = "the file has WebVTT's first line but no cue"
        raise CardwrightError(problem, path=name, line=1, remedy="save or download the whole file again")
    last = cues[-1].line
    body = lines[last:]
    if not any(body) and len(body) < 2:
        raise cut_short(last, name)
    if _OPEN_TAG.fullmatch(_after_last_tag("\n".join(body).rstrip())):
        raise cut_short(last, name)
    if not any(ARROW in line for line in lines[last:]) and not _other_block(lines, last):
        check_whole(lines, last - 1, name)


def _other_block(lines: list[str], last: int) -> bool:
    """Whether a note or another block that is no cue stands behind the last cue."""
    blank = next((at for at in range(last, len(lines)) if not lines[at].strip()), len(lines))
    following = next((line for line in lines[blank:] if line.strip()), "")
    return following.startswith(("NOTE", "STYLE", "REGION"))


def _after_last_tag(text: str) -> str:
    return text[max(text.rfind("<"), 0) :]
