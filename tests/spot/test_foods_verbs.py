"""Foods put on by a verb of their own name: found where the word is a verb, and nowhere else."""

from __future__ import annotations

import pytest
from heard import spotted_in
from marked_sentences import parse

from extract.spot.foods_verbs import foods_by_verb, is_verb_food
from extract.spot.spans import Food

PUT_ON = [
    ("Flour the board.", ["flour"]),
    ("Lightly oil the tray and salt it.", ["oil", "salt"]),
    ("I buttered it already.", ["butter"]),
    ("Now butter both sides.", ["butter"]),
    ("You flour your hands, then you roll.", ["flour"]),
    ("Turn it and salt the other side.", ["salt"]),
]
NAMED = [
    "Put the flour the mill sent into the bowl.",
    "Good oil is dear.",
    "Pass me the butter.",
    "A pan of salted water.",
    "The floured board goes away.",
    "Salt and pepper.",
    "Sugar",
    "",
]


@pytest.mark.parametrize(("text", "expected"), PUT_ON)
def test_a_verb_puts_on_the_food_it_names(text: str, expected: list[str]) -> None:
    assert [food.name for food in foods_by_verb(parse(text), [])] == expected


@pytest.mark.parametrize("text", NAMED)
def test_the_same_word_as_a_noun_is_no_verb(text: str) -> None:
    assert foods_by_verb(parse(text), []) == []


def test_a_food_that_was_found_already_is_not_found_again() -> None:
    doc = parse("Flour the board and salt it.")
    named = Food(0, 1, "flour", "flour")
    assert [(f.start, f.name) for f in foods_by_verb(doc, [named])] == [(4, "salt")]


@pytest.mark.parametrize(
    ("words", "at", "verb"),
    [
        ("and oil the tin", 1, True),
        ("some oil the tin", 1, False),
        ("oil", 0, False),
        ("oil the tin", 0, True),
        ("and whisk the tin", 1, False),
    ],
)
def test_the_words_around_tell_a_verb(words: str, at: int, verb: bool) -> None:
    assert is_verb_food(words.split(), at) is verb


def test_foods_of_verbs_stand_among_the_others_in_order() -> None:
    text = "Butter the tin. Two cups of flour go in the bowl, and salt it."
    foods = spotted_in(text).foods
    assert [food.name for food in foods] == ["butter", "flour", "salt"]
    assert all(food.kinds for food in foods)
