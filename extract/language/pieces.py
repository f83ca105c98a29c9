"""One parse of a long talk, made piece by piece, so that its memory does not grow with the talk."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from spacy.language import Language
    from spacy.tokens import Doc

PIECE = 30_000  # characters, half an hour of talk; what a piece takes to parse is some 100 MB
REACH = 3_000  # characters within which the end of a sentence is looked for
_SENTENCE_END = re.compile(r"[.!?][\"')]* ")


def cut(text: str, nlp: Language) -> list[Doc]:
    """The tokens of the whole text, piece by piece, not parsed yet."""
    pieces = list(pieces_of(text))
    nlp.max_length = max(nlp.max_length, *(len(piece) + 1 for piece in pieces))
    return [nlp.make_doc(piece) for piece in pieces]


def parse(pieces: Sequence[Doc], nlp: Language) -> Doc:
    """The whole text as one parsed document."""
    if len(pieces) < 2:
        return nlp(pieces[0])
    from spacy.tokens import Doc

    return Doc.from_docs([nlp(piece) for piece in pieces])


def pieces_of(text: str) -> Iterator[str]:
    """``text`` cut after the ends of sentences, or between words where there are none, one blank lost at each cut."""
    start = 0
    while len(text) - start > PIECE + REACH:
        ends = [
            found.end() - 1 for found in _SENTENCE_END.finditer(text, start + PIECE - REACH, start + PIECE)
        ]
        cut = ends[-1] if ends else text.rfind(" ", start + 1, start + PIECE)
        cut = cut if cut > start else text.find(" ", start + PIECE)
        if cut < 0:
            break
        yield text[start:cut]
        start = cut + 1
    yield text[start:]
