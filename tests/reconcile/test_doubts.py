"""What does not add up is doubted, and what does is not. The talks are invented."""

from __future__ import annotations

import pytest
from heard import segments_of, spotted_in

from extract.reconcile.doubts.doubts import Doubt
from extract.reconcile.kitchen import reconcile

GLAZE = "For the glaze, half a cup of apricot jam and half a cup of cider. "


def doubts_in(text: str) -> list[Doubt]:
    kitchens = reconcile(spotted_in(text), segments_of(text)).kitchens
    return [doubt for kitchen in kitchens for doubt in kitchen.doubts]


DOUBTED = [
    (
        GLAZE + "Half of the glaze goes on the ham. Later you paint on two thirds of the glaze.",
        "over-used",
        "glaze",
    ),
    (
        GLAZE + "All of the glaze goes on the ham. And the rest of the glaze goes on the carrots.",
        "nothing left",
        "glaze",
    ),
    (GLAZE + "Half of the glaze goes on the ham, and the other half you set aside.", "never used", "glaze"),
    (
        GLAZE + "Half of the glaze goes on the ham. The rest of the glaze goes in the freezer.",
        "never used",
        "glaze",
    ),
    (
        "Here's my salmon, four fillets. Put them in a dish and pour over the marinade.",
        "never made",
        "marinade",
    ),
    (
        "I made the stock yesterday, so two litres of that goes in the pot. Add 200 grams of pasta "
        "to the pot.",
        "off camera",
        "stock",
    ),
    (
        "You only need four things for this, two onions, two cups of rice, a carrot and three eggs. "
        "Fry the onions, the "
        "carrot and the rice. Add the soy sauce. And the eggs go in last.",
        "never introduced",
        "soy sauce",
    ),
]


@pytest.mark.parametrize(("text", "kind", "about"), DOUBTED)
def test_doubted(text: str, kind: str, about: str) -> None:
    assert [(doubt.kind, doubt.about) for doubt in doubts_in(text)] == [(kind, about)]


CLEAR = [
    GLAZE + "Half of the glaze goes on the ham. The rest of the glaze goes on at the end.",
    GLAZE
    + "Half of the glaze goes on the ham, and the other half you set aside. Now the glaze we kept goes on.",
    GLAZE + "Half of the glaze goes on the ham, and the other half we keep, and that goes on at the end.",
    "Here's my salmon, four fillets. Pour over a bottle of marinade.",
    "Mix two cups of flour with three eggs. Pour the batter into the pan.",
    "You need two onions, two cups of rice and three carrots. Fry the onions and everything else goes in.",
    "You need two onions, two cups of rice and three carrots. Fry the veg and then the rice goes in.",
    "I have 100 grams of demerara sugar and 150 grams of caster sugar. Add the caster sugar. Beat "
    "the eggs with the sugar.",
    "Two tablespoons of butter in the pan. And then at the end your one tablespoon of butter goes in.",
]


@pytest.mark.parametrize("text", CLEAR)
def test_clear(text: str) -> None:
    assert doubts_in(text) == []


def test_a_doubt_can_be_read_out_and_names_its_words() -> None:
    text = GLAZE + "Half of the glaze goes on the ham. Later you paint on two thirds of the glaze."
    (doubt,) = doubts_in(text)
    assert doubt.text == (
        "Of the glaze, half went first, which leaves half. After that you take two thirds. Which of "
        "the shares is right, or is "
        "there more of the glaze?"
    )
    doc = spotted_in(text).speech.doc
    words = [doc[start:end].text for start, end in doubt.spans]
    assert ["Half of the glaze" in words[0], "two thirds of the glaze" in words[1]] == [True, True]
