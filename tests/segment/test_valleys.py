"""The quiet stretches between measured foods, and what is weighed in them."""

from __future__ import annotations

from itertools import pairwise

import pytest
from heard import segments_of, spotted_in
from invented_talk import HELLO, LOAF, QUIET, SERVED, SOUP, TART, show

from extract.lexicon import read_lexicon
from extract.segment.valleys import Valley, find_valleys, survey


def valleys(text: str) -> list[Valley]:
    sentences = segments_of(text).sentences
    return list(find_valleys(survey(spotted_in(text), sentences, range(len(sentences)), ())))


def the_valley(*middle: str, after: str = LOAF) -> Valley:
    (valley,) = valleys(show(HELLO, SOUP, QUIET, *middle, after))
    return valley


COLUMNS = ("evidence", "weight", "most")
EVIDENCE = {
    "yield": "That serves six people.",
    "tasting": "Oh, that's delicious.",
    "serving": "That's twelve slices.",
    "closer": "That's the soup done.",
    "opener": "Second dish.",
    "new dish": "Next to it there is a garlic bread.",
    "batch": "I'm doubling this.",
}


@pytest.mark.parametrize(("kind", "words"), EVIDENCE.items(), ids=EVIDENCE)
def test_what_is_said_in_a_valley_is_its_evidence(kind: str, words: str) -> None:
    assert the_valley(words).evidence[kind] > the_valley().evidence[kind]


def test_foods_measured_again_speak_for_a_new_dish() -> None:
    assert the_valley(after=TART).anew > the_valley(after=LOAF).anew


def test_the_score_is_the_sum_of_the_evidence_each_within_its_most() -> None:
    valley = the_valley(SERVED, "Second dish.")
    most = {r["evidence"]: float(r["most"]) for r in read_lexicon("boundary_weights", columns=COLUMNS)}
    assert valley.score == pytest.approx(sum(valley.evidence.values()))
    assert valley.evidence.keys() == most.keys()
    assert all(value <= most[kind] for kind, value in valley.evidence.items())


@pytest.mark.parametrize(
    "text",
    [
        "",
        show(HELLO, SOUP),
        show(HELLO, SOUP, LOAF),
        show(HELLO, QUIET, QUIET),
        show(HELLO, SOUP, QUIET, "Then stir in two tablespoons of cream."),
    ],
    ids=["nothing", "one dish", "no quiet between", "no foods", "too few foods after"],
)
def test_without_quiet_between_foods_there_is_no_valley(text: str) -> None:
    assert valleys(text) == []


def test_a_dish_begins_with_the_sentence_that_opens_it() -> None:
    text = show(HELLO, SOUP, QUIET, "Second dish.", "This one is a loaf.", LOAF)
    (valley,) = valleys(text)
    assert segments_of(text).sentences[valley.sentence].words == "second dish"


def test_where_nothing_opens_it_a_dish_begins_after_the_end_of_the_one_before() -> None:
    text = show(HELLO, SOUP, QUIET, "There you have it.", "The rain has stopped.", LOAF)
    (valley,) = valleys(text)
    assert segments_of(text).sentences[valley.sentence].words == "the rain has stopped"


@pytest.mark.parametrize(
    ("words", "opens"),
    [
        ("The lid goes on.", 0.0),
        ("Second dish.", 5.0),
        ("For pudding, something sweet.", 2.5),
        ("Now. Smothered cabbage.", 1.5),
    ],
)
def test_openers_weigh_as_clearly_as_they_announce(words: str, opens: float) -> None:
    assert the_valley(words).opens == opens


def test_a_food_promised_at_the_start_opens_a_little_where_it_first_comes_up() -> None:
    promise = "We have leeks and a bowl of soup. " + "It is a grey day. " * 11
    (valley,) = valleys(show(promise, SOUP, QUIET, "So, the leeks.", LOAF))
    (unpromised,) = valleys(show(promise.replace("leeks", "tea"), SOUP, QUIET, "So, the leeks.", LOAF))
    assert valley.evidence["promised"] > 0 == unpromised.evidence["promised"]
    assert valley.opens > unpromised.opens


def test_a_valley_is_as_long_as_the_words_between_the_measured_foods() -> None:
    ends = [(m.start, m.end) for m in spotted_in(show(HELLO, SOUP, QUIET, LOAF)).mentions if m.amount]
    longest = max(after[0] - before[1] for before, after in pairwise(ends))
    assert the_valley().evidence["length"] == pytest.approx(longest / 80)


def test_what_was_said_just_before_the_quiet_counts() -> None:
    soup = SOUP.replace("A handful of parsley goes in at the end.", "")
    (valley,) = valleys(show(HELLO, soup, "That serves six people.", "A handful of parsley.", QUIET, LOAF))
    assert valley.evidence["yield"] > 0


def test_foods_of_a_visit_measure_nothing() -> None:
    text = show(HELLO, SOUP, QUIET, LOAF)
    sentences = segments_of(text).sentences
    gap = (0, spotted_in(text).mentions[-1].end)
    ground = survey(spotted_in(text), sentences, range(len(sentences)), [gap])
    assert list(ground.measured) == []
    assert list(find_valleys(ground)) == []
