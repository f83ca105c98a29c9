"""TTML2 and IMSC against the W3C's rules of time (TTML2, sections 7.2 and 12) and against ttconv."""

from __future__ import annotations

import xml.etree.ElementTree as ElementTree
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from ttconv.imsc import reader as ttconv_reader
from ttconv.model import P

from extract.errors import CardwrightError
from extract.transcript import read_transcript
from extract.transcript.formats.ttml import Rates, read_time

SPACE = "http://www.w3.org/ns/ttml"
HEAD = f'<tt xmlns="{SPACE}" xmlns:ttp="{SPACE}#parameter" xmlns:ttm="{SPACE}#metadata"'


def document(body: str, parameters: str = "", head: str = "") -> str:
    return f'{HEAD} xml:lang="en" {parameters}>{head}<body>{body}</body></tt>'


def words(text: str) -> list[tuple[int, int, str]]:
    return [(cue.start, cue.end, cue.text) for cue in read_transcript(None, text.encode(), "show.ttml").cues]


@pytest.mark.parametrize(
    ("text", "seconds"),
    [
        ("00:00:01", Fraction(1)),
        ("01:02:03.04", Fraction(372304, 100)),
        ("00:00:01:15", Fraction(3, 2)),
        ("3.5s", Fraction(7, 2)),
        ("250ms", Fraction(1, 4)),
        ("75f", Fraction(5, 2)),
        ("90000t", Fraction(9)),
        ("2m", Fraction(120)),
        ("1h", Fraction(3600)),
        ("00:00:60", Fraction(59)),  # 12.3.1: 60 is for a leap second and elsewhere read as 59
        ("00:60:00", None),
        ("1,5s", None),
        ("5", None),
        ("1:00", None),
    ],
)
def test_time_expressions(text: str, seconds: Fraction | None) -> None:
    """TTML2 section 12.3.1: clock times with fraction or frames, offset times with a metric."""
    assert read_time(text, Rates(Fraction(30), Fraction(10_000))) == seconds


@pytest.mark.parametrize(
    ("parameters", "begin", "start"),
    [
        ("", "00:00:01:15", 1500),  # 7.2: 30 frames a second where nothing is given
        ('ttp:frameRate="25"', "00:00:01:05", 1200),
        ('ttp:frameRate="30" ttp:frameRateMultiplier="1000 1001"', "30f", 1001),
        ('ttp:tickRate="10000000"', "15000000t", 1500),
        ('ttp:frameRate="25"', "50t", 2000),  # 7.2: ticks are frames where no tick rate is given
    ],
)
def test_rates(parameters: str, begin: str, start: int) -> None:
    """TTML2 section 7.2: frame rate, its multiplier, tick rate."""
    assert (
        words(document(f'<div><p begin="{begin}" end="01:00:00">stir</p></div>', parameters))[0][0] == start
    )


@pytest.mark.parametrize(
    ("body", "found"),
    [
        ('<div begin="10s"><p begin="1s" end="3s">a</p></div>', [(11_000, 13_000, "a")]),
        ('<div><p begin="1s" dur="2s" end="9s">a</p></div>', [(1000, 3000, "a")]),  # the shorter holds
        ('<div><p begin="1s" dur="9s" end="2s">a</p></div>', [(1000, 2000, "a")]),
        ('<div begin="1s" end="4s"><p begin="1s">a</p></div>', [(2000, 4000, "a")]),
        (
            '<div timeContainer="seq"><p dur="2s">a</p><p begin="1s" dur="2s">b</p></div>',
            [(0, 2000, "a"), (3000, 5000, "b")],
        ),
        (
            '<div><p begin="5s" end="6s">b</p><p begin="1s" end="2s">a</p></div>',
            [(1000, 2000, "a"), (5000, 6000, "b")],
        ),
        (
            '<div><p><span begin="1s" end="2s">two</span> <span begin="2s" end="3s">cups</span></p></div>',
            [(1000, 3000, "two cups")],
        ),
        (
            '<div><p begin="1s" end="2s">one<br/>two <metadata>no</metadata></p></div>',
            [(1000, 2000, "one two")],
        ),
    ],
)
def test_containers_add_up(body: str, found: list[tuple[int, int, str]]) -> None:
    """TTML2 sections 12.2.1 to 12.2.4: par and seq containers, begin, dur and end."""
    assert words(document(body)) == found


