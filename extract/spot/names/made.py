"""The things a cook makes on the way, as they are named: "the red sauce", "our rub", "that dressing"."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import TYPE_CHECKING

from extract.lexicon import read_lexicon
from extract.spot.names.foods import food_words, not_foods, word_key
from extract.spot.spans import Food, MadeName

if TYPE_CHECKING:
    from spacy.tokens import Doc, Token

NOUNS = frozenset({"NOUN", "PROPN"})
QUALIFIES = frozenset({"ADJ", "NOUN", "PROPN"})
LEADS = frozenset({"ADV", "INTJ", "CCONJ", "SCONJ", "PUNCT"})
CLOSERS = frozenset({".", ",", "'s", "is", ":"})
MOST_QUALIFIERS = 2
Keys = tuple[str, ...]


@cache
def _made_words() -> dict[str, list[tuple[Keys, str]]]:
    """The made words by their last word, longest first, each with how sure it is."""
    heads: dict[str, list[tuple[Keys, str]]] = {}
    for row in read_lexicon("made_words", columns=("word", "sure")):
        keys = tuple(word_key(word) for word in row["word"].split())
        heads.setdefault(keys[-1], []).append((keys, row["sure"]))
    for rows in heads.values():
        rows.sort(key=lambda row: -len(row[0]))
    return heads


def find_made_names(doc: Doc, foods: Sequence[Food]) -> list[MadeName]:
    """Every mention of a thing that may have been made, in order, no two sharing a token.

    ``foods`` are the foods spotted; those of the kind "made" count by themselves, and so do finished dishes
    (a sponge, a stew), which are never sure.
    """
    food_at = {i: food for food in foods for i in range(food.start, food.end)}
    keys = [word_key(token.lower_) for token in doc]
    found: list[MadeName] = []
    for token in doc:
        food = food_at.get(token.i)
        name = _by_word(doc, keys, token, food_at) or _by_food(food, token.i)
        if name is not None and (not found or found[-1].end <= name.start):
            found.append(name)
    return found


def _by_food(food: Food | None, at: int) -> MadeName | None:
    """A food of the lexicon that is itself made ("buttercream", "stew")."""
    if food is None or at != food.start or not food.kinds & {"made", "dish"} or "generic" in food.kinds:
        return None
    made = "made" in food.kinds
    return MadeName(food.start, food.end, food.name, food.head, sure=made, dish=not made)


def _by_word(doc: Doc, keys: list[str], token: Token, food_at: dict[int, Food]) -> MadeName | None:
    at = token.i
    food = food_at.get(at)
    if at + 1 < len(doc) and doc[at + 1].lower_ == "of":
        return None  # "a drizzle of oil", "a layer of cream"
    if food is not None and food_at.get(at + 1) is food and food.head != keys[at]:
        return None  # "butter beans", "cream cheese"
    head = food.head if food is not None and food.mended else keys[at]
    found = _word_at(doc, keys, at, head)
    if found is None:
        return None
    length, how = found
    first = _first_qualifier(doc, keys, at + 1 - length, food_at)
    if how == "named" and first == at + 1 - length:
        return None
    sure = how == "yes"
    if food is not None and food.known and length == 1 and " " in food.name:
        sure = "made" in food.kinds  # "soy sauce"
    spelling = food_words("spelling")
    name = " ".join(spelling.get(doc[i].lower_, doc[i].lower_) for i in range(first, at + 1))
    return MadeName(first, at + 1, food.name if food is not None and food.mended else name, head, sure)


def _word_at(doc: Doc, keys: list[str], at: int, head: str) -> tuple[int, str] | None:
    """(length in tokens, how sure) of the longest made word that ends at a token."""
    for words, how in _made_words().get(head, ()):
        start = at + 1 - len(words)
        if start >= 0 and keys[start:at] == list(words[:-1]) and _is_named(doc, start, at):
            return len(words), how
    return None


def _is_named(doc: Doc, start: int, at: int) -> bool:
    """Whether the word is named, not done: "the rub", "So, glaze", but not "rub it in"."""
    if doc[at].pos_ in NOUNS or (start and (doc[start - 1].pos_ == "DET" or doc[start - 1].tag_ == "PRP$")):
        return True
    leads = not start or doc[start - 1].pos_ in LEADS
    return leads and at + 1 < len(doc) and doc[at + 1].lower_ in CLOSERS


def _first_qualifier(doc: Doc, keys: list[str], start: int, food_at: dict[int, Food]) -> int:
    """The first of the words that tell which one it is: "green sauce", "hazelnut cream", "chili oil"."""
    first = start
    for at in range(start - 1, max(-1, start - 1 - MOST_QUALIFIERS), -1):
        if not _qualifies(doc[at], keys[at], in_food=at in food_at):
            break
        first = at
    return first


def _qualifies(token: Token, key: str, *, in_food: bool) -> bool:
    if not token.is_alpha or token.like_num or key in not_foods():
        return False
    if any(key in food_words(role) for role in ("size", "praise", "adverb", "filler")):
        return False
    return in_food or token.pos_ in QUALIFIES
