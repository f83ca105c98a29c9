"""What a show says at its start that it will make: how many dishes, and by what names."""

from __future__ import annotations

import re
from collections.abc import Sequence

from extract.lexicon import read_lexicon
from extract.segment.cues import Sentence
from extract.spot.spotted import Spotted

OPENING_SENTENCES = 12
LONGEST_CALLBACK = 9
CALLBACK = 2.0
REPEATED_CALLBACK = 1.0
PASSING = 3


def announced_count(sentences: Sequence[Sentence]) -> int:
    """The number of dishes announced ("two bakes for you"), or 1 where none is."""
    for sentence in sentences[:OPENING_SENTENCES]:
        for row in read_lexicon("announcements", columns=("pattern", "dishes")):
            if re.search(row["pattern"], sentence.words):
                return int(row["dishes"])
    return 1


def promised_heads(spotted: Spotted, sentences: Sequence[Sentence]) -> set[str]:
    """The head nouns of the foods spoken of in the opening."""
    end = sentences[min(OPENING_SENTENCES, len(sentences)) - 1].end
    return {f.head for f in spotted.foods_within(0, end)}


def called_back(spotted: Spotted, sentences: Sequence[Sentence], usable: Sequence[int], place: int) -> float:
    """How strongly a short sentence takes up a food that the opening promised and that then was not spoken of."""
    here = sentences[usable[place]]
    if len(here.words.split()) > LONGEST_CALLBACK or place < OPENING_SENTENCES:
        return 0.0
    opening_end = sentences[min(OPENING_SENTENCES, len(sentences)) - 1].end
    taken_up = {f.head for f in spotted.foods_within(here.start, here.end) if "made" not in f.kinds}
    taken_up &= promised_heads(spotted, sentences)
    if not taken_up:
        return 0.0
    between = [f.head for f in spotted.foods_within(opening_end, here.start)]
    fewest = min(between.count(head) for head in taken_up)
    if fewest == 0:
        return CALLBACK
    return REPEATED_CALLBACK if fewest <= PASSING else 0.0
