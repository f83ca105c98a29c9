"""Which amount belongs to which food: the reader's score for every pair decides; the grammar gives the values."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np

from extract.reader.labels import THINGS
from extract.spot.mentions.mention import Mention
from extract.spot.mentions.unit_unsaid import with_units
from extract.spot.names.foods import same_food
from extract.spot.numbers.find import read_number
from extract.spot.numbers.units import read_unit
from extract.spot.spans import Amount, Food, Number
from extract.spot.words import Words

if TYPE_CHECKING:
    from extract.reader.reading import Floats, Reading

REACH = 80
ONE = frozenset({"a", "an", "another", "one"})
AN_AMOUNT = 0.2  # the likelihood from which a figure can be an amount at all, no time, price or article
LEAST = 0.02
FAINT = np.log(0.02)
LINE = (THINGS.index("food"), THINGS.index("food+"))


def candidates(words: Words, amounts: Sequence[Amount]) -> list[Amount]:
    """Every span that can be an amount: those read as one, and bare numbers and articles outside them."""
    taken = {i for amount in amounts for i in _places(amount)}
    found = [amount for amount in amounts if amount.low is not None or amount.again]
    for place in range(len(words)):
        if place in taken:
            continue
        number = read_number(words, place)
        if number is not None and taken.isdisjoint(range(number.start, number.end)):
            found.append(_figure(words, number))
            taken.update(range(number.start, found[-1].end))
        elif words.at(place) in ONE:
            found.append(Amount(place, place + 1, 1, 1))  # type: ignore[arg-type]
    return sorted(found, key=lambda amount: amount.start)


def _places(amount: Amount) -> list[int]:
    """The words that tell an amount, those of what was first said wrongly among them."""
    return [i for one in (*amount.slips, amount) for i in range(one.start, one.end)]


def _figure(words: Words, number: Number) -> Amount:
    """A figure that was read as no amount, with its measure if one follows: "double cream, the 300 mil one"."""
    unit = read_unit(words, words.skip_dash(number.end), after_figures=True)
    if unit is None or unit.kind not in ("mass", "volume", "length"):
        return Amount(number.start, number.end, number.low, number.high, "", number.approximate)
    low, high = number.low * unit.times, number.high * unit.times
    return Amount(number.start, unit.end, low, high, unit.name, number.approximate)


def own(words: Words, reading: Reading, foods: Sequence[Food], amounts: Sequence[Amount]) -> list[Mention]:
    """Each food with the amount that the reader gives it, or none; one amount serves two foods where it is shared."""
    offers = candidates(words, amounts)
    likely = [reading.is_figure(one.start, one.end, "amount") >= AN_AMOUNT for one in offers]
    starts = np.array([amount.start for amount in offers])
    vague = {i: amount for amount in amounts if amount.low is None for i in range(amount.start, amount.end)}
    choices = []
    for number, food in enumerate(foods):
        first, last = np.searchsorted(starts, (food.start - REACH, food.end + REACH))
        near = [k for k in range(int(first), int(last)) if likely[k] or _counts(words, offers[k], food)]
        scores = _scores(reading, food, [offers[k] for k in near])
        sure = float(np.log(max(LEAST, reading.things[reading.head_of(food.start, food.end), LINE].sum())))
        choices += [(float(scores[0]) + sure, number, -1)]
        choices += [
            (float(score) + sure, number, k)
            for score, k in zip(scores[1:], near, strict=True)
            if score > FAINT
        ]
    chosen = _assigned(choices, foods, offers)
    mentions = [
        Mention(food, _amount(food, offers, chosen.get(n, -1), vague)) for n, food in enumerate(foods)
    ]
    return with_units(words, mentions, offers)


def _counts(words: Words, offer: Amount, food: Food) -> bool:
    """Whether a figure, no article, stands right before a food."""
    return offer.end <= food.start <= offer.end + 1 and words.at(offer.start) not in ONE


def _scores(reading: Reading, food: Food, offers: Sequence[Amount]) -> Floats:
    """The log probability of no amount, then that of each offer: the sum over its words."""
    at = reading.head_of(food.start, food.end)
    places = [_places(offer) for offer in offers]
    each = reading.amount_scores(at, [i for own in places for i in own])
    out, k = [each[0]], 1
    for size in map(len, places):
        out.append(np.logaddexp.reduce(each[k : k + size]) if size else -np.inf)
        k += size
    return np.asarray(out, dtype=np.float32)


def _assigned(
    choices: list[tuple[float, int, int]], foods: Sequence[Food], offers: Sequence[Amount]
) -> dict[int, int]:
    """The best choice of each food, the surest line first; an amount goes to one food, however often that is named,
    unless it says that it is for each."""
    chosen: dict[int, int] = {}
    owner: dict[int, str] = {}
    for _, food, offer in sorted(choices, key=lambda choice: -choice[0]):
        if food in chosen:
            continue
        name = foods[food].name
        free = offer < 0 or offers[offer].each or offer not in owner or same_name(owner[offer], name)
        if free:
            chosen[food] = offer
            if offer >= 0:
                owner.setdefault(offer, name)
    return chosen


def same_name(one: str, other: str) -> bool:
    """Whether two names are of one food: the same, or one the other with fewer words before its noun."""
    return one == other or one.split()[-1:] == other.split()[-1:] or same_food(one, other)


def _amount(food: Food, offers: Sequence[Amount], choice: int, vague: dict[int, Amount]) -> Amount | None:
    if choice >= 0:
        return offers[choice]
    return next((vague[i] for i in range(food.start - 1, food.start - 5, -1) if i in vague), None)
