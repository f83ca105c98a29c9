"""How many dishes a show says at its start that it will make."""

from __future__ import annotations

import re
from collections.abc import Sequence

from extract.lexicon import read_lexicon
from extract.segment.cues import Sentence

OPENING_SENTENCES = 12


def announced_count(sentences: Sequence[Sentence]) -> int:
    """The number of dishes announced ("two bakes for you"), or 1 where none is."""
    for sentence in sentences[:OPENING_SENTENCES]:
        for row in read_lexicon("announcements", columns=("pattern", "dishes")):
            if re.search(row["pattern"], sentence.words):
                return int(row["dishes"])
    return 1
