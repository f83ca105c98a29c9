"""What each sentence of a show speaks for."""

from __future__ import annotations

import pytest
from heard import speech_of
from hypothesis import given, settings
from hypothesis import strategies as st

from extract.lexicon import read_lexicon
from extract.segment.cues import COLUMNS, LONGEST, bare_words, cue_sentences

CUES = [
    ("Second dish.", "opener"),
    ("On to the pudding.", "opener"),
    ("That's the soup done.", "closer"),
    ("There you have it.", "closer"),
    ("Oh, that's delicious.", "tasting"),
    ("That serves six people.", "tasting"),
    ("That's twelve slices.", "serving"),
    ("Last Monday I drove out to the coast.", "visit-in"),
    ("We keep forty ewes.", "visit"),
    ("Back in the kitchen.", "visit-out"),
    ("Thank you for watching.", "sign-off"),
    ("Hello and welcome.", "greeting"),
    ("Stir in two tablespoons of oil.", "cooking"),
]


@pytest.mark.parametrize(("text", "cue"), CUES)
def test_a_sentence_speaks_for_its_cue(text: str, cue: str) -> None:
    (sentence,) = cue_sentences(speech_of(text).doc)
    assert sentence.weight(cue) > 0


@pytest.mark.parametrize("text", ["The lid goes on.", "It was a grey day.", "She has two brothers."])
def test_other_sentences_speak_for_nothing(text: str) -> None:
    (sentence,) = cue_sentences(speech_of(text).doc)
    assert sentence.weights == {}


def test_the_end_of_a_visit_ends_no_dish() -> None:
    (sentence,) = cue_sentences(speech_of("That's your visit, and there you have it.").doc)
    assert sentence.weight("visit-out") > 0
    assert sentence.weight("closer") == 0


def test_questions_are_told_by_their_mark() -> None:
    sentences = cue_sentences(speech_of("Do you keep bees? We do.").doc)
    assert [sentence.question for sentence in sentences] == [True, False]


@pytest.mark.parametrize(
    ("text", "words"),
    [("That's it!", "that s it"), ("  Two-thirds, then.", "two thirds then"), ("", ""), ("¿?", "")],
)
def test_bare_words(text: str, words: str) -> None:
    assert bare_words(text) == words


@settings(max_examples=30)
@given(st.lists(st.sampled_from(("stir", "the", "pot", "and", "then", "oil", ".", "?")), max_size=120))
def test_sentences_cover_the_talk_in_pieces_no_longer_than_a_sentence(words: list[str]) -> None:
    doc = speech_of(" ".join(words)).doc
    sentences = cue_sentences(doc)
    covered = [i for sentence in sentences for i in range(sentence.start, sentence.end)]
    assert covered == list(range(len(doc)))
    assert all(0 < sentence.end - sentence.start <= LONGEST for sentence in sentences)


def test_cues_are_those_that_the_lexicon_explains() -> None:
    dishes = {"opener", "closer", "tasting", "serving", "cooking"}
    talk = {"visit-in", "visit-out", "visit", "greeting", "sign-off"}
    assert {row["cue"] for row in read_lexicon("show_cues", columns=COLUMNS)} == dishes | talk
