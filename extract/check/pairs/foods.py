"""How surely a said and a written line are of one food: names, synonyms, spelling, the words said."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from rapidfuzz import fuzz

from extract.check.pairs.hearing import as_meant, rejoined
from extract.check.written.lines.units import MEASURED, unit_named
from extract.check.written.lines.words import words_of
from extract.model import Ingredient
from extract.spot.names.foods import canonical, kinds_of, look_up, meaning, name_keys, same_food, word_key
from extract.spot.names.general import sorts
from extract.spot.names.identity import ORDER, Sameness, opposed, sameness

SAME, SURE, LIKELY, POSSIBLE = 1.0, 0.9, 0.8, 0.6
KIN = 0.5  # two foods of one base or kind: one may have been written for the other
_SHORTEST = 5  # letters below which a near spelling is another word
_NOTE_WORDS = 3
_TELLING = ("preparation", "manner", "size", "state", "loose", "filler", "cut")
_NEAR = 4  # words within which a spoken word belongs to a food
_MADE = frozenset(("made", "dish", "generic", "mixture"))
_CHOICE = re.compile(r"\bor\b", re.IGNORECASE)
_CLOSENESS = {"same": SAME, "sort": 0.85, "another": KIN, "unrelated": 0.0}


@dataclass(frozen=True, slots=True)
class Names:
    """Every name a line gives its food: the one it goes by, other names beside it, what may take its place.

    ``heard`` holds the words of the evidence, "" for a written line; ``beside`` the words of the written
    line, or what was said of how the food is made ready.
    """

    main: str
    also: tuple[str, ...] = ()
    instead: tuple[str, ...] = ()
    heard: str = ""
    beside: frozenset[str] = frozenset()


def names_of(line: Ingredient) -> Names:
    """The names in a line. A short remark may be a second name: "cornflour (cornstarch)"; so may "egg plants"."""
    remarks = [part.strip() for part in line.note.split(";")] if line.written else []
    also = [part for part in remarks if _may_be_name(part)]
    also += [whole for whole in (rejoined(line.name),) if whole and not line.written]
    counted = line.written and line.amount is not None
    also += [name for name in (_without_piece(line.name),) if name and not counted]
    heard = " ".join((*(evidence.text for evidence in line.said), line.preparation))
    text = _CHOICE.split(line.written.text)[0] if line.written else f"{line.preparation} {line.note}"
    beside = frozenset(name_keys(text))
    return Names(_with_cut(line), tuple(also), tuple(line.alternatives), heard, beside)


def _without_piece(name: str) -> str:
    """The food in a name that ends in what it is counted in: "smoked bacon rashers"; else ""."""
    *food, last = name.split()
    unit = unit_named(last) if food else None
    counted = unit is not None and unit.name not in MEASURED and unit.name not in words_of("cut of bird")
    return " ".join(food) if counted and look_up(name_keys(name)) is None and kinds_of(" ".join(food)) else ""


def _may_be_name(remark: str) -> bool:
    """Whether a remark may be another name: a food of the lexicon, or one word that no lexicon of lines has."""
    words = remark.split()
    if len(words) == 1 and words[0].isalpha() and not any(words[0] in words_of(kind) for kind in _TELLING):
        return True
    return 0 < len(words) <= _NOTE_WORDS and bool(kinds_of(remark))


def _with_cut(line: Ingredient) -> str:
    """The name with the cut that was read as its unit or set apart from it: "chicken breast"."""
    unit = line.amount.unit if line.amount else ""
    told = {word_key(word) for word in line.preparation.split()} | {unit}
    cuts = sorted(told & words_of("cut of bird") - set(name_keys(line.name)))
    words = line.name.split()
    counted = len(words) > 1 and word_key(words[-1]) == unit and unit not in words_of("cut of bird")
    return " ".join((*(words[:-1] if counted else words), *cuts))  # a cube of "stock cube" is one of stock


def likeness(said: Names, written: Names) -> float:
    """From 0 (two foods) to 1 (one food); above ``POSSIBLE`` the lines may be paired, at ``KIN`` with a reason."""
    best = _CLOSENESS[identity(said, written)]
    if best >= LIKELY:
        return best
    if any(sameness(one, other) == "same" for one, other in _swaps(said, written)):
        return max(best, 0.7)
    return best


@lru_cache(maxsize=20_000)
def identity(said: Names, written: Names) -> Sameness:
    """How far the foods of two lines are one, by the nearest of their names."""
    found = _nearest(said, written)[0]
    if ORDER.index(found) > ORDER.index("sort") and _share_food(said.main, written.main):
        return "sort"
    shorter = set(name_keys(written.main)) < set(name_keys(said.main))  # "paprika" for "smoked paprika"
    named = found != "same" and not shorter and is_phrase_of(written.main, said.heard)
    return "same" if named and not opposed(said.main, written.beside) else found


def _share_food(said: str, written: str) -> bool:
    """Whether both names list several foods, one of which is the same: "thighs and legs", "thighs and drumsticks"."""
    ours, theirs = said.split(" and "), written.split(" and ")
    several = len(ours) > 1 and len(theirs) > 1
    return several and any(sameness(one, other) == "same" for one in ours for other in theirs)


@lru_cache(maxsize=20_000)
def _nearest(said: Names, written: Names) -> tuple[Sameness, str]:
    """How far the foods are one by the said name that comes nearest, and that name, mended where it was misheard."""
    meant = as_meant(said.main, written.main) if said.heard else ""
    found = [
        (sameness(one, other, _near(one, said.heard) | said.beside, written.beside), one)
        for one in (said.main, *said.also, *filter(None, (meant,)))
        for other in (written.main, *written.also)
    ]
    return min(found, key=lambda pair: ORDER.index(pair[0]))


def name_as_meant(said: Names, written: Names) -> str:
    """The said name as it was meant, where it was misheard."""
    return _nearest(said, written)[1]


def first_kind(name: str) -> str:
    """What a food mainly is ("spice"), "" for one the lexicon lacks or for what is made of foods."""
    entry = meaning(name).entry
    return "" if entry is None or entry.kinds & _MADE else entry.main


def is_narrower(said: Names, written: Names) -> bool:
    """Whether the written name is the said one with more words, a sort of it: one side only says more."""
    return _telling(name_as_meant(said, written)) < _telling(written.main)


def is_wider(said: Names, written: Names) -> bool:
    """Whether the written name is the said one with fewer words."""
    return _telling(written.main) < _telling(name_as_meant(said, written))


def _telling(name: str) -> set[str]:
    """The words of a name but for those of size, which a written line has before it."""
    return set(name_keys(name)) - words_of("size")


@lru_cache(maxsize=20_000)
def _near(name: str, text: str) -> frozenset[str]:
    """The words that were spoken close to a food's last word: "flour, plain"; "whole grain" as one too."""
    words, head = name_keys(text), name_keys(name)[-1:]
    places = [place for place, word in enumerate(words) if (word,) == head]
    near = {word for place in places for word in words[max(0, place - _NEAR) : place + _NEAR]}
    pairs = {(one, other) for one, other in pairwise(words) if {one, other} <= near}
    return frozenset(near | {f"{one}{mark}{other}" for one, other in pairs for mark in ("", "-")})


