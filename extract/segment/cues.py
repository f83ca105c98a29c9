"""How strongly each sentence of a show speaks for a further dish, a visit, a tasting or a sign-off."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from extract.lexicon import read_lexicon

if TYPE_CHECKING:
    from spacy.tokens import Doc

LONGEST = 40
COLUMNS = ("pattern", "cue", "weight")


@dataclass(frozen=True, slots=True)
class Sentence:
    """A sentence of the talk: its token span, its bare words, and the weight of each cue found in it."""

    start: int
    end: int
    words: str
    weights: dict[str, float]
    question: bool

    def weight(self, cue: str) -> float:
        """The summed weight of ``cue`` in this sentence, 0 where nothing speaks for it."""
        return self.weights.get(cue, 0.0)


@cache
def _patterns() -> tuple[tuple[re.Pattern[str], str, float], ...]:
    rows = read_lexicon("show_cues", columns=COLUMNS)
    return tuple((re.compile(row["pattern"]), row["cue"], float(row["weight"])) for row in rows)


def bare_words(text: str) -> str:
    """Lower-case words separated by single spaces, apostrophes and punctuation gone."""
    return " ".join(re.findall(r"[a-z0-9]+", text.lower()))


def cue_sentences(doc: Doc) -> tuple[Sentence, ...]:
    """Every sentence of the talk with its cues, in order."""
    return tuple(
        _sentence(start, end, doc[start:end].text)
        for span in doc.sents
        for start, end in _pieces(span.start, span.end)
    )


def _pieces(start: int, end: int) -> list[tuple[int, int]]:
    """A sentence as it is, or in even pieces where it is too long to be one: speech without full stops."""
    count = -(-(end - start) // LONGEST) if end - start > LONGEST else 1
    size = -(-(end - start) // count)
    return [(a, min(a + size, end)) for a in range(start, end, size)]


def _sentence(start: int, end: int, text: str) -> Sentence:
    words = bare_words(text)
    weights: dict[str, float] = {}
    for pattern, cue, weight in _patterns():
        if pattern.search(words):
            weights[cue] = weights.get(cue, 0.0) + weight
    if "visit-out" in weights:
        # "That's your visit, and these have had their hour": what is over is the visit, not the dish.
        weights.pop("closer", None)
    return Sentence(start, end, words, weights, text.rstrip().endswith("?"))
