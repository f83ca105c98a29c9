"""What dishes are called, in the cook's words."""

from __future__ import annotations

import pytest
from heard import segments_of, speech_of, spotted_in
from hypothesis import given, settings
from hypothesis import strategies as st
from invented_talk import GOODBYE, HELLO, LOAF, QUIET, SERVED, SOUP, TWO, VISIT, show

from extract.segment.titles import Title, name_dishes

ANNOUNCED = [
    ("Today we're going to make a leek and barley soup. Two leeks.", "leek and barley soup"),
    (
        "I am going to show you how to make my grandmother's onion tart. Two onions.",
        "grandmother's onion tart",
    ),
    ("Smothered cabbage. One cabbage, two onions and a tablespoon of butter.", "Smothered cabbage"),
    ("This is a recipe for plum cake. A pound of plums and a cup of flour.", "plum cake"),
    ("I'm making the best ever garlic bread today.", "garlic bread"),
    ("First up it's a potato salad with dill. Two pounds of potatoes.", "potato salad with dill"),
    ("So let's make pancakes. A cup of flour and two eggs. Enjoy your pancakes.", "pancakes"),
]
UNANNOUNCED = [
    ("Two onions go in. Then the carrots. Stir the onions.", "onion"),
    ("Nobody is cooking.", "untitled dish"),
]


def titles(text: str) -> list[Title]:
    segments = segments_of(text)
    return list(name_dishes(spotted_in(text), segments.sentences, segments.dishes))


@pytest.mark.parametrize(("text", "title"), ANNOUNCED)
def test_a_dish_goes_by_the_name_it_is_announced_by(text: str, title: str) -> None:
    (found,) = titles(text)
    assert found.text == title
    assert speech_of(text).doc[found.start : found.end].text == title


@pytest.mark.parametrize(("text", "title"), UNANNOUNCED)
def test_the_food_named_most_stands_in_where_none_is_announced(text: str, title: str) -> None:
    assert [found.text for found in titles(text)] == [title]


def test_two_dishes_have_a_name_each() -> None:
    opening = "Tonight it's barley soup and an onion bread."
    text = show(HELLO, opening, TWO, SOUP, SERVED, QUIET, "Second dish. The onion bread.", LOAF)
    assert [found.text for found in titles(text)] == ["barley soup", "onion bread"]


IN_TURN = [
    # a name that is no food, one with what goes beside it, one of more words than its neighbour's
    ("Tonight it's a pot of barley chili, and then a honey loaf.", ["barley chili", "honey loaf"]),
    (
        "Tonight it's barley soup with a walnut sauce, and then an onion bread.",
        ["barley soup", "onion bread"],
    ),
    (
        "That's the pear tree. Tonight it's barley soup, and after that a seed slab.",
        ["barley soup", "seed slab"],
    ),
]


@pytest.mark.parametrize(("opening", "names"), IN_TURN)
def test_dishes_go_by_what_the_opening_promises_in_its_order(opening: str, names: list[str]) -> None:
    text = show(HELLO, opening, TWO, SOUP, SERVED, QUIET, "Second dish.", LOAF)
    assert [found.text for found in titles(text)] == names


def test_no_dishes_have_no_names() -> None:
    assert titles("") == []


PIECES = (HELLO, TWO, GOODBYE, SOUP, LOAF, QUIET, SERVED, VISIT, "Second dish.", "Now. Onion tart.")


@settings(max_examples=20)
@given(st.lists(st.sampled_from(PIECES), min_size=1, max_size=6).map("\n".join))
def test_every_dish_has_a_name_said_in_the_show(text: str) -> None:
    found = titles(text)
    assert len(found) == len(segments_of(text).dishes)
    words = len(speech_of(text).doc)
    assert all(title.text and 0 <= title.start < title.end <= words for title in found)


RECURRING = [
    # a name that no lexicon knows is believed where it is announced and comes back
    (
        "Today we're making grobbel. Two onions go in. Then the carrots. That's how you make grobbel.",
        "grobbel",
    ),
]


@pytest.mark.parametrize(("text", "title"), RECURRING)
def test_an_unknown_name_that_comes_back_is_a_title(text: str, title: str) -> None:
    (found,) = titles(text)
    assert found.text.lower() == title
    assert found.announced


def test_a_dish_is_never_called_after_its_seasoning() -> None:
    (found,) = titles(
        "A pinch of salt goes in. Then you put the salt in again. Then the lamb goes in with salt."
    )
    assert found.text == "lamb"
    assert not found.announced


def test_a_title_that_nobody_announced_is_asked_for() -> None:
    from extract.draft.questions.ledger import title_question

    text = "Two onions go in. Then the carrots. Stir the onions."
    (found,) = titles(text)
    (question,) = title_question(found, speech_of(text))
    assert question.kind == "no title"
    assert question.said
