"""A written text in the guise of a parsed one, so that the readers of heat, times and shares serve it too.

Those readers look at the words alone, not at the parse; no language model is loaded for a written recipe.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, cast, overload

from extract.check.written.lines.tokens import joined
from extract.check.written.method.vocabulary import is_thing

if TYPE_CHECKING:
    from spacy.tokens import Doc


@dataclass(frozen=True, slots=True)
class PlainToken:
    """One word: ``pos_`` is "NOUN" for a word that can name a thing, "X" for any other."""

    text: str
    i: int

    @property
    def lower_(self) -> str:
        return self.text.lower()

    @property
    def pos_(self) -> str:
        return "NOUN" if is_thing(self.lower_) else "X"

    @property
    def tag_(self) -> str:
        return ""


@dataclass(frozen=True, slots=True)
class PlainSpan:
    """Some words in a row."""

    text: str


class PlainDoc:
    """The words of one sentence."""

    def __init__(self, tokens: list[str]) -> None:
        self._tokens = [PlainToken(text, index) for index, text in enumerate(tokens)]

    def __len__(self) -> int:
        return len(self._tokens)

    def __iter__(self) -> Iterator[PlainToken]:
        return iter(self._tokens)

    @overload
    def __getitem__(self, at: int) -> PlainToken: ...
    @overload
    def __getitem__(self, at: slice) -> PlainSpan: ...
    def __getitem__(self, at: int | slice) -> PlainToken | PlainSpan:
        if isinstance(at, slice):
            return PlainSpan(joined(token.text for token in self._tokens[at]))
        return self._tokens[at]


def as_doc(tokens: list[str]) -> Doc:
    """The tokens as what the readers of speech take for a document."""
    return cast("Doc", PlainDoc(tokens))
