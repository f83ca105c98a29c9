"""Which amount belongs to which food.

Every amount may stand before its food ("two cups of flour") or after it ("the flour, that's two cups"); each
possible pair has a cost, the words between decide it, and the cheapest pairs win.
"""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache
from typing import TYPE_CHECKING

from extract.lexicon import read_lexicon
from extract.spot.spans import Amount, Food

if TYPE_CHECKING:
    from spacy.tokens import Doc

FORWARD_REACH = 9
BACKWARD_REACH = 9
COUNT_REACH = 4
SHARED_REACH = 6
LONGEST_FOOD = 12
AFTERWARDS_REACH = 45
IMPOSSIBLE = 99.0
LIMIT = 4.0


@dataclass(frozen=True, slots=True)
class Mention:
    """A food as it is named once, with the amount that its own words give it."""

    food: Food
    amount: Amount | None = None

    @property
    def start(self) -> int:
        """The first token of the food or of its amount, whichever comes first."""
        return min(self.food.start, self.amount.start) if self.amount else self.food.start

    @property
    def end(self) -> int:
        """One past the last token of the food or of its amount."""
        return max(self.food.end, self.amount.end) if self.amount else self.food.end


@cache
def link_words() -> dict[str, dict[str, float]]:
    """What each word costs between an amount and a food, by direction ("forward", "backward")."""
    table: dict[str, dict[str, float]] = {"forward": {}, "backward": {}}
    for row in read_lexicon("link_words", columns=("word", "direction", "cost")):
        table[row["direction"]][row["word"]] = float(row["cost"])
    return table


def pair(doc: Doc, foods: Sequence[Food], amounts: Sequence[Amount]) -> tuple[Mention, ...]:
    """Each food once, in order, with the amount that fits it best, or none.

    A food inside an amount's own words ("a clove") is that amount's unit, not a food, and is left out.
    """
    foods = [f for f in foods if not any(a.start <= f.start and f.end <= a.end for a in amounts)]
    amounts = _without_second_measures(doc, amounts)
    owners: dict[int, Amount] = {}
    used: set[int] = set()
    # Figures choose before vague words do: "a little bit of coriander, about two tablespoons" is two.
    options = sorted(_options(doc, foods, amounts), key=lambda o: (amounts[o[1]].low is None, *o))
    for _cost, amount_at, food_at in options:
        if amount_at in used or food_at in owners:
            continue
        used.add(amount_at)
        owners[food_at] = amounts[amount_at]
        if amounts[amount_at].each:
            for other in _sharers(doc, foods, food_at):
                owners.setdefault(other, amounts[amount_at])
    for amount_at, food_at in _said_afterwards(doc, foods, amounts, used, owners):
        owners[food_at] = amounts[amount_at]
    return tuple(_mention(doc, food, owners.get(i)) for i, food in enumerate(foods))


def _without_second_measures(doc: Doc, amounts: Sequence[Amount]) -> list[Amount]:
    """ "One cup, that's 130 grams, of flour" is one amount told on two scales: the first stands for both."""
    kept: list[Amount] = []
    for amount in amounts:
        if kept and _tells_again(doc, kept[-1], amount):
            kept[-1] = replace(kept[-1], end=amount.end)
        else:
            kept.append(amount)
    return kept


def _tells_again(doc: Doc, first: Amount, second: Amount) -> bool:
    kinds = unit_kinds()
    one, other = kinds.get(first.unit, ""), kinds.get(second.unit, "")
    if first.low is None or second.low is None or one == other or not {one, other} <= {"volume", "mass"}:
        return False
    gap = [t.lower_ for t in doc[first.end : second.end] if t.i < second.start]
    return 0 < len(gap) <= 4 and all(w in {"or", ",", "that", "'s", "about", "is", "(", "which", "-"} for w in gap)


@cache
def unit_kinds() -> dict[str, str]:
    """The kind of each canonical unit: volume, mass, length, package, part, dab."""
    columns = ("form", "unit", "kind", "times", "note")
    return {r["unit"]: r["kind"] for r in read_lexicon("units", columns=columns)}


def _said_afterwards(
    doc: Doc, foods: Sequence[Food], amounts: Sequence[Amount], used: set[int], owners: dict[int, Amount]
) -> Iterator[tuple[int, int]]:
    """Amounts that no food of their own follows belong to the food spoken of last, if it has none yet."""
    kinds = unit_kinds()
    for i, amount in enumerate(amounts):
        if i in used or amount.low is None or _takes_own_food(doc, amount):
            continue
        if kinds.get(amount.unit) == "volume" and _tells_a_total(doc, amount):
            continue
        if not (kinds.get(amount.unit) in {"volume", "mass"} or amount.unit == "clove" or _counts_them(doc, amount)):
            continue
        before = [j for j, f in enumerate(foods) if f.end <= amount.start and amount.start - f.end <= AFTERWARDS_REACH]
        if before and (before[-1] not in owners or _is_article(doc, owners[before[-1]])):
            yield i, before[-1]


def _tells_a_total(doc: Doc, amount: Amount) -> bool:
    """ "You get about ten cups": how much of a thing there is, not how much of a food goes in."""
    before = " ".join(t.lower_ for t in doc[max(0, amount.start - 5) : amount.start])
    return any(re.search(r["pattern"], before) for r in read_lexicon("total_cues", columns=("pattern",)))


def _is_article(doc: Doc, amount: Amount) -> bool:
    """Whether the amount is no more than an "a" or "an"."""
    return amount.low is None or (amount.end - amount.start == 1 and doc[amount.start].lower_ in {"a", "an"})


