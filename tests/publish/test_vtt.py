"""Captions and chapters, by the W3C's rules and through another reader."""

from __future__ import annotations

import re
from itertools import pairwise

import webvtt
from drafted import SAMPLES, drafted
from hypothesis import given
from hypothesis import strategies as st
from recipes import draft, hostile, line, pie, texts

from extract.model import RecipeDraft
from extract.publish.building import recipes_of
from extract.publish.recipe import Edition
from extract.publish.writers import writer_for
from extract.transcript import read_transcript

# W3C WebVTT: hours of two digits or more, minutes and seconds below 60, milliseconds of three digits.
STAMP = r"\d{2,}:[0-5]\d:[0-5]\d\.\d{3}"
TIMING = re.compile(rf"^({STAMP}) --> ({STAMP})$")


def made(kind: str, found: RecipeDraft) -> str:
    text = writer_for(kind).write(Edition(tuple(recipes_of(found))))
    assert isinstance(text, str)
    return text


def read(text: str) -> list[webvtt.Caption]:
    """The cues as webvtt-py reads them, every fault an error."""
    return list(webvtt.from_string(text, strict=True).captions)


def ends(cue: webvtt.Caption) -> tuple[float, float]:
    return (
        cue.start_in_seconds + cue.start_time.milliseconds / 1000,
        cue.end_in_seconds + cue.end_time.milliseconds / 1000,
    )


def check_form(text: str) -> None:
    """W3C WebVTT 1: a head, blocks parted by blank lines, timings in order, no arrow anywhere else, no markup."""
    assert text.split("\n")[0].startswith("WEBVTT")
    starts = []
    for block in text.strip().split("\n\n")[1:]:
        lines = block.split("\n")
        if lines[0].startswith("NOTE"):
            assert "-->" not in block
            continue
        assert "-->" not in lines[0]
        timing = TIMING.match(lines[1])
        assert timing, lines[1]
        assert timing[1] < timing[2]
        starts.append(timing[1])
        assert lines[2:]
        assert not any("-->" in row or "<" in row or ">" in row for row in lines[2:])
        assert not any(re.search(r"&(?!(amp|lt|gt);)", row) for row in lines[2:])
    assert starts == sorted(starts)


def test_each_ingredient_comes_up_when_it_is_said() -> None:
    cues = read(made("captions", draft()))
    assert [(cue.start, cue.text) for cue in cues][:3] == [
        ("00:00:31.000", "2 leek"),
        ("00:00:45.000", "1½ cups (350\u00a0ml) stock"),
        ("00:01:00.000", "Salt"),
    ]


def test_captions_of_the_samples_can_be_read_in_their_time() -> None:
    """160 words a minute, two lines of 37 characters (BBC Subtitle Guidelines, from memory)."""
    for name in SAMPLES:
        text = made("captions", drafted(name))
        check_form(text)
        cues = read(text)
        assert cues
        for cue in cues:
            start, end = ends(cue)
            assert end - start >= len(cue.text.split()) * 60 / 160 - 0.002, cue.text
            assert len(cue.lines) <= 2
            assert all(len(row) <= 37 for row in cue.lines)
        spans = [ends(cue) for cue in cues]
        assert all(before[1] <= after[0] for before, after in pairwise(spans))


@given(st.lists(st.integers(min_value=0, max_value=40), min_size=1, max_size=25))
def test_foods_said_in_one_breath_are_all_shown_and_never_at_once(starts: list[int]) -> None:
    foods = [line(f"food number {n}", n + 1, "cup", start=start) for n, start in enumerate(starts)]
    cues = read(made("captions", draft(pie(components=[{"name": "", "ingredients": foods}]))))
    shown = " ".join(cue.text for cue in cues)
    assert all(f"food number {n}" in shown.replace("\n", " ") for n in range(len(starts)))
    spans = [ends(cue) for cue in cues]
    assert all(before[1] <= after[0] for before, after in pairwise(spans))


def test_chapters_are_dishes_with_their_stages_inside() -> None:
    """W3C WebVTT, "WebVTT file using only nested cues": cues lie apart or one within the other."""
    for found in (draft(), *map(drafted, SAMPLES)):
        text = made("chapters", found)
        check_form(text)
        cues = read(text)
        titles = [cue.text.replace("\n", " ") for cue in cues]
        assert [title for title in titles if title in [one.title for one in recipes_of(found)]]
        spans = [ends(cue) for cue in cues]
        for place, (start, end) in enumerate(spans):
            for later_start, later_end in spans[place + 1 :]:
                assert later_start >= end or (later_start >= start and later_end <= end)


def test_a_dish_that_is_taken_up_again_has_a_chapter_each_time() -> None:
    broth = pie(
        title="Broth", start=0, end=400, stretches=[{"start": 0, "end": 100}, {"start": 300, "end": 400}]
    )
    tart = pie(title="Tart", start=100, end=300, method=[])
    titles = [cue.text for cue in read(made("chapters", draft(broth, tart)))]
    assert [title for title in titles if title.startswith(("Broth", "Tart"))] == [
        "Broth",
        "Tart",
        "Broth, continued",
    ]


def test_overlapping_dishes_are_cut_where_the_next_begins() -> None:
    cues = read(made("chapters", draft(pie(title="One", start=0, end=300, method=[]),
                                       pie(title="Two", start=200, end=400, method=[]))))  # fmt: skip
    assert [(cue.text, cue.end) for cue in cues] == [("One", "00:03:20.000"), ("Two", "00:06:40.000")]


@given(texts)
def test_any_words_come_back_whole(text: str) -> None:
    found = hostile(text)
    title = recipes_of(found)[0].title
    chapters, captions = made("chapters", found), made("captions", found)
    for each in (chapters, captions):
        check_form(each)
        read(each)
    assert read_transcript(None, chapters.encode()).cues[0].text or not any(map(str.isalnum, title))
    shown = chapters.split("\n\n")[1].split("\n")[2]
    assert shown.replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&") == title
