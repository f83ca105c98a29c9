"""Visits as runs of sentences, from sentences made by hand: what each speaks for and nothing else."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from extract.segment.cues import Sentence
from extract.segment.visits import MINIMUM_SENTENCES, find_visits

KITCHEN = {"cooking": 1.0}
PRODUCER = {"visit": 1.6}
THERE = {"visit-in": 2.5}
BACK = {"visit-out": 3.0}
NOTHING: dict[str, float] = {}


def sentences(*weights: dict[str, float], questions: tuple[int, ...] = ()) -> list[Sentence]:
    return [
        Sentence(10 * i, 10 * i + 10, "words", weight, i in questions) for i, weight in enumerate(weights)
    ]


def visits(
    *weights: dict[str, float], questions: tuple[int, ...] = (), kitchen: float = 0.0
) -> list[tuple[int, int]]:
    amounts = [kitchen if weight is PRODUCER else 0.0 for weight in weights]
    return find_visits(sentences(*weights, questions=questions), amounts)


def test_an_announced_visit_runs_until_the_cook_is_back() -> None:
    show = [*[KITCHEN] * 6, THERE, *[PRODUCER] * 8, BACK, *[KITCHEN] * 6]
    ((first, last),) = visits(*show)
    assert first in (6, 7)
    assert last in (14, 15)


def test_a_producer_who_was_not_announced_needs_to_talk_longer() -> None:
    short = [*[KITCHEN] * 4, *[PRODUCER] * 5, *[KITCHEN] * 4]
    long = [*[KITCHEN] * 4, *[PRODUCER] * 14, *[KITCHEN] * 4]
    assert visits(*short) == []
    assert visits(*long) == [(4, 17)]


def test_questions_and_answers_speak_for_a_visit() -> None:
    show = [*[KITCHEN] * 3, THERE, *[{"visit": 0.7}] * 8, BACK, *[KITCHEN] * 3]
    assert visits(*show) == []
    assert len(visits(*show, questions=(4, 6, 8, 10))) == 1


def test_kitchen_measures_keep_a_producer_in_the_kitchen() -> None:
    show = [*[KITCHEN] * 4, *[PRODUCER] * 14, *[KITCHEN] * 4]
    assert visits(*show, kitchen=2.0) == []


def test_what_tells_nothing_is_kitchen() -> None:
    assert visits(*[NOTHING] * 30) == []


def test_an_announcement_alone_makes_no_visit() -> None:
    assert visits(*[KITCHEN] * 5, THERE, *[NOTHING] * 5, *[KITCHEN] * 5) == []


def test_two_visits_are_two() -> None:
    visit = [THERE, *[PRODUCER] * 8, BACK]
    show = [*[KITCHEN] * 6, *visit, *[KITCHEN] * 10, *visit, *[KITCHEN] * 4]
    assert len(visits(*show)) == 2


@pytest.mark.parametrize("count", range(MINIMUM_SENTENCES))
def test_a_few_sentences_are_no_visit(count: int) -> None:
    assert visits(*[THERE] * count) == []


WEIGHTS = st.sampled_from((KITCHEN, PRODUCER, THERE, BACK, NOTHING))


@given(st.lists(WEIGHTS, max_size=40))
def test_visits_are_apart_and_in_order(show: list[dict[str, float]]) -> None:
    found = visits(*show)
    ends = [place for run in found for place in run]
    assert ends == sorted(ends)
    assert all(b + 1 < c for (_, b), (c, _) in pairwise(found))
    assert all(a >= 0 and b < len(show) and b - a + 1 >= MINIMUM_SENTENCES for a, b in found)
