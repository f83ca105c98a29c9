"""What the words around a food say of it: single features, and more for an ingredient than for talk."""

from __future__ import annotations

import math

import pytest
from heard import speech_of, uses_in

from extract.lexicon import read_lexicon
from extract.reconcile.uses import Use, judge, use_weights
from extract.spot.actions_verbs import verb_forms


def use_of(text: str, food: str) -> Use:
    """The last mention of ``food``."""
    return next(use for use in reversed(uses_in(text)) if use.mention.food.name == food)


FEATURES = [
    ("Add two cups of oats to the pan.", "oats", {"measured", "verb add", "bare"}),
    ("Three onions, chopped.", "onion", {"counted"}),
    ("An onion, chopped.", "onion", {"article"}),
    ("Add some salt.", "salt", {"vague amount"}),
    ("Add the salt.", "salt", {"no amount", "definite"}),
    ("Then your salt goes in.", "salt", {"possessed", "goes in"}),
    ("It is as thick as cream.", "cream", {"comparison"}),
    ("My grandmother always put cinnamon in hers.", "cinnamon", {"memory"}),
    ("We never use butter.", "butter", {"negation"}),
    ("There are no eggs in it.", "egg", {"none of it"}),
    ("Make it without any eggs.", "egg", {"none of it"}),
    ("Do you like olives?", "olive", {"question"}),
    ("Stir in a pinch of nutmeg if you have it.", "nutmeg", {"optional"}),
    ("You can leave it plain. You could put peas in.", "pea", {"optional"}),
    ("Take a slice of the ham.", "ham", {"part of it"}),
    ("You end up with three cups of sauce.", "sauce", {"total", "kind made"}),
    ("Flour the board.", "flour", {"made verb"}),
    ("Add carrots, leeks and barley.", "barley", {"list"}),
    ("Add two cups of oats and a cup of milk.", "milk", {"list with an ingredient", "verb add"}),
    ("Top it up with water.", "water", {"water without an amount"}),
    ("It'd be gorgeous with some cherries, or a blob of cream.", "cherry", {"praised with"}),
    ("It'd be gorgeous with some cherries, or a blob of cream.", "cream", {"praised with"}),
    ("It's good the next day, cold, with a piece of sharp gouda.", "sharp gouda", {"praised with"}),
    ("That would be a treat on its own, or with jam.", "jam", {"praised with"}),
    ("Eaten cold the next day with pickles, that's lunch.", "pickle", {"praised with"}),
    ("That's a good lunch, that, with an apple.", "apple", {"praised with"}),
    ("Leftovers are super cold with pickles.", "pickle", {"praised with"}),
    ("I wouldn't say no to a bit of custard.", "custard", {"praised with"}),
    ("A spoonful of cream wouldn't hurt.", "cream", {"optional"}),
    ("We'll be finishing with a crumble of figs. Add a cup of milk.", "fig", {"promised"}),
    ("For afters there's a tart with cherries. Add a cup of milk.", "cherry", {"promised"}),
    ("There's a plum tart with walnuts later on. Add a cup of milk.", "walnut", {"promised"}),
    ("Later on we're doing plums with honey. Add a cup of milk.", "honey", {"promised"}),
    ("After that there's a pudding with cherries. Add a cup of milk.", "cherry", {"promised"}),
]
ABSENT = [
    (
        "Add two cups of oats to the pan.",
        "oats",
        {"no amount", "article", "optional", "none of it", "question"},
    ),
    ("You can add the salt now.", "salt", {"optional"}),
    ("No, two cups of oats.", "oats", {"none of it"}),
    ("Add a cup of water.", "water", {"water without an amount"}),
    ("Add another slice of ham.", "ham", {"part of it"}),
    ("The flour the mill sent is good.", "flour", {"made verb"}),
    ("You end up with three cups of rice.", "rice", {"total"}),
    ("That's lovely with the cinnamon in.", "cinnamon", {"praised with"}),
    ("It's nice and hot, so in with the butter.", "butter", {"praised with"}),
    ("It's lovely with cream, now add the walnuts.", "walnut", {"praised with"}),
    ("Mix it well with a spoonful of honey.", "honey", {"praised with"}),
    ("Add a cup of milk. Later on I add the walnuts.", "walnut", {"promised"}),
    ("Keep the walnuts for later. Add a cup of milk.", "walnut", {"promised"}),
    ("There's a loaf later, but first, leeks. Add a cup of milk.", "leek", {"promised"}),
    ("For afters there's a tart, but first, leeks. Add a cup of milk.", "leek", {"promised"}),
    ("Add a cup of milk. I finish with walnuts.", "walnut", {"promised"}),
    ("It's a nice thick batter with oats in.", "oats", {"praised with"}),
    ("We put carrots and afterwards we add a cup of milk.", "carrot", {"promised"}),
]
PUT_IN = [
    ("Add two cups of oats.", "oats", True),
    ("Season it with salt.", "salt", True),
    ("The oats go in now.", "oats", True),
    ("Here are the oats and the milk.", "oats", False),
    ("You need two cups of oats.", "oats", False),
]
BETTER = [
    ("Add two cups of oats.", "My grandmother liked oats."),
    ("Stir in the oats.", "It looks like oats."),
    ("Add some oats.", "There are no oats in it."),
    ("Stir in the oats.", "Have you ever eaten oats?"),
]