def test_agents_are_speakers() -> None:
    agent = '<ttm:agent xml:id="a1" type="person"><ttm:name type="full">Ana</ttm:name></ttm:agent>'
    head = f"<head><metadata>{agent}</metadata></head>"
    text = document('<div><p begin="1s" end="2s" ttm:agent="a1">hello</p></div>', head=head)
    assert read_transcript(None, text.encode()).cues[0].speaker == "Ana"


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be"])
def test_declared_encodings_do_not_mislead(encoding: str) -> None:
    text = '<?xml version="1.0" encoding="UTF-8"?>\n' + document(
        '<div><p begin="1s" end="2s">crème fraîche</p></div>'
    )
    assert read_transcript(None, text.encode(encoding)).cues[0].text == "crème fraîche"


@pytest.mark.parametrize(
    ("text", "line", "what"),
    [
        (document('\n<div><p begin="1s">a</div>'), 2, "not well-formed"),
        (document('\n\n<div><p begin="soon">a</p></div>'), 3, "is not a TTML time"),
        (f'<!DOCTYPE tt [<!ENTITY e "x">]>\n{document("&e;")}', 1, "document type"),
        (document('<div><p begin="5s" end="2s">a</p></div>'), 1, "before it begins"),
        (document("<div>" * 120 + "</div>" * 120), 1, "deep"),
        ("<html><p>hello</p></html>", 1, "web page"),
        ("<recipe/>", 1, "not timed text"),
    ],
)
def test_faults_are_told_with_their_line(text: str, line: int, what: str) -> None:
    with pytest.raises(CardwrightError, match=what) as caught:
        read_transcript(None, text.encode(), "show.ttml")
    assert caught.value.line == line


TIMES = st.one_of(
    st.builds(
        "{:02}:{:02}:{:02}.{:03}".format,
        st.integers(0, 30),
        st.integers(0, 59),
        st.integers(0, 59),
        st.integers(0, 999),
    ),
    st.builds(
        "{:02}:{:02}:{:02}:{:02}".format,
        st.integers(0, 30),
        st.integers(0, 59),
        st.integers(0, 59),
        st.integers(0, 23),
    ),
    st.builds("{}.{}s".format, st.integers(0, 9999), st.integers(0, 999)),
    st.builds("{}f".format, st.integers(0, 99_999)),
    st.builds("{}ms".format, st.integers(0, 99_999_999)),
)


@given(
    st.sampled_from(["", 'begin="7s" dur="1000h"']),
    TIMES,
    st.sampled_from([("24", "1 1"), ("30", "1000 1001"), ("25", "1 1")]),
)
def test_times_agree_with_ttconv(container: str, begin: str, rate: tuple[str, str]) -> None:
    """The general library ttconv (IMSC reader) as the other side: the same beginning, in exact fractions."""
    parameters = f'ttp:frameRate="{rate[0]}" ttp:frameRateMultiplier="{rate[1]}"'
    text = document(f'<div {container}><p begin="{begin}" dur="1s">stir</p></div>', parameters)
    model = ttconv_reader.to_model(ElementTree.ElementTree(ElementTree.fromstring(text)))
    (paragraph,) = [one for one in model.get_body().dfs_iterator() if isinstance(one, P)]
    outer = paragraph.parent().get_begin() or 0
    assert words(text)[0][0] == round((outer + (paragraph.get_begin() or 0)) * 1000)
