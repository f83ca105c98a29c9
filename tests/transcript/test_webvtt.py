"""WebVTT against the rules of the W3C (Candidate Recommendation of 4 April 2019; sections are named).

The words are invented; the forms are those of the specification.
"""

from __future__ import annotations

import pytest

from extract.errors import CardwrightError
from extract.transcript import read_transcript


def words(text: str) -> list[tuple[int, int, str]]:
    return [(cue.start, cue.end, cue.text) for cue in read_transcript(None, text.encode(), "show.vtt").cues]


def body(payload: str) -> str:
    """The one spoken cue of a file with ``payload`` under a line of times."""
    (found,) = words(f"WEBVTT\n\n00:01.000 --> 00:02.000\n{payload}\n")
    return found[2]


@pytest.mark.parametrize(
    ("header", "what"),
    [
        ("WEBVTT", "the signature alone (4.1)"),
        ("WEBVTT - soup for two", "free text after a space (4.1)"),
        ("WEBVTT\tsoup for two", "free text after a tab (4.1)"),
        ("WEBVTT\nKind: captions\nLanguage: en", "further header lines (6.1)"),
        ("\ufeffWEBVTT", "a byte order mark (4.1)"),
    ],
)
def test_header_lines_are_passed_over(header: str, what: str) -> None:
    assert words(f"{header}\n\n00:01.000 --> 00:02.000\nhello\n") == [(1000, 2000, "hello")], what


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_every_line_end_of_the_standard_is_one(end: str) -> None:
    """Section 4.1: a line ends with CRLF, LF or CR."""
    text = end.join(
        ["WEBVTT", "", "00:01.000 --> 00:02.000", "salt", "", "00:03.000 --> 00:04.000", "pepper", ""]
    )
    transcript = read_transcript(None, text.encode(), "show.vtt")
    assert [(cue.text, cue.line) for cue in transcript.cues] == [("salt", 3), ("pepper", 6)]


@pytest.mark.parametrize(
    ("line", "start", "end"),
    [
        ("00:11.000 --> 00:13.000", 11_000, 13_000),
        ("00:00:11.000 --> 00:00:13.000", 11_000, 13_000),
        ("01:02:03.004 --> 100:00:00.000", 3_723_004, 360_000_000),
        ("00:11.000-->00:13.000", 11_000, 13_000),  # 6.3: the space around the arrow may be missing
        ("00:11.000\t-->\t00:13.000 align:start position:10%,line-left size:35% line:0", 11_000, 13_000),
        (
            "1:00:00.000 --> 1:00:01.000",
            3_600_000,
            3_601_000,
        ),  # 6.3: a first field not of two digits is hours
    ],
)
def test_timing_lines(line: str, start: int, end: int) -> None:
    """Sections 4.1 and 6.3: hours are optional, settings follow the end."""
    assert words(f"WEBVTT\n\n{line}\nhello\n") == [(start, end, "hello")]


def test_notes_styles_and_regions_are_not_speech() -> None:
    """Section 4.1: STYLE and REGION before the first cue, NOTE anywhere between blocks."""
    text = """WEBVTT

STYLE
::cue(c) { color: red }

REGION
id:bottom
width:40%

NOTE Mixed by hand.

NOTE
Two lines
of comment

intro
00:01.000 --> 00:02.000
hello

NOTE and one between cues

2 - second
00:02.000 --> 00:03.000
and salt
"""
    assert words(text) == [(1000, 2000, "hello"), (2000, 3000, "and salt")]


@pytest.mark.parametrize(
    ("payload", "speech"),
    [
        ("<v Ana>Chop the leeks", "Chop the leeks"),
        ("<v.loud Ana Brook>Chop</v> the leeks", "Chop the leeks"),
        ("<c.yellow.bg_blue>Two cups</c> of <i.x>rice</i>", "Two cups of rice"),
        ("<lang en-GB>courgettes</lang>", "courgettes"),
        ("<00:01.200>so <00:01.500><c>today</c> we", "so today we"),
        ("<ruby>rice<rt>reading</rt></ruby>", "rice"),
        ("salt &amp; pepper &lt;not much&gt;", "salt & pepper <not much>"),
        ("one&nbsp;cup&lrm; of oats", "one cup of oats"),
        ("first line\nsecond line", "first line second line"),
        ("<b>unclosed bold", "unclosed bold"),
    ],
)
def test_cue_text_loses_its_markup_only(payload: str, speech: str) -> None:
    """Sections 4.2.2 and 6.4: tags with classes and annotations, inline times, entities."""
    assert body(payload) == speech


