"""What references stand for: by vessel, by kind, by what was just named, else what seems likeliest. "
"Invented talks."""

from __future__ import annotations

import pytest
from heard import segments_of, speech_of, spotted_in

from extract.lexicon import read_lexicon
from extract.reconcile.kitchen import reconcile
from extract.reconcile.references import Likeliest, Resolver


def resolver_of(text: str, likeliest: Likeliest | None = None) -> Resolver:
    (kitchen,) = reconcile(spotted_in(text), segments_of(text)).kitchens
    return Resolver(kitchen.scene, likeliest)


def place(text: str, words: str) -> tuple[int, int]:
    """The tokens of the last place where some words stand."""
    tokens = [token.text for token in speech_of(text).doc]
    wanted = [token.text for token in speech_of(words).doc]
    starts = [at for at in range(len(tokens)) if tokens[at : at + len(wanted)] == wanted]
    return starts[-1], starts[-1] + len(wanted)


BOWLS = (
    "Put two cups of rolled oats in a bowl. Add half a cup of pumpkin seeds to the bowl. Pour a "
    "third of a cup of honey into the "
    "saucepan. Now pour what's in the saucepan over what's in the bowl."
)
WET = (
    "Put 600 mils of chicken stock in a pan with 150 mils of white wine. Add 300 grams of rice and "
    "200 grams of chicken "
    "thighs. Add the liquid a ladle at a time and turn the meat over."
)
RUB = "For the rub, two tablespoons of salt and a tablespoon of paprika. That's our rub. Smear it over a leg of lamb."
DIP = (
    "Whisk two cups of flour with a cup of milk. Dip four sausages in the batter. Fry them for five minutes."
)

MEANT = [
    (BOWLS, "what's in the saucepan", "honey"),
    (WET, "the liquid", "chicken stock and white wine"),
    (RUB, "it", "rub"),
    (DIP, "them", None),
]


@pytest.mark.parametrize(("text", "words", "name"), MEANT)
def test_what_a_reference_means(text: str, words: str, name: str | None) -> None:
    assert resolver_of(text)(*place(text, words)) == name


def test_where_the_ledger_does_not_know_the_likeliest_is_asked() -> None:
    asked: list[tuple[int, int]] = []

    def likeliest(start: int, end: int) -> str:
        asked.append((start, end))
        return "sausages"

    assert resolver_of(DIP, likeliest)(*place(DIP, "them")) == "sausages"
    assert asked == [place(DIP, "them")]


def test_words_for_kinds_name_kinds_that_foods_have() -> None:
    kinds = {
        kind
        for row in read_lexicon("foods", columns=("name", "aliases", "forms", "kinds", "sense", "source"))
        for kind in row["kinds"].split(",")
    }
    rows = read_lexicon("kind_words", columns=("word", "kinds"))
    assert {kind for row in rows for kind in row["kinds"].split(",")} <= kinds
    assert len({row["word"] for row in rows}) == len(rows)
