"""The lines of one dish from its words: whole lists, so that a line too many fails as a missing one does."""

from __future__ import annotations

from fractions import Fraction

import pytest
from heard import lines_in, uses_in

from extract.reconcile.kitchen import names_part
from extract.reconcile.lines.components import Part
from extract.reconcile.lines.lines import build_lines, resolve_again, same_thing

STIRRING = "Give it a good long stir so that nothing catches, put the lid on and let it sit while you see to the rest"

FRONTED = [
    (
        "Stir in two cups of cream. Capers, I've got, and loads of black pepper.",
        ["2 cup cream", "capers", "some black pepper"],
    ),
    ("Stir in two cups of cream. Olives, we've got, a good handful.", ["2 cup cream", "1 handful olive"]),
    ("Stir in two cups of cream. Eggs, three, one at a time.", ["2 cup cream", "3 egg"]),
]
ONE_LINE = [
    ("Stir in two cups of oats. Now the oats soften in the pan.", ["2 cup oats"]),
    ("You need carrots and barley. Add three carrots to the pot, then the barley.", ["3 carrot", "barley"]),
    ("You need two cups of oats. Put the two cups of oats in the bowl.", ["2 cup oats"]),
    ("Add the lentils to the pot. Two cups of lentils, that is.", ["2 cup lentil"]),
    ("Add two onions to the pan. Then the red onions go soft.", ["2 red onion"]),
    ("Stir in half a cup of cream. The cream goes in slowly, the cream does.", ["1/2 cup cream"]),
]
UNIT_UNSAID = [
    ("Two hundred grams of barley, then a hundred and fifty of oats.", ["200 gram barley", "150 gram oats"]),
    ("A teaspoon of mace and eight peppercorns.", ["1 teaspoon mace", "8 peppercorns"]),
    ("Two sticks of celery and a teaspoon of salt.", ["2 stalk celery", "1 teaspoon salt"]),
]
AGAIN = [
    (
        "Add two tablespoons of butter to the pan. At the end stir in another tablespoon of butter.",
        ["2 tablespoon butter", "1 tablespoon butter"],
    ),
    (
        "Put a cup of sugar in the bowl. Sprinkle two tablespoons of sugar over the top.",
        ["1 cup sugar", "2 tablespoon sugar"],
    ),
    (
        "Add a teaspoon of salt to the dough. Put a teaspoon of salt in the filling.",
        ["1 teaspoon salt", "1 teaspoon salt"],
    ),
    (
        f"Mix two cups of flour with a cup of milk. {STIRRING}. Then sprinkle on a little flour.",
        ["2 cup flour", "1 cup milk", "some flour"],
    ),
    ("Add a cup of sugar, and the same again of butter.", ["1 cup sugar", "1 cup butter"]),
    ("A pound of plums, the same weight of sugar.", ["1 pound plum", "1 pound sugar"]),
]
GOT_OUT = [
    (
        "A cup of sugar and the zest of two lemons. Now the juice of those lemons, it's about 80 mils.",
        ["1 cup sugar", "2 lemon", "80 millilitre lemon juice"],
    ),
    ("Two cups of flour and the zest of two limes. Then the juice of the limes.", ["2 cup flour", "2 lime"]),
    ("A cup of sugar and the zest of a lemon.", ["1 cup sugar", "1 lemon"]),
    ("Two oranges, zest and juice, and a cup of sugar.", ["2 orange", "1 cup sugar"]),
]
REST = [
    ("Put half a cup of cream in the bowl. Add the rest of the cream at the end.", ["1/2 cup cream"]),
    ("Pour in a cup of milk. Then the remaining milk goes in.", ["1 cup milk"]),
    ("Stir in two cups of cheese. Take a spoonful of the cheese off the top.", ["2 cup cheese"]),
    ("Add a quart of stock. Ladle a cup of the stock over the top.", ["1 quart stock"]),
    ("Put a slice of the bread on each plate.", []),
]
BY_VERB = [
    (
        "Mix three cups of flour and a cup of water. Flour the board and roll it out.",
        ["3 cup flour", "1 cup water", "flour"],
    ),
    ("Butter the tin and pour in two cups of cream.", ["butter", "2 cup cream"]),
    ("Add a cup of butter to the bowl. Butter the tin.", ["1 cup butter", "butter"]),
    ("Butter the tin. Add a cup of butter to the bowl.", ["butter", "1 cup butter"]),
]
STAND_INS = [
    ("Add two tablespoons of honey or maple syrup.", ["2 tablespoon honey or maple syrup"]),
    ("Put in a cup of walnuts. You could use pecans instead.", ["1 cup walnut or pecan"]),
    ("Use a pound of spinach, or kale, or chard.", ["1 pound spinach or kale or chard"]),
    ("Add half a cup of cream. If you can't get cream, use yogurt.", ["1/2 cup cream or yogurt"]),
    (
        "Two cups of flour and a cup of walnuts. If there's an allergy, leave them out and add another cup of flour.",
        ["2 cup flour", "1 cup walnut or flour"],
    ),
    (
        "Two cups of oats, a cup of milk. If you've no cream, use another cup of milk.",
        ["2 cup oats", "1 cup milk"],
    ),
]
IN_GENERAL = [
    (
        "Two cups of corn and a jalapeno, chopped up, with the seeds out of the pepper if it is for children.",
        ["2 cup corn", "1 jalapeno"],
    ),
    ("A serrano and a cup of vinegar. Leave the chilli in.", ["1 serrano", "1 cup vinegar"]),
    ("Half a pound of rigatoni. Add the pasta to the pot.", ["1/2 pound rigatoni"]),
    ("Two cups of linguine. Stir in the noodles.", ["2 cup linguine"]),
    ("A cup of marsala. Pour in the wine, all of it.", ["1 cup marsala"]),
    ("A can of stout. Pour the beer in slowly.", ["1 can stout"]),
    ("A pound of chorizo. Fry the sausage until it is crisp.", ["1 pound chorizo"]),
    ("A can of chickpeas. Add the beans to the pot.", ["1 can chickpea"]),
    ("A cup of chocolate chips. Melt the chocolate.", ["1 cup chocolate chips"]),
    ("Lay a pound of haddock in the pan. Lift the fish out and flake it.", ["1 pound haddock"]),
    ("Brown two pounds of lamb. Take the meat out of the pan.", ["2 pound lamb"]),
    ("Toast a cup of pecans. Chop the nuts and add the nuts.", ["1 cup pecan"]),
    # Not the food before: another is measured, nothing is definite, another stands beside it, the kinds are apart.
    ("Add a jalapeno and two teaspoons of pepper.", ["1 jalapeno", "2 teaspoon pepper"]),
    ("Chop two jalapenos. Add pepper.", ["2 jalapeno", "pepper"]),
    (
        "Chop two jalapenos. A teaspoon of salt. Add the salt and the pepper.",
        ["2 jalapeno", "1 teaspoon salt", "pepper"],
    ),
    ("Add two jalapenos and black pepper. Grind the pepper over it.", ["2 jalapeno", "black pepper"]),
    ("A cup of honey. Stir in the sugar.", ["1 cup honey", "sugar"]),
    ("A pint of buttermilk. Stir in the milk.", ["1 pint buttermilk", "milk"]),
    (f"Add two jalapenos. {STIRRING}. {STIRRING}. {STIRRING}. Add the pepper.", ["2 jalapeno", "pepper"]),
]
OPTIONAL = [
    ("If you want, throw in a handful of raisins.", ["1 handful raisin, optional"]),
    ("Stir in a pinch of nutmeg if you have it.", ["1 pinch nutmeg, optional"]),
    ("You could put half a cup of peas in.", ["1/2 cup pea, optional"]),
    ("Add two tablespoons of capers, or leave them out.", ["2 tablespoon capers, optional"]),
    ("Add half a cup of raisins, if your guests like them.", ["1/2 cup raisin, optional"]),
    ("Add a cup of butter. Serve it with more butter if you like.", ["1 cup butter"]),
    ("You can add two cups of rice now.", ["2 cup rice"]),
    (
        "Add two cups of oats, and if you want it sweeter, a tablespoon of honey.",
        ["2 cup oats", "1 tablespoon honey, optional"],
    ),
    ("If you have a big pan, add two cups of rice.", ["2 cup rice"]),
]
TALK = [
    "It is the colour of honey when it is done.",
    "My grandmother always put cinnamon in hers.",
    "There are no eggs in this one.",
    "It is as thick as cream.",
    "Do you like olives?",
    "He never ate fish.",
    "You end up with three cups of sauce.",
    "Serve the stew on the big plates.",
    "It'd be gorgeous with some cherries, or a blob of cream, but it doesn't need it.",
    "It's good the next day, too, cold, with a piece of sharp gouda.",
]


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        ("onion", "red onion", True),
        ("red onion", "white onion", False),
        ("spring onion", "scallion", True),
        ("pepper", "bell pepper", True),
        ("butter", "oil", False),
    ],
)
def test_names_of_one_thing(one: str, other: str, same: bool) -> None:
    assert same_thing(one, other) is same
    assert same_thing(other, one) is same


@pytest.mark.parametrize(("text", "lines"), UNIT_UNSAID)
def test_a_unit_left_unsaid_is_the_one_that_is_meant(text: str, lines: list[str]) -> None:
    assert lines_in(text) == lines


def test_a_measured_line_is_no_name_of_a_part() -> None:
    line = build_lines(uses_in("Stir in ninety grams of honey."))[0]
    named = [Part(line.name, line.at - 9, line.at + 9)]
    assert not names_part(line, named)
    line.amount = None
    assert names_part(line, named)


def test_the_same_again_takes_the_figures_before_it() -> None:
    uses = uses_in("A pound of plums, two eggs and the same weight of sugar.")
    amount = resolve_again(uses)[-1].mention.amount
    assert amount is not None
    assert (amount.low, amount.high, amount.unit) == (Fraction(1), Fraction(1), "pound")


def test_the_same_again_of_nothing_stays_without_figures() -> None:
    amount = uses_in("The same again of milk.")[0].mention.amount
    assert amount is not None
    assert amount.again
    assert amount.low is None
