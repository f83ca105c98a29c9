"""Which amount belongs to which food.

Every amount may stand before its food ("two cups of flour") or after it ("the flour, that's two cups"); each
possible pair has a cost, the words between decide it (``links``), and the cheapest pairs win.
"""

from __future__ import annotations

from bisect import bisect_left, insort
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache
from itertools import takewhile
from typing import TYPE_CHECKING

from extract.lexicon import read_lexicon
from extract.spot.food_names import word_key
from extract.spot.links import (
    BACKWARD_REACH,
    FORWARD_REACH,
    LIMIT,
    Ground,
    corrects,
    counts_them,
    is_article,
    link_cost,
    link_phrases,
    sizes_a_vessel,
    takes_own_food,
    tells_a_total,
)
from extract.spot.spans import Amount, Food
from extract.spot.yielded import yielded

if TYPE_CHECKING:
    from spacy.tokens import Doc

SHARED_REACH = 6
LONGEST_FOOD = 12
AFTERWARDS_REACH = 45
CORRECTION_REACH = 25
ECHO_REACH = 4
# Amounts are told of foods: of something made or finished they tell how much of it there is.
UNMEASURED = frozenset({"made", "dish"})
MEASURES = frozenset({"volume", "mass"})
SIZES = MEASURES | {"length"}


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


def pair(doc: Doc, foods: Sequence[Food], amounts: Sequence[Amount]) -> tuple[Mention, ...]:
    """Each food once, in order, with the amount that fits it best, or none.

    A food inside an amount's own words ("a clove") is that amount's unit, not a food, and is left out.
    """
    covered = {i for a in amounts for i in range(a.start, a.end)}
    foods = [f for f in foods if not covered.issuperset(range(f.start, f.end))]
    ground = Ground.of(doc, foods, amounts)
    ground = Ground.of(doc, foods, _without_second_measures(ground))
    owners: dict[int, Amount] = {}
    used: set[int] = set()
    # Figures choose before vague words do: "a little bit of coriander, about two tablespoons" is two.
    options = sorted(_options(ground), key=lambda o: (_is_vague(ground.amounts[o[1]]), *o))
    for _, amount_at, food_at in options:
        if amount_at in used or food_at in owners:
            continue
        amount = ground.amounts[amount_at]
        used.add(amount_at)
        owners[food_at] = amount
        if amount.each:
            owners.update(dict.fromkeys(_sharers(ground, owners, food_at), amount))
    owners = _said_afterwards(ground, used, owners)
    owners = {food_at: _in_measures(ground, amount, food_at) for food_at, amount in owners.items()}
    return tuple(_mention(ground, food, owners.get(i)) for i, food in enumerate(foods))


def _in_measures(ground: Ground, amount: Amount, food_at: int) -> Amount:
    """The measure that a count of vessels comes to where it is told right behind: "a glass of wine, 200 mils"."""
    if amount.unit or amount.end - amount.start < 2 or amount.end > ground.foods[food_at].start:
        return amount
    end = ground.foods[food_at].end
    told = next((a for a in ground.amounts if end <= a.start <= end + 1), None)
    if told is None or told.low is None or unit_kinds().get(told.unit) not in MEASURES:
        return amount
    return amount if ground.text(told.end, told.end + 1) == "of" else told


def _is_vague(amount: Amount) -> bool:
    return amount.low is None and not amount.again


def _without_second_measures(ground: Ground) -> list[Amount]:
    """Every amount once: "one cup, that's 130 grams, of flour" is one told on two scales, of which the first
    stands for both, and the size of a tin is none."""
    kept: list[Amount] = []
    for amount in ground.amounts:
        if unit_kinds().get(amount.unit) in SIZES and sizes_a_vessel(ground, amount):
            continue
        if kept and _tells_again(ground, kept[-1], amount):
            kept[-1] = replace(kept[-1], end=amount.end)
        else:
            kept.append(amount)
    return kept


def _tells_again(ground: Ground, first: Amount, second: Amount) -> bool:
    kinds = {unit_kinds().get(first.unit, ""), unit_kinds().get(second.unit, "")}
    if first.low is None or second.low is None or kinds != MEASURES:
        return False
    return bool(link_phrases("again").fullmatch(ground.text(first.end, second.start)))


@cache
def unit_kinds() -> dict[str, str]:
    """The kind of each canonical unit: volume, mass, length, package, part, dab."""
    columns = ("form", "unit", "kind", "times", "note")
    return {r["unit"]: r["kind"] for r in read_lexicon("units", columns=columns)}


def _options(ground: Ground) -> Iterator[tuple[float, int, int]]:
    """(cost, amount, food) of every pair that the words allow; a slip's place counts as its correction's."""
    for i, amount in enumerate(ground.amounts):
        first = min((a.start for a in amount.slips), default=amount.start)
        j = bisect_left(ground.food_starts, first - BACKWARD_REACH - LONGEST_FOOD)
        while j < len(ground.foods) and ground.foods[j].start < amount.end + FORWARD_REACH:
            cost = min(link_cost(ground, a, j) for a in (amount, *amount.slips))
            if cost < LIMIT:
                yield (cost, i, j)
            j += 1


