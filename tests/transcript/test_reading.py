"""The door to all readers: encodings, formats told by content, what is not speech, bad input."""

from __future__ import annotations

import hashlib
import random
import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from extract.errors import CardwrightError
from extract.transcript import Cue, Transcript, read_transcript, reading
from extract.transcript.times import clock_time, show_clock

LABELLED = Path(__file__).parents[3] / "shared" / "bench"
SUBRIP = "1\n00:00:01,000 --> 00:00:02,000\nsauté the leeks – “crème” £3 ½ cup\n"


@pytest.mark.parametrize(
    "encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "utf-32", "cp1252"]
)
def test_encodings(encoding: str) -> None:
    assert read_transcript(None, SUBRIP.encode(encoding)).cues[0].text == "sauté the leeks – “crème” £3 ½ cup"


@pytest.mark.parametrize(
    ("text", "form"),
    [
        ("WEBVTT\n\n00:01.000 --> 00:02.000\nstir\n", "webvtt"),
        (SUBRIP, "subrip"),
        ('<tt xmlns="http://www.w3.org/ns/ttml"><body><div><p begin="1s">stir</p></div></body></tt>', "ttml"),
        (
            '<?xml version="1.0"?>\n<!-- a -->\n<t:tt xmlns:t="x"><t:body><t:p>stir</t:p></t:body></t:tt>',
            "ttml",
        ),
        ('[{"start": 1, "end": 2, "text": "stir"}]', "json"),
        ("[0:01] stir", "stamped"),
        ("[Music] stir it up", "plain"),
        ("WEBVTTER stir", "plain"),
        ("We eat at 3:30 today.", "plain"),
    ],
)
def test_format_is_told_by_content(tmp_path: Path, text: str, form: str) -> None:
    path = tmp_path / "show.dat"
    path.write_text(text, encoding="utf-8")
    assert read_transcript(path).format == form


def test_transcript_names_its_file_and_digest(tmp_path: Path) -> None:
    path = tmp_path / "show.srt"
    path.write_text(SUBRIP, encoding="utf-8")
    transcript = read_transcript(path)
    assert (transcript.file, transcript.sha256) == ("show.srt", hashlib.sha256(SUBRIP.encode()).hexdigest())
    assert read_transcript(None, SUBRIP.encode(), "standard input").cues == transcript.cues


@pytest.mark.parametrize(
    ("text", "cues"),
    [
        ("Stir it.\nAnd again.\n", [("Stir it.", 1), ("And again.", 2)]),
        ("Stir it\nwell.\n\nAnd again.\n", [("Stir it well.", 1), ("And again.", 4)]),
        ("# Soup\n\nStir it\nwell.\n\n\n\nAnd again.", [("Stir it well.", 3), ("And again.", 8)]),
        ("# Soup\nStir it.\n", [("Stir it.", 2)]),
    ],
)
def test_text_without_times(text: str, cues: list[tuple[str, int]]) -> None:
    transcript = read_transcript(None, text.encode())
    assert not transcript.timed
    assert [(cue.text, cue.line) for cue in transcript.cues] == cues
    assert {(cue.start, cue.end) for cue in transcript.cues} == {(0, 0)}


@pytest.mark.parametrize(
    ("said", "speech"),
    [
        ("[Music] so stir it", "so stir it"),
        ("[ Applause ] so", "so"),
        ("♪ la la la ♪ so stir", "so stir"),
        ("♪ so stir", "so stir"),
        ("stir it (laughs) up", "stir it up"),
        ("stir it (soft music playing)", "stir it"),
        ("stir it *chuckles* up", "stir it up"),
        ("stir it (SIZZLING) up", "stir it up"),
        ("a tin (about 400 grams) of beans", "a tin (about 400 grams) of beans"),
        ("coriander (cilantro) leaves", "coriander (cilantro) leaves"),
        ("[2 cups] of rice", "[2 cups] of rice"),
        (">> so stir", "so stir"),
        ("so stir. &gt;&gt; How long?", "so stir. How long?"),
        ("- so stir", "so stir"),
        ("-18 degrees", "-18 degrees"),
        ("5-6 minutes", "5-6 minutes"),
        ("Tip: stir it", "Tip: stir it"),
        ("HOST: stir it", "stir it"),
        ("so\u200b stir\u00a0it", "so stir it"),
    ],
)
def test_what_is_not_speech_is_taken_off(said: str, speech: str) -> None:
    text = f"WEBVTT\n\n00:01.000 --> 00:02.000\n{said}\n"
    assert [cue.text for cue in read_transcript(None, text.encode()).cues] == [speech]


