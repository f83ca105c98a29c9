"""Where shows are cut: how many dishes, with which words each begins, and what is left out as talk."""

from __future__ import annotations

import pytest
from heard import segments_of, speech_of
from hypothesis import given, settings
from hypothesis import strategies as st
from invented_talk import (
    BACK,
    GOODBYE,
    HELLO,
    INTO_VISIT,
    LOAF,
    QUIET,
    SERVED,
    SOUP,
    TART,
    TWO,
    VISIT,
    show,
)

from extract.segment.stretch import Stretch

ONE_DISH = {
    "one recipe": show(HELLO, SOUP, GOODBYE),
    "no greeting": show(SOUP),
    "quiet in the middle": show(HELLO, SOUP, QUIET, "Then stir in two tablespoons of cream.", GOODBYE),
    "two lots of ingredients": show(HELLO, SOUP, LOAF, GOODBYE),
    "a quiet stretch alone": show(HELLO, SOUP, QUIET, LOAF, GOODBYE),
    "two announced but nothing turns": show(HELLO, TWO, SOUP, LOAF, GOODBYE),
    "a part of the dish is next": show(
        HELLO, SOUP, QUIET, "Now. The filling.", "Two eggs and a cup of milk."
    ),
    "a visit in the middle": show(HELLO, SOUP, INTO_VISIT, VISIT, BACK, LOAF, GOODBYE),
    "too little after it": show(HELLO, SOUP, SERVED, "Second dish. Boil an egg."),
}
TWO_DISHES = {
    "ordinal": (show(HELLO, SOUP, QUIET, "Second dish. This one is a loaf.", LOAF), "Second dish"),
    "ordinal, announced": (show(HELLO, TWO, SOUP, QUIET, "Second dish.", LOAF), "Second dish"),
    "bare title": (show(HELLO, SOUP, QUIET, "That's the soup. Now. Seed loaf.", LOAF), "Now"),
    "course word": (
        show(HELLO, SOUP, QUIET, "That's the soup done. For pudding, a loaf.", LOAF),
        "For pudding",
    ),
    "served and praised": (show(HELLO, SOUP, SERVED, QUIET, LOAF, GOODBYE), "It is a good colour"),
    "opened, foods measured anew": (
        show(HELLO, SOUP, QUIET, QUIET, "Next, something with it. For dessert.", TART),
        "For dessert",
    ),
    "after a visit": (
        show(HELLO, TWO, SOUP, QUIET, INTO_VISIT, VISIT, BACK, TART, GOODBYE),
        "Five hundred grams",
    ),
}


def begins(text: str, stretch: Stretch) -> str:
    return speech_of(text).doc[stretch.start : stretch.end].text


def reasons(text: str) -> list[str]:
    return [talk.reason for talk in segments_of(text).talk]


@pytest.mark.parametrize("text", ONE_DISH.values(), ids=ONE_DISH)
def test_one_dish_stays_one(text: str) -> None:
    assert len(segments_of(text).dishes) == 1


@pytest.mark.parametrize(("text", "second"), TWO_DISHES.values(), ids=TWO_DISHES)
def test_a_second_dish_begins_where_the_words_say_so(text: str, second: str) -> None:
    first, *others = segments_of(text).dishes
    assert begins(text, first).startswith(HELLO)
    assert [begins(text, dish)[: len(second)] for dish in others] == [second]


def test_three_dishes_are_cut_into_three() -> None:
    text = show(HELLO, SOUP, SERVED, QUIET, "Second dish.", LOAF, SERVED, QUIET, "Third dish.", TART, GOODBYE)
    assert len(segments_of(text).dishes) == 3


def test_no_more_dishes_than_were_announced() -> None:
    text = show(HELLO, TWO, SOUP, SERVED, QUIET, "Second dish.", LOAF, SERVED, QUIET, TART, GOODBYE)
    assert len(segments_of(text).dishes) == 2


def test_the_sign_off_is_talk() -> None:
    text = show(HELLO, SOUP, GOODBYE)
    assert reasons(text) == ["sign-off"]
    assert begins(text, segments_of(text).talk[0]) == GOODBYE
    assert not any(segments_of(text).dishes[0].holds(i) for i in range(*span(segments_of(text).talk[0])))


def span(stretch: Stretch) -> tuple[int, int]:
    return stretch.start, stretch.end


def test_a_visit_in_a_dish_is_a_hole_in_it() -> None:
    text = show(HELLO, SOUP, INTO_VISIT, VISIT, BACK, LOAF, GOODBYE)
    segments = segments_of(text)
    visit = segments.talk[0]
    assert reasons(text) == ["visit", "sign-off"]
    assert begins(text, visit).startswith("So how long")
    assert begins(text, visit).endswith("having us.")
    assert segments.dishes[0].visits == (span(visit),)
    assert not any(segments.dishes[0].holds(i) for i in range(*span(visit)))


@pytest.mark.parametrize(
    "text",
    [
        show("How many sheep do you keep? We keep two hundred sheep on the farm.", VISIT, BACK, SOUP, LOAF),
        show("I went out to see the mill at Harrow Reach.", VISIT, BACK, SOUP, LOAF),
    ],
)
def test_a_visit_before_the_cooking_is_left_out_once(text: str) -> None:
    segments = segments_of(text)
    assert reasons(text) == ["visit"]
    assert begins(text, segments.dishes[0]).startswith(BACK)


def test_a_visit_at_the_end_is_cut_off_the_dish() -> None:
    text = show(HELLO, SOUP, LOAF, INTO_VISIT, VISIT)
    segments = segments_of(text)
    assert reasons(text) == ["visit"]
    assert segments.dishes[-1].end == segments.talk[0].start


@pytest.mark.parametrize(
    "text", [VISIT, HELLO, "Nobody is cooking today. We only talk.", "hello", "?", show(HELLO, GOODBYE)]
)
def test_a_show_of_nothing_but_talk_is_not_cut(text: str) -> None:
    segments = segments_of(text)
    assert len(segments.dishes) == 1
    assert segments.dishes[0].start == 0


def test_an_empty_talk_has_no_dishes() -> None:
    segments = segments_of("")
    assert (segments.dishes, segments.talk, segments.sentences) == ((), (), ())


PIECES = (
    HELLO,
    TWO,
    GOODBYE,
    SOUP,
    LOAF,
    TART,
    QUIET,
    SERVED,
    INTO_VISIT,
    VISIT,
    BACK,
    "Second dish.",
    "Now.",
)


@settings(max_examples=25)
@given(st.lists(st.sampled_from(PIECES), min_size=1, max_size=8).map("\n".join))
def test_dishes_and_talk_never_overlap_and_leave_nothing_out(text: str) -> None:
    """Every token belongs to one dish or to one stretch of talk."""
    segments = segments_of(text)
    owners = [
        sum(dish.holds(i) for dish in segments.dishes) + sum(t.start <= i < t.end for t in segments.talk)
        for i in range(len(speech_of(text).doc))
    ]
    assert set(owners) == {1}
