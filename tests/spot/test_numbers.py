"""Numbers in words, figures and both, and what must hold for all of them."""

from __future__ import annotations

import unicodedata
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from marked_sentences import cases, parse, read_marked
from spacy.lang.en import English
from spacy.tokens import Doc
from spelling_out import SPELL

from extract.lexicon import read_lexicon
from extract.spot.numbers.find import is_pronoun, read_number
from extract.spot.spans import Number
from extract.spot.words import Words

TOKENS = English()


def find_numbers(doc: Doc) -> list[Number]:
    """Every number and range of the words, in order, each as long as it goes."""
    words = Words.of(doc)
    found, place = [], 0
    while place < len(words):
        number = read_number(words, place)
        if number is not None and not is_pronoun(words, number):
            found.append(number)
        place = place + 1 if number is None else number.end
    return found


def short(number: Number) -> str:
    figures = str(number.low) if number.low == number.high else f"{number.low}-{number.high}"
    return ("~" if number.approximate else "") + figures


@pytest.mark.parametrize("line", cases("numbers"))
def test_finds_exactly_the_marked_numbers(line: str) -> None:
    text, expected = read_marked(line)
    doc = parse(text)
    assert [(doc[n.start : n.end].text, short(n)) for n in find_numbers(doc)] == expected


@given(st.integers(1, 9999))
def test_a_spelled_number_is_its_figure(value: int) -> None:
    """inflect spells the number; it is read back to the same value."""
    spelled = str(SPELL.number_to_words(value)).replace(",", "")
    found = find_numbers(TOKENS(f"{spelled} grams"))
    assert [(n.low, n.high) for n in found] == [(value, value)], spelled


@given(st.integers(1, 19), st.sampled_from(["half", "third", "quarter", "eighth"]))
def test_a_whole_and_a_part_add_up(whole: int, part: str) -> None:
    worth = {"half": 2, "third": 3, "quarter": 4, "eighth": 8}[part]
    spelled = f"{SPELL.number_to_words(whole)} and a {part} cups"
    assert [n.low for n in find_numbers(TOKENS(spelled))] == [whole + Fraction(1, worth)]


@given(
    st.lists(
        st.sampled_from(
            [row["word"] for row in read_lexicon("numbers", columns=("word", "kind", "value"))]
            + ["and", "a", "of", ",", ".", "-", "to", "or", "cup", "cups", "1/2", "3", "½", "x"]
        ),
        max_size=14,
    )
)
def test_any_words_give_ordered_numbers_inside_them(words: list[str]) -> None:
    doc = TOKENS(" ".join(words))
    found = find_numbers(doc)
    assert all(0 <= n.start < n.end <= len(doc) and 0 < n.low <= n.high for n in found)
    assert all(one.end <= two.start for one, two in pairwise(found))


def test_vulgar_fractions_have_the_value_that_unicode_gives_them() -> None:
    """Unicode Character Database, Numeric_Value, through Python's unicodedata."""
    glyphs = {
        r["word"]: r["value"]
        for r in read_lexicon("numbers", columns=("word", "kind", "value"))
        if r["kind"] == "glyph"
    }
    assert len(glyphs) == 15
    for glyph, value in glyphs.items():
        assert abs(unicodedata.numeric(glyph) - float(Fraction(value))) < 1e-6, glyph