def vtt(*payloads: str, gap: int = 0) -> list[Cue]:
    """Cues of two seconds, ``gap`` seconds apart."""
    blocks = ["WEBVTT"]
    for number, payload in enumerate(payloads):
        start = number * (2 + gap) * 1000
        blocks.append(f"{show_clock(start)} --> {show_clock(start + 2000)}\n{payload}")
    return list(read_transcript(None, ("\n\n".join(blocks) + "\n").encode()).cues)


@pytest.mark.parametrize(
    ("payloads", "spoken"),
    [
        (("a b c", "a b c\nd e", "d e\nf g", "f g\nh"), ["a b c", "d e", "f g", "h"]),
        (("a b", "a b\nc d", "a b\nc d\ne f", "c d\ne f\ng h"), ["a b", "c d", "e f", "g h"]),
        (("so", "so today", "so today we"), ["so", "today", "we"]),
        (
            (" \nso<00:00:00.500><c> we</c>", "so we\n ", "so we\nstir<00:00:05.000><c> it</c>"),
            ["so we", "stir it"],
        ),
        (("a b\nc d", "c d\nc d", "c d\ne f"), ["a b c d", "c d", "e f"]),
    ],
)
def test_rolling_captions_keep_new_words_only(payloads: tuple[str, ...], spoken: list[str]) -> None:
    assert [cue.text for cue in vtt(*payloads)] == spoken


def test_rolling_captions_keep_the_place_of_each_cue() -> None:
    cues = vtt("so we", "so we", "so we\nstir it", "stir it", "stir it\nwell")
    assert [(cue.index, cue.text) for cue in cues] == [(0, "so we"), (2, "stir it"), (4, "well")]


@pytest.mark.parametrize(
    "payloads",
    [
        ("stir it", "stir it", "and then add the oats", "and leave it", "for an hour"),
        ("and stir", "and stir", "and stir", "and stir"),
        ("two cups", "two cups of oats", "go in the pan", "with the milk", "and that's all"),
    ],
)
def test_words_said_twice_are_kept_where_captions_do_not_roll(payloads: tuple[str, ...]) -> None:
    assert [cue.text for cue in vtt(*payloads)] == list(payloads)


def test_words_said_again_after_a_pause_are_kept_in_rolling_captions() -> None:
    rolling = vtt("a b", "a b\nc d", "c d\ne f", gap=5)
    assert [cue.text for cue in rolling] == ["a b", "a b c d", "c d e f"]


@pytest.mark.parametrize(
    ("data", "what"),
    [
        (b"", "is empty"),
        (b" \r\n\t", "is empty"),
        (b"\xef\xbb\xbf", "is empty"),
        (b"\xff\xfe", "is empty"),
        (b"\x7fELF\x02\x01\x01" + b"\x00" * 60 + b"code", "binary file"),
        (bytes(range(256)) * 4, "neither UTF-8 nor Windows-1252"),
        (random.Random(7).randbytes(4000), "text"),
        (b"%PDF-1.7 stream", "PDF document"),
        (b"{\\rtf1 stir}", "rich-text document"),
        (b"\xff\xfes\x00t", "no spoken words|text"),
        (b"WEBVTT\n\n00:01.000 --> 00:02.000\n[Music]\n", "no spoken words"),
    ],
)
def test_bad_input_is_one_line(data: bytes, what: str) -> None:
    if data == b"\xff\xfes\x00t":
        data += b"\x00i\x00r\x00\x00"  # an odd number of bytes is not whole UTF-16
        what = "not whole UTF-16"
    with pytest.raises(CardwrightError, match=what) as caught:
        read_transcript(None, data, "show.vtt")
    assert str(caught.value).startswith("show.vtt: line ")
    assert "\n" not in str(caught.value)
    assert caught.value.remedy


