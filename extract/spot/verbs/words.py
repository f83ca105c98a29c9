"""The small classes of words by which a clause of cooking talk is read."""

from __future__ import annotations

from functools import cache

from extract.lexicon import read_lexicon


@cache
def words(kind: str) -> frozenset[str]:
    """The words of one class of ``lexicons/words/action_words.tsv``, lower case; KeyError for an unknown class."""
    return classes()[kind]


@cache
def classes() -> dict[str, frozenset[str]]:
    rows = read_lexicon("action_words", columns=("kind", "words"))
    found: dict[str, frozenset[str]] = {}
    for row in rows:  # of a user's own there may be more of a class
        found[row["kind"]] = found.get(row["kind"], frozenset()) | frozenset(row["words"].split())
    return found
