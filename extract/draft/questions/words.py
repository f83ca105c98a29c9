"""The lexicons that questions are weighed by, and the small wording they share."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache

from extract.language.spelling import plainly
from extract.lexicon import read_lexicon
from extract.model import Evidence
from extract.spot.food_names import canonical, kinds_of, word_key

_MOST_WORDS = 14


@cache
def question_words(role: str) -> frozenset[str]:
    """The words of ``lexicons/question_words.tsv`` that play one role."""
    rows = read_lexicon("question_words", columns=("word", "role"))
    return frozenset(row["word"] for row in rows if row["role"] == role)


@cache
def kind_weights() -> dict[str, tuple[int, str]]:
    """Weight and source of each kind of question, from ``lexicons/question_kinds.tsv``."""
    rows = read_lexicon("question_kinds", columns=("kind", "weight", "source"))
    return {row["kind"]: (int(row["weight"]), row["source"]) for row in rows}


@cache
def _food_weights() -> dict[str, dict[str, int]]:
    rows = read_lexicon("question_foods", columns=("kind", "missing", "vague", "size"))
    return {
        row["kind"]: {column: int(row[column]) for column in ("missing", "vague", "size")} for row in rows
    }


def food_weight(food: str, lack: str) -> int:
    """How much a ``lack`` ("missing", "vague" or "size") of a food's amount can spoil, from 0 to 100."""
    table = _food_weights()
    if canonical(food) in question_words("to taste"):
        return min(8, table["spice"][lack])
    known = [table[kind][lack] for kind in kinds_of(food) if kind in table]
    return max(known, default=table["other"][lack])


def holds(text: str, role: str) -> bool:
    """Whether a text holds a word or phrase of one role, as whole words."""
    padded = f" {' '.join(plainly(text).lower().replace(',', ' ').split())} "
    return any(f" {word} " in padded for word in question_words(role))


def quoted(said: Iterable[Evidence]) -> str:
    """The cook's words for a question to end in, "" where none are kept."""
    text = " ".join(next((evidence.text for evidence in said), "").split())
    words = text.split()
    if not words:
        return ""
    shown = " ".join(words[:_MOST_WORDS]) + (" ..." if len(words) > _MOST_WORDS else "")
    return f" The words are '{shown}'."


def is_many(name: str) -> bool:
    """Whether a name is in the plural: "how many carrots", "how much flour"."""
    last = name.split()[-1].lower() if name.split() else ""
    return last.endswith("s") and word_key(last) != last


def article(name: str) -> str:
    """ "a" or "an" with the name."""
    return f"an {name}" if name[:1].lower() in "aeiou" else f"a {name}"
