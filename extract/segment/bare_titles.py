"""Sentences that are nothing but a dish's name: "Now. Smothered cabbage." """

from __future__ import annotations

from collections.abc import Sequence

from extract.segment.cues import Sentence
from extract.spot.spotted import Spotted

BARE_TITLE = 1.5
TITLE_WORDS = 5
TURNS = frozenset({"now", "right", "okay", "ok", "next", "so", "well then", "all right", "now then"})


def bare_title(
    spotted: Spotted, sentences: Sequence[Sentence], usable: Sequence[int], place: int, *, called: bool
) -> float:
    """BARE_TITLE where a few words without a verb name a food after a word that turns, else 0.

    A part of a dish ("now the filling") is no title. ``called``: the opening promised this food, so that no
    turning word is needed.
    """
    here = sentences[usable[place]]
    words = here.words.split()
    turn = place > 0 and sentences[usable[place - 1]].words in TURNS
    if len(words) > TITLE_WORDS or not (turn or called or (words and words[0] in TURNS)):
        return 0.0
    doc = spotted.speech.doc
    verb = any(t.pos_ in {"VERB", "AUX"} and t.tag_ != "VBN" for t in doc[here.start : here.end])
    dish = any("made" not in f.kinds for f in spotted.foods_within(here.start, here.end))
    return BARE_TITLE if dish and not verb else 0.0
