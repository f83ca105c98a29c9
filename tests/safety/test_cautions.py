"""Cautions where they are due, none where they are not, and none that is lost."""

from __future__ import annotations

from typing import Any

import pytest
from making import action, line, make_dish, make_draft, said

from extract.lexicon import read_lexicon
from extract.model import Dish
from extract.safety import at_line, at_step, caution_questions, cautions, cautions_of_draft
from extract.safety.caution import DEFERENCE
from extract.safety.classes import FOOD_COLUMNS, class_of
from extract.safety.minimums import COLUMNS
from extract.safety.usual import SIGN_COLUMNS, TEXT_COLUMNS

ROAST = action("roast", "chicken", heat=("oven", 425, "degF"))


def core(food: str, degrees: float, unit: str = "degF", **more: Any) -> dict[str, Any]:
    return action("cook", food, heat=("internal", degrees, unit), **more)


def kinds(dish: Dish, authority: str = "USDA") -> list[str]:
    return [caution.kind for caution in cautions(dish, authority)]


# (what the dish is, its lines, what is done) where a caution is due, with its kind.
DUE: list[tuple[str, list[Any], list[dict[str, Any]], str]] = [
    ("nothing said", ["whole chicken"], [ROAST], "core temperature"),
    ("too little said", ["chicken thighs"], [core("chicken thighs", 160)], "core temperature"),
    ("too little said in Celsius", ["chicken"], [core("chicken", 73, "degC")], "core temperature"),
    ("a bare figure in Celsius", ["chicken"], [core("chicken", 70, "")], "core temperature"),
    ("a rest missing", ["pork chops"], [core("pork chops", 145)], "core temperature"),
    ("mince", [line("beef", preparation="ground")], [action("fry", "beef")], "core temperature"),
    ("sausages", ["pork sausages"], [action("grill", "sausages")], "core temperature"),
    ("fish", ["salmon fillets"], [action("bake", "salmon")], "core temperature"),
    ("shellfish", ["mussels"], [action("steam", "mussels")], "core temperature"),
    (
        "an egg dish",
        ["egg", "cream", "flour"],
        [action("bake", "quiche", text="Bake the quiche.")],
        "core temperature",
    ),
    ("runny eggs", ["egg"], [action("fry", "eggs")], "core temperature"),
    ("an alternative", [line("tofu", alternatives=["chicken"])], [action("fry", "tofu")], "core temperature"),
    ("raw egg", ["egg yolks", "olive oil"], [action("whisk", "yolks")], "raw egg"),
    (
        "egg after the heat",
        ["chocolate", "egg"],
        [action("simmer", "cream"), action("fold", "eggs")],
        "raw egg",
    ),
    ("raw flour", ["flour", "butter"], [action("mix", "flour"), action("chill", "dough")], "raw flour"),
    ("raw sprouts", ["alfalfa sprouts"], [action("scatter", "sprouts")], "raw sprouts"),
    ("rice kept", ["rice"], [action("boil", "rice"), action("chill", "rice")], "rice cooling"),
    ("rice from before", ["leftover rice"], [action("fry", "rice")], "rice cooling"),
    ("leftovers", ["roast potatoes"], [action("reheat", "potatoes")], "leftovers"),
    ("fermenting", ["cabbage", "salt"], [action("ferment", "cabbage")], "fermenting"),
    ("jars", ["strawberries"], [action("pour", "jam", text="Pour into sterilised jars.")], "canning"),
    (
        "garlic in oil",
        ["garlic"],
        [action("cook", "garlic", text="Keep the garlic confit cold.")],
        "garlic in oil",
    ),
    ("raw fish", ["sea bass"], [action("toss", "fish", text="Toss the ceviche.")], "raw flesh"),
    ("home curing", ["pork belly", "curing salt"], [action("rub", "pork")], "curing"),
    ("washed poultry", ["chicken"], [action("rinse", "chicken"), core("chicken", 165)], "washing poultry"),
    ("a slow oven", ["beef"], [action("roast", "beef", heat=("oven", 225, "degF"))], "slow oven"),
    ("dried kidney beans", ["dried kidney beans"], [action("simmer", "beans")], "dried kidney beans"),
]
# The same, where none is due.
NOT_DUE: list[tuple[str, list[Any], list[dict[str, Any]]]] = [
    ("enough said", ["whole chicken"], [ROAST, core("chicken", 165)]),
    ("enough in Celsius", ["chicken"], [core("chicken", 74, "degC")]),
    ("enough of the only meat", ["chicken", "salt"], [core("bird", 170)]),
    ("a rest said", ["pork chops"], [core("pork", 145), action("rest", "chops", minutes=5)]),
    ("well done needs no rest", ["beef"], [core("beef", 160)]),
    ("mince enough", ["ground beef"], [core("beef", 160)]),
    ("fish that flakes", ["salmon"], [action("bake", "salmon", until="it flakes easily")]),
    ("shells that open", ["mussels"], [action("steam", "mussels", until="they have opened")]),
    ("firm eggs", ["egg"], [action("fry", "eggs", until="the yolk is set")]),
    ("eggs in a cake", ["flour", "egg"], [action("beat", "eggs"), action("bake", "batter")]),
    ("eggs in meatballs", ["ground beef", "egg"], [core("meatballs", 165)]),
    ("cured ham", ["prosciutto", "melon"], []),
    ("canned fish", ["canned tuna", "pasta"], [action("boil", "pasta")]),
    ("stock, not chicken", ["chicken stock", "carrots"], [action("simmer", "stock")]),
    ("cooked before", [line("chicken", preparation="cooked and shredded")], [action("toss", "chicken")]),
    ("flour that is baked", ["flour"], [action("mix", "flour"), action("bake", "bread")]),
    ("sprouts that are fried", ["bean sprouts"], [action("fry", "bean sprouts")]),
    ("brussels sprouts", ["brussels sprouts"], [action("shave", "sprouts")]),
    ("rice eaten hot", ["rice"], [action("boil", "rice")]),
    ("rice vinegar", ["rice vinegar"], [action("chill", "dressing")]),
    ("a moderate oven", ["carrots"], [action("roast", "carrots", heat=("oven", 225, "degF"))]),
    ("160 °C is 325 °F", ["beef"], [action("roast", "beef", heat=("oven", 160, "degC")), core("beef", 165)]),
    (
        "140 °C fan is 325 °F",
        ["beef"],
        [action("roast", "beef", heat=("oven", 140, "degC"), fan=True), core("beef", 165)],
    ),
    ("a vegetable dish", ["lentils", "eggplant", "butter beans"], [action("simmer", "lentils")]),
    ("an empty dish", [], []),
]


