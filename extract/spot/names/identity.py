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
    food_words,
    kinds_of,
    look_up,
    meaning,
    name_keys,
    name_tree,
    word_key,
)

Sameness = Literal["same", "sort", "another", "unrelated"]
ORDER: tuple[Sameness, ...] = ("same", "sort", "another", "unrelated")

_SPELLING = 84.0
_SHORTEST = 4  # letters below which a near spelling is another word
_CUTS = frozenset(("meat", "poultry", "fish", "shellfish"))
_NOTHING: frozenset[str] = frozenset()


@lru_cache(maxsize=50_000)
def sameness(
    said: str, written: str, heard: frozenset[str] = _NOTHING, beside: frozenset[str] = _NOTHING
) -> Sameness:
    """How far two names are of one food.

    ``heard``: words spoken beside the said name; ``beside``: words written beside the written one. A word that
    only one name has counts for nothing where the other side has it there ("butter, unsalted").
    """
    first, second = canonical(said), canonical(written)
    if not first or not second:
        return "unrelated"
    ours, theirs = _keys(said), _keys(written)
    if _joined(ours) == _joined(theirs) or _stands_for(said, written) or _stands_for(written, said):
        return "same"
    if second in sorts().get(first, _NOTHING) or _is_short_form(said, written):
        return "same"
    if _is_sort_of(_plainly(ours, kinds_of(said)), _plainly(theirs, kinds_of(written))):
        return "same"
    kinds = kinds_of(said) | kinds_of(written)
    only_said = frozenset(key for key in ours if key not in theirs and key not in beside)
    only_written = frozenset(key for key in theirs if key not in ours and key not in heard)
    only_said, only_written = _respelled(only_said, only_written)
    if _opposed(only_said, beside) or _opposed(only_written, heard):
        return "another"
    only_said, only_written = _told(said, only_said, kinds), _told(written, only_written, kinds)
    if not only_said and not only_written:
        return "same" if _share_head(ours, theirs) else _unlike(said, written, ours, theirs)
    if first in sorts().get(second, _NOTHING):
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
    kept = [key for key in _before_food(name) if _weight(key, _NOTHING) == "food" and key not in keys]
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


@cache
def _modifiers() -> dict[str, list[tuple[frozenset[str], str]]]:
    found: dict[str, list[tuple[frozenset[str], str]]] = {}
    for row in read_lexicon("food_modifiers", columns=("word", "kinds", "weight")):
        found.setdefault(row["word"], []).append((frozenset(row["kinds"].split(",")), row["weight"]))
    return found


def _weight(word: str, kinds: frozenset[str]) -> str:
    """What ``word`` does to a food of these kinds: "same", "sort", "food", or "" where no row tells."""
    for held, weight in _modifiers().get(word, ()):
        if not held.isdisjoint(kinds):
            return weight
    return next((weight for held, weight in _modifiers().get(word, ()) if "*" in held), "")


def _told(name: str, words: frozenset[str], kinds: frozenset[str]) -> frozenset[str]:
    """Those of the words that tell something: not the ones that change nothing in such a food."""
    return frozenset(word for word in words if not _is_idle(name, word, kinds))


def _is_idle(name: str, word: str, kinds: frozenset[str]) -> bool:
    """Whether a word changes nothing: by its row, or, without one, as a size or as what was done to the food.

    Not where the lexicon has the whole name as a food of its own ("fried onions").
    """
    weight = _weight(word, kinds)
    if weight:
        return weight == "same"
    if any(word in food_words(role) for role in ("size", "adverb", "filler")):
        return True
    done = word.endswith(("ed", "-cut")) and word not in food_words("state")
    done = done or any(word in food_words(role) for role in ("praise", "shape", "prep"))
    return done and not _is_named(name, frozenset((word,)))


@cache
def _opposites() -> dict[str, frozenset[str]]:
    found: dict[str, set[str]] = {}
    for row in read_lexicon("opposed_words", columns=("word", "other")):
        for other in row["other"].split("; "):
            found.setdefault(row["word"], set()).add(other)
            found.setdefault(other, set()).add(row["word"])
    return {word: frozenset(others) for word, others in found.items()}


