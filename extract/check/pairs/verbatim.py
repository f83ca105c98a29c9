"""The steps that a written version took over from the draft word for word.

Two readers of one sentence, the one of speech and the one of print, need not make the same of it. What stands in a
step that is the draft's own is what the draft says, however either reads it; only the rest is compared.
"""

from __future__ import annotations

from collections.abc import Iterator

from extract.check.written.lines.tokens import tokens_of
from extract.model import Dish, Step
from extract.publish.wording import is_kept_back, word

Words = tuple[str, ...]


def word_for_word(said: Dish, written: Dish) -> dict[int, int]:
    """The written steps that are the draft's own, each with the draft's step; both counted from 0.

    Marks, capitals and the way of writing fractions make no difference; a step that stands twice is taken in order.
    """
    own: dict[Words, list[int]] = {}
    for place, step in enumerate(said.method):
        for words in set(_forms(step)):
            own.setdefault(words, []).append(place)
    found: dict[int, int] = {}
    for place, step in enumerate(written.method):
        left = [number for number in own.get(_words(step.text), ()) if number not in found.values()]
        if left:
            found[place] = left[0]
    return found


def _forms(step: Step) -> Iterator[Words]:
    """A step as print may have it: alone, or with its notes, or with those meant for a reader."""
    text = _words(step.text)
    if not text:
        return
    yield text
    for notes in (step.notes, [note for note in step.notes if not is_kept_back(note)]):
        yield text + tuple(part for note in notes for part in _words(f"{word('note')}: {note}"))


def _words(text: str) -> Words:
    return tuple(token.lower() for token in tokens_of(text) if token[0].isalnum())
