"""What the reader makes of a talk, for the page: how sure it was of each value, and what each sentence is for.

The words are only cut into tokens and read, not parsed, so that hours of talk take seconds.
"""

from __future__ import annotations

import re
import threading
from bisect import bisect_left
from collections.abc import Iterable, Sequence
from functools import lru_cache
from pathlib import Path

import numpy as np

from extract.language import read_speech
from extract.model import Dish, Evidence, Ingredient, Portion, RecipeDraft, Step
from extract.reader.labels import FIGURES, ROLES, SHARES, THINGS
from extract.reader.read import read_words
from extract.review.edits.evidence import is_reviewers
from extract.review.keys import key_of
from extract.transcript import Transcript, read_transcript

NEAR = 80  # tokens on either side of a food within which its amount stands
LEAST = 0.1  # a word that is no amount to this degree is not asked whose it is
# Below this a value is one to listen to. In twelve talks not learned from, of the values below it 63 in 100 were right,
# of those above it 97 in 100 foods and 86 in 100 amounts.
UNSURE = 0.7
_AMOUNT = FIGURES.index("amount")
_FOOD = [THINGS.index("food"), THINGS.index("food+")]
_DONE = ("do", "ahead", "sign", "need")
Span = tuple[int, int]
_reading = threading.Lock()


class Hearing:
    """A talk and the reader's scores for it.

    ``text`` holds the words of all cues in one row, ``begins`` where the cue of an index begins in it, ``places``
    where each token begins, ``moments`` the second at which it is said.
    """

    def __init__(self, transcript: Transcript) -> None:
        """Read the talk. Raises CardwrightError where it is not English."""
        import spacy

        speech = read_speech(transcript, spacy.blank("en"))
        self.cues = transcript.cues
        self.text = re.sub(r"\s", " ", " ".join(cue.text for cue in self.cues))
        self.begins: dict[int, int] = {}
        self._ends: dict[int, int] = {}
        at = 0
        for cue in self.cues:
            self.begins[cue.index], at = at, at + len(cue.text) + 1
            self._ends[cue.index] = at
        firsts = list(self.begins.values())
        self.places = [token.idx for token in speech.doc]
        if speech.spelled:
            cue_of = speech.cue_at
            self.places = [
                firsts[cue_of[i]] + speech.spelled[cue_of[i]].place(at - speech.begins[cue_of[i]])
                for i, at in enumerate(self.places)
            ]
        self.moments = [speech.moment(i) for i in range(len(speech.doc))]
        self.reading = read_words([token.text for token in speech.doc])
        low = self.text.lower()
        self._low = low if len(low) == len(self.text) else self.text

    def find(self, said: Evidence) -> Span | None:
        """The characters of a piece of evidence, None where a person said it or its words are not there."""
        begin = self.begins.get(said.cue)
        if is_reviewers(said) or begin is None or not said.text.strip():
            return None
        words = re.sub(r"\s", " ", said.text.strip()).lower()
        at = self._low.find(words, begin, self._ends[said.cue] + len(words))
        return None if at < 0 else (at, at + len(words))

    def tokens(self, begin: int, end: int) -> Span:
        """The tokens that begin between two characters."""
        return bisect_left(self.places, begin), bisect_left(self.places, end)

    def spans(self, said: Iterable[Evidence]) -> list[Span]:
        """The tokens of each piece of evidence that is found."""
        found = (self.find(one) for one in said)
        return [span for span in (self.tokens(*one) for one in found if one is not None) if span[0] < span[1]]

    def role(self, begin: int, end: int, allowed: Sequence[str]) -> str:
        """Which of the roles ``allowed`` the words between two characters have most likely."""
        start, stop = self.tokens(begin, end)
        rows = self.reading.role[start : max(stop, start + 1), [ROLES.index(role) for role in allowed]]
        return allowed[int(rows.sum(0).argmax())] if len(rows) else allowed[0]

    def food(self, line: Ingredient) -> float | None:
        """How likely the words behind a line are those of a food that goes in; None where none are found."""
        spans = self.spans(line.said)
        return max((self._goes_in(*span) for span in spans), default=None)

    def amount(self, line: Ingredient) -> float | None:
        """How likely the food has the amount that stands in its words, or none where the line has none."""
        spans = self.spans(line.said)
        if not spans:
            return None
        head = self.reading.head_of(*max(spans, key=lambda span: self._goes_in(*span)))
        low, high = max(0, head - NEAR), min(len(self.reading), head + NEAR)
        places = low + np.flatnonzero(self.reading.figures[low:high, _AMOUNT] > LEAST)
        chances = np.exp(self.reading.amount_scores(head, places.tolist()))
        if line.amount is None:
            return float(chances[0])
        own = [k for k, at in enumerate(places, start=1) if any(a <= at < b for a, b in spans)]
        return float(chances[own].sum())

    def _goes_in(self, start: int, end: int) -> float:
        return float(self.reading.things[start:end, _FOOD].sum(1).max())

    def share(self, share: Portion) -> float | None:
        """How likely a share of something made is told."""
        spans = self.spans(share.said)
        return max((self.reading.is_figure(*span, *SHARES.values()) for span in spans), default=None)

    def step(self, step: Step) -> float | None:
        """How likely the words behind a step belong in a method: the least likely of its actions."""
        spans = self.spans([one for action in step.actions for one in action.said] or step.said)
        return min((self.reading.role_of(*span, *_DONE) for span in spans), default=None)

    def unsure(self, draft: RecipeDraft) -> dict[str, list[str]]:
        """By key, which fields of the draft's lines, shares and steps the reader was less sure of."""
        found = {key: fields for dish in draft.dishes for key, fields in self._of_dish(dish)}
        return {key: fields for key, fields in found.items() if fields}

    def _of_dish(self, dish: Dish) -> Iterable[tuple[str, list[str]]]:
        for part in dish.components:
            for line in part.ingredients:
                yield key_of(line), _low({"name": self.food(line), "amount": self.amount(line)})
            for share in [*part.portions, *part.leftovers]:
                yield key_of(share), _low({"fraction": self.share(share)})
        for step in dish.method:
            yield key_of(step), _low({"text": self.step(step)})


def hear(path: Path) -> Hearing:
    """What the reader makes of the transcript in ``path``; kept until another is asked for.

    Raises CardwrightError where it cannot be read.
    """
    with _reading:
        return _heard(read_transcript(path))


@lru_cache(maxsize=1)
def _heard(transcript: Transcript) -> Hearing:
    return Hearing(transcript)


def _low(chances: dict[str, float | None]) -> list[str]:
    return [field for field, chance in chances.items() if chance is not None and chance < UNSURE]
