"""Stamped text in the shapes that people have it; common practice, no source."""

from __future__ import annotations

import pytest

from extract.errors import CardwrightError
from extract.transcript import read_transcript


@pytest.mark.parametrize(
    "text",
    [
        "[3:42] two cups\n[3:50] of rice\n",
        "[3:42] two cups\n\n[3:50] of rice\n",
        "00:03:42 two cups\n00:03:50 of rice\n",
        "0:03:42 two cups\n0:03:50 of rice\n",
        "3:42 - two cups\n3:50 - of rice\n",
        "3:42 – two cups\n3:50 – of rice\n",
        "3:42: two cups\n3:50: of rice\n",
        "3:42\ntwo cups\n3:50\nof rice\n",
        "[3:42]\ntwo\ncups\n\n[3:50]\nof rice\n",
        "(3:42) two cups\n(3:50) of rice\n",
        "**[3:42]** two cups\n\n**[3:50]** of rice\n",
        "> [03:42] two cups\n>\n> [03:50] of rice\n",
        "- [3:42] two cups\n- [3:50] of rice\n",
        "[00:03:42.000] two cups\n[00:03:50.000] of rice\n",
        "00:03:42,000 two cups\n00:03:50,000 of rice\n",
        "[00:03:42:12] two cups\n[00:03:50:00] of rice\n",
        "[3:42 - 3:50] two cups\n[3:50 - 3:55] of rice\n",
        "[3:42] two cups [3:50] of rice\n",
        "# Rice\n\nDate: a Monday\n\n[3:42] two cups\n\n[3:50] of rice\n",
        "0:03:42.000,0:03:50.000\ntwo cups\n\n0:03:50.000,0:03:55.000\nof rice\n",
    ],
)
def test_shapes(text: str) -> None:
    transcript = read_transcript(None, text.encode())
    assert (transcript.format, transcript.timed) == ("stamped", True)
    assert [(cue.start, cue.text) for cue in transcript.cues] == [(222_000, "two cups"), (230_000, "of rice")]
    assert transcript.cues[0].end == 230_000


@pytest.mark.parametrize(
    ("text", "speakers"),
    [
        ("Ana Brook [0:05]: hello\n\nSpeaker 2 [0:09]: yes\n", ["Ana Brook", "Speaker 2"]),
        ("**Ana** (0:05) hello\n\n**Bo** (0:09) yes\n", ["Ana", "Bo"]),
        ("Ana 0:05\nhello\n\nBo 0:09\nyes\n", ["Ana", "Bo"]),
        ("[0:05] HOST: hello\n[0:09] GUEST: yes\n", ["HOST", "GUEST"]),
        ("[0:05] Ana: hello\n[0:09] Bo: yes\n[0:10] Ana: no\n[0:12] Bo: so\n", ["Ana", "Bo", "Ana", "Bo"]),
    ],
)
def test_names_beside_stamps_are_speakers(text: str, speakers: list[str]) -> None:
    cues = read_transcript(None, text.encode()).cues
    assert [cue.speaker for cue in cues] == speakers
    assert cues[0].text == "hello"


def test_sentence_that_opens_with_a_clock_time_is_speech() -> None:
    text = "[0:05] we start at\n10:30 in the morning\n[0:09] and stir\n"
    assert [cue.text for cue in read_transcript(None, text.encode()).cues] == [
        "we start at 10:30 in the morning",
        "and stir",
    ]


def test_minutes_beyond_the_hour() -> None:
    assert read_transcript(None, b"[72:10] stir\n[72:12] more\n").cues[0].start == 4_330_000


def test_last_paragraph_lasts_as_long_as_its_words_take() -> None:
    """160 words a minute (Tauroza and Allison 1990, radio speech) where there is no other paragraph."""
    (cue,) = read_transcript(None, b"[0:10] " + b"stir " * 160).cues
    assert cue.end - cue.start == 60_000


def test_last_paragraph_is_spoken_as_fast_as_the_others() -> None:
    """A word a second from stamp to stamp; neither a hurry nor a pause for music counts."""
    text = (
        b"[0:00] in it goes\n[0:01] " + b"stir it " * 10 + b"\n[0:21] taste\n[5:00] " + b"now plate up " * 10
    )
    cue = read_transcript(None, text).cues[-1]
    assert cue.end - cue.start == 30_000


@pytest.mark.parametrize(
    ("text", "line", "what"),
    [
        ("[0:05] a b\n[0:72] c d\n", 2, "does not begin with a time"),
        ("[0:65] a b\n[0:72] c d\n", 1, "does not begin with a time"),
        ("[0:50] a b\n\n[0:20] c d\n", 3, "time goes backwards"),
        ("[0:50 - 0:40] a b\n", 1, "before it begins"),
    ],
)
def test_faults_are_told_with_their_line(text: str, line: int, what: str) -> None:
    with pytest.raises(CardwrightError, match=what) as caught:
        read_transcript(None, text.encode(), "show.txt")
    assert caught.value.line == line