def test_missing_file_and_folder_are_told(tmp_path: Path) -> None:
    for path in (tmp_path / "none.vtt", tmp_path):
        with pytest.raises(CardwrightError, match="cannot be read") as caught:
            read_transcript(path)
        assert caught.value.path == str(path)


def test_large_file_is_refused_unread(tmp_path: Path) -> None:
    path = tmp_path / "show.vtt"
    with path.open("wb") as stream:
        stream.truncate(200_000_000)
    with pytest.raises(CardwrightError, match="200 MB is too large"):
        read_transcript(path)


def test_large_data_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(reading, "LIMIT", 10)
    with pytest.raises(CardwrightError, match="too large"):
        read_transcript(None, b"stir the oats")


@given(st.integers(0, 10**9))
def test_times_go_round(ms: int) -> None:
    assert clock_time(show_clock(ms)) == ms


@pytest.mark.parametrize(
    ("text", "ms"), [("00:59.9996", 60_000), ("0:00.0004", 0), ("1:00.5", 60_500), ("61:00", 3_660_000)]
)
def test_fractions_of_a_second_are_rounded_once(text: str, ms: int) -> None:
    assert clock_time(text) == ms


PIECES = st.sampled_from(
    [
        "WEBVTT\n\n",
        "00:01.000 --> 00:02.000\n",
        "1\n",
        "[0:01] ",
        "0:02\n",
        "<tt>",
        "<p begin='1s'>",
        "</p>",
        "{",
        "[",
        '"start": 1,',
        '"text": "x"',
        "}]",
        "NOTE",
        "<v ",
        "&amp;",
        "♪",
        "HOST: ",
        "\r\n",
        "\n\n",
        "\x00",
        "stir it ",
    ]
)


def read_or_error(data: bytes) -> tuple[Transcript | None, str]:
    try:
        return read_transcript(None, data, "x"), ""
    except CardwrightError as error:
        return None, str(error)


@given(st.one_of(st.binary(max_size=300), st.lists(PIECES, max_size=30).map("".join).map(str.encode)))
def test_any_bytes_give_a_transcript_or_one_clear_error(data: bytes) -> None:
    transcript, error = read_or_error(data)
    if transcript is None:
        assert re.match(r"x: line \d+: .+ \(.+\)$", error), error
        return
    assert transcript.cues
    assert all(cue.text == " ".join(cue.text.split()) != "" for cue in transcript.cues)
    assert all(0 <= cue.start <= cue.end and cue.line > 0 for cue in transcript.cues)
    starts = [cue.start for cue in transcript.cues]
    assert starts == sorted(starts)


@pytest.mark.skipif(not LABELLED.is_dir(), reason="the labelled shows are not beside the checkout")
def test_labelled_shows_are_read_whole() -> None:
    """Every caption of the labelled shows keeps its number, its times and its words."""
    for path in sorted((LABELLED / "speech").glob("*.vtt")):
        blocks = re.findall(
            r"^(\d+)\n([\d:.]+) --> ([\d:.]+)\n(.*)$", path.read_text(encoding="utf-8"), re.MULTILINE
        )
        expected = {
            (int(number), clock_time(start), clock_time(end), " ".join(text.split()))
            for number, start, end, text in blocks
            if re.search(r"\w", text)
        }
        cues = read_transcript(path).cues
        assert {(cue.index, cue.start, cue.end, cue.text) for cue in cues} == expected, path.name
    for path in sorted((LABELLED / "shows").glob("*.transcript.md")):
        stamps = re.findall(r"^\[(\d+:\d\d)\]", path.read_text(encoding="utf-8"), re.MULTILINE)
        assert [cue.start for cue in read_transcript(path).cues] == [clock_time(stamp) for stamp in stamps], (
            path.name
        )
