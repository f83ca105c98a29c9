"""The methods of the samples and invented shows, held against what no written method may have."""

from __future__ import annotations

import pytest
from drafted import TALKS, drafted
from method_checks import violations

from extract.model import Action, Component, Dish, Ingredient, Step

MOST = 5  # violations a talk


def dish(*texts: str) -> Dish:
    line = Ingredient(name="leek")
    steps = [Step(text=text, actions=[Action(verb="add")]) for text in texts]
    return Dish(title="Soup", components=[Component(ingredients=[line])], method=steps)


WRONG = [
    ("Add the leek. Add the leek.", "said twice"),
    ("Put on the table.", "no object"),
    ("Stir the it.", "article before a pronoun"),
    ("Fry the leek until golden.", "until without a verb"),
    ("Chop it.", "opens with a pronoun"),
    ("Add the saffron.", "in no line"),
]


@pytest.mark.parametrize(("text", "kind"), WRONG, ids=[kind for _, kind in WRONG])
def test_each_kind_of_fault_is_found(text: str, kind: str) -> None:
    assert kind in {found.split(":")[0] for found in violations(dish(text))}


def test_a_sound_method_has_none() -> None:
    assert not list(violations(dish("Chop the leek and fry it until it is soft.", "“Forty minutes” (2:10).")))


@pytest.mark.parametrize("name", sorted(TALKS))
def test_the_methods_of_the_talks_are_consistent(name: str) -> None:
    dishes = drafted(name).dishes
    assert len([found for one in dishes for found in violations(one)]) <= MOST * len(dishes)
