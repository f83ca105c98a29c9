"""Which declared allergens a dish may contain, hidden ones and alternatives included.

What stands here is for a person to check against labels: brands differ, and no list of words can show that a
dish is free of anything.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache

from extract.lexicon import read_lexicon
from extract.model import Dish, Ingredient
from extract.safety.phrases import Phrases
from extract.spot.names.foods import kinds_of, name_keys

WORD_COLUMNS = ("word", "allergen", "strength", "lists", "source")
LIST_COLUMNS = ("list", "label", "allergens")
KIND_COLUMNS = ("kind", "allergen", "strength")
DENIAL_COLUMNS = ("word", "allergens", "instead")
NAME_COLUMNS = ("allergen", "name")
LISTS = ("US", "Canada", "EU")
NOTE = (
    "Brands and kitchens differ: check labels. Nothing here shows that a dish is free of an allergen, and food law "
    "where you publish comes first."
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


def allergen_lines(dish: Dish) -> list[str]:
    """The allergens of ``dish`` as the sentences of one paragraph, for printing; [] where none is known.

    What the recipe as such brings comes first: what every list names, then what only some lists do, with those lists
    named. What only some brands bring is the last sentence.
    """
    found = by_allergen(dish)
    surely = {key: sources for key, sources in found.items() if sources[0].strength != "sometimes"}
    rarely = {key: sources for key, sources in found.items() if key not in surely}
    lines = []
    for number, (lists, named) in enumerate(_by_lists(surely)):
        lead = "May contain" if lists == LISTS else f"{_on(lists)} {'also' if number else 'may count'}"
        lines.append(f"{lead}: {', '.join(named)}.")
    if rarely:
        named = [
            text if lists == LISTS else f"{text} {_on(lists)[:1].lower()}{_on(lists)[1:]}"
            for lists, texts in _by_lists(rarely)
            for text in texts
        ]
        lines.append(f"Check the labels for: {', '.join(named)}.")
    return lines


def by_allergen(dish: Dish) -> dict[tuple[str, tuple[str, ...]], tuple[Source, ...]]:
    """The foods that bring each allergen, by its key and the lists that name it for these foods, surest first."""
    brought: dict[tuple[str, tuple[str, ...]], list[Source]] = {}
    for line, food, alternative in _foods(dish):
        for allergen, strength, lists in allergens_of(food, _beside(line, food)):
            key = (allergen, tuple(name for name in lists or LISTS if name in _listing()[allergen]))
            brought.setdefault(key, []).append(Source(food, strength, alternative))
    return {key: _surest(sources) for key, sources in brought.items() if key[1]}


def _by_lists(
    found: Mapping[tuple[str, tuple[str, ...]], tuple[Source, ...]],
) -> Iterator[tuple[tuple[str, ...], list[str]]]:
    """The allergens with their foods in words, gathered by the lists that name them, those on most lists first."""
    names = _names()
    order = list(names)
    for lists in sorted({lists for _, lists in found}, key=lambda lists: (-len(lists), lists)):
        keys = sorted((key for key in found if key[1] == lists), key=lambda key: order.index(key[0]))
        yield lists, [f"{names[key[0]]} ({'; '.join(map(str, found[key]))})" for key in keys]


@cache
def _names() -> dict[str, str]:
    """The word a page has for each allergen, in the order of the page."""
    return {row["allergen"]: row["name"] for row in read_lexicon("allergen_names", columns=NAME_COLUMNS)}


@cache
def _listing() -> dict[str, tuple[str, ...]]:
    """The lists that declare each allergen."""
    found: dict[str, list[str]] = {}
    for row in read_lexicon("allergen_lists", columns=LIST_COLUMNS):
        for key in row["allergens"].split(","):
            found.setdefault(key, []).append(row["list"])
    return {key: tuple(name for name in LISTS if name in lists) for key, lists in found.items()}


def _on(lists: tuple[str, ...]) -> str:
    """ "On the Canada and EU lists": where an allergen is named that not every list has."""
    return f"On the {' and '.join(lists)} {'list' if len(lists) == 1 else 'lists'}"


def allergens_of(food: str, beside: str = "") -> list[tuple[str, str, tuple[str, ...]]]:
    """(allergen, strength, lists) of one food by its words, failing those by its kind; () lists are all.

    What the words deny ("dairy-free cheddar", or "dairy-free" ``beside`` the name) is taken away, and what such
    things are often made of instead is added, to be looked for on the label.
    """
    denials = [row for _, row in _denials().find(f"{beside} {food}")]
    denied = {allergen for without, _ in denials for allergen in without}
    instead: list[Entry] = [(allergen, "sometimes", ()) for _, others in denials for allergen in others]
    words = list(_words().find(food))
    if words:
        found = [entry for _, entries in words for entry in entries]
    else:
        kinds = kinds_of(food)
        rows = read_lexicon("allergen_kinds", columns=KIND_COLUMNS)
        found = [(row["allergen"], row["strength"], ()) for row in rows if row["kind"] in kinds]
    kept = [entry for entry in dict.fromkeys(found) if entry[0] not in denied | {"none"}]
    there = {entry[0] for entry in kept} | denied
    return kept + [entry for entry in dict.fromkeys(instead) if entry[0] not in there]


def _foods(dish: Dish) -> Iterator[tuple[Ingredient, str, bool]]:
    """Every food of the dish's lines, with its line and whether it stands there as an alternative."""
    for component in dish.components:
        for line in component.ingredients:
            yield line, line.name, False
            yield from ((line, other, True) for other in line.alternatives)


def _beside(line: Ingredient, food: str) -> str:
    """What the line says of the food beside its name."""
    return f"{line.preparation} & {line.note}" if food == line.name else ""


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
def _denials() -> Phrases[tuple[tuple[str, ...], tuple[str, ...]]]:
    rows = read_lexicon("allergen_denials", columns=DENIAL_COLUMNS)
    return Phrases.of({row["word"]: (_keys(row["allergens"]), _keys(row["instead"])) for row in rows})


def _keys(cell: str) -> tuple[str, ...]:
    return tuple(filter(None, cell.split(",")))
