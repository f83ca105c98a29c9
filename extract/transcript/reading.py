"""From a file or a stream of bytes to a ``Transcript``: the format told by what is in it, not by its name."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Callable, Sequence
from dataclasses import replace
from itertools import pairwise
from pathlib import Path
from statistics import median

from extract.errors import CardwrightError
from extract.transcript.cues import Cue, Transcript
from extract.transcript.encodings import decode_text
from extract.transcript.formats.others import NotTranscript, json_kind, kind_beside_talk, other_kind
from extract.transcript.formats.plain import read_plain
from extract.transcript.formats.raw import RawCue
from extract.transcript.formats.segments import is_json, read_segments
from extract.transcript.formats.stamped import is_stamped, read_stamped
from extract.transcript.formats.subrip import is_subrip, read_subrip
from extract.transcript.formats.ttml import is_ttml, read_ttml
from extract.transcript.formats.webvtt import is_webvtt, read_webvtt
from extract.transcript.rolling import new_words
from extract.transcript.times import show_clock
from extract.transcript.words import label_names, spoken, take_label

LIMIT = 50_000_000  # bytes; an hour of talk with a time for every word is about one million
_HALF_PAIR = re.compile("[\ud800-\udfff]")  # JSON may hold half of a character
MOST_WORDS = 250_000  # a day of talk without a pause
MOST_BLANKS = (
    8 * MOST_WORDS
)  # of a text in which hardly anything but words can stand, or words shown three times over
LONGEST_WORD = 2_000  # letters; no language that is written with blanks comes near
_ONE_WORD = re.compile(rf"\S{{{LONGEST_WORD + 1}}}")
# How fast radio speakers talk: 160 words a minute (Tauroza and Allison, "Speech rates in British English", Applied
# Linguistics 11, 1990). For the end of a last cue that has none, where no other times tell how fast this cook talks.
WORDS_A_SECOND = 160 / 60

Reader = Callable[[str, str], list[RawCue]]
FORMATS: tuple[tuple[str, Callable[[str], bool], Reader], ...] = (
    ("webvtt", is_webvtt, read_webvtt),
    ("ttml", is_ttml, read_ttml),
    ("json", is_json, read_segments),
    ("subrip", is_subrip, read_subrip),
    ("stamped", is_stamped, read_stamped),
    ("plain", lambda _text: True, read_plain),
)


def read_transcript(path: Path | None, data: bytes | None = None, name: str = "") -> Transcript:
    """The transcript in ``path``, or in ``data`` (from standard input, say) shown to the user as ``name``.

    Raises CardwrightError, with file and line, where the input cannot be read as a transcript: missing,
    empty, too large, not text, malformed, broken off, times going backwards, or without a spoken word.
    """
    shown = name or (str(path) if path is not None else "standard input")
    if data is None:
        data = _read_bytes(path, shown)
    _check_size(len(data), shown)
    text = decode_text(data, shown).replace("\r\n", "\n").replace("\r", "\n")
    kind = other_kind(text)
    if kind:
        raise NotTranscript(kind, shown)
    if not is_json(text) and not is_ttml(text) and text.count(" ") > MOST_BLANKS:
        raise _too_long(text.count(" "), shown)
    form, reader = next((form, reader) for form, fits, reader in FORMATS if fits(text))
    raw = reader(text, shown)
    timed = form != "plain"
    if timed:
        _check_order(raw, shown)
    cues = finish_cues(raw)
    if not cues:
        problem = "no spoken words in this file"
        raise CardwrightError(
            problem, path=shown, line=1, remedy="only music, sounds or empty cues were found"
        )
    long = next((cue for cue in cues if _ONE_WORD.search(cue.text)), None)
    if long is not None:
        problem = f"a word of more than {LONGEST_WORD:,} letters begins here"
        raise CardwrightError(problem, path=shown, line=long.line, remedy="this is no talk; look at the file")
    words = sum(cue.text.count(" ") + 1 for cue in cues)
    if words > MOST_WORDS:
        raise _too_long(words, shown)
    file = path.name if path is not None else shown
    return Transcript(file, hashlib.sha256(data).hexdigest(), cues, timed, form)


def kind_of_file(path: Path) -> str:
    """What a file is that its content tells to be no transcript ("a table"); "" for all others, unreadable ones too."""
    try:
        data = _read_bytes(path, str(path))
        text = decode_text(data, str(path)).replace("\r\n", "\n").replace("\r", "\n")
    except CardwrightError:
        return ""
    if is_json(text):
        return json_kind(text)
    plain = not any(fits(text) for _, fits, _ in FORMATS[:-1])
    return other_kind(text) or (kind_beside_talk(text) if plain else "")


def _read_bytes(path: Path | None, shown: str) -> bytes:
    if path is None:
        problem = "neither a file nor any data to read"
        raise CardwrightError(problem)
    try:
        _check_size(path.stat().st_size, shown)
        return path.read_bytes()
    except OSError as error:
        problem = f"this file cannot be read: {error.strerror or error}"
        raise CardwrightError(
            problem, path=shown, remedy="check the name and your right to read it"
        ) from None


def _check_size(size: int, shown: str) -> None:
    if size > LIMIT:
        problem = f"{size / 1e6:,.0f} MB is too large for a transcript (the limit is {LIMIT / 1e6:.0f} MB)"
        raise CardwrightError(problem, path=shown, line=1, remedy="give the transcript, not the recording")


def _too_long(words: int, shown: str) -> CardwrightError:
    hours = words / WORDS_A_SECOND / 3600
    problem = (
        f"about {words:,} words, {hours:.0f} hours of talk, are too many (the limit is {MOST_WORDS:,} words)"
    )
    return CardwrightError(problem, path=shown, line=1, remedy="cut the transcript and draft its parts")


def _check_order(raw: Sequence[RawCue], shown: str) -> None:
    """Refuse a cue that ends before it begins or begins before the one in front of it."""
    latest = 0
    for cue in raw:
        if cue.end is not None and cue.end < cue.start:
            problem = f"this cue ends at {show_clock(cue.end)}, before it begins at {show_clock(cue.start)}"
            raise CardwrightError(problem, path=shown, line=cue.line, remedy="correct its times")
        if cue.start < latest:
            problem = f"time goes backwards, from {show_clock(latest)} to {show_clock(cue.start)}"
            raise CardwrightError(problem, path=shown, line=cue.line, remedy="put the cues in order of time")
        latest = cue.start


def finish_cues(raw: Sequence[RawCue]) -> tuple[Cue, ...]:
    """The speech of every cue that has any; ``index`` counts the cues of the file, silent ones included."""
    whole = [replace(cue, text=spoken(_HALF_PAIR.sub("\ufffd", cue.text))) for cue in raw]
    names = label_names(cue.text for cue in whole)
    labelled = []
    for cue in whole:
        label, text = take_label(cue.text, names)
        labelled.append(replace(cue, text=text, speaker=_HALF_PAIR.sub("\ufffd", cue.speaker) or label))
    cues = []
    for index, cue in enumerate(new_words(labelled)):
        text = " ".join(cue.text.split())
        if any(char.isalnum() for char in text):
            cues.append(Cue(index, cue.start, _end(labelled, index, text), text, cue.speaker, cue.line))
    return tuple(cues)


def _end(cues: Sequence[RawCue], index: int, text: str) -> int:
    """The cue's own end; else the start of the next one; else as long as its words take to say."""
    cue = cues[index]
    if cue.end is not None:
        return cue.end
    if index + 1 < len(cues):
        return cues[index + 1].start
    return cue.start + round(len(text.split()) / _pace(cues) * 1000)


def _pace(cues: Sequence[RawCue]) -> float:
    """Words a second: the median over the cues before the last, from one start to the next."""
    paces = [
        1000 * len(cue.text.split()) / (after.start - cue.start)
        for cue, after in pairwise(cues)
        if after.start > cue.start and cue.text.strip()
    ]
    return median(paces) if paces else WORDS_A_SECOND
