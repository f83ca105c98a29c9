"""Shares of things whose foods were told by cup and by weight are weighed.

Source of the weights: USDA SR28, household measures: 1 cup of all-purpose flour 125 g (20081), 1 cup of butter 227 g
(01001), 1 large egg yolk 17 g (01125).
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from extract.draft.weighing import entry_weight, share_weight
from extract.reconcile.ledger.ledger import Entry
from extract.reconcile.ledger.quantities import Range, exactly, quantity
from extract.spot.spans import Amount


def entry(food: str, low: Fraction | int, unit: str, high: Fraction | int | None = None) -> Entry:
    amount = Amount(0, 1, Fraction(low), Fraction(low if high is None else high), unit)
    return Entry(food, 0, quantity(amount), amount)


ONE = [
    (entry("butter", 1, "cup"), 227),
    (entry("all-purpose flour", 2, "cup"), 250),
    (entry("sugar", 100, "gram"), 100),
    (entry("egg yolk", 2, ""), 34),
    (entry("salt", 1, "sprig"), None),
    (Entry("salt", 0, None), None),
]


@pytest.mark.parametrize(("one", "grams"), ONE, ids=[one.what + str(at) for at, (one, _) in enumerate(ONE)])
def test_what_one_food_weighs(one: Entry, grams: int | None) -> None:
    found = entry_weight(one)
    assert found == (None if grams is None else exactly(grams))


def test_a_share_weighs_its_part_of_the_sum_and_a_range_stays_one() -> None:
    dough = [entry("all-purpose flour", 2, "cup"), entry("butter", 150, "gram")]
    assert share_weight(dough, exactly(Fraction(1, 2))) == exactly(200)  # 250 + 150 = 400
    dough.append(entry("sugar", 50, "gram", 100))
    assert share_weight(dough, exactly(Fraction(1, 2))) == Range(Fraction(225), Fraction(250))


def test_one_food_without_a_weight_leaves_the_share_without_one() -> None:
    assert share_weight([entry("sugar", 100, "gram"), Entry("salt", 0, None)], exactly(1)) is None
    assert share_weight([], exactly(1)) is None
