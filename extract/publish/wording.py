"""The words that a published recipe says of its own, and what an editor's words in a draft do to it."""

from __future__ import annotations

from functools import cache

from extract.lexicon import read_lexicon


@cache
def word(key: str) -> str:
    """The words for ``key`` of ``lexicons/words/published_words.tsv``; a house's own row goes before the program's."""
    rows = read_lexicon("published_words", columns=("key", "words"))
    return {row["key"]: row["words"] for row in rows}[key]


def effect_of(words: str) -> str:
    """What an editor's note or answer does to the page, by how it begins; "" where it does nothing."""
    told = " ".join(words.lower().replace("’", "'").split())
    rows = read_lexicon("editor_notes", columns=("start", "effect"))
    return next((row["effect"] for row in rows if told.startswith(row["start"])), "")


def is_kept_back(note: str) -> bool:
    """Whether a note of the draft is for its editor, or said by the line itself, and so not printed."""
    return effect_of(note) in ("kept back", "said by the line")