@pytest.mark.parametrize(("text", "food", "features"), FEATURES)
def test_the_words_give_a_mention_its_features(text: str, food: str, features: set[str]) -> None:
    assert features <= use_of(text, food).features


@pytest.mark.parametrize(("text", "food", "features"), ABSENT)
def test_other_words_do_not(text: str, food: str, features: set[str]) -> None:
    assert not features & use_of(text, food).features


@pytest.mark.parametrize(("text", "food", "put_in"), PUT_IN)
def test_a_food_is_put_in_or_only_named(text: str, food: str, put_in: bool) -> None:
    assert use_of(text, food).put_in is put_in


@pytest.mark.parametrize(("ingredient", "talk"), BETTER)
def test_an_ingredient_weighs_more_than_talk(ingredient: str, talk: str) -> None:
    assert use_of(ingredient, "oats").score > use_of(talk, "oats").score


def test_a_score_is_the_sum_of_its_weights() -> None:
    use = use_of("Add two cups of oats to the pan.", "oats")
    assert use.score == pytest.approx(math.fsum(use_weights().get(feature, 0.0) for feature in use.features))


def test_no_mentions_have_no_uses() -> None:
    assert judge(speech_of("Good evening.").doc, [], []) == []


def test_what_is_named_before_any_measuring_is_only_promised() -> None:
    text = "We have lamb tonight. Two cups of oats. Lamb goes in."
    first, last = [use for use in uses_in(text) if use.mention.food.name == "lamb"]
    assert "before any amount" in first.features
    assert "before any amount" not in last.features


def test_every_weight_is_of_a_feature_that_exists() -> None:
    """A misspelled row of the weights would never be read."""
    cues = {row["cue"] for row in read_lexicon("use_cues", columns=("cue", "side", "pattern"))}
    verbs = {f"verb {entries[0].group}" for entries in verb_forms().values()}
    rows = read_lexicon("foods", columns=("name", "aliases", "forms", "kinds", "sense", "source"))
    kinds = {f"kind {kind}" for row in rows for kind in row["kinds"].split(",")}
    shown = {
        feature for text, *_ in (*FEATURES, *ABSENT) for use in uses_in(text) for feature in use.features
    }
    habits = {f"unmeasured where {how} is measured" for how in ("most", "much", "little")}
    roles = {f"{role} of an action" for role in ("object", "place", "with")} | {
        "before any amount",
        "article worked on",
    }
    doubts = {"unknown food", "mended", "negated action"}
    assert set(use_weights()) <= cues | verbs | kinds | shown | habits | roles | doubts
