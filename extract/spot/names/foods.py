"""Names of foods: which food a name means, what kind of food it is, and when two names mean one food.

Needs nothing but the lexicons, so that a written recipe can be read, a caution found or a density looked up
without the language model.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import cache, lru_cache

from extract.lexicon import read_lexicon

# The kinds of foods that go into a dish and are seldom what it is about.
SEASONINGS = frozenset(
    {"herb", "spice", "oil", "fat", "condiment", "vinegar", "sugar", "leavening", "liquid", "alcohol"}
)
_WORD = re.compile(r"[a-z0-9&]+")
_POSSESSIVE = re.compile(r"['’]s\b")


@dataclass(frozen=True, slots=True)
class FoodEntry:
    """One name of one food of the lexicon.

    ``name`` is the food's, ``shown`` the one to print (what was said, unless it was a short form), ``main``
    the first of its kinds, ``sense`` the place in the sentence that the word needs to be a food
    (lexicons/words/foods.tsv).
    """

    name: str
    shown: str
    kinds: frozenset[str]
    main: str
    sense: str = ""


@dataclass(slots=True)
class Branch:
    """A node of the tree of names, keyed by singular words; ``plural`` is a food in the plural only."""

    entry: FoodEntry | None = None
    plural: FoodEntry | None = None
    next: dict[str, Branch] = field(default_factory=dict)

    def food(self, *, plural: bool) -> FoodEntry | None:
        """The food named here, by a last word that is ``plural`` or not."""
        return self.plural if plural and self.plural else self.entry


@cache
def food_words(role: str) -> dict[str, str]:
    """The words that play ``role`` around a food's name, with their values (lexicons/words/food_words.tsv)."""
    rows = read_lexicon("food_words", columns=("word", "role", "value"))
    return {row["word"]: row["value"] for row in rows if row["role"] == role}


@cache
def not_foods() -> dict[str, str]:
    """Nouns that no place makes a food, each with its kind ("vessel", "time": lexicons/words/not_food.tsv)."""
    return {row["word"]: row["kind"] for row in read_lexicon("not_food", columns=("word", "kind"))}


@lru_cache(maxsize=20_000)
def word_key(word: str) -> str:
    """``word`` as names are compared: lower case, no accents, one spelling, singular by rule."""
    plain = unicodedata.normalize("NFKD", word.lower())
    plain = "".join(letter for letter in plain if not unicodedata.combining(letter) and letter not in "'’")
    plain = food_words("plural").get(plain) or _singular(plain)
    return food_words("spelling").get(plain, plain)


def _singular(word: str) -> str:
    if len(word) < 4 or not word.endswith("s") or word.endswith(("ss", "us", "is")):
        return word
    if word.endswith("ies") and len(word) > 4:
        return word[:-3] + "y"
    if word.endswith(("oes", "ches", "shes", "xes", "sses", "zzes")):
        return word[:-2]
    return word[:-1]


def split_name(name: str) -> list[str]:
    """The words of a name as written, without accents and possessive endings."""
    text = unicodedata.normalize("NFKD", name.lower())
    text = "".join(letter for letter in text if not unicodedata.combining(letter))
    return _WORD.findall(_POSSESSIVE.sub("", text).replace("'", "").replace("’", ""))


def name_keys(name: str) -> tuple[str, ...]:
    """The words of a name as they are compared."""
    return tuple(word_key(word) for word in split_name(name))


def _entries() -> Iterator[tuple[FoodEntry, str]]:
    for row in read_lexicon("foods", columns=("name", "aliases", "forms", "kinds", "sense", "source")):
        name, kinds = row["name"], row["kinds"].split(",")
        entry = FoodEntry(name, name, frozenset(kinds), kinds[0], row["sense"])
        yield entry, name
        for alias in filter(None, row["aliases"].split("; ")):
            sense = entry.sense if " " in name or " " not in alias else ""
            yield replace(entry, shown=alias, sense=sense), alias
        for form in filter(None, row["forms"].split("; ")):
            yield entry, form


@cache
def _last_words() -> dict[str, frozenset[str]]:
    found: dict[str, set[str]] = {}
    for entry, name in _entries():
        found.setdefault(entry.name, set()).update(name_keys(name)[-1:])
    return {name: frozenset(words) for name, words in found.items()}


def called_after(name: str) -> frozenset[str]:
    """The last words of all the names of a food of the lexicon: "jalapeno" and "pepper" for the jalapeno pepper."""
    return _last_words().get(name, frozenset())


@cache
def _part_words() -> frozenset[str]:
    keys = (name_keys(name) for _, name in _entries())
    return frozenset(each[-1] for each in keys if len(each) > 1)


def ends_a_name(word: str) -> bool:
    """Whether a word ends a longer name of the lexicon: the leaves of bay leaves, the zest of lemon zest."""
    return word_key(word) in _part_words()


