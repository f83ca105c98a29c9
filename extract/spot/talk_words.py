"""The words of a talk as the food finders walk them: keys to compare by, breaks, and where amounts lie."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from extract.spot.food_names import food_words, word_key
from extract.spot.spans import Amount

if TYPE_CHECKING:
    from spacy.tokens import Doc

_SILENT = frozenset("-–'’")  # the hyphen of "all-purpose" and stray quotes part no words


class TalkWords:
    """Tokens of a Doc by their keys.

    ``keys[i]`` is the comparable form of token ``i``, "" for what is no word. ``places`` are the indices of
    the tokens that are words, in order. ``broken[i]`` tells that a comma or full stop stands right before
    token ``i``. ``amount_at[i]`` is the amount that covers token ``i``.
    """

    def __init__(self, doc: Doc, amounts: Sequence[Amount]) -> None:
        self.doc = doc
        self.amounts = amounts
        self.texts = [token.lower_ for token in doc]
        self.keys = [_key(text) for text in self.texts]
        self.places = [index for index, key in enumerate(self.keys) if key]
        self.broken = self._breaks()
        self.amount_at = {index: amount for amount in amounts for index in range(amount.start, amount.end)}
        self.amount_before = {amount.end: amount for amount in amounts}

    def _breaks(self) -> list[bool]:
        broken, seen = [False] * (len(self.keys) + 1), False
        for index, key in enumerate(self.keys):
            if key:
                broken[index], seen = seen, False
            elif self.texts[index] not in _SILENT and not self.texts[index].startswith("'"):
                seen = True
        return broken

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

    def plural(self, index: int) -> bool:
        """Whether the word at ``index`` is in the plural."""
        return self.texts[index] != self.keys[index] and self.texts[index].endswith("s")


def _key(text: str) -> str:
    if not text[0].isalnum() or text in food_words("filler"):
        return ""
    return word_key(text)
