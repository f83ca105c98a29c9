"""Yields and batches in whole sentences."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from marked_sentences import cases, parse, read_marked
from spacy.lang.en import English

from extract.spot.counts.find import find_counts
from extract.spot.counts.passing import passing_yields
from extract.spot.names.foods import word_key
from extract.spot.spans import Count
from extract.spot.words import Words


def figures(count: Count) -> str:
    return str(count.low) if count.low == count.high else f"{count.low}-{count.high}"


def short(count: Count) -> str:
    return f"batch {figures(count)}" if count.unit == "batch" else f"yield {figures(count)} {count.unit}"


@pytest.mark.parametrize("line", cases("counts"))
def test_finds_exactly_the_marked_yields_and_batches(line: str) -> None:
    text, expected = read_marked(line)
    doc = parse(text)
    yields, batches = find_counts(doc)
    found = sorted([*yields, *batches], key=lambda count: count.start)
    assert [(doc[c.start : c.end].text, short(c)) for c in found] == expected


@pytest.mark.parametrize("line", cases("passing_counts"))
def test_finds_exactly_the_marked_yields_said_in_passing(line: str) -> None:
    text, expected = read_marked(line)
    doc = parse(text)
    found = passing_yields(Words.of(doc), 0, len(doc), frozenset({word_key("twists")}))
    shown = [(doc[c.start : c.end].text, f"{c.form} {figures(c)} {c.unit}") for c in found]
    assert shown == expected


TALK = "so that 's it makes feeds cut in out of two ten by four people slices , . or for"
WORDS = st.sampled_from(sorted(TALK.split()))


@given(st.lists(WORDS, max_size=14))
def test_any_words_at_all_give_whole_counts_in_order(talk: list[str]) -> None:
    doc = English()(" ".join(talk))
    yields, _ = find_counts(doc)
    passing = passing_yields(Words.of(doc), 0, len(doc))
    for found in (yields, passing):
        assert all(c.low.denominator == 1 and 1 <= c.low <= c.high for c in found)
        assert all(0 <= c.start < c.end <= len(doc) for c in found)
        assert all(a.end <= b.start for a, b in pairwise(found))
