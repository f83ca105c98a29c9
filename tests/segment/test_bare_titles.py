"""Sentences that are nothing but a dish's name, and those that only look so."""

from __future__ import annotations

import pytest
from heard import spotted_in

from extract.segment.bare_titles import BARE_TITLE, bare_title
from extract.segment.cues import cue_sentences

TITLES = [
    ("Now. Smothered cabbage.", False, True),
    ("Right. Onion tart.", False, True),
    ("Now, leek soup.", False, True),
    ("Leek soup.", True, True),
    ("Leek soup.", False, False),
    ("Now. Stir the cabbage.", False, False),
    ("Now. The filling.", False, False),
    ("Now. A long wait.", False, False),
    ("Now. Cabbage with leeks, carrots and a lot of butter.", False, False),
    ("It rained. Smothered cabbage.", False, False),
]


@pytest.mark.parametrize(("text", "called", "expected"), TITLES)
def test_a_name_after_a_word_that_turns_is_a_title(text: str, called: bool, expected: bool) -> None:
    spotted = spotted_in(text)
    sentences = cue_sentences(spotted.speech.doc)
    usable = range(len(sentences))
    worth = bare_title(spotted, sentences, usable, usable[-1], called=called)
    assert worth == (BARE_TITLE if expected else 0.0)
