"""What the cook says beside the work that a reader needs: a warning, a look, a texture."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache
from typing import TYPE_CHECKING

from extract.lexicon import read_lexicon
from extract.spot.verbs.mood import utterances
from extract.spot.verbs.words import words

if TYPE_CHECKING:
    from extract.language.speech import Speech
    from extract.spot.actions.span import ActionSpan

MOST_WORDS = 24
MOST_NOTES = 2
REACH = 40


@cache
def note_patterns() -> tuple[re.Pattern[str], ...]:
    """The patterns of sentences that matter to a reader."""
    rows = read_lexicon("step_notes", columns=("kind", "pattern"))
    return tuple(re.compile(row["pattern"]) for row in rows)


class Asides:
    """The sentences around some actions that matter beside the work, by the token they begin at.

    ``spans`` are the utterances of the talk, where they are known already.
    """

    def __init__(
        self, speech: Speech, actions: Sequence[ActionSpan], spans: Sequence[tuple[int, int]] = ()
    ) -> None:
        worked = {action.utterance for action in actions}
        first = min((start for start, _ in worked), default=0)
        last = max((end for _, end in worked), default=0) + REACH
        self._notes = {
            start: text
            for start, end in spans or utterances(speech.doc)
            if first <= start < last and (start, end) not in worked
            if (text := note_text(speech, start, end))
        }

    def between(self, start: int, end: int) -> list[str]:
        """The notes of a step whose sentences run from ``start`` to ``end``, a little after included."""
        return [text for at, text in self._notes.items() if start <= at < end + REACH][:MOST_NOTES]


def note_text(speech: Speech, start: int, end: int) -> str:
    """A sentence as a note, "" where it is none: too long, personal, or of no use to a reader."""
    tokens = [token.lower_ for token in speech.doc[start:end]]
    joined = " ".join(tokens)
    if len(tokens) > MOST_WORDS or "?" in tokens or set(tokens) & words("personal"):
        return ""
    if not any(pattern.search(joined) for pattern in note_patterns()):
        return ""
    first = start
    while first < end and speech.doc[first].lower_ in words("filler"):
        first += 1
    text = " ".join(speech.doc[first:end].text.split()).rstrip(" .,")
    return f"{text[:1].upper()}{text[1:]}." if text else ""
