"""Which lines of a dish hold food that the charts give a minimum for, and what was done with it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from extract.lexicon import read_lexicon
from extract.model import Action, Dish, Ingredient
from extract.safety.phrases import Phrases
from extract.spot.names.foods import kinds_of, name_keys

FOOD_COLUMNS = ("word", "class")
WORD_COLUMNS = ("word", "role")
_BY_KIND = {
    "poultry": "poultry",
    "meat": "whole cut",
    "fish": "fish",
    "shellfish": "crustacean",
    "egg": "egg",
}
_RAW = frozenset({"poultry", "whole poultry", "ground poultry", "ground meat", "whole cut", "pork cut"})


@dataclass(frozen=True, slots=True)
class Risky:
    """A food of a line with its class in the charts; ``alternative`` where it would replace another."""

    food: str
    food_class: str
    line: Ingredient
    alternative: bool = False


def risky_foods(dish: Dish) -> Iterator[Risky]:
    """The foods of a dish's lines that a chart gives a minimum for, alternatives included."""
    for component in dish.components:
        for line in component.ingredients:
            for food in (line.name, *line.alternatives):
                found = class_of(food, line.preparation if food == line.name else "")
                if found:
                    yield Risky(food, found, line, alternative=food != line.name)


def class_of(food: str, preparation: str = "") -> str:
    """The class of ``food`` in the charts, "" where none applies: no flesh, or bought cooked or cured."""
    found = list(_classes().find(food))
    if not found:
        kinds = kinds_of(food)
        by_kind = next((name for kind, name in _BY_KIND.items() if kind in kinds), "")
        found = [("", by_kind)] if by_kind else []
    if not found or holds(name_keys(food)[-1], words("not flesh")):
        return ""
    named, food_class = found[-1]
    beside = [word for word in words("precooked") if word not in named.split()]
    if food_class == "none" or holds(f"{food} {preparation}", beside):
        return ""
    if food_class in {"poultry", "whole cut", "pork cut"} and holds(
        f"{food} {preparation}", ["ground", "minced"]
    ):
        return "ground poultry" if food_class == "poultry" else "ground meat"
    if food_class == "poultry" and holds(f"{food} {preparation}", ["whole", "bird"]):
        return "whole poultry"
    return food_class


def is_flesh(food_class: str) -> bool:
    """Whether the class is raw meat or poultry, which an oven must not keep warm too long."""
    return food_class in _RAW


@cache
def _classes() -> Phrases[str]:
    return Phrases.of(
        {row["word"]: row["class"] for row in read_lexicon("caution_foods", columns=FOOD_COLUMNS)}
    )


@cache
def words(role: str) -> tuple[str, ...]:
    """The words of ``lexicons/words/caution_words.tsv`` with ``role``."""
    rows = read_lexicon("caution_words", columns=WORD_COLUMNS)
    return tuple(row["word"] for row in rows if row["role"] == role)


def holds(text: str, wanted: list[str] | tuple[str, ...]) -> bool:
    """Whether ``text`` holds one of the ``wanted`` words or word groups, number and case aside."""
    keys = name_keys(text)
    for words_wanted in wanted:
        part = name_keys(words_wanted)
        if part and any(keys[i : i + len(part)] == part for i in range(len(keys) - len(part) + 1)):
            return True
    return False


def actions(dish: Dish) -> list[Action]:
    """Everything the cook does in the dish, in order."""
    return [action for step in dish.method for action in step.actions]


def mentions(action: Action, food: str) -> bool:
    """Whether the action is done to ``food`` or with it, going by the food's last word."""
    keys = name_keys(food)
    return bool(keys) and holds(" ".join((*action.objects, *action.with_)), [keys[-1]])


def cooked_after(dish: Dish, food: str) -> bool:
    """Whether heat that cooks comes at or after the first mention of ``food``; anywhere, if there is none."""
    done = actions(dish)
    first = next((place for place, action in enumerate(done) if mentions(action, food)), 0)
    return any(cooks(action) for action in done[first:])


def cooks(action: Action) -> bool:
    """Whether the action cooks with heat: by its verb, or by an oven, hob or oil setting."""
    if action.verb.lower() in words("heat"):
        return True
    return action.heat is not None and action.heat.kind in {"oven", "hob", "oil"} and action.verb != "preheat"
