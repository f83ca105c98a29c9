"""What the words before a food do to it: nothing, make a sort of it, make another food, say the opposite."""

from __future__ import annotations

from functools import cache

from extract.lexicon import read_lexicon
from extract.spot.names.foods import food_words, meaning

NOTHING: frozenset[str] = frozenset()


@cache
def modifiers() -> dict[str, list[tuple[frozenset[str], str]]]:
    """By word, what it does ("same", "sort", "food") to foods of which kinds (lexicons/words/food_modifiers.tsv)."""
    found: dict[str, list[tuple[frozenset[str], str]]] = {}
    for row in read_lexicon("food_modifiers", columns=("word", "kinds", "weight")):
        found.setdefault(row["word"], []).append((frozenset(row["kinds"].split(",")), row["weight"]))
    return found


def weight_of(word: str, kinds: frozenset[str]) -> str:
    """What ``word`` does to a food of these kinds: "same", "sort", "food", or "" where no row tells."""
    for held, weight in modifiers().get(word, ()):
        if not held.isdisjoint(kinds):
            return weight
    return next((weight for held, weight in modifiers().get(word, ()) if "*" in held), "")


def told(name: str, words: frozenset[str], kinds: frozenset[str]) -> frozenset[str]:
    """Those of the words that tell something: not the ones that change nothing in such a food."""
    return frozenset(word for word in words if not _is_idle(name, word, kinds))


def _is_idle(name: str, word: str, kinds: frozenset[str]) -> bool:
    """Whether a word changes nothing: by its row, or, without one, as a size or as what was done to the food.

    Not where the lexicon has the whole name as a food of its own ("fried onions").
    """
    weight = weight_of(word, kinds)
    if weight:
        return weight == "same"
    if any(word in food_words(role) for role in ("size", "adverb", "filler")):
        return True
    done = word.endswith(("ed", "-cut")) and word not in food_words("state")
    done = done or any(word in food_words(role) for role in ("praise", "shape", "prep"))
    return done and not is_named(name, frozenset((word,)))


@cache
def _opposites() -> dict[str, frozenset[str]]:
    found: dict[str, set[str]] = {}
    for row in read_lexicon("opposed_words", columns=("word", "other")):
        for other in row["other"].split("; "):
            found.setdefault(row["word"], set()).add(other)
            found.setdefault(other, set()).add(row["word"])
    return {word: frozenset(others) for word, others in found.items()}


def says_opposite(words: frozenset[str], others: frozenset[str]) -> bool:
    """Whether the other side says the opposite of a word: "dried bay leaves", "3 fresh bay leaves"."""
    return any(not _opposites().get(word, NOTHING).isdisjoint(others) for word in words - others)


def is_named(name: str, words: frozenset[str]) -> bool:
    """Whether the words stand within a name that the lexicon has as one food: "sweet" in "sweet potato"."""
    found = meaning(name)
    return found.entry is not None and bool(words - set(found.narrowing))