@lru_cache(maxsize=20_000)
def is_phrase_of(name: str, text: str) -> bool:
    """Whether ``text`` holds the words of a food's name one after another."""
    wanted, heard = name_keys(name), name_keys(text)
    return bool(wanted) and any(
        heard[at : at + len(wanted)] == wanted for at in range(len(heard) - len(wanted) + 1)
    )


def _swaps(said: Names, written: Names) -> Iterable[tuple[str, str]]:
    yield from ((said.main, other) for other in written.instead)
    yield from ((one, written.main) for one in said.instead)


@lru_cache(maxsize=20_000)
def alike(one: str, other: str) -> float:
    """How surely two names are of one food, from 0 to 1."""
    first, second = canonical(one), canonical(other)
    if not first or not second:
        return 0.0
    if first == second or first.replace(" ", "").replace("-", "") == second.replace(" ", "").replace("-", ""):
        return SAME
    if same_food(one, other):
        return SURE
    if not kinds_of(one) and set(name_keys(one)) < set(name_keys(other)):
        return 0.75  # "granulated" for granulated sugar: no food by itself
    if _one_part_of(first, second) or _one_sort_of(first, second) or _one_sort_of(second, first):
        return LIKELY
    return _by_spelling(first, second)


def _one_part_of(one: str, other: str) -> bool:
    """ "lemon" and "lemon zest": the fruit, and the part of it that a recipe asks for."""
    short, long = sorted((one.split(), other.split()), key=len)
    return len(long) == len(short) + 1 and long[: len(short)] == short and long[-1] in words_of("part")


def _one_sort_of(general: str, particular: str) -> bool:
    """Whether the second name is a sort of the first: "stout" of "dark beer" (lexicons/words/general_foods.tsv)."""
    return particular in sorts().get(general, ())


def _by_spelling(one: str, other: str) -> float:
    """Names that the lexicon does not join: a near spelling, more words around the same ones, one base."""
    if min(len(one), len(other)) < _SHORTEST:
        return 0.0
    if fuzz.ratio(one, other) >= 88:
        return 0.75
    short, long = sorted((one.split(), other.split()), key=len)
    if len(short) > 1 and set(short) < set(long):
        return 0.75
    if not _kinds_meet(one, other):
        return 0.0
    if short[-1] == long[-1] and fuzz.token_set_ratio(one, other) >= 85:
        return 0.7
    return 0.7 if any(_is_base(word, one, other) for word in set(short) & set(long)) else 0.0


def _kinds_meet(one: str, other: str) -> bool:
    first, second = kinds_of(one), kinds_of(other)
    return not first or not second or not first.isdisjoint(second)


def _is_base(word: str, one: str, other: str) -> bool:
    """Whether both names are sorts of the food ``word``: "cheddar cheese" and "sharp cheddar"."""
    kinds = kinds_of(word)
    return bool(kinds) and kinds <= kinds_of(one) and kinds <= kinds_of(other)
