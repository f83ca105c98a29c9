"""Which names are one food, which a sort of it that is worth a look, and which another food.

Common practice of the trade, no source; flour, sugar and milk by their names in Regulation (EU) 1308/2013 (annex VII,
milk) and Directive 2001/111/EC (sugars: icing sugar is a product of its own), from memory.
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from extract.lexicon import read_lexicon
from extract.spot.names.identity import Sameness, opposed, sameness

NAMES: dict[Sameness, list[tuple[str, str]]] = {
    "same": [
        ("flour", "plain flour"),
        ("flour", "all-purpose flour"),
        ("plain flour", "all-purpose flour"),
        ("cheddar", "mature cheddar"),
        ("cheddar", "cheddar cheese"),
        ("milk", "whole milk"),
        ("sugar", "caster sugar"),
        ("black pepper", "pepper"),
        ("pepper", "freshly ground black pepper"),
        ("butter", "unsalted butter"),
        ("kosher salt", "salt"),
        ("yogurt", "plain yoghurt"),
        ("soy sauce", "light soy sauce"),
        ("bay leaves", "bay leaf"),
        ("ground beef", "minced beef"),
        ("beef mince", "ground beef"),
        ("cream", "double cream"),
        ("oil", "olive oil"),
        ("spring onions", "scallions"),
        ("cilantro", "coriander"),
        ("ginger", "fresh ginger"),
        ("rolled oats", "oats"),
        ("chilli powder", "chili powder"),
        ("parmesan", "parmesean"),
        ("dark beer", "stout"),
        ("chocolate", "dark chocolate"),
        ("bicarbonate of soda", "baking soda"),
        ("parsley", "flat-leaf parsley"),
        ("honey", "runny honey"),
        ("white bread flour", "strong white flour"),
        ("cumin", "ground cumin"),
        ("courgettes", "zucchini"),
        ("prawns", "shrimp"),
        ("muscovado sugar", "light muscovado sugar"),
        ("corn", "sweetcorn"),
        ("cornflour", "cornstarch"),
        ("potatoes", "floury potatoes"),
        ("flat-leaf parsley", "curly parsley"),
        ("bacon", "smoked bacon"),
        ("soft goat's cheese", "goat cheese"),
        ("crème fraîche", "creme fraiche"),
        ("sea salt flakes", "salt"),
        ("icing sugar", "powdered sugar"),
        ("icing sugar", "confectioners' sugar"),
    ],
    "sort": [
        ("frozen peas", "peas"),
        ("butter", "salted butter"),
        ("unsalted butter", "salted butter"),
        ("onion", "red onion"),
        ("pork", "pork belly"),
        ("yoghurt", "Greek yoghurt"),
        ("dried bay leaves", "fresh bay leaves"),
        ("chicken", "chicken thighs"),
        ("tomatoes", "cherry tomatoes"),
        ("stout", "dark beer"),
        ("basmati rice", "rice"),
        ("stock", "chicken stock"),
        ("olives", "green olives"),
        ("potatoes", "new potatoes"),
        ("red lentils", "lentils"),
        ("lemon", "lemon juice"),
    ],
    "another": [
        ("potatoes", "sweet potatoes"),
        ("plain flour", "rice flour"),
        ("plain flour", "self-raising flour"),
        ("flour", "rice flour"),
        ("cheddar", "parmesan"),
        ("cheddar", "vegan cheddar"),
        ("eggs", "quail eggs"),
        ("eggs", "duck eggs"),
        ("milk", "condensed milk"),
        ("milk", "coconut milk"),
        ("whole milk", "skimmed milk"),
        ("milk", "milk powder"),
        ("caster sugar", "icing sugar"),
        ("caster sugar", "brown sugar"),
        ("sugar", "brown sugar"),
        ("granulated sugar", "icing sugar"),
        ("granulated sugar", "dark brown sugar"),
        ("granulated sugar", "demerara sugar"),
        ("black pepper", "cayenne pepper"),
        ("black pepper", "white pepper"),
        ("smoked haddock", "haddock"),
        ("English mustard", "Dijon mustard"),
        ("frozen peas", "sugar snap peas"),
        ("ground almonds", "flaked almonds"),
        ("butter", "peanut butter"),
        ("red onion", "white onion"),
        ("salt", "celery salt"),
        ("light soy sauce", "dark soy sauce"),
        ("lemon juice", "lime juice"),
        ("chicken thighs", "chicken breasts"),
        ("pork mince", "turkey mince"),
        ("cream", "soured cream"),
        ("double cream", "single cream"),
        ("olive oil", "vegetable oil"),
        ("coriander", "ground coriander"),
        ("tomatoes", "canned tomatoes"),
        ("ginger", "ground ginger"),
        ("flour", "gluten-free flour"),
        ("oats", "gluten-free oats"),
        ("paprika", "smoked paprika"),
        ("sweet paprika", "smoked paprika"),
        ("red wine", "white wine"),
        ("brown rice", "rice"),
        ("beef stock", "vegetable stock"),
        ("dark chocolate", "milk chocolate"),
        ("dark chocolate", "white chocolate"),
        ("vanilla pod", "vanilla extract"),
        ("baking powder", "baking soda"),
        ("fish sauce", "oyster sauce"),
        ("purple olives", "green olives"),
        ("breadcrumbs", "panko breadcrumbs"),
        ("vegetable oil", "sunflower oil"),
        ("black beans", "kidney beans"),
        ("egg yolks", "egg whites"),
        ("eggs", "egg yolks"),
        ("haddock", "smoked haddock"),
        ("red lentils", "green lentils"),
        ("sherry vinegar", "red wine vinegar"),
        ("celery", "celeriac"),
    ],
    "unrelated": [
        ("butter", "butter beans"),
        ("lemon", "lime"),
        ("chicken", "chicken stock"),
        ("walnuts", "pecans"),
    ],
}
CASES = [(*names, wanted) for wanted, rows in NAMES.items() for names in rows]
FOODS = [
    row["name"]
    for row in read_lexicon("foods", columns=("name", "aliases", "forms", "kinds", "sense", "source"))
]


@pytest.mark.parametrize(("said", "written", "wanted"), CASES)
def test_a_head_noun_alone_is_no_identity(said: str, written: str, wanted: Sameness) -> None:
    assert sameness(said, written) == wanted


@given(st.sampled_from(FOODS))
def test_every_food_is_itself(name: str) -> None:
    assert sameness(name, name) == "same"


@given(st.sampled_from(FOODS), st.sampled_from(FOODS))
def test_what_is_one_food_is_so_whichever_side_says_it(one: str, other: str) -> None:
    """But for a general name ("cheese"), which a written side may make more exact and not less."""
    if sameness(one, other) == "same":
        assert sameness(other, one) in ("same", "sort")


def test_a_word_told_beside_the_name_counts() -> None:
    assert sameness("butter", "salted butter", heard=frozenset({"salted"})) == "same"
    assert sameness("smoked haddock", "haddock", beside=frozenset({"smoked"})) == "same"
    assert sameness("dried bay leaves", "bay leaves", beside=frozenset({"fresh"})) == "another"
    assert opposed("dried bay leaves", frozenset({"fresh"}))