def _mention(doc: Doc, food: Food, amount: Amount | None) -> Mention:
    """The food with its amount, in the unit that its own words name: "five garlic cloves" is five cloves.

    "A" before a thing that is not counted ("a tomato sauce") is an article, not an amount.
    """
    if amount is None or amount.unit or amount.low is None:
        return Mention(food, amount)
    around = [t.lower_.rstrip("s") for t in doc[food.start : food.end + 1]]
    unit = next((_counted_as()[w] for w in reversed(around) if w in _counted_as()), "")
    if unit:
        return Mention(food, replace(amount, unit=unit))
    if _is_article(doc, amount) and food.kinds & uncounted_kinds():
        return Mention(food)
    return Mention(food, amount)


@cache
def uncounted_kinds() -> frozenset[str]:
    """Kinds of food that are measured rather than counted."""
    return frozenset(r["kind"] for r in read_lexicon("uncounted_kinds", columns=("kind",)))


@cache
def _counted_as() -> dict[str, str]:
    return {r["head"]: r["unit"] for r in read_lexicon("counted_as", columns=("head", "unit"))}


def _options(doc: Doc, foods: Sequence[Food], amounts: Sequence[Amount]) -> Iterator[tuple[float, int, int]]:
    """(cost, amount, food) of every pair that the words allow."""
    starts = [f.start for f in foods]
    for i, amount in enumerate(amounts):
        first = min((a.start for a in amount.slips), default=amount.start)
        for j in range(bisect_left(starts, first - BACKWARD_REACH - LONGEST_FOOD), len(foods)):
            if foods[j].start >= amount.end + FORWARD_REACH:
                break
            cost = _cost(doc, foods, amounts, i, j)
            if cost < LIMIT:
                yield (cost, i, j)


def _cost(doc: Doc, foods: Sequence[Food], amounts: Sequence[Amount], i: int, j: int) -> float:
    """The cheapest link: from the amount as corrected, or from the slip that the correction replaced."""
    return min(_link_cost(doc, foods, amounts, a, foods[j]) for a in (amounts[i], *amounts[i].slips))


def _link_cost(
    doc: Doc, foods: Sequence[Food], amounts: Sequence[Amount], amount: Amount, food: Food
) -> float:
    if food.start >= amount.end:
        if _crosses(foods, amounts, amount.end, food.start):
            return IMPOSSIBLE
        return _forward_cost(doc, amount, food)
    if food.start >= amount.start:
        return 0.0 if food.end > amount.end else IMPOSSIBLE
    if _crosses(foods, amounts, food.end, amount.start):
        return IMPOSSIBLE
    return _backward_cost(doc, amount, food)


def _crosses(foods: Sequence[Food], amounts: Sequence[Amount], start: int, end: int) -> bool:
    """Whether another food or another figure stands between."""
    return any(start <= f.start < end for f in foods) or any(
        start <= a.start < end and a.low is not None for a in amounts
    )


def _forward_cost(doc: Doc, amount: Amount, food: Food) -> float:
    gap = doc[amount.end : food.start]
    reach = COUNT_REACH if amount.unit == "" else FORWARD_REACH
    if len(gap) > reach:
        return IMPOSSIBLE
    costs = link_words()["forward"]
    total = 0.0
    for token in gap:
        total += costs.get(token.lower_, _shape_cost(token.pos_, token.tag_, bare=amount.unit == ""))
        if total >= LIMIT:
            return IMPOSSIBLE
    return total


def _shape_cost(pos: str, tag: str, *, bare: bool) -> float:
    """What a word outside the lexicon costs before the food it may describe, by its part of speech."""
    if pos in {"ADJ", "ADV"} or tag in {"VBN", "VBG", "VBD"}:
        return 0.4
    if pos in {"NOUN", "PROPN"}:
        return 1.2 if bare else 0.8
    if pos in {"PUNCT", "SYM"}:
        return 2.0 if bare else 1.2
    return IMPOSSIBLE


def _backward_cost(doc: Doc, amount: Amount, food: Food) -> float:
    if amount.low is None:
        return IMPOSSIBLE
    gap = doc[food.end : amount.start]
    costs = link_words()["backward"]
    total = 0.6 if amount.unit else 1.8
    if amount.unit == "" and not _counts_them(doc, amount):
        total += 1.2
    for token in gap:
        total += costs.get(token.lower_, 1.5 if token.pos_ not in {"VERB"} else 2.5)
        if total >= LIMIT:
            return IMPOSSIBLE
    if _takes_own_food(doc, amount):
        total += 2.5
    return total


def _counts_them(doc: Doc, amount: Amount) -> bool:
    """ "Eggs. Three of them": the figure counts what was just named."""
    return doc[amount.end : amount.end + 2].text.lower() in {"of them", "of those", "of these"}


def _takes_own_food(doc: Doc, amount: Amount) -> bool:
    """An amount followed by "of" (not "of them") calls for a food of its own."""
    after = doc[amount.end : amount.end + 2].text.lower()
    ends_in_of = amount.end > amount.start and doc[amount.end - 1].lower_ == "of"
    return (ends_in_of or after.startswith("of ")) and after not in {
        "of them",
        "of those",
        "of these",
        "of it",
        "of that",
    }


def _sharers(doc: Doc, foods: Sequence[Food], first: int) -> Iterator[int]:
    """The foods after ``first`` in one list with it: "a teaspoon each of cumin, coriander and turmeric"."""
    for j in range(first + 1, len(foods)):
        gap = doc[foods[j - 1].end : foods[j].start]
        if len(gap) > SHARED_REACH or any(t.pos_ in {"VERB", "PRON", "NUM"} and t.tag_ != "VBN" for t in gap):
            return
        if not any(t.lower_ in {"and", ",", "&", "or"} for t in gap):
            return
        yield j
        if any(t.lower_ == "and" for t in gap):
            return
