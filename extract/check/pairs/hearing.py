"""A said name that is no food, mended by the written one that it sounds like: "leaks", "pam sugar", "egg plants"."""

from __future__ import annotations

import re
from functools import lru_cache
from itertools import combinations

from rapidfuzz import fuzz

from extract.spot.names.foods import look_up, name_keys, word_key
from extract.spot.names.sounds import apart, spoken

_WORD = re.compile(r"[^\W\d_]+")
_SHORTEST = 3  # letters below which any word sounds like another
SURE, LIKELY = 0.78, 0.6


@lru_cache(maxsize=20_000)
def as_meant(said: str, written: str, nearness: float = SURE) -> str:
    """The said name with the written words in the place of those that sound like them; "" where none do.

    "" too where the said name is a food of the lexicon as it stands.
    """
    if look_up(name_keys(said)) is not None:
        return ""
    ours, theirs = _WORD.findall(said.lower()), _WORD.findall(written.lower())
    only_said = [word for word in ours if word_key(word) not in map(word_key, theirs)]
    only_written = [word for word in theirs if word_key(word) not in map(word_key, ours)]
    heard = max(_spans(only_written), key=lambda span: _nearness(only_said, span), default=[])
    if not only_said or not heard or _nearness(only_said, heard) < nearness:
        return ""
    kept = [word for word in ours if word not in only_said]
    return " ".join((*kept, *heard) if ours[-1] in only_said else (*heard, *kept))


def _spans(words: list[str]) -> list[list[str]]:
    """The words, and every run of neighbours among them."""
    return [words[start:end] for start, end in combinations(range(len(words) + 1), 2)]


def _nearness(said: list[str], written: list[str]) -> float:
    """From 0 to 1: by sound where both are in the pronouncing dictionary, and by letters."""
    letters = "".join(said), "".join(written)
    if min(map(len, letters)) < _SHORTEST:
        return 0.0
    sounds = [
        1 - apart(one, other) / max(len(one), len(other))
        for one in spoken(said)
        for other in spoken(written)
        if one and other
    ]
    return max([fuzz.ratio(*letters) / 100, *sounds])


@lru_cache(maxsize=20_000)
def rejoined(name: str) -> str:
    """The name with two neighbouring words as one where that makes a food: "egg plants" is "eggplants"; else ""."""
    words = name.split()
    if look_up(name_keys(name)) is not None:
        return ""
    for at in range(len(words) - 1):
        whole = words[at] + words[at + 1]
        if look_up(name_keys(whole)) is not None:
            return " ".join((*words[:at], whole, *words[at + 2 :]))
    return ""