def _said_afterwards(ground: Ground, used: set[int], owners: dict[int, Amount]) -> dict[int, Amount]:
    """Amounts that no food of their own follows: a correction of the amount said just before, or the amount
    of the food spoken of last, if that has none yet."""
    found = dict(owners)
    told = sorted((amount.start, food_at) for food_at, amount in owners.items())
    for i, amount in enumerate(ground.amounts):
        if i in used or amount.low is None or takes_own_food(ground, amount):
            continue
        before = bisect_left(told, (amount.start, -1)) - 1
        food_at = told[before][1] if before >= 0 else -1
        if food_at >= 0 and _replaces(ground, found[food_at], amount):
            found[food_at] = replace(amount, slips=(*amount.slips, found[food_at]))
        else:
            food_at = _spoken_of_last(ground, i, found)
            if food_at < 0:
                continue
            found[food_at] = amount
        insort(told, (amount.start, food_at))
    return found


def _spoken_of_last(ground: Ground, i: int, owners: dict[int, Amount]) -> int:
    """The food just spoken of that an amount standing alone can only measure, -1 where there is none."""
    amount = ground.amounts[i]
    kind = unit_kinds().get(amount.unit)
    if (kind == "volume" and tells_a_total(ground, amount)) or _said_twice(ground, i):
        return -1
    if kind not in MEASURES and amount.unit != "clove" and not counts_them(ground, amount):
        return -1
    last = bisect_left(ground.food_starts, amount.start) - 1
    if last >= 0 and ground.foods[last].kinds & UNMEASURED:
        return -1
    near = last >= 0 and 0 <= amount.start - ground.foods[last].end <= AFTERWARDS_REACH
    return last if near and (last not in owners or is_article(ground, owners[last])) else -1


def _said_twice(ground: Ground, i: int) -> bool:
    """ "Three cups. Three cups of stock.": the first of the two is only the second's echo."""
    if i + 1 >= len(ground.amounts):
        return False
    here, after = ground.amounts[i], ground.amounts[i + 1]
    same = (here.low, here.high, here.unit) == (after.low, after.high, after.unit)
    return same and after.start - here.end <= ECHO_REACH and takes_own_food(ground, after)


def _replaces(ground: Ground, first: Amount, second: Amount) -> bool:
    """Whether a later amount without a food corrects one of its kind said just before."""
    kinds = unit_kinds()
    kind = kinds.get(first.unit)
    if first.low is None or kind not in MEASURES or kind != kinds.get(second.unit) or first.each:
        return False
    same = (first.low, first.high, first.unit) == (second.low, second.high, second.unit)
    return not same and 0 <= second.start - first.end <= CORRECTION_REACH and corrects(ground, first, second)


def _mention(ground: Ground, food: Food, amount: Amount | None) -> Mention:
    """The food with its amount, in the unit that its own words name: "five garlic cloves" is five cloves.

    "A" before a thing that is not counted ("a tomato sauce") is an article, not an amount; before a plural it is
    an "and" misheard.
    """
    if amount is None or amount.low is None:
        return Mention(food, amount)
    if unit_kinds().get(amount.unit) == "volume":
        food = yielded(ground.lower, food)
    if amount.unit:
        return Mention(food, replace(amount, unit=_own_units().get((food.head, amount.unit), amount.unit)))
    around = [word_key(word) for word in ground.lower[food.start : food.end + 1]]
    unit = next((_counted_as()[w] for w in reversed(around) if w in _counted_as()), "")
    if unit:
        return Mention(food, replace(amount, unit=unit))
    if is_article(ground, amount) and (food.plural or food.kinds & _uncounted_kinds()):
        return Mention(food)
    return Mention(food, amount)


@cache
def _own_units() -> dict[tuple[str, str], str]:
    """What a unit is called for one food: a stick of celery is a stalk."""
    rows = read_lexicon("own_units", columns=("head", "said", "unit"))
    return {(r["head"], r["said"]): r["unit"] for r in rows}


@cache
def _uncounted_kinds() -> frozenset[str]:
    return frozenset(r["kind"] for r in read_lexicon("uncounted_kinds", columns=("kind",)))


@cache
def _counted_as() -> dict[str, str]:
    return {r["head"]: r["unit"] for r in read_lexicon("counted_as", columns=("head", "unit"))}


def _sharers(ground: Ground, owners: Mapping[int, Amount], owner: int) -> list[int]:
    """The other foods of one list that share an amount: those after its owner where the amount opens the list
    ("a teaspoon each of cumin and coriander"), those before it where it closes one ("cumin and coriander, a
    teaspoon each")."""
    if owners[owner].start < ground.foods[owner].start:
        return [j for j in _listed_after(ground, owner) if j not in owners]
    return list(takewhile(lambda j: j not in owners, _listed_before(ground, owner)))


def _listed_after(ground: Ground, first: int) -> Iterator[int]:
    for j in range(first + 1, len(ground.foods)):
        words = _listing_words(ground, j - 1)
        if not words:
            return
        yield j
        if "and" in words:
            return


def _listed_before(ground: Ground, last: int) -> Iterator[int]:
    for j in range(last - 1, -1, -1):
        words = _listing_words(ground, j)
        if not words or "." in words or ("and" in words and j < last - 1):
            return
        yield j


def _listing_words(ground: Ground, j: int) -> set[str]:
    """The words between food ``j`` and the next where they put the two in one list, else none."""
    start, end = ground.foods[j].end, ground.foods[j + 1].start
    words = set(ground.lower[start:end])
    breaks = any(pos in {"VERB", "PRON", "NUM"} and tag != "VBN" for pos, tag in ground.shapes[start:end])
    joined = end - start <= SHARED_REACH and not breaks and words & {"and", ",", "&", "or"}
    return words if joined else set()
