"""WebVTT and SubRip that break off: refused wherever within a cue they end, and a whole file never."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from extract.errors import CardwrightError
from extract.transcript import Transcript, read_transcript
from extract.transcript.times import show_clock

ROOT = Path(__file__).parents[2]
TALKS = [ROOT / "samples" / "harvest-supper.vtt", *sorted((ROOT / "tests" / "shows").glob("*.vtt"))]
TAIL = 400  # bytes that are cut off one by one
CLOSERS = (".", "!", "?", "]", ")", '"', "'")


def as_subrip(transcript: Transcript) -> str:
    def clock(ms: int) -> str:
        return show_clock(ms).replace(".", ",")

    return "\n".join(
        f"{number}\n{clock(cue.start)} --> {clock(cue.end)}\n{cue.text}\n"
        for number, cue in enumerate(transcript.cues, start=1)
    )


def as_webvtt(transcript: Transcript) -> str:
    cues = (f"{show_clock(cue.start)} --> {show_clock(cue.end)}\n{cue.text}\n" for cue in transcript.cues)
    return "WEBVTT\n\n" + "\n".join(cues)


def cuts(text: str) -> Iterator[str]:
    """The text without its last bytes, those ends left out at which a whole file may stand: a line's, a sentence's."""
    for length in range(len(text) - TAIL, len(text)):
        cut = text[:length]
        if not cut.endswith(("\n", *CLOSERS)):
            yield cut


@pytest.mark.parametrize("write", [as_webvtt, as_subrip], ids=["WebVTT", "SubRip"])
@pytest.mark.parametrize("path", TALKS, ids=lambda path: path.stem)
def test_a_file_that_ends_within_a_cue_is_refused_with_a_line(path: Path, write: object) -> None:
    assert callable(write)
    text = write(read_transcript(path))
    assert read_transcript(None, text.encode()).cues
    for cut in cuts(text):
        with pytest.raises(CardwrightError) as caught:
            read_transcript(None, cut.encode())
        assert caught.value.line


@pytest.mark.parametrize("end", ["", "\n", "\n\n", "\r\n", "\r"])
@pytest.mark.parametrize(
    "last", ["It is done.", "Is it done?", "[Applause]", "<i>It is done.</i>", "it is\ndone."]
)
def test_a_whole_file_may_leave_its_last_line_open_behind_a_sentence(last: str, end: str) -> None:
    for head in ("WEBVTT\n\n", "1\n"):
        text = (
            f"{head}00:00:01.000 --> 00:00:02.000\nStir it.\n\n2\n00:00:02.000 --> 00:00:03.000\n{last}{end}"
        )
        assert read_transcript(None, text.encode()).cues


@pytest.mark.parametrize(
    "last", ["it is done", "and then you", "7\n00:00:29,267 -", "7\n00:00:29,267 -->", "7", "</v"]
)
def test_words_that_may_go_on_are_refused_with_what_to_do(last: str) -> None:
    text = f"1\n00:00:01,000 --> 00:00:02,000\nStir it.\n\n2\n00:00:02,000 --> 00:00:03,000\nNow\n\n{last}"
    with pytest.raises(CardwrightError, match=r"middle of this cue|does not give"):
        read_transcript(None, text.encode())


def test_a_file_with_the_line_ends_of_old_macs_keeps_its_times() -> None:
    text = "1\r00:00:01,000 --> 00:00:02,000\rStir it.\r\r2\r00:00:02,500 --> 00:00:03,000\rBake it.\r"
    found = read_transcript(None, text.encode())
    assert (found.format, [cue.start for cue in found.cues]) == ("subrip", [1000, 2500])
