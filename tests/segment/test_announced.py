"""What the opening promises, and sentences that take it up again."""

from __future__ import annotations

import pytest
from heard import speech_of, spotted_in

from extract.segment.announced import (
    CALLBACK,
    OPENING_SENTENCES,
    REPEATED_CALLBACK,
    announced_count,
    called_back,
    promised_heads,
)
from extract.segment.cues import cue_sentences

COUNTS = [
    ("We have two dishes for you today.", 2),
    ("There are three bakes coming.", 3),
    ("I am making a couple of recipes.", 2),
    ("Four things today.", 4),
    ("We are making one soup.", 1),
    ("Put two onions in three pans.", 1),
    ("It serves two people.", 1),
]
FILLER = "The lid goes on. " * OPENING_SENTENCES


@pytest.mark.parametrize(("text", "count"), COUNTS)
def test_counts_the_dishes_announced(text: str, count: int) -> None:
    assert announced_count(cue_sentences(speech_of(text).doc)) == count


def test_only_the_opening_announces() -> None:
    within = f"{FILLER.replace('The lid goes on. ', '', 1)} We have three dishes for you."
    after = f"{FILLER} We have three dishes for you."
    assert announced_count(cue_sentences(speech_of(within).doc)) == 3
    assert announced_count(cue_sentences(speech_of(after).doc)) == 1


def test_the_opening_promises_its_foods() -> None:
    text = f"Leeks and a barley soup today. {FILLER} Two cups of oats."
    spotted = spotted_in(text)
    assert promised_heads(spotted, cue_sentences(spotted.speech.doc)) == {"leek", "soup"}


CALLS = [
    ("Leeks today. " + FILLER + "Now the leeks.", CALLBACK),
    ("Leeks today. " + FILLER + "Chop a leek. The lid goes on. Now the leeks.", REPEATED_CALLBACK),
    ("Leeks today. " + FILLER + "Chop a leek. " * 4 + "Now the leeks.", 0.0),
    ("Leeks today. " + FILLER + "Chop a leek. " * 3 + "Now the leeks.", REPEATED_CALLBACK),
    ("Leeks and rice today. " + FILLER + "Chop a leek. " * 4 + "Now leeks and rice.", CALLBACK),
    ("Leeks today. " + FILLER + "Now the carrots.", 0.0),
    ("Leeks today. " + FILLER + "Now that is where I always say that you want to wash the leeks.", 0.0),
    ("Leeks today. Now the leeks.", 0.0),
]


@pytest.mark.parametrize(("text", "strength"), CALLS)
def test_a_short_sentence_calls_back_what_was_promised(text: str, strength: float) -> None:
    spotted = spotted_in(text)
    sentences = cue_sentences(spotted.speech.doc)
    usable = range(len(sentences))
    assert called_back(spotted, sentences, usable, usable[-1]) == strength
