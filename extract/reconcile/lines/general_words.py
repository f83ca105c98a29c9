"""Foods spoken of in more general words than before: "a jalapeno … seeds out of the pepper", "the fish" for cod."""

from __future__ import annotations

from functools import cache

from extract.lexicon import read_lexicon
from extract.spot.names.foods import called_after, meaning, name_keys, word_key
from extract.spot.spans import Food

# Kinds whose foods are too unlike for a word of the kind to mean whichever was named: "the sugar" is no honey.
UNLIKE = frozenset(
    {
        "alcohol",
        "dairy",
        "fat",
        "flour",
        "grain",
        "herb",
        "liquid",
        "oil",
        "spice",
        "starch",
        "stock",
        "sugar",
    }
)


@cache
def kind_words() -> dict[str, tuple[str, ...]]:
    """The kinds of food for which a word may stand ("meat", "yolk"), by the word as it is compared."""
    rows = read_lexicon("kind_words", columns=("word", "kinds"))
    return {word_key(row["word"]): tuple(row["kinds"].split(",")) for row in rows}


@cache
def _sorts() -> dict[tuple[str, ...], frozenset[tuple[str, ...]]]:
    """The names of the sorts that a general name takes in: "stout" under "beer"."""
    rows = read_lexicon("general_foods", columns=("general", "particular"))
    return {name_keys(r["general"]): frozenset(map(name_keys, r["particular"].split("; "))) for r in rows}


def covers(general: str, food: Food) -> bool:
    """Whether a word names, in general, a food that was called by its own name.

    It does where the food also goes by a name that ends in the word ("jalapeno pepper"), where it is one of the
    word's sorts ("the beer" for stout), where the word is one for its kind ("the nuts" for pecans), and where it is
    what the food is made of alone ("the chocolate" for chocolate chips).
    """
    words = name_keys(general)
    entry = meaning(food.name).entry
    if entry is None or not words:
        return False
    if len(words) == 1 and (words[0] in called_after(entry.name) or _is_kind_of(words[0], entry.main)):
        return True
    if name_keys(entry.name) in _sorts().get(words, ()):
        return True
    wider = meaning(general).entry
    opens = name_keys(food.name)[: len(words)] == words != name_keys(food.name)
    return opens and wider is not None and wider.main == entry.main


def _is_kind_of(word: str, kind: str) -> bool:
    return kind not in UNLIKE and kind in kind_words().get(word, ())
