"""Which amount belongs to which food, told by whole lists of mentions: a miss and an extra both fail."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

import pytest
from heard import amount_words, mention_words, speech_of, spotted_in
from hypothesis import given, settings
from hypothesis import strategies as st
from marked_sentences import parse

from extract.spot.amounts import find_amounts
from extract.spot.foods import find_foods
from extract.spot.pairing import Mention, pair
from extract.spot.spans import Amount, Food

BEFORE = [
    ("Two cups of flour go in the bowl.", ["2 cup flour"]),
    ("Half a teaspoon of salt and a tablespoon of sugar.", ["1/2 teaspoon salt", "1 tablespoon sugar"]),
    ("Put in three or four carrots.", ["3-4 carrot"]),
    ("Four ripe plums, halved.", ["4 plum"]),
    ("Two and a half pounds of stewing beef.", ["5/2 pound stewing beef"]),
    ("A pinch of nutmeg, two eggs and a cup of milk.", ["1 pinch nutmeg", "2 egg", "1 cup milk"]),
    ("a pound of prawns and half a pound of squid", ["1 pound prawn", "1/2 pound squid"]),
    ("two cups flour one cup sugar half a cup butter", ["2 cup flour", "1 cup sugar", "1/2 cup butter"]),
    ("A fourteen ounce can of tomatoes.", ["1 can of 14 ounce tomato"]),
    ("Another tablespoon of butter.", ["1 tablespoon butter"]),
    ("Two cups of that really very finely ground white flour.", ["2 cup white flour"]),
    ("Three big old brown tired onions.", ["3 onion"]),
    ("Two cups and then later on when it has boiled you add the flour.", ["flour"]),
    ("Some salt, a little pepper.", ["some salt", "some pepper"]),
    ("A cup of sugar and the same weight of butter.", ["1 cup sugar", "same butter"]),
    ("We need flour, sugar, butter and two eggs.", ["flour", "sugar", "butter", "2 egg"]),
]
AFTER = [
    ("The flour, that's two cups.", ["2 cup flour"]),
    ("Flour, two cups. Sugar, half a cup.", ["2 cup flour", "1/2 cup sugar"]),
    ("The butter is four ounces.", ["4 ounce butter"]),
    ("Cornmeal, a cup and a half.", ["3/2 cup cornmeal"]),
    ("For the rice I use two cups.", ["2 cup rice"]),
    ("The milk was a pint.", ["1 pint milk"]),
    ("Rice, and nobody will tell you this, is two cups.", ["2 cup rice"]),
    ("Take the milk, about a cup of it, and warm it.", ["1 cup milk"]),
    ("A little bit of coriander, about two tablespoons.", ["2 tablespoon coriander"]),
]
COUNTED_AFTER = [
    ("Eggs. Three of them.", ["3 egg"]),
    ("The onions, there are three of them.", ["3 onion"]),
    ("Eggs in there, four.", ["4 egg"]),
    ("Put the carrots in, all four of them.", ["4 carrot"]),
    ("Onions, two, chopped fine.", ["2 onion"]),
    ("Eggs, three, one at a time, and beat it well.", ["3 egg"]),
    ("Eggs, four, straight in.", ["4 egg"]),
    ("Now leeks. Three leeks, thin rounds.", ["leek", "3 leek"]),
    ("Carrots, two of them, in sticks.", ["2 carrot"]),
    ("Onions, just the one, chopped small.", ["1 onion"]),
    ("A turnip in it, and parsnips, only two.", ["1 turnip", "2 parsnip"]),
    ("Mushrooms, ten or so, sliced.", ["10 mushroom"]),
    ("Next some shallots. Five, peeled.", ["5 shallot"]),
    ("Limes, three, squeezed, and the milk.", ["3 lime", "milk"]),
    ("Scatter plums over it, four, halved.", ["4 plum"]),
    ("Onions, two, sorry, three of them, sliced.", ["3 (not 2) onion"]),
]
COUNTED_NOT_AFTER = [
    ("Eggs, one at a time.", ["egg"]),
    ("Potatoes, one by one, into the pan.", ["potato"]),
    ("Drain the beans. Five, six minutes, no more.", ["bean"]),
    ("Add the mushrooms. Two, and then you stir.", ["mushroom"]),
    ("Cream, two, three minutes on the heat.", ["cream"]),
    ("Tip in the plums, three, no, four figs, and stir.", ["plum", "4 (not 3) fig"]),
]
GOT_OUT = [
    ("Juice of those lemons, about 80 mils.", ["80 millilitre lemon juice"]),
    ("Now squeeze the orange, that's about four tablespoons.", ["4 tablespoon orange juice"]),
    ("The zest of that lime, about a teaspoon.", ["1 teaspoon lime zest"]),
    ("Grated rind of those lemons, two tablespoons.", ["2 tablespoon lemon zest"]),
    ("The juice of two limes.", ["2 lime"]),
    ("The juice of a lemon and the zest of a lemon.", ["1 lemon", "1 lemon"]),
    ("The lemons, about 80 grams.", ["80 gram lemon"]),
    ("Two tablespoons of orange juice.", ["2 tablespoon orange juice"]),
    ("Squeeze the water out and add two cups of carrots.", ["water", "2 cup carrot"]),
]
SHARED = [
    (
        "A teaspoon each of cumin, coriander and turmeric.",
        ["1 teaspoon cumin", "1 teaspoon coriander", "1 teaspoon turmeric"],
    ),
    ("Half a cup each of walnuts and raisins.", ["1/2 cup walnut", "1/2 cup raisin"]),
    ("Add a tablespoon of both soy sauce and honey.", ["1 tablespoon soy sauce", "1 tablespoon honey"]),
    ("Salt and pepper, half a teaspoon each.", ["1/2 teaspoon salt", "1/2 teaspoon pepper"]),
    ("Parsley, dill, mint, a handful of each.", ["1 handful parsley", "1 handful dill", "1 handful mint"]),
    (
        "Two onions, walnuts and raisins, half a cup each.",
        ["2 onion", "1/2 cup walnut", "1/2 cup raisin"],
    ),
    ("Stir the rice. Walnuts and raisins, half a cup each.", ["rice", "1/2 cup walnut", "1/2 cup raisin"]),
    ("A teaspoon each of salt and pepper, and the rice.", ["1 teaspoon salt", "1 teaspoon pepper", "rice"]),
]
MEANWHILE = "and you stand there and you watch it and you do not walk away from it"
LATER = [
    ("Now the lentils go in and you give them a stir. Two cups.", ["2 cup lentil"]),
    ("Pour in the stock. About a pint and a half.", ["3/2 pint stock"]),
    ("In goes the cream, straight on top, don't be shy with it. Half a cup.", ["1/2 cup cream"]),
    (
        "The vinegar now. Just pour it round the edge of the pan, and stand back. That's three tablespoons.",
        ["3 tablespoon vinegar"],
    ),
    ("Honey. You want about a quarter cup.", ["1/4 cup honey"]),
    (f"The lentils go in {MEANWHILE} {MEANWHILE}. Two cups.", ["2 cup lentil"]),
    (f"The lentils go in {MEANWHILE} {MEANWHILE} {MEANWHILE} {MEANWHILE}. Two cups.", ["lentil"]),
    ("Three cups. Three cups of stock.", ["3 cup stock"]),
]
CORRECTED = [
    ("Two cups of flour, no, three cups.", ["3 cup (not 2 cup) flour"]),
    (
        "Add two tablespoons of vinegar. Sorry, three tablespoons.",
        ["3 tablespoon (not 2 tablespoon) vinegar"],
    ),
    (
        "Put in a teaspoon of cinnamon, actually make that half a teaspoon.",
        ["1/2 teaspoon (not 1 teaspoon) cinnamon"],
    ),
    ("Put in one cup of rice, I mean two cups.", ["2 cup (not 1 cup) rice"]),
    ("I said a cup of sugar. I told you wrong, it is half a cup.", ["1/2 cup (not 1 cup) sugar"]),
    (f"Two cups of rice go in {MEANWHILE}. No, three cups.", ["3 cup (not 2 cup) rice"]),
    (f"Two cups of rice go in {MEANWHILE} {MEANWHILE}. No, three cups.", ["2 cup rice"]),
    ("That's four cups of oats, is it? No, three cups.", ["3 cup (not 4 cup) oats"]),
]
TWO_SCALES = [
    ("One cup, that's 130 grams, of flour.", ["1 cup flour"]),
    ("Half a cup or 120 grams of oil.", ["1/2 cup oil"]),
    ("One cup of flour, that's 130 grams.", ["1 cup flour"]),
    ("One cup. 130 grams of flour.", ["1 cup flour"]),
    ("A cup and 130 grams of flour.", ["1 cup flour"]),
]
NO_AMOUNT_OF_A_FOOD = [
    ("Pour it into a two pound loaf tin.", []),
    ("Line a nine inch tin and put the butter in.", ["butter"]),
    ("A two quart pot with the potatoes in it.", ["potato"]),
    ("A two pound nice big loaf tin, and the flour.", ["flour"]),
    ("A nine inch pie dish and a pound of apples.", ["1 pound apple"]),
    ("Bake it for twenty minutes with the potatoes.", ["potato"]),
    ("You get about three cups.", []),
    ("Simmer the stock. You get about three cups.", ["stock"]),
    ("Reduce the cream. You end up with half a cup.", ["cream"]),
    ("Now the stew, let it bubble. About two cups.", ["stew"]),
]
ARTICLES = [
    ("A tomato sauce.", ["tomato sauce"]),
    ("An oil with no taste of its own.", ["oil"]),
    ("Whisk in a flour that is strong.", ["flour"]),
    ("An onion and a carrot.", ["1 onion", "1 carrot"]),
    ("I wrote her a letter. Onions next.", ["onion"]),
    ("Taste some. Onions next.", ["onion"]),
]
PIECES = [
    ("Five garlic cloves.", ["5 clove garlic"]),
    ("Two celery sticks.", ["2 stalk celery"]),
    ("A sprig of thyme, ten basil leaves.", ["1 sprig thyme", "10 leaf basil"]),
    ("A basil leaf on each.", ["1 leaf basil"]),
    ("Six hake fillets.", ["6 fillet hake"]),
]
WHERE_IT_IS = [
    ("The butter in the filling was forty grams.", ["40 gram butter", "filling"]),
    ("The sugar for the meringue is two hundred grams.", ["200 gram sugar", "meringue"]),
]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        pytest.param(*case, id=f"{name}-{i}")
        for name, cases in {
            "before": BEFORE,
            "after": AFTER,
            "counted-after": COUNTED_AFTER,
            "counted-not-after": COUNTED_NOT_AFTER,
            "got-out": GOT_OUT,
            "shared": SHARED,
            "later": LATER,
            "corrected": CORRECTED,
            "two-scales": TWO_SCALES,
            "no-amount": NO_AMOUNT_OF_A_FOOD,
            "article": ARTICLES,
            "pieces": PIECES,
            "where": WHERE_IT_IS,
        }.items()
        for i, case in enumerate(cases)
    ],
)
def test_gives_each_food_its_amount(text: str, expected: list[str]) -> None:
    assert [mention_words(m) for m in spotted_in(text).mentions] == expected


def test_a_mention_spans_food_and_amount() -> None:
    text = "So the flour, that's two cups, goes in."
    doc = speech_of(text).doc
    (mention,) = spotted_in(text).mentions
    assert doc[mention.start : mention.end].text == "flour, that's two cups"


def test_a_food_inside_an_amount_is_its_unit() -> None:
    foods = [Food(1, 2, "clove", "clove"), Food(3, 4, "garlic", "garlic")]
    mentions = pair(parse("A clove of garlic."), foods, [Amount(0, 2, Fraction(1), Fraction(1), "clove")])
    assert [mention_words(m) for m in mentions] == ["1 clove garlic"]


FOODS = ("flour", "the milk", "onions", "brown sugar", "garlic", "some rice", "butter", "tomato sauce")
MEASURES = (
    *("two cups", "a tablespoon", "half a teaspoon each", "three", "a pinch", "200 grams", "a", "a few"),
    *("the same again", "one cup, no, two cups", "a 9 inch tin", "two pounds"),
)
JOINTS = (
    "of",
    "and",
    ",",
    ".",
    "that's",
    "is about",
    "stir",
    "of them",
    "both",
    "for the",
    "you get",
    "sorry,",
)
TALK = st.lists(st.sampled_from((*FOODS, *MEASURES, *JOINTS)), max_size=14).map(" ".join)


def paired(text: str) -> tuple[list[Amount], tuple[Mention, ...]]:
    doc = parse(text)
    amounts = find_amounts(doc)
    return amounts, pair(doc, find_foods(doc, amounts), amounts)


def slips_of(amount: Amount) -> list[Amount]:
    return [each for slip in amount.slips for each in (slip, *slips_of(slip))]


@settings(max_examples=150)
@given(TALK)
def test_every_amount_of_a_mention_was_given(text: str) -> None:
    """An amount is never made up: it has the figures of one that was found, in another unit at most."""
    amounts, mentions = paired(text)
    given_amounts = [each for amount in amounts for each in (amount, *slips_of(amount))]
    figures = {(amount.start, amount.low, amount.high) for amount in given_amounts}
    for mention in mentions:
        if mention.amount is not None:
            for amount in (mention.amount, *slips_of(mention.amount)):
                assert (amount.start, amount.low, amount.high) in figures, amount_words(amount)


@settings(max_examples=150)
@given(TALK)
def test_an_amount_that_is_not_shared_goes_to_one_food(text: str) -> None:
    _, mentions = paired(text)
    owned = Counter(m.amount.start for m in mentions if m.amount is not None and not m.amount.each)
    assert all(count == 1 for count in owned.values())


@settings(max_examples=60)
@given(st.one_of(st.text(max_size=80), TALK))
def test_any_text_can_be_paired_and_keeps_its_foods_in_order(text: str) -> None:
    amounts, mentions = paired(text)
    starts = [m.food.start for m in mentions]
    assert starts == sorted(set(starts))
    assert len(mentions) <= len(find_foods(parse(text), amounts))