def test_voices_name_the_speaker() -> None:
    """Section 4.2.2: the annotation of a voice span is its speaker."""
    one = "00:01.000 --> 00:02.000\n<v.first Ana Brook>hello</v>"
    two = "00:02.000 --> 00:03.000\n<v A>yes</v> <v B>no</v>"
    text = f"WEBVTT\n\n{one}\n\n{two}\n"
    assert [cue.speaker for cue in read_transcript(None, text.encode()).cues] == ["Ana Brook", ""]


def test_arrow_line_begins_a_cue_without_an_empty_line_before_it() -> None:
    """Section 6.1: a line with the arrow ends the block before it."""
    text = "WEBVTT\n00:01.000 --> 00:02.000\nhello\n00:02.000 --> 00:03.000\nworld\n"
    assert words(text) == [(1000, 2000, "hello"), (2000, 3000, "world")]


def test_empty_line_ends_a_cue() -> None:
    """Sections 4.1 and 6.1: what follows an empty line without times of its own belongs to no cue."""
    text = "WEBVTT\n\n00:01.000 --> 00:02.000\nhello\n\nstray\n\n00:02.000 --> 00:03.000\nworld\n"
    assert words(text) == [(1000, 2000, "hello"), (2000, 3000, "world")]


def test_line_of_spaces_does_not_end_a_cue() -> None:
    """Section 4.1: only an empty line ends a cue."""
    assert body(" \nhello") == "hello"


def test_stray_zero_is_read_as_the_replacement_character() -> None:
    """Section 6.1: U+0000 becomes U+FFFD."""
    text = "WEBVTT\n\n00:01.000 --> 00:02.000\n" + "stir the soup " * 20 + "s\x00lt\n"
    assert words(text)[0][2].endswith("s\ufffdlt")


def test_index_counts_silent_cues_and_line_points_to_the_times() -> None:
    times = ("00:01.000 --> 00:02.000", "00:02.000 --> 00:03.000", "00:03.000 --> 00:04.000")
    text = "WEBVTT\n\n1\n{}\n[Music]\n\n2\n{}\n\n\n3\n{}\nhello\n".format(*times)
    (cue,) = read_transcript(None, text.encode()).cues
    assert (cue.index, cue.line, cue.start) == (2, 12, 3000)


@pytest.mark.parametrize(
    ("text", "line", "what"),
    [
        ("WEBVTT\n\n00:01.000 --> 00:0x.000\nhello\n", 3, "does not give a start and an end"),
        ("WEBVTT\n\n00:01.000 -->\nhello\n", 3, "does not give a start and an end"),
        ("WEBVTT\n\n00:61.000 --> 00:72.000\nhello\n", 3, "does not give a start and an end"),
        ("WEBVTT\n\n00:05.000 --> 00:02.000\nhello\n", 3, "before it begins"),
        ("WEBVTT\n\n00:05.000 --> 00:06.000\na\n\n00:02.000 --> 00:07.000\nb\n", 6, "time goes backwards"),
        ("WEBVTT\n\n00:01.000 --> 00:02.000\nhello\n\n00:02.000 --> 00:03.000", 6, "ends in the middle"),
        ("WEBVTT\n\n00:01.000 --> 00:02.000\nhello\n\n00:02.000 --> 00:03.000\n", 6, "ends in the middle"),
        ("WEBVTT\n\n00:01.000 --> 00:02.000\nhello <c.yell", 3, "ends in the middle"),
        ("WEBVTT\n\nhello\n", 1, "no cue"),
    ],
)
def test_faults_are_told_with_their_line(text: str, line: int, what: str) -> None:
    """Sections 4.1 and 4.5. A faulty cue is refused, where the parser of section 6 would drop it."""
    with pytest.raises(CardwrightError, match=what) as caught:
        read_transcript(None, text.encode(), "show.vtt")
    assert (caught.value.path, caught.value.line) == ("show.vtt", line)
    assert caught.value.remedy
