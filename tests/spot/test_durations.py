"""Lengths of time in whole sentences."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from marked_sentences import cases, parse, read_marked
from spacy.lang.en import English
from spelling_out import SPELL

from extract.lexicon import read_lexicon
from extract.spot.spans import Duration
from extract.spot.times.find import find_durations

TOKENS = English()


def short(duration: Duration) -> str:
    low, high = duration.low, duration.high
    figures = "?" if low is None else str(low) if low == high else f"{low}-{high}"
    return ("~" if duration.approximate else "") + f"{figures} {duration.unit}"


@pytest.mark.parametrize("line", cases("durations"))
def test_finds_exactly_the_marked_times(line: str) -> None:
    text, expected = read_marked(line)
    doc = parse(text)
    assert [(d.text, short(d)) for d in find_durations(doc)] == expected


TIME_WORDS = [
    row["form"]
    for row in read_lexicon("units", columns=("form", "unit", "kind", "times", "note"))
    if row["kind"] == "time"
]


@given(
    st.lists(
        st.sampled_from(
            [
                *TIME_WORDS,
                "a",
                "an",
                "and",
                "half",
                "quarter",
                "to",
                "or",
                "ten",
                "two",
                "leave it",
                ",",
                ".",
                "few",
                "of",
                "another",
            ]
        ),
        max_size=14,
    )
)
def test_any_words_give_ordered_times_inside_them(words: list[str]) -> None:
    doc = TOKENS(" ".join(words))
    found = find_durations(doc)
    assert all(0 <= d.start < d.end <= len(doc) and d.text == doc[d.start : d.end].text for d in found)
    assert all(d.low is None or (d.high is not None and 0 < d.low <= d.high) for d in found)
    assert all(one.end <= two.start for one, two in pairwise(found))


@given(st.integers(2, 59), st.sampled_from(["seconds", "minutes", "hours"]))
def test_a_spelled_time_is_its_figure(value: int, unit: str) -> None:
    spelled = find_durations(TOKENS(f"for {SPELL.number_to_words(value)} {unit}"))
    written = find_durations(TOKENS(f"for {value} {unit}"))
    assert [(d.low, d.high, d.unit) for d in spelled] == [(d.low, d.high, d.unit) for d in written]
    assert len(written) == 1
