"""Which food may stand in for which, by whole maps of names."""

from __future__ import annotations

import pytest
from heard import speech_of, uses_in

from extract.reconcile.alternatives import find_alternatives

STAND_INS = [
    ("Add two tablespoons of honey or maple syrup.", {"maple syrup": "honey"}),
    ("Use a pound of spinach, or kale, or chard.", {"kale": "spinach", "chard": "spinach"}),
    ("Put in a cup of walnuts. You could use pecans instead.", {"pecan": "walnut"}),
    ("Add half a cup of cream. If you can't get cream, use yogurt.", {"yogurt": "cream"}),
    ("Add a tablespoon of butter. Ghee is fine too.", {"ghee": "butter"}),
    ("Fry it in butter, but oil will do.", {"oil": "butter"}),
    ("Pour in two cups of cider, stout, ale, whatever you have.", {"stout": "cider", "ale": "cider"}),
    ("Two cups of stock, wine or cider, whichever is open.", {"wine": "stock", "cider": "stock"}),
    ("Add a cup of grated cheddar, the yellow kind, or gouda.", {"gouda": "cheddar"}),
    ("Four leeks and a cup of barley. Instead of barley you can use rice.", {"rice": "barley"}),
]
LEFT_OUT = [
    (
        "A cup of rye, 50 grams of walnuts. If there's an allergy, leave them out and put in another 50 of oats.",
        {"oats": "walnut"},
    ),
    (
        "50 grams of hazelnuts and a cup of flour. No nuts in the house, miss them out and put in 50 grams of oats.",
        {"oats": "hazelnut"},
    ),
    ("Two eggs. If you don't eat eggs, leave them out and put in a cup of yogurt.", {"yogurt": "egg"}),
    (
        "A cup of pecans. For anybody who can't have nuts, leave the pecans out and use a cup of pumpkin seeds.",
        {"pumpkin seed": "pecan"},
    ),
    ("Two cups of oats, a cup of milk. If you've no cream, use another cup of milk.", {"milk": "milk"}),
]
NO_STAND_INS = [
    "Three jalapenos. If the kids don't like heat, leave the seeds out and add a cup of cream.",
    "A cup of oats. If it's too thick, take the lid off and put in a cup of water.",
    "A cup of raisins. If there's an allergy about, leave them out. Then put in a cup of milk.",
    "A cup of raisins. Leave them out on the side and put in a cup of milk.",
    "Two cups of oats. If it looks dry, add another tablespoon of milk.",
    "Add two tablespoons of honey and a cup of milk.",
    "Simmer it for ten or twelve minutes with the milk.",
    "Put in a cup of walnuts. Walnuts are fine.",
    "Ghee is fine too.",
    "Add two cups of oats. Raisins, figs, whatever you like.",
    "Two cups of stock, a pint of wine, whatever else.",
    "Two cups of stock go in the big pot, and then the wine, whichever you have.",
    "A cup of milk. The eggs are next. Then the flour.",
    "Whisk the eggs.",
    "",
]


def by_name(text: str) -> dict[str, str]:
    uses = uses_in(text)
    names = [use.mention.food.name for use in uses]
    return {names[i]: names[j] for i, j in find_alternatives(speech_of(text).doc, uses).items()}


@pytest.mark.parametrize(("text", "expected"), STAND_INS + LEFT_OUT)
def test_a_food_may_stand_in_for_one_named_before(text: str, expected: dict[str, str]) -> None:
    assert by_name(text) == expected


@pytest.mark.parametrize("text", NO_STAND_INS)
def test_foods_side_by_side_do_not_stand_in_for_one_another(text: str) -> None:
    assert by_name(text) == {}


def test_one_of_the_same_kind_is_stood_in_for_before_a_nearer_one_of_another() -> None:
    text = "A cup of walnuts, a tablespoon of salt. You could use pecans instead."
    assert by_name(text) == {"pecan": "walnut"}


def test_what_was_named_long_ago_is_not_stood_in_for() -> None:
    text = f"A cup of walnuts. {'Now we wait a good long while for that to brown. ' * 6}You could use pecans instead."
    assert by_name(text) == {}
