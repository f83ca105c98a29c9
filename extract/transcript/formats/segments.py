"""JSON as speech recognition gives it: segments with start, end and text, or words each with its time.

Numbers are seconds, strings clock times or seconds, and a name that ends in ``ms`` means milliseconds.
"""

from __future__ import annotations

import json
import re
from decimal import Decimal
from typing import Any

from extract.errors import CardwrightError
from extract.transcript.formats.raw import RawCue
from extract.transcript.times import clock_time

LISTS = ("segments", "chunks", "cues", "captions", "results", "words", "transcript")
TEXTS = ("text", "word", "content", "transcript", "punctuated_word")
STARTS = ("start", "start_time", "startTime", "begin", "from", "offset")
ENDS = ("end", "end_time", "endTime", "to")
REMEDY = 'give a list of {"start": 1.5, "end": 4.0, "text": "words"}'
_LIKE_JSON = re.compile(r"\s*(?:\{\s*(?:[\"'}]|$)|\[\s*(?:[\[{\]\"]|-?\d+(?:\.\d+)?\s*,|$))")
MOST_ROWS = 300_000
PAUSE_MS = 1000  # words parted by a longer pause belong to different cues
WORDS_A_CUE = 12


def is_json(text: str) -> bool:
    """Whether ``text`` opens as a JSON list or object does (``[3:42]`` and ``[Music]`` do not)."""
    return _LIKE_JSON.match(text) is not None


def read_segments(text: str, name: str) -> list[RawCue]:
    """The segments of a JSON transcript; single words are gathered into cues of up to twelve.

    Raises CardwrightError, with the line, where it is not JSON or a segment lacks its text or times.
    """
    try:
        whole = json.loads(text, parse_float=Decimal, parse_constant=_no_constant)
    except json.JSONDecodeError as error:
        problem = f"this is not whole JSON: {error.msg}"
        raise CardwrightError(
            problem, path=name, line=error.lineno, remedy="save or export it again"
        ) from None
    except (ValueError, ArithmeticError, RecursionError):
        problem = "this JSON holds what no transcript holds"
        raise CardwrightError(problem, path=name, line=1, remedy=REMEDY) from None
    rows, key = _rows(whole, name)
    if len(rows) > MOST_ROWS:
        problem = f"{len(rows):,} segments are more than a day of talk has words"
        raise CardwrightError(problem, path=name, line=1, remedy="cut the transcript and draft its parts")
    lines = _lines(text, key, len(rows))
    cues = [_cue(row, line, name) for row, line in zip(rows, lines, strict=True)]
    single = bool(rows) and all("word" in row or "punctuated_word" in row for row in rows)
    return _gather(cues) if single else cues


def _no_constant(text: str) -> None:
    raise ValueError(text)


def _rows(whole: Any, name: str) -> tuple[list[dict[str, Any]], str]:
    """The list of segments and the key under which it stands ("" for a bare list)."""
    key = ""
    if isinstance(whole, dict):
        if str(whole.get("format")).startswith("recipe-draft/"):
            problem = "this is a recipe draft, not a transcript"
            raise CardwrightError(problem, path=name, line=1, remedy="give the transcript it was made from")
        key = next((one for one in LISTS if isinstance(whole.get(one), list)), "")
        if not key:
            problem = "this JSON object has no list of segments"
            raise CardwrightError(problem, path=name, line=1, remedy=REMEDY)
        whole = whole[key]
    if not isinstance(whole, list) or not all(isinstance(row, dict) for row in whole):
        problem = "this JSON is not a list of segments"
        raise CardwrightError(problem, path=name, line=1, remedy=REMEDY)
    return whole, key


def _lines(text: str, key: str, count: int) -> list[int]:
    """The 1-based line on which each segment begins; line 1 for all where they cannot be told."""
    decoder = json.JSONDecoder()
    opening = re.compile(rf'"{key}"\s*:\s*\[' if key else r"\s*\[")
    for found in opening.finditer(text):
        places: list[int] = []
        at = found.end()
        try:
            while len(places) < count:
                at = _next_value(text, at)
                places.append(at)
                at = decoder.raw_decode(text, at)[1]
        except (ValueError, ArithmeticError, RecursionError):
            continue
        return _line_numbers(text, places)
    return [1] * count


def _next_value(text: str, at: int) -> int:
    while at < len(text) and text[at] in " \t\r\n,":
        at += 1
    return at


def _line_numbers(text: str, places: list[int]) -> list[int]:
    numbers, line, before = [], 1, 0
    for place in places:
        line += text.count("\n", before, place)
        before = place
        numbers.append(line)
    return numbers


def _cue(row: dict[str, Any], line: int, name: str) -> RawCue:
    words = row.get("words")
    timed = [word for word in words if isinstance(word, dict)] if isinstance(words, list) else []
    text = next((row[key] for key in TEXTS if isinstance(row.get(key), str)), None)
    if text is None and timed:
        text = " ".join(str(next((word[key] for key in TEXTS if key in word), "")).strip() for word in timed)
    start, end = _time(row, STARTS, 0), _time(row, ENDS, 1)
    if timed:
        start = _time(timed[0], STARTS, 0) if start is None else start
        end = _time(timed[-1], ENDS, 1) if end is None else end
    if text is None or start is None:
        problem = f"this segment has no {'text' if text is None else 'start'}"
        raise CardwrightError(problem, path=name, line=line, remedy=REMEDY)
    lasts = _milliseconds(row.get("duration"), thousandths=False)
    if end is None and lasts is not None:
        end = start + lasts
    speaker = row.get("speaker")
    return RawCue(start, end, text, speaker.strip() if isinstance(speaker, str) else "", line)


def _time(row: dict[str, Any], keys: tuple[str, ...], place: int) -> int | None:
    """Milliseconds under the first of ``keys`` that is there, or at ``place`` of a "timestamp" pair."""
    for key in keys:
        for name, thousandths in ((key, False), (f"{key}_ms", True), (f"{key}Ms", True)):
            if name in row:
                return _milliseconds(row[name], thousandths=thousandths)
    pair = row.get("timestamp")
    if isinstance(pair, list) and len(pair) == 2:
        return _milliseconds(pair[place], thousandths=False)
    return None


def _milliseconds(value: Any, *, thousandths: bool) -> int | None:
    if isinstance(value, str):
        clock = clock_time(value)
        if clock is not None:
            return clock
        value = (
            Decimal(value)
            if re.fullmatch(r"\d{1,9}(\.\d{1,9})?s?", value, re.ASCII) and value[-1] != "s"
            else None
        )
    if isinstance(value, bool) or not isinstance(value, int | Decimal) or not 0 <= value < 10**9:
        return None
    return round(value if thousandths else value * 1000)


def _gather(words: list[RawCue]) -> list[RawCue]:
    """Cues of up to twelve words, a new one after a pause of a second or at another speaker."""
    cues: list[RawCue] = []
    count = 0
    for word in words:
        last = cues[-1] if cues else None
        end = word.start if word.end is None else word.end
        joins = (
            last is not None
            and last.end is not None
            and count < WORDS_A_CUE
            and word.start >= last.start
            and word.start - last.end <= PAUSE_MS
            and word.speaker == last.speaker
        )
        if last is None or not joins:
            cues.append(RawCue(word.start, end, word.text.strip(), word.speaker, word.line))
            count = 1
        else:
            cues[-1] = RawCue(last.start, end, f"{last.text} {word.text.strip()}", last.speaker, last.line)
            count += 1
    return cues
