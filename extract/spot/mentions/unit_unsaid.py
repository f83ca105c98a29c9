"""Units that a cook leaves unsaid: "dark soy, three tablespoons, light soy, two" is two tablespoons.

A bare figure takes the unit said last before it, where what it measures is not counted or the figure is too large for
a count; a bare figure of garlic counts its cloves. Grams are for what is weighed and millilitres for what is poured,
where the cook tells both. The evidence keeps what was said.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import cache

from extract.lexicon import read_lexicon
from extract.spot.mentions.mention import Mention
from extract.spot.numbers.units import read_unit
from extract.spot.spans import Amount, Food
from extract.spot.words import Words

# Tokens behind the last unit: of the units taken from within them six in seven are meant, from further back one in ten.
REACH = 12
MANY, SCORES = 20, 100
WEIGHED = {"gram": "gram", "kilogram": "gram", "ounce": "ounce", "pound": "ounce"}
POURED = {"millilitre": "millilitre", "litre": "millilitre", "fluid_ounce": "fluid_ounce"}
MASSES = frozenset(WEIGHED) | frozenset(POURED)
SPOONS = frozenset({"teaspoon", "tablespoon", "cup"})
LIQUIDS = frozenset({"liquid", "stock", "alcohol", "drink", "vinegar", "oil"})


@cache
def uncounted_kinds() -> frozenset[str]:
    """The kinds of food that nobody counts by the piece."""
    return frozenset(row["kind"] for row in read_lexicon("uncounted_kinds", columns=("kind",)))


@cache
def _own_units() -> dict[tuple[str, str], str]:
    """What a unit is called for a food, by its head and the unit as said, "" for a bare figure."""
    rows = read_lexicon("own_units", columns=("head", "said", "unit"))
    return {(row["head"], row["said"]): row["unit"] for row in rows}


def with_units(words: Words, mentions: Sequence[Mention], offers: Sequence[Amount]) -> list[Mention]:
    """The mentions, those of a bare figure with the unit that is meant. ``offers``: every amount of the talk."""
    spoken = [amount for amount in offers if amount.unit in MASSES | SPOONS]
    return [replace(m, amount=_resolved(words, m, spoken)) for m in mentions]


def _resolved(words: Words, mention: Mention, spoken: Sequence[Amount]) -> Amount | None:
    amount, food = mention.amount, mention.food
    if amount is None or amount.low is None or amount.size is not None:
        return amount
    if amount.unit and food.start < amount.end == food.end:
        return replace(amount, unit="")  # "two cloves", the spice: the unit is the food itself
    if amount.low < MANY and (food.head, amount.unit) in _own_units():
        return replace(amount, unit=_own_units()[food.head, amount.unit])
    if amount.unit:
        return amount
    if _is_count(words, amount, food):
        return amount
    if amount.low >= MANY:
        return replace(amount, unit=_large_unit(food, amount, spoken))
    return _small(food, amount, spoken)


def _is_count(words: Words, amount: Amount, food: Food) -> bool:
    """ "Eight peppercorns", "the juice of half", "a quarter spoon": what counts pieces, fruits or spoons."""
    loose = [
        unit for at in (amount.end - 1, amount.end) if (unit := read_unit(words, at)) and unit.kind == "loose"
    ]
    if amount.low is None or loose:
        return True
    if food.end <= amount.start and words.at(amount.start - 1) == "of":
        return True
    pieces = food.plural and 0 <= food.start - amount.end <= 1
    return pieces and amount.low < SCORES and amount.low.denominator == 1


def _large_unit(food: Food, amount: Amount, spoken: Sequence[Amount]) -> str:
    """The small unit of mass or volume that a large figure is in: the one said last before it, else next after it."""
    nearest = sorted(spoken, key=lambda said: (said.start > amount.start, abs(said.start - amount.start)))
    for units in (POURED, WEIGHED) if food.kinds & LIQUIDS else (WEIGHED, POURED):
        fitting = [units[said.unit] for said in nearest if said.unit in units]
        if fitting:
            return fitting[0]
    return ""


def _small(food: Food, amount: Amount, spoken: Sequence[Amount]) -> Amount:
    """A small figure in the unit said last before it, where nobody counts the food."""
    before = [said for said in spoken if 0 < amount.start - said.start <= REACH]
    if not before or not food.kinds & uncounted_kinds() or amount.low is None:
        return amount
    last = before[-1]
    bare_mass = last.unit in ("gram", "millilitre") and amount.low < MANY
    return amount if bare_mass else replace(amount, unit=last.unit)