@cache
def name_tree() -> Branch:
    """Every name and alias of the food lexicon as a tree, for the longest match over words."""
    root = Branch()
    for entry, name in _entries():
        branch = root
        for key in name_keys(name):
            branch = branch.next.setdefault(key, Branch())
        if entry.sense.startswith("plural"):
            branch.plural = branch.plural or entry
        else:
            branch.entry = branch.entry or entry
    return root


def look_up(keys: Sequence[str], *, plural: bool = False) -> FoodEntry | None:
    """The food that exactly these words name, or None."""
    branch = name_tree()
    for key in keys:
        following = branch.next.get(key)
        if following is None:
            return None
        branch = following
    return branch.food(plural=plural)


@dataclass(frozen=True, slots=True)
class Meaning:
    """What a name means: the food of the lexicon, if any, and the words before it that narrow it."""

    narrowing: tuple[str, ...]
    entry: FoodEntry | None

    @property
    def keys(self) -> tuple[str, ...]:
        """The words by which the food is compared, its synonyms made one."""
        if self.entry is None:
            return self.narrowing
        return (*self.narrowing, *name_keys(_groups().get(self.entry.name, self.entry.name)))


@cache
def _groups() -> dict[str, str]:
    groups = {}
    for row in read_lexicon("food_synonyms", columns=("name", "synonyms")):
        for name in (row["name"], *row["synonyms"].split("; ")):
            groups[name] = row["name"]
    return groups


@lru_cache(maxsize=8192)
def meaning(name: str) -> Meaning:
    """Read a name: words that only say how the food is are dropped, words that make it another food kept."""
    words = split_name(name)
    keys = tuple(word_key(word) for word in words)
    end = len(keys)
    while end > 1 and keys[end - 1] in food_words("piece") and not _ends_in_food(keys[:end]):
        end -= 1
    plural = bool(words) and words[end - 1] != keys[end - 1]
    for start in range(end):
        entry = look_up(keys[start:end], plural=plural)
        if entry is not None:
            before = tuple(key for key in keys[:start] if not _passed_over(key, entry.kinds))
            return Meaning(before, entry)
    return Meaning(tuple(key for key in keys[: end - 1] if not _passed_over(key)) + keys[end - 1 : end], None)


def _ends_in_food(keys: tuple[str, ...]) -> bool:
    """Whether the last two words or more are one food, as in "bay leaf"; "clove" alone does not make one."""
    return any(look_up(keys[start:]) for start in range(len(keys) - 1))


def canonical(name: str) -> str:
    """One name for all the names of a food: "Spring onions" and "scallion" give the same.

    Words that only say how the food is ("fresh", "chopped", "large") are left out; words that make it another
    food ("red", "dried") stay. A food the lexicon lacks gives its own words in the singular.
    """
    found = meaning(name)
    if found.entry is None:
        return " ".join(found.narrowing)
    return " ".join((*found.narrowing, _groups().get(found.entry.name, found.entry.name)))


def kinds_of(name: str) -> frozenset[str]:
    """The kinds of the food that ``name`` means ("poultry", "dairy" …); empty for one the lexicon lacks."""
    entry = meaning(name).entry
    return entry.kinds if entry else frozenset()


def _passed_over(key: str, kinds: frozenset[str] = frozenset()) -> bool:
    """Whether the word says only how the food is, not which food it is."""
    if any(key in food_words(role) for role in ("size", "praise", "adverb", "filler")):
        return True
    if key in food_words("state"):
        return not names_kind(key, kinds)
    return key in food_words("prep")


def names_kind(state: str, kinds: frozenset[str]) -> bool:
    """Whether ``state`` ("dried", "cooked") makes another food of these kinds, and so stays in its name."""
    kept_for = food_words("state").get(state, "")
    return kept_for == "*" or not kinds.isdisjoint(kept_for.split(","))


@lru_cache(maxsize=8192)
def same_food(one: str, other: str) -> bool:
    """Whether two names may mean one food: equal, synonyms, or one the other with fewer words said.

    "onion" may be "red onion", "the flour" "plain flour" and "the chicken" "chicken thighs"; "red onion" is
    not "white onion", and "butter" is not "peanut butter".
    """
    a, b = meaning(one), meaning(other)
    if not a.keys or not b.keys:
        return False
    if a.keys == b.keys:
        return True
    if (a.entry is None) != (b.entry is None):
        return False
    return any(_is_wider(*pair) for pair in ((a, b), (b, a)))


_CUT = frozenset({"meat", "fish", "shellfish"})  # kinds whose cuts go by the animal's name


def _is_wider(wide: Meaning, narrow: Meaning) -> bool:
    """Whether ``narrow`` is named with more words and is of what ``wide`` names."""
    if not set(wide.keys) < set(narrow.keys):
        return False
    same_head = wide.keys[-1] == narrow.keys[-1]
    if wide.entry is None or narrow.entry is None:
        return same_head
    if wide.entry.main != narrow.entry.main or ("dish" in wide.entry.kinds) != ("dish" in narrow.entry.kinds):
        return False
    return same_head or wide.entry.main in _CUT
