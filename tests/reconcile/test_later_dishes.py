"""Foods in the names of dishes still to be made, in an earlier dish of the show."""

from __future__ import annotations

import pytest
from heard import speech_of, uses_in

from extract.reconcile.later_dishes import without_later_dishes

PROMISED = [
    (
        "We have a plum and walnut tart after the soup. Stir in a cup of barley.",
        "Plum and Walnut Tart",
        ["barley"],
    ),
    ("Stir in a cup of barley. Then on to our lemon and fennel loaf.", "lemon and fennel loaf", ["barley"]),
    ("Keep room for the walnut tart. Stir in a cup of barley.", "plum and walnut tart", ["barley"]),
    ("And there is braised red cabbage to come. Stir in a cup of barley.", "braised red cabbage", ["barley"]),
]
USED = [
    ("Stir in a cup of barley and the plums.", "Plum and Walnut Tart", ["barley", "plum"]),
    (
        "Stir in a cup of barley. Now the red cabbage, shredded.",
        "braised red cabbage",
        ["barley", "red cabbage"],
    ),
    (
        "Two lemons and a leek. Stir in a cup of barley.",
        "lemon and fennel loaf",
        ["lemon", "leek", "barley"],
    ),
    ("Stir in a cup of barley. Add the chicken.", "chicken", ["barley", "chicken"]),
    ("Stir in a cup of walnuts and three plums.", "plum and walnut tart", ["walnut", "plum"]),
]


@pytest.mark.parametrize(("text", "title", "expected"), PROMISED + USED)
def test_foods_in_the_name_of_a_later_dish_are_not_used(text: str, title: str, expected: list[str]) -> None:
    words = [token.lower_ for token in speech_of(text).doc]
    kept = without_later_dishes(words, uses_in(text), [title])
    assert [use.mention.food.name for use in kept if "dish" not in use.mention.food.kinds] == expected
