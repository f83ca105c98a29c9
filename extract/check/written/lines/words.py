"""The words that a written recipe's lines are built of, from ``lexicons/words/written_words.tsv``."""

from __future__ import annotations

from fractions import Fraction
from functools import cache

from extract.lexicon import read_lexicon

_COUNTED = ("digit", "teen", "ten", "part", "group")


@cache
def words_of(kind: str) -> frozenset[str]:
    """All words of one kind, in lower case: "preparation", "manner", "size", "filler" and so on."""
    rows = read_lexicon("written_words", columns=("word", "kind"))
    return frozenset(row["word"] for row in rows if row["kind"] == kind)


@cache
def number_words() -> dict[str, Fraction]:
    """Number words and what they stand for; glyphs and powers of ten are read as figures."""
    rows = read_lexicon("numbers", columns=("word", "kind", "value"))
    return {row["word"]: Fraction(row["value"]) for row in rows if row["kind"] in _COUNTED}
