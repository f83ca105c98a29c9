"""Capitals that only shout put into small letters: whole talks set in capitals, and single words among others."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from functools import cache

from extract.lexicon import read_lexicon

SHOUTED = 0.8  # of the words of two letters and more that are all capitals, in a talk that is set so
_WORD = re.compile(r"[^\W\d_]+(?:'[^\W\d_]+)*")
_OPENS = re.compile(r"(?:\A|[.!?]\s+)[\"'(]?([^\W\d_])")
_ENDS = re.compile(r"[.!?][\"')]*\s*\Z")
_FIRST_PERSON = re.compile(r"(?<![\w'.-])i(?=\s|'|,|$)")
_SCALE = re.compile(r"(?<=\d)\s?°?\s?[cf]\b")
LEAST = 4  # letters of a single word in capitals that is taken for a loud one and not for initials


def is_shouted(texts: Iterable[str]) -> bool:
    """Whether a talk is set in capitals throughout, as broadcast captions often are."""
    words = [word for text in texts for word in _WORD.findall(text) if len(word) > 1]
    loud = sum(1 for word in words if word.isupper())
    return len(words) > 0 and loud >= SHOUTED * len(words)


def openings(texts: Sequence[str]) -> list[bool]:
    """Whether each of the texts in a row begins a sentence; none does in a talk without full stops."""
    ends = [_ENDS.search(text) is not None for text in texts]
    return [any(ends), *ends][: len(ends)]


def in_small_letters(text: str, *, shouted: bool, opens: bool) -> str:
    """``text``, letter for letter, without capitals that only shout.

    Where the talk is ``shouted`` the first word of a sentence (the first of ``text`` where it ``opens`` one), "I", the
    letters of a temperature and the names that food has (``proper_words.tsv``) get their capitals back. Elsewhere loud
    words are put into small letters one by one, and "i" gets its capital.
    """
    if not shouted:
        return _FIRST_PERSON.sub("I", _WORD.sub(_quiet, text))
    small = _same_length(text)
    small = _WORD.sub(lambda found: proper_words().get(found[0], found[0]), small)
    small = _FIRST_PERSON.sub("I", small)
    small = _SCALE.sub(lambda found: found[0].upper(), small)
    return _OPENS.sub(lambda found: _raised(found, at_once=opens), small)


def _raised(found: re.Match[str], *, at_once: bool) -> str:
    """The first letter of a sentence as a capital."""
    goes_on = found.start() == 0 and not at_once and not found[0].startswith((".", "!", "?"))
    capital = found[0][-1].upper()
    return found[0] if goes_on or len(capital) > 1 else found[0][:-1] + capital


def _quiet(found: re.Match[str]) -> str:
    """One word of a talk that is not shouted: "DON'T" and "NOT" are loud, "UHT" and "I'M" are not."""
    word = found[0]
    if not word.isupper() or len(word) < 2 or word.split("'")[0] == "I":
        return word
    loud = "'" in word or len(word) >= LEAST or word.lower() in _small_words()
    return _same_length(word) if loud else word


def _same_length(text: str) -> str:
    """Small letters, those left alone that would become two (the Turkish dotted I)."""
    return "".join(small if len(small := letter.lower()) == 1 else letter for letter in text)


@cache
def proper_words() -> dict[str, str]:
    """The words that have a capital, by the way they are said."""
    return {row["word"].lower(): row["word"] for row in read_lexicon("proper_words", columns=("word",))}


@cache
def _small_words() -> frozenset[str]:
    """Words of two and three letters that are loud in capitals and not initials: "NOT", "ALL"."""
    from spacy.lang.en.stop_words import STOP_WORDS

    return frozenset(word for word in STOP_WORDS if len(word) < LEAST and word not in {"us", "re", "ca"})
