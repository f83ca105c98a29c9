"""What cooks call the things they make. The sentences are invented."""

from __future__ import annotations

import pytest
from heard import spotted_in

from extract.lexicon import read_lexicon
from extract.spot.names.made import find_made_names
from extract.spot.spans import MadeName


def names_in(text: str) -> list[MadeName]:
    spotted = spotted_in(text)
    return find_made_names(spotted.speech.doc, spotted.foods)


NAMED = [
    ("Pour the dressing over.", [("dressing", True)]),
    ("Half of that green sauce goes in.", [("green sauce", True)]),
    ("Now the rub.", [("rub", True)]),
    ("That's the hazelnut cream.", [("hazelnut cream", False)]),
    ("A tablespoon of the chili oil.", [("chili oil", False)]),
    ("Pour the wet ingredients in.", [("wet ingredients", True)]),
    ("The broth is ready.", [("broth", False)]),
    ("Two tablespoons of soy sauce.", [("soy sauce", False)]),
    ("And a drizzle of olive oil.", [("olive oil", False)]),
]


@pytest.mark.parametrize(("text", "names"), NAMED)
def test_names(text: str, names: list[tuple[str, bool]]) -> None:
    assert [(name.name, name.sure) for name in names_in(text)] == names


@pytest.mark.parametrize(
    "text", ["Rub it in with your fingers.", "Add the butter.", "Two cups of flour.", "Glaze it twice."]
)
def test_work_and_bought_foods_are_no_made_things(text: str) -> None:
    assert names_in(text) == []


def test_a_finished_dish_is_told_from_what_is_made_on_the_way() -> None:
    (stew,) = names_in("So that's the stew.")
    assert (stew.dish, stew.sure) == (True, False)


def test_lexicon_words_are_in_the_singular_and_known_by_how_sure_they_are() -> None:
    rows = read_lexicon("made_words", columns=("word", "sure"))
    assert {row["sure"] for row in rows} == {"yes", "no", "named"}
    assert [row["word"] for row in rows] == sorted(row["word"] for row in rows)
