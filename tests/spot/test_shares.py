"""Shares as they are spoken: how much, of what, and what becomes of it. The sentences are invented."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from heard import speech_of, spotted_in
from plainly_read import one_hot, plain_reading

from extract.lexicon import read_lexicon
from extract.reader.labels import FIGURES
from extract.spot.spans import Share
from extract.spot.spotted import spot

HALF, THIRD, QUARTER = Fraction(1, 2), Fraction(1, 3), Fraction(1, 4)


def shares_in(text: str) -> list[Share]:
    return list(spotted_in(text).shares)


TOLD = [
    ("Half of that glaze goes over the squash.", [(HALF, "glaze")]),
    ("Put a third of the dressing on the potatoes.", [(THIRD, "dressing")]),
    ("Pour about two thirds of the custard over the bread.", [(Fraction(2, 3), "custard")]),
    ("Two-thirds of the custard goes on.", [(Fraction(2, 3), "custard")]),
    ("Brush on half the syrup now.", [(HALF, "syrup")]),
    ("And the rest of the sauce goes in a jug.", [("rest", "sauce")]),
    ("What's left of the custard goes on top.", [("rest", "custard")]),
    ("Whatever topping is left is for the sides.", [("rest", "")]),
    ("The remaining crumb gets scattered over.", [("rest", "crumb")]),
    ("All of the vinaigrette goes on the beans.", [("all", "vinaigrette")]),
    ("Most of the crumb gets pressed in the tin.", [("some", "crumb")]),
    ("Then another third of the syrup.", [(THIRD, "syrup")]),
    ("The last third of the syrup goes on the third one.", [(THIRD, "syrup")]),
    ("Reserve a quarter of it in a jug.", [(QUARTER, "")]),
    ("Half goes in now. The other half goes on top.", [(HALF, ""), (HALF, "")]),
    ("All but a third of the sauce goes in.", [(Fraction(2, 3), "sauce")]),
]


@pytest.mark.parametrize(("text", "told"), TOLD)
def test_share_and_thing(text: str, told: list[tuple[object, str]]) -> None:
    assert [(share.fraction, share.of) for share in shares_in(text)] == told


NO_SHARES = [
    "Give it half an hour.",
    "Add half a cup of milk.",
    "Cut the onion in half.",
    "The third thing is the sauce.",
    "I cried for half of the day.",
    "Six pounds of it, that's plenty.",
    "We walked all the way home.",
    "Rest the meat for ten minutes.",
    "The last ten minutes are the best.",
    "It makes half a batch.",
    "God rest her.",
]


@pytest.mark.parametrize("text", NO_SHARES)
def test_no_share(text: str) -> None:
    assert shares_in(text) == []


TAGGED = [
    ("It's two thirds now. And hold the last third for the end.", "last", "rest", ["rest"]),
    ("Cut that in six and pat each one out.", "six", "part", [Fraction(1, 6)]),
    ("The other half of the glaze waits.", "other", "rest", [HALF]),
    ("The other half of the glaze waits.", "half", "part", [HALF]),
    ("That's one, and I mean one.", "one", "part", []),
]


@pytest.mark.parametrize(("text", "word", "kind", "told"), TAGGED)
def test_a_share_is_what_the_reader_takes_it_for(text: str, word: str, kind: str, told: list[object]) -> None:
    speech = speech_of(text)
    plain = plain_reading(speech)
    figures = one_hot([0] * len(plain), len(FIGURES))
    place = [token.lower_ for token in speech.doc].index(word)
    figures[place] = one_hot([FIGURES.index(f"share {kind}")], len(FIGURES))[0]
    spotted = spot(speech, replace(plain, figures=figures))
    assert [share.fraction for share in spotted.shares] == told


FATES = [
    ("A quarter of the rub we keep for the cabbage.", True, False),
    ("Half you put by for later.", True, False),
    ("I'm reserving a third of that gravy.", True, False),
    ("Hold back half of the sauce.", True, False),
    ("The rest of the dough goes in the freezer.", False, True),
    ("The other half goes in a jar for next week.", False, True),
    ("The other half goes in a jar.", False, False),
    ("The rest of the sauce goes over the pork.", False, False),
]


@pytest.mark.parametrize(("text", "kept", "gone"), FATES)
def test_what_becomes_of_a_share(text: str, kept: bool, gone: bool) -> None:
    (share,) = shares_in(text)
    assert (share.kept, share.gone) == (kept, gone)


def test_each_share_of_a_sentence_has_its_own_fate() -> None:
    used, kept, gone = shares_in(
        "Half of the rub goes on the pork, a quarter of it we keep, and the rest goes in the freezer."
    )
    assert [(share.kept, share.gone) for share in (used, kept, gone)] == [
        (False, False),
        (True, False),
        (False, True),
    ]


PLACES = [
    ("Half of that glaze goes over one butternut squash.", "over the butternut squash"),
    ("A third of the sauce goes in the bottom of the basin.", "in the basin"),
    ("Half of the syrup goes on right away.", ""),
    ("The rest of the sauce is for the pork.", "for the pork"),
    ("Half of the dough goes in the tin and the rest in a bowl.", "in the tin"),
]


@pytest.mark.parametrize(("text", "into"), PLACES)
def test_where_a_share_goes(text: str, into: str) -> None:
    assert shares_in(text)[0].into == into


def test_a_share_told_as_an_amount_keeps_it() -> None:
    (cup,) = shares_in("Ladle a cup of the gravy over the turkey.")
    assert (cup.fraction, cup.of, cup.measure and (cup.measure.low, cup.measure.unit)) == (
        "some",
        "gravy",
        (1, "cup"),
    )
    (held,) = shares_in("All but a quarter cup of that sauce goes on.")
    assert (held.fraction, held.measure and (held.measure.low, held.measure.unit)) == (
        "all",
        (QUARTER, "cup"),
    )


def test_a_share_of_what_is_left() -> None:
    (share,) = shares_in("Half of what's left of the topping goes round the sides.")
    assert (share.fraction, share.of, share.of_rest) == (HALF, "topping", True)


def test_shares_known_and_other() -> None:
    known, other = shares_in("That third of the gravy goes over. The other half of the sauce goes on.")
    assert (known.known, known.other) == (True, False)
    assert (other.known, other.other) == (False, True)


def test_every_word_of_the_lexicon_has_a_kind_that_is_explained() -> None:
    rows = read_lexicon("share_words", columns=("kind", "words", "value"))
    explained = {"lead", "fraction", "part", "rest", "left", "all", "some", "determiner", "pronoun", "kept"}
    explained |= {"gone", "stored", "never", "never before", "dealt", "bare", "place", "breaks"}
    assert {row["kind"] for row in rows} == explained
    assert all(0 < Fraction(row["value"]) < 1 for row in rows if row["kind"] in {"fraction", "part"})
    assert len({(row["kind"], row["words"]) for row in rows}) == len(rows)
