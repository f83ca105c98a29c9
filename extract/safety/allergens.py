"""Which declared allergens a dish may contain, hidden ones and alternatives included.

What stands here is for a person to check against labels: brands differ, and no list of words can show that a
dish is free of anything.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from extract.lexicon import read_lexicon
from extract.model import Dish
from extract.safety.phrases import Phrases
from extract.spot.food_names import kinds_of, name_keys

WORD_COLUMNS = ("word", "allergen", "strength", "lists", "source")
LIST_COLUMNS = ("list", "label", "allergens")
KIND_COLUMNS = ("kind", "allergen", "strength")
DENIAL_COLUMNS = ("word", "allergens")
LISTS = ("US", "Canada", "EU")
NOTE = (
    "May contain; check labels. Brands and kitchens differ, so nothing here shows that a dish is free of an "
    "allergen; food law where you publish comes first."
)


@dataclass(frozen=True, slots=True)
class Source:
    """How an allergen comes into a dish: by which food, how surely, and whether only as an alternative."""

    food: str
    strength: str
    alternative: bool = False

    def __str__(self) -> str:
        sure = {"always": "", "usually": ", by most recipes", "sometimes": ", in some brands"}[self.strength]
        return f"{self.food}{sure}{', if used instead' if self.alternative else ''}"


@dataclass(frozen=True, slots=True)
class Allergen:
    """A declared allergen that a dish may contain, under the name one list gives it."""

    list: str
    label: str
    sources: tuple[Source, ...]

    def __str__(self) -> str:
        return f"{self.label} ({'; '.join(map(str, self.sources))})"


def allergens(dish: Dish) -> list[Allergen]:
    """The allergens of the US, Canadian and EU lists that ``dish`` may contain, in the lists' order.

    Every ingredient line counts, optional ones and alternatives too. Figures: ``lexicons/allergens.tsv``.
    """
    found: dict[tuple[str, str], list[Source]] = {}
    for food, alternative in _foods(dish):
        for allergen, strength, lists in allergens_of(food):
            for name in lists or LISTS:
                found.setdefault((name, allergen), []).append(Source(food, strength, alternative))
    result = []
    for row in read_lexicon("allergen_lists", columns=LIST_COLUMNS):
        sources = [
            source for key in row["allergens"].split(",") for source in found.get((row["list"], key), ())
        ]
        if sources:
            result.append(Allergen(row["list"], row["label"], _surest(sources)))
    return result


def allergen_lines(dish: Dish) -> list[str]:
    """The allergens of ``dish`` as a line or two for each list, for printing; [] where none is known.

    What only some brands bring stands apart from what the recipe as such brings.
    """
    found = allergens(dish)
    lines = []
    for name in LISTS:
        items = [allergen for allergen in found if allergen.list == name]
        surely = [item for item in items if item.sources[0].strength != "sometimes"]
        rarely = [item for item in items if item not in surely]
        if surely:
            lines.append(f"{name} list, may contain: {', '.join(map(str, surely))}")
        if rarely:
            lines.append(f"{name} list, check labels for: {', '.join(map(str, rarely))}")
    return lines


def allergens_of(food: str) -> list[tuple[str, str, tuple[str, ...]]]:
    """(allergen, strength, lists) of one food by its words, failing those by its kind; () lists are all."""
    denied = {allergen for _, allergens in _denials().find(food) for allergen in allergens}
    words = list(_words().find(food))
    if words:
        found = [entry for _, entries in words for entry in entries]
    else:
        kinds = kinds_of(food)
        rows = read_lexicon("allergen_kinds", columns=KIND_COLUMNS)
        found = [(row["allergen"], row["strength"], ()) for row in rows if row["kind"] in kinds]
    return [entry for entry in dict.fromkeys(found) if entry[0] not in denied | {"none"}]


def _foods(dish: Dish) -> Iterator[tuple[str, bool]]:
    """Every food of the dish's lines, with whether it stands there as an alternative."""
    for component in dish.components:
        for line in component.ingredients:
            yield line.name, False
            yield from ((other, True) for other in line.alternatives)


def _surest(sources: list[Source]) -> tuple[Source, ...]:
    """Each food once, as surely as any of its words says."""
    order = {"always": 0, "usually": 1, "sometimes": 2}
    best: dict[tuple[str, bool], Source] = {}
    for source in sorted(sources, key=lambda source: order[source.strength]):
        best.setdefault((source.food, source.alternative), source)
    return tuple(best.values())


Entry = tuple[str, str, tuple[str, ...]]


@cache
def _words() -> Phrases[tuple[Entry, ...]]:
    entries: dict[tuple[str, ...], tuple[str, list[Entry]]] = {}
    for row in read_lexicon("allergens", columns=WORD_COLUMNS):
        lists = tuple(filter(None, row["lists"].split("; ")))
        _, same = entries.setdefault(name_keys(row["word"]), (row["word"], []))
        same.append((row["allergen"], row["strength"], lists))
    return Phrases.of({word: tuple(same) for word, same in entries.values()})


@cache
def _denials() -> Phrases[tuple[str, ...]]:
    rows = read_lexicon("allergen_denials", columns=DENIAL_COLUMNS)
    return Phrases.of({row["word"]: tuple(row["allergens"].split(",")) for row in rows})
