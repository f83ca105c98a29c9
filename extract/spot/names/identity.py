"""Whether two names are of one food: by the lexicons, and by what the words do that only one of them has.

A head noun alone is no identity. Two names are of one food where a lexicon says so, or where one only leaves
out what changes nothing ("kosher salt", "salt"). A word that makes another food ("sweet potato", "rice
flour") parts them; any other word ("red onion") is worth a look.
"""

from __future__ import annotations

from functools import cache, lru_cache
from typing import Literal

from rapidfuzz import fuzz

from extract.lexicon import read_lexicon
from extract.spot.names.foods import (
    canonical,
    kinds_of,
    look_up,
    meaning,
    name_keys,
    name_tree,
    word_key,
)
from extract.spot.names.general import sorts, stands_for
from extract.spot.names.modifiers import NOTHING, is_named, modifiers, says_opposite, told, weight_of

Sameness = Literal["same", "sort", "another", "unrelated"]
ORDER: tuple[Sameness, ...] = ("same", "sort", "another", "unrelated")

_SPELLING = 84.0
_SHORTEST = 4  # letters below which a near spelling is another word
_CUTS = frozenset(("meat", "poultry", "fish", "shellfish"))


@lru_cache(maxsize=50_000)
def sameness(
    said: str, written: str, heard: frozenset[str] = NOTHING, beside: frozenset[str] = NOTHING
) -> Sameness:
    """How far two names are of one food.

    ``heard``: words spoken beside the said name; ``beside``: words written beside the written one. A word that
    only one name has counts for nothing where the other side has it there ("butter, unsalted").
    """
    first, second = canonical(said), canonical(written)
    if not first or not second:
        return "unrelated"
    ours, theirs = _keys(said), _keys(written)
    if _joined(ours) == _joined(theirs) or stands_for(said, written) or stands_for(written, said):
        return "same"
    if second in sorts().get(first, NOTHING) or _is_short_form(said, written):
        return "same"
    if _is_sort_of(_plainly(ours, kinds_of(said)), _plainly(theirs, kinds_of(written))):
        return "same"
    kinds = kinds_of(said) | kinds_of(written)
    only_said = frozenset(key for key in ours if key not in theirs and key not in beside)
    only_written = frozenset(key for key in theirs if key not in ours and key not in heard)
    only_said, only_written = _respelled(only_said, only_written)
    if says_opposite(only_said, beside) or says_opposite(only_written, heard):
        return "another"
    only_said, only_written = told(said, only_said, kinds), told(written, only_written, kinds)
    if not only_said and not only_written:
        return "same" if _share_head(ours, theirs) else _unlike(said, written, ours, theirs)
    if first in sorts().get(second, NOTHING):
        return "sort"
    if _is_part(ours, theirs) and any(word.startswith(theirs[-1][:4]) for word in heard):
        return "same"  # "lemon, juiced" and "lemon juice"
    return _parted(said, written, only_said, only_written)


@lru_cache(maxsize=20_000)
def _keys(name: str) -> tuple[str, ...]:
    """The words by which a name is compared, synonyms made one; words that always make another food are kept."""
    keys = meaning(name).keys
    if len(keys) > 2 and keys[-1] in _parts():  # "makrut lime zest" is of the kaffir lime
        keys = (*canonical(" ".join(keys[:-1])).split(), keys[-1])
    kept = [key for key in _before_food(name) if weight_of(key, NOTHING) == "food" and key not in keys]
    return (*kept, *keys)


def _before_food(name: str) -> list[str]:
    """The words of a name that stand before the food the lexicon knows, "gluten-free" as one."""
    words = [word.strip(",.()") for word in name.lower().split()]
    for start in range(len(words)):
        if look_up(name_keys(" ".join(words[start:]))) is not None:
            return words[:start]
    return words


def _is_short_form(short: str, long: str) -> bool:
    """Whether a name that is no food by itself is the other's without its last word: "granulated", for the sugar."""
    return not kinds_of(short) and set(name_keys(short)) == set(name_keys(long)[:-1])


def _joined(keys: tuple[str, ...]) -> str:
    return "".join(keys).replace("-", "")


def opposed(name: str, others: frozenset[str]) -> bool:
    """Whether words of the other side say the opposite of a word of this name."""
    return says_opposite(frozenset(_keys(name)), others)


