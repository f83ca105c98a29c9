"""Foods put on by a verb of their own name: "flour the board", "I buttered it already", "salt it"."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from functools import cache
from typing import TYPE_CHECKING

from extract.lexicon import read_lexicon
from extract.spot.actions_verbs import verb_forms
from extract.spot.actions_words import words
from extract.spot.food_names import kinds_of
from extract.spot.spans import Food

if TYPE_CHECKING:
    from spacy.tokens import Doc


@cache
def _neighbours(side: str) -> frozenset[str]:
    rows = read_lexicon("verb_neighbours", columns=("side", "words"))
    return frozenset(word for r in rows if r["side"] == side for word in r["words"].split())


@cache
def verb_foods() -> dict[str, str]:
    """The food that each verb form puts on."""
    return {r["verb"]: r["food"] for r in read_lexicon("verb_foods", columns=("verb", "food"))}


def is_verb_food(lower: Sequence[str], at: int) -> bool:
    """Whether the word at ``at`` is a verb that puts on the food it names."""
    if lower[at] not in verb_foods() or at + 1 >= len(lower):
        return False
    opened = at == 0 or lower[at - 1] in _neighbours("before")
    return opened and lower[at + 1] in _neighbours("after")


def is_other_verb(lower: Sequence[str], food: Food, amount_starts: Collection[int]) -> bool:
    """ "That'll pickle you", "toast a handful": a verb spelled like a food, told by the words around it."""
    measured = food.start > 0 and lower[food.start - 1] == "of"  # "a cup of cream till it holds"
    ends = food.end < len(lower) and lower[food.end] in words("until") and lower[food.end - 1] in verb_forms()
    if ends and not measured:
        return True  # "two onions chopped fry till golden"
    if (
        food.end - food.start > 1
        or food.start == 0
        or food.end >= len(lower)
        or lower[food.start] in verb_foods()
    ):
        return False
    before, after = lower[food.start - 1], lower[food.end]
    if before in _neighbours("modal") and after in _neighbours("object"):
        return True
    opened = before in _neighbours("before") and lower[food.start] in verb_forms()
    return opened and (food.end in amount_starts or after in _neighbours("after"))


@cache
def _likenesses() -> frozenset[tuple[str, str]]:
    return frozenset(
        (r["food"], r["after"]) for r in read_lexicon("food_likenesses", columns=("food", "after"))
    )


def is_likeness(lower: Sequence[str], food: Food) -> bool:
    """ "Ice cold": a food's name that only says what another is like."""
    after = [word for word in lower[food.end : food.end + 2] if word != "-"][:1]
    return food.end - food.start == 1 and (lower[food.start], *after) in _likenesses()


def foods_by_verb(doc: Doc, foods: Sequence[Food]) -> list[Food]:
    """The foods that verbs put on, where no mention in ``foods`` stands on the verb already."""
    lower = [t.lower_ for t in doc]
    taken = {i for f in foods for i in range(f.start, f.end)}
    found = []
    for i, word in enumerate(lower):
        if word in verb_foods() and i not in taken and is_verb_food(lower, i):
            name = verb_foods()[word]
            found.append(Food(i, i + 1, name, name, kinds=kinds_of(name)))
    return found
