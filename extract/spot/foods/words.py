"""The words of a talk as the food finders walk them: keys to compare by, breaks, and where amounts lie."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from extract.spot.names.foods import food_words, word_key
from extract.spot.spans import Amount

if TYPE_CHECKING:
    from spacy.tokens import Doc

_SILENT = frozenset("-–'’")  # the hyphen of "all-purpose" and stray quotes part no words


class TalkWords:
    """Tokens of a Doc by their keys.

    ``keys[i]`` is the comparable form of token ``i``, "" for what is no word. ``places`` are the indices of
    the tokens that are words, in order. ``broken[i]`` tells that a comma or full stop stands right before
    token ``i``, ``ended[i]`` that it is more than a comma. ``amount_at[i]`` is the amount that covers token
    ``i``.
    """

    def __init__(self, doc: Doc, amounts: Sequence[Amount]) -> None:
        self.doc = doc
        self.amounts = amounts
        self.texts = [token.lower_ for token in doc]
        self.keys = [_key(text) for text in self.texts]
        self.places = [index for index, key in enumerate(self.keys) if key]
        self.broken, self.ended = self._breaks()
        self.amount_at = {index: amount for amount in amounts for index in range(amount.start, amount.end)}

    def _breaks(self) -> tuple[list[bool], list[bool]]:
        broken, ended = [False] * (len(self.keys) + 1), [False] * (len(self.keys) + 1)
        marks = ""
        for index, key in enumerate(self.keys):
            if key:
                broken[index], ended[index], marks = bool(marks), bool(marks.strip(",")), ""
            elif self.texts[index] not in _SILENT and self.texts[index][0] not in "'’":
                marks += "," if self.texts[index] in food_words("filler") else self.texts[index]
        return broken, ended

    def begins_sentence(self, index: int) -> bool:
        """Whether a token opens a sentence for certain: behind a full stop and with a capital."""
        return self.ended[index] and self.doc[index].text[:1].isupper()

    def before(self, index: int) -> int:
        """The index of the last word before token ``index``; -1 where there is none."""
        index -= 1
        while index >= 0 and not self.keys[index]:
            index -= 1
        return index

    def after(self, index: int) -> int:
        """The index of the first word at or after token ``index``; the talk's length where none is left."""
        while index < len(self.keys) and not self.keys[index]:
            index += 1
        return index

    def joined(self, position: int) -> str:
        """The word at ``places[position]`` run together with the next; "" across a break or a small word."""
        if position + 1 >= len(self.places):
            return ""
        one, other = self.places[position], self.places[position + 1]
        if self.broken[other] or self.doc[one].is_stop or self.doc[other].is_stop:
            return ""
        return self.keys[one] + self.keys[other]

    def follows_amount(self, index: int) -> bool:
        """Whether an amount stands right before token ``index``, or before an "of" there."""
        before = self.before(index)
        if before >= 0 and self.texts[before] == "of":
            before = self.before(before)
        return before in self.amount_at

    def plural(self, index: int) -> bool:
        """Whether the word at ``index`` is in the plural."""
        return self.texts[index] != self.keys[index] and self.texts[index].endswith("s")


def _key(text: str) -> str:
    if not text[0].isalnum() or text in food_words("filler"):
        return ""
    return word_key(text)
