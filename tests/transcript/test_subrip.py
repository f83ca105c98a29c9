"""SubRip, which has no standard: the customs of its files, and what general libraries write and read."""

from __future__ import annotations

from datetime import timedelta

import pytest
import srt
from hypothesis import given
from hypothesis import strategies as st

from extract.errors import CardwrightError
from extract.transcript import read_transcript


def words(text: str) -> list[tuple[int, int, str]]:
    return [(cue.start, cue.end, cue.text) for cue in read_transcript(None, text.encode(), "show.srt").cues]


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("1\n00:00:01,000 --> 00:00:02,500\nhello\n", [(1000, 2500, "hello")]),
        ("1\n00:00:01.000 --> 00:00:02.500\nhello\n", [(1000, 2500, "hello")]),
        ("1\r\n0:00:01,5 --> 0:00:02,50\r\nhello\r\n", [(1500, 2500, "hello")]),
        ("00:00:01,000 --> 00:00:02,000\nno number\n", [(1000, 2000, "no number")]),
        ("7\n00:01,000 --> 00:02,000\nno hours\n", [(1000, 2000, "no hours")]),
        (
            "1\n00:00:01,000 --> 00:00:02,000\nglued\n2\n00:00:02,000 --> 00:00:03,000\ncues\n",
            [(1000, 2000, "glued"), (2000, 3000, "cues")],
        ),
        ("1\n00:00:01,000 --> 00:00:02,000\nwith a\n\ngap in it\n\n\n", [(1000, 2000, "with a gap in it")]),
        ("1\n00:00:01,000 --> 00:00:02,000\nadd\n500\n", [(1000, 2000, "add 500")]),
        ("1\n00:00:01,000 --> 00:00:02,000 X1:40 X2:600 Y1:20 Y2:50\nhello\n", [(1000, 2000, "hello")]),
        (
            "1\n00:00:01,000 --> 00:00:02,000\n{\\an8}<i>hello</i> <font color=red>you</font>\n",
            [(1000, 2000, "hello you")],
        ),
        ("1\n00:00:01,000 --> 00:00:02,000\nif x < 5 & y > 3\n", [(1000, 2000, "if x < 5 & y > 3")]),
    ],
)
def test_files_are_read_as_they_come(text: str, found: list[tuple[int, int, str]]) -> None:
    """Common practice of SubRip files; no standard exists."""
    assert words(text) == found


def test_labels_in_capitals_are_speakers() -> None:
    text = (
        "1\n00:00:01,000 --> 00:00:02,000\nHOST: Two cups.\n\n2\n00:00:02,000 --> 00:00:03,000\nAnd salt.\n"
    )
    cues = read_transcript(None, text.encode()).cues
    assert [(cue.speaker, cue.text) for cue in cues] == [("HOST", "Two cups."), ("", "And salt.")]


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("1\n00:00:01,000 --> 00:00:0q,000\nhello\n", 2),
        ("1\n00:00:01,000 --> 00:00:02,000\nhello\n\n2\n00:00:03,000 -->\nworld\n", 6),
        ("1\n00:00:03,000 --> 00:00:02,000\nhello\n", 2),
        ("1\n00:00:03,000 --> 00:00:04,000\nhello\n\n2\n00:00:01,000 --> 00:00:05,000\nworld\n", 6),
        ("1\n00:00:03,000 --> 00:00:04,000\nhello\n\n2\n00:00:05,000 --> 00:00:06,000", 6),
        ("1\n00:00:03,000 --> 00:00:04,000\nhello\n\n2\n", 5),
    ],
)
def test_faults_are_told_with_their_line(text: str, line: int) -> None:
    with pytest.raises(CardwrightError) as caught:
        read_transcript(None, text.encode(), "show.srt")
    assert caught.value.line == line


SPEECH = st.lists(st.sampled_from(["stir", "two", "cups", "of", "oats", "in", "30", "warm"]), min_size=1).map(
    " ".join
)
MOMENTS = st.lists(st.integers(0, 359_999_998), min_size=1, max_size=20).map(sorted)


@given(MOMENTS, st.lists(SPEECH, min_size=20, max_size=20))
def test_what_the_srt_library_writes_is_read_back(moments: list[int], speech: list[str]) -> None:
    """The general library ``srt`` as the other side: same times to the millisecond, same words."""
    cues = [
        srt.Subtitle(
            number, timedelta(milliseconds=start), timedelta(milliseconds=start + 1), f"{number} {words}"
        )
        for number, (start, words) in enumerate(zip(moments, speech, strict=False), start=1)
    ]
    expected = [(cue.start // timedelta(milliseconds=1), cue.content) for cue in cues]
    assert [(start, text) for start, _, text in words(srt.compose(cues, reindex=False))] == expected