def _plainly(keys: tuple[str, ...], kinds: frozenset[str]) -> tuple[str, ...]:
    """The words of a name without those before it that change nothing: "dried white beans" are white beans."""
    start = 0
    while start < len(keys) - 1 and weight_of(keys[start], kinds) == "same":
        start += 1
    return keys[start:]


def _is_sort_of(general: tuple[str, ...], particular: tuple[str, ...]) -> bool:
    """Whether the words of two names are of a food and its sort: "white beans" and "cannellini beans"."""
    return " ".join(particular) in sorts().get(" ".join(general), NOTHING)


def _share_head(ours: tuple[str, ...], theirs: tuple[str, ...]) -> bool:
    return bool(set(ours) & set(theirs))


def _respelled(ours: frozenset[str], theirs: frozenset[str]) -> tuple[frozenset[str], frozenset[str]]:
    """Both without words that are one word in two spellings, one of them unknown to the lexicons."""
    for one in ours:
        for other in theirs:
            known = one in _known_words() and other in _known_words()
            if not known and min(len(one), len(other)) >= _SHORTEST and fuzz.ratio(one, other) >= _SPELLING:
                return ours - {one}, theirs - {other}
    return ours, theirs


@cache
def _known_words() -> frozenset[str]:
    """Every word of a food's name in the lexicons."""
    found = set(modifiers())
    branches = [name_tree()]
    while branches:
        branch = branches.pop()
        found.update(branch.next)
        branches.extend(branch.next.values())
    return frozenset(found)


def _parted(said: str, written: str, ours: frozenset[str], theirs: frozenset[str]) -> Sameness:
    """What two names are to one another that differ by the words ``ours`` and ``theirs``."""
    first, second = _keys(said), _keys(written)
    kinds = kinds_of(said) | kinds_of(written)
    if not _is_kin(said, written):
        return _unlike(said, written, first, second)
    if _is_part(first, second) or _is_part(second, first):
        return "sort"
    weights = {weight_of(word, kinds) for word in ours | theirs}
    if "food" in weights:
        return "another"
    if ours and theirs:
        named = (is_named(said, ours), is_named(written, theirs))
        return "another" if any(named) else "sort"
    if weights == {"sort"}:
        return "sort"
    longer, words = (said, ours) if ours else (written, theirs)
    return "another" if is_named(longer, words) else "sort"


def _is_kin(said: str, written: str) -> bool:
    """Whether two names are of one base: the same last word, or a cut of the same animal."""
    first, second = _keys(said), _keys(written)
    if first[-1:] == second[-1:] or set(first) == set(second):
        return True
    shared = set(first) & set(second)
    if not shared:
        return False
    if _is_part(first, second) or _is_part(second, first):
        return True
    kinds = (kinds_of(said), kinds_of(written))
    if all(kinds) and kinds[0].isdisjoint(kinds[1]):
        return False
    animals = all(not found or found & _CUTS for found in kinds)
    known = kinds[0] | kinds[1]
    return animals or any(kinds_of(word) and (not known or kinds_of(word) <= known) for word in shared)


@cache
def _parts() -> frozenset[str]:
    rows = read_lexicon("written_words", columns=("word", "kind"))
    return frozenset(row["word"] for row in rows if row["kind"] == "part")


def is_part(plant: str, part: str) -> bool:
    """Whether the second name is the first with a word for a part of it: "fennel" and "fennel seeds"."""
    short, long = name_keys(plant), name_keys(part)
    return len(long) == len(short) + 1 and long[:-1] == short and long[-1] in map(word_key, _parts())


def _is_part(short: tuple[str, ...], long: tuple[str, ...]) -> bool:
    """ "lemon" and "lemon zest": the fruit, and the part of it that a recipe asks for."""
    return len(long) == len(short) + 1 and long[: len(short)] == short and long[-1] in _parts()


def _unlike(said: str, written: str, ours: tuple[str, ...], theirs: tuple[str, ...]) -> Sameness:
    """Two foods that share no base: kin still where they are of one kind ("pork mince", "turkey mince")."""
    kinds = (kinds_of(said), kinds_of(written))
    return "another" if kinds[0] & kinds[1] and set(ours) & set(theirs) else "unrelated"