@pytest.mark.parametrize(("lines", "done", "kind"), [row[1:] for row in DUE], ids=[row[0] for row in DUE])
def test_a_caution_is_given_where_it_is_due(lines: list[Any], done: list[dict[str, Any]], kind: str) -> None:
    found = cautions(make_dish(*lines, actions=[dict(each) for each in done]))
    assert kind in [caution.kind for caution in found]
    for caution in found:
        assert DEFERENCE in caution.as_question().text


@pytest.mark.parametrize(("lines", "done"), [row[1:] for row in NOT_DUE], ids=[row[0] for row in NOT_DUE])
def test_no_caution_is_given_where_none_is_due(lines: list[Any], done: list[dict[str, Any]]) -> None:
    assert cautions(make_dish(*lines, actions=[dict(each) for each in done])) == []


def test_the_published_minimum_stands_beside_what_the_cook_said() -> None:
    [caution] = cautions(make_dish("chicken thighs", actions=[core("chicken thighs", 160)]))
    assert "the cook said a core of 160 °F (71 °C)" in caution.text
    assert "USDA FSIS 165 °F (74 °C)" in caution.text
    assert "Health Canada 165 °F (74 °C)" in caution.text
    assert caution.said[0].text == "cook"


def test_one_figure_does_not_speak_for_another_food() -> None:
    dish = make_dish("chicken", "ground pork", actions=[core("chicken", 165)])
    [caution] = cautions(dish)
    assert caution.about == "ground pork"


def test_the_authority_decides_what_is_enough() -> None:
    dish = make_dish("pork loin", actions=[core("pork loin", 145), action("rest", "pork", minutes=10)])
    assert kinds(dish, "USDA") == []
    assert kinds(dish, "Health Canada") == ["core temperature"]
    assert kinds(dish, "UK FSA") == ["core temperature"]
    held = make_dish("ground beef", actions=[core("beef", 70, "degC", minutes=2)])
    assert kinds(held, "UK FSA") == []


