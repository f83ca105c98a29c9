"""A dish's name as a heading."""

from __future__ import annotations

import re

from extract.spot.verbs.words import words


def title_words(name: str) -> str:
    """A name in title case: "leek and barley broth" is "Leek and Barley Broth".

    Small words stay small but for the first and the last; what has a capital within it ("BBQ") is kept.
    """
    spaced = re.sub(r"\s+(['’]s\b|n['’]t\b)", r"\1", " ".join(name.split()))
    spaced = re.sub(r"\s*-\s*", "-", spaced)
    said = spaced.strip(" .,;:!?-").split(" ")
    last = len(said) - 1
    return " ".join(_word(word, small=0 < number < last) for number, word in enumerate(said))


def _word(word: str, *, small: bool) -> str:
    if small and word.lower() in words("small in a title"):
        return word.lower()
    if any(letter.isupper() for letter in word[1:]):
        return word
    return "-".join(part[:1].upper() + part[1:] for part in word.split("-"))
