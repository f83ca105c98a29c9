"""Rolling captions: live captions move up a line at a time, so that each cue shows the last words again."""

from __future__ import annotations

from collections.abc import Sequence

from extract.transcript.formats.raw import RawCue

MOST_WORDS = 60  # that captions show at a time: four lines with room to spare
GAP_MS = 1000  # captions that stood empty for longer do not show old words again
SHARE = 0.4  # of the neighbouring cues that must repeat words before a file counts as rolling


def new_words(cues: Sequence[RawCue]) -> list[RawCue]:
    """The cues with what the one before already showed taken off, where the file as a whole is rolling.

    A cook who says the same thing twice in a file that is not rolling keeps both.
    """
    shown = [_words(cue.text) for cue in cues]
    repeats = [0] + [_repeated(cues, shown, at) for at in range(1, len(cues))]
    if not _is_rolling(shown, repeats):
        return list(cues)
    return [_without(cue, count) for cue, count in zip(cues, repeats, strict=True)]


def _words(text: str) -> list[str]:
    return text.split()


def _repeated(cues: Sequence[RawCue], shown: list[list[str]], at: int) -> int:
    """How many words at the start of cue ``at`` end the one before, its last line at the least."""
    before, after = shown[at - 1], shown[at]
    end = cues[at - 1].end
    lines = [line for line in cues[at - 1].text.split("\n") if line.strip()]
    if not lines or not after or (end is not None and cues[at].start - end > GAP_MS):
        return 0
    least = len(lines[-1].split())
    for count in range(min(len(before), len(after), MOST_WORDS), least - 1, -1):
        if before[len(before) - count :] == after[:count]:
            return count
    return 0


def _is_rolling(shown: list[list[str]], repeats: list[int]) -> bool:
    pairs = sum(1 for at in range(1, len(shown)) if shown[at] and shown[at - 1])
    hits = sum(1 for count in repeats if count)
    grows = any(count and len(shown[at]) > count for at, count in enumerate(repeats))
    return hits >= 2 and grows and hits >= SHARE * pairs


def _without(cue: RawCue, count: int) -> RawCue:
    text = " ".join(_words(cue.text)[count:])
    return cue if not count else RawCue(cue.start, cue.end, text, cue.speaker, cue.line)