def opposed(name: str, others: frozenset[str]) -> bool:
    """Whether words of the other side say the opposite of a word of this name."""
    return _opposed(frozenset(_keys(name)), others)


def _opposed(words: frozenset[str], others: frozenset[str]) -> bool:
    """Whether the other side says the opposite of a word: "dried bay leaves", "3 fresh bay leaves"."""
    return any(not _opposites().get(word, _NOTHING).isdisjoint(others) for word in words - others)


@cache
def _bare() -> dict[str, frozenset[str]]:
    rows = read_lexicon("bare_foods", columns=("bare", "stands_for"))
    return {
        canonical(row["bare"]): frozenset(canonical(name) for name in row["stands_for"].split("; "))
        for row in rows
    }


def _stands_for(bare: str, fuller: str) -> bool:
    """Whether a bare name leaves open what a fuller one says; two fuller ones are two sorts."""
    general = canonical(bare)
    if canonical(fuller) not in _bare().get(general, _NOTHING):
        return False
    own, entry = meaning(bare).entry, meaning(general).entry
    alike = own is None or entry is None or own.name == entry.name
    return alike or _literal(bare) not in _fuller(general)


@cache
def _fuller(general: str) -> frozenset[str]:
    rows = read_lexicon("bare_foods", columns=("bare", "stands_for"))
    return frozenset(
        _literal(name)
        for row in rows
        if canonical(row["bare"]) == general
        for name in row["stands_for"].split("; ")
    )


def sort_of(name: str) -> str:
    """The one name under which a food is bought: a sort that another bare name stands for by its own words."""
    general = canonical(name)
    return _literal(name) if _literal(name) in _fuller(general) else general


def _literal(name: str) -> str:
    return " ".join(name_keys(name))


@cache
def sorts() -> dict[str, frozenset[str]]:
    """What goes under a general name: "stout" under "dark beer" (lexicons/general_foods.tsv)."""
    rows = read_lexicon("general_foods", columns=("general", "particular"))
    return {
        canonical(row["general"]): frozenset(canonical(name) for name in row["particular"].split("; "))
        for row in rows
    }


def _plainly(keys: tuple[str, ...], kinds: frozenset[str]) -> tuple[str, ...]:
    """The words of a name without those before it that change nothing: "dried white beans" are white beans."""
    start = 0
    while start < len(keys) - 1 and _weight(keys[start], kinds) == "same":
        start += 1
    return keys[start:]


def _is_sort_of(general: tuple[str, ...], particular: tuple[str, ...]) -> bool:
    """Whether the words of two names are of a food and its sort: "white beans" and "cannellini beans"."""
    return " ".join(particular) in sorts().get(" ".join(general), _NOTHING)


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
    found = set(_modifiers())
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
    weights = {_weight(word, kinds) for word in ours | theirs}
    if "food" in weights:
        return "another"
    if ours and theirs:
        named = (_is_named(said, ours), _is_named(written, theirs))
        return "another" if any(named) else "sort"
    if weights == {"sort"}:
        return "sort"
    longer, words = (said, ours) if ours else (written, theirs)
    return "another" if _is_named(longer, words) else "sort"


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


def _is_named(name: str, words: frozenset[str]) -> bool:
    """Whether the words stand within a name that the lexicon has as one food: "sweet" in "sweet potato"."""
    found = meaning(name)
    return found.entry is not None and bool(words - set(found.narrowing))


def _unlike(said: str, written: str, ours: tuple[str, ...], theirs: tuple[str, ...]) -> Sameness:
    """Two foods that share no base: kin still where they are of one kind ("pork mince", "turkey mince")."""
    kinds = (kinds_of(said), kinds_of(written))
    return "another" if kinds[0] & kinds[1] and set(ours) & set(theirs) else "unrelated"
