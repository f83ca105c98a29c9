"""What of a dish's lines is bought: not water, not what the dish makes itself, a lemon once."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cache

from extract.lexicon import read_lexicon
from extract.measure.drafts.convert import lines
from extract.model import Dish, Ingredient
from extract.spot.names.foods import canonical, food_words, kinds_of


def bought(dish: Dish) -> Iterator[Ingredient]:
    """The lines of a dish that are shopped for: not water, nor a part that the dish itself makes."""
    made = {canonical(component.name) for component in dish.components if component.name}
    listed = {canonical(line.name) for line in lines(dish)}
    parts: dict[str, list[Ingredient]] = {}
    for line in lines(dish):
        food, whole = canonical(line.name), _whole_of(line)
        if food in made or food in _from_the_tap():
            continue
        if whole and (whole in listed or _names(line.note, whole)):
            continue  # the lemon is on the list
        if whole and line.amount is not None and not line.amount.unit:
            parts.setdefault(whole, []).append(line)
        else:
            yield line
    for whole, taken in parts.items():
        yield _largest(whole, taken)


def _whole_of(line: Ingredient) -> str:
    """The fruit that a line takes a part of ("lemon" for "lemon zest"), "" for any other line."""
    first, _, last = canonical(line.name).rpartition(" ")
    return first if first and last in _fruit_parts() and "fruit" in kinds_of(first) else ""


def _names(note: str, whole: str) -> bool:
    """Whether a line says that it comes from a food of the list: "from the lemons"."""
    return note.startswith("from ") and whole in {canonical(word) for word in note.split()}


def _largest(whole: str, taken: Sequence[Ingredient]) -> Ingredient:
    """The zest of one lemon and the juice of two are two lemons."""
    amounts = [line.amount for line in taken if line.amount is not None]
    most = max(amounts, key=lambda amount: amount.high)
    name = next(line.name for line in taken).rpartition(" ")[0]
    return taken[0].model_copy(update={"name": name or whole, "amount": most, "preparation": ""})


@cache
def _fruit_parts() -> frozenset[str]:
    """The parts that are taken of a fruit: juice, zest, peel."""
    return frozenset(food_words("extracts").values()) | {
        word for role in ("yields", "called") for word in food_words(role)
    }


@cache
def _from_the_tap() -> frozenset[str]:
    return frozenset(row["food"] for row in read_lexicon("not_bought", columns=("food",)))
