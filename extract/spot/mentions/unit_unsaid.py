"""Units that a cook leaves unsaid: "dark soy, three tablespoons, light soy, two" is two tablespoons.

A bare figure takes the unit said last before it, where what it measures is not counted or the figure is too large for
a count; a bare figure of garlic counts its cloves. The evidence keeps what was said.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import cache

from extract.lexicon import read_lexicon
from extract.spot.mentions.mention import Mention
from extract.spot.spans import Amount

REACH = 60
MANY = 20
MASSES = frozenset({"gram", "kilogram", "ounce", "pound", "millilitre", "litre", "fluid_ounce"})
SPOONS = frozenset({"teaspoon", "tablespoon", "cup"})


@cache
def uncounted_kinds() -> frozenset[str]:
    """The kinds of food that nobody counts by the piece."""
    return frozenset(row["kind"] for row in read_lexicon("uncounted_kinds", columns=("kind",)))


@cache
def _counted_in() -> dict[str, str]:
    rows = read_lexicon("own_units", columns=("head", "said", "unit"))
    return {row["head"]: row["unit"] for row in rows if not row["said"]}


def with_units(mentions: Sequence[Mention]) -> list[Mention]:
    """The mentions, those of a bare figure with the unit that is meant."""
    spoken = sorted(
        (m.amount for m in mentions if m.amount is not None and m.amount.unit in MASSES | SPOONS),
        key=lambda amount: amount.start,
    )
    return [replace(m, amount=_resolved(m, spoken)) for m in mentions]


def _resolved(mention: Mention, spoken: Sequence[Amount]) -> Amount | None:
    amount, food = mention.amount, mention.food
    if amount is None or amount.low is None or amount.unit or amount.size is not None:
        return amount
    if food.head in _counted_in() and amount.low < MANY:
        return replace(amount, unit=_counted_in()[food.head])
    many = amount.low >= MANY
    if not many and not food.kinds & uncounted_kinds():
        return amount
    before = [said for said in spoken if 0 < amount.start - said.start <= REACH]
    fitting = [said for said in before if said.unit in (MASSES if many else MASSES | SPOONS)]
    if many or not fitting:
        return replace(amount, unit=fitting[-1].unit) if fitting else amount
    last = fitting[-1]
    bare_mass = last.unit in ("gram", "millilitre") and amount.low < MANY
    return amount if bare_mass else replace(amount, unit=last.unit)