@pytest.mark.parametrize(
    ("food", "preparation", "food_class"),
    [
        ("chicken thighs", "", "poultry"),
        ("chicken", "whole", "whole poultry"),
        ("turkey", "ground", "ground poultry"),
        ("lamb", "minced", "ground meat"),
        ("lamb shoulder", "", "whole cut"),
        ("venison", "", "game"),
        ("gammon", "", "raw ham"),
        ("prawns", "", "crustacean"),
        ("clams", "", "mollusc"),
        ("smoked haddock", "", "fish"),
        ("smoked salmon", "", ""),
        ("rotisserie chicken", "", ""),
        ("duck fat", "", ""),
        ("fish sauce", "", ""),
        ("egg noodles", "", ""),
        ("kidney beans", "", ""),
        ("carrot", "", ""),
    ],
)
def test_foods_fall_under_the_charts_classes(food: str, preparation: str, food_class: str) -> None:
    assert class_of(food, preparation) == food_class


def test_the_chart_follows_the_measures_of_the_draft() -> None:
    dish = make_dish("pork loin", actions=[core("pork loin", 145), action("rest", "pork", minutes=10)])
    assert cautions_of_draft(make_draft(dish, measures="us")) == [[]]
    assert len(cautions_of_draft(make_draft(dish, measures="ca"))[0]) == 1


def test_a_bare_oven_figure_is_read_on_the_cooks_scale() -> None:
    """225 is slow in Fahrenheit (107 °C) and a good roasting heat in Celsius."""
    dish = make_dish("lamb", actions=[action("roast", "lamb", heat=("oven", 225, "")), core("lamb", 165)])
    found = {
        measures: [
            each.as_question().about for each in cautions_of_draft(make_draft(dish, measures=measures))[0]
        ]
        for measures in ("us", "metric")
    }
    assert found == {"us": ["slow oven"], "metric": []}


def test_the_same_caution_is_not_given_twice() -> None:
    dish = make_dish("chicken", "chicken", actions=[ROAST, ROAST | {"objects": ["chicken"]}])
    assert len(cautions(dish)) == 1


def test_only_what_has_to_be_answered_is_asked() -> None:
    """A core that was not said is a caution; one that was said below the published minimum is a question."""
    assert caution_questions(make_dish("chicken", actions=[ROAST])) == []
    (question,) = caution_questions(make_dish("chicken thighs", actions=[core("chicken thighs", 160)]))
    assert question.text == (
        "You said 160 °F (71 °C) in the middle of the chicken thighs, below the published minimum: is that so?"
    )


def test_one_figure_said_for_two_foods_is_asked_about_once() -> None:
    dish = make_dish("chicken", "mince", actions=[action("cook", "it", heat=("internal", 140, "degF"))])
    assert [caution.about for caution in cautions(dish)] == ["chicken", "mince"]
    assert len(caution_questions(dish)) == 1


def test_a_bath_of_36_degrees_is_no_core() -> None:
    dish = make_dish("pork belly", actions=[core("pork belly", 36, "degC")])
    assert "no core temperature was said" in cautions(dish)[0].text
    assert caution_questions(dish) == []


def test_a_caution_stands_at_its_line_or_its_step() -> None:
    dish = make_dish(
        "chicken", "carrot", actions=[ROAST, action("reheat", "carrot") | {"said": said("reheat")}]
    )
    found = cautions(dish)
    lines = dish.components[0].ingredients
    assert [at_line(found, line) for line in lines] == [["cook through"], []]
    assert [at_step(found, step) for step in dish.method] == [[], ["heat through"]]


def test_every_sign_and_class_leads_somewhere() -> None:
    texts = {row["kind"]: row for row in read_lexicon("cautions", columns=TEXT_COLUMNS)}
    for row in read_lexicon("caution_signs", columns=SIGN_COLUMNS):
        assert row["kind"] in texts or row["kind"] == "none", row
        assert row["where"] in {"verb", "food", "text"}, row
    assert all(row["source"] for row in texts.values())
    classes = {
        name
        for row in read_lexicon("safe_temperatures", columns=COLUMNS)
        for name in row["classes"].split(",")
    }
    foods = read_lexicon("caution_foods", columns=FOOD_COLUMNS)
    assert {row["class"] for row in foods} <= classes | {"none"}
    assert len({row["word"] for row in foods}) == len(foods)
