"""Declared allergens: the lists of food law, hidden sources, alternatives, and words that only sound so."""

from __future__ import annotations

from collections import Counter
from typing import Any

import pytest
from making import line, make_dish

from extract.lexicon import read_lexicon
from extract.model import Dish
from extract.safety.allergens import (
    LIST_COLUMNS,
    LISTS,
    NOTE,
    WORD_COLUMNS,
    allergen_lines,
    allergens_of,
    by_allergen,
)
from extract.spot.names.foods import name_keys

# Federal Food, Drug, and Cosmetic Act s. 201(qq), as set by FALCPA 2004 and the FASTER Act 2021.
US_NINE = "milk; eggs; fish; crustacean shellfish; tree nuts; wheat; peanuts; soybeans; sesame"
# Regulation (EU) No 1169/2011, Annex II, in its order.
EU_FOURTEEN = (
    "cereals containing gluten; crustaceans; eggs; fish; peanuts; soybeans; milk; nuts; celery; mustard; "
    "sesame seeds; sulphur dioxide and sulphites; lupin; molluscs"
)
# Health Canada: priority allergens, gluten sources and added sulphites.
CANADA = (
    "eggs; milk; mustard; peanuts; crustaceans and molluscs; fish; sesame seeds; soy; sulphites; tree nuts; "
    "wheat and triticale; gluten"
)
# One food for every entry of the EU list, as the regulation names it or in plain words.
ONE_EACH = {
    "rye flour": "cereals containing gluten",
    "lobster": "crustaceans",
    "egg": "eggs",
    "cod": "fish",
    "peanuts": "peanuts",
    "tofu": "soybeans",
    "milk": "milk",
    "almonds": "nuts",
    "celeriac": "celery",
    "mustard powder": "mustard",
    "tahini": "sesame seeds",
    "white wine": "sulphur dioxide and sulphites",
    "lupin flour": "lupin",
    "mussels": "molluscs",
}


def on(listed: str, *foods: str, alternatives: tuple[str, ...] = ()) -> set[str]:
    return labels(make_dish(*(line(food, alternatives=list(alternatives)) for food in foods)), listed)


def labels(dish: Dish, listed: str) -> set[str]:
    """What one list of the law calls the allergens of a dish."""
    there = {key for key, lists in by_allergen(dish) if listed in lists}
    rows = [row for row in read_lexicon("allergen_lists", columns=LIST_COLUMNS) if row["list"] == listed]
    return {row["label"] for row in rows if not there.isdisjoint(row["allergens"].split(","))}


@pytest.mark.parametrize(("name", "labels"), [("US", US_NINE), ("EU", EU_FOURTEEN), ("Canada", CANADA)])
def test_the_lists_are_those_of_the_law(name: str, labels: str) -> None:
    rows = [row for row in read_lexicon("allergen_lists", columns=LIST_COLUMNS) if row["list"] == name]
    assert "; ".join(row["label"] for row in rows) == labels


@pytest.mark.parametrize(("food", "label"), ONE_EACH.items())
def test_every_entry_of_the_eu_list_is_found(food: str, label: str) -> None:
    assert label in on("EU", food)


@pytest.mark.parametrize(
    ("food", "us", "eu"),
    [
        ("soy sauce", {"soybeans", "wheat"}, {"soybeans", "cereals containing gluten"}),
        ("tahini", {"sesame"}, {"sesame seeds"}),
        ("panko", {"wheat"}, {"cereals containing gluten"}),
        ("mussels", set(), {"molluscs"}),
        ("mustard powder", set(), {"mustard"}),
        ("celeriac", set(), {"celery"}),
        ("coconut milk", set(), set()),
        ("pine nuts", {"tree nuts"}, set()),
        ("buckwheat", set(), set()),
        ("nutmeg", set(), set()),
        ("butternut squash", set(), set()),
        ("cream of tartar", set(), set()),
        ("ghee", {"milk"}, {"milk"}),
        ("oats", {"wheat"}, {"cereals containing gluten"}),
    ],
)
def test_hidden_and_misleading_foods(food: str, us: set[str], eu: set[str]) -> None:
    """As food-allergy leaflets explain them; FDA (January 2025) leaves coconut out, Annex II pine nuts."""
    assert on("US", food) == us
    assert on("EU", food) == eu


def test_worcestershire_sauce_and_miso_bring_what_leaflets_warn_of() -> None:
    assert "fish" in on("US", "Worcestershire sauce")
    assert "soybeans" in on("US", "miso")


@pytest.mark.parametrize(
    "food",
    [
        "peanut butter",
        "cocoa butter",
        "butter beans",
        "coconut cream",
        "oyster mushrooms",
        "rice flour",
        "rice noodles",
        "corn tortillas",
        "eggplant",
        "gluten-free flour",
        "crab apples",
        "chestnuts",
        "potatoes",
    ],
)
def test_words_that_only_sound_like_milk_wheat_egg_or_nuts(food: str) -> None:
    assert not on("US", food) & {"milk", "wheat", "eggs", "tree nuts", "crustacean shellfish"}


def test_a_cheese_that_no_word_names_is_milk_by_its_kind() -> None:
    assert on("US", "manchego") == {"milk"}
    assert on("EU", "halibut") == {"fish"}


def test_alternatives_count_and_say_so() -> None:
    dish = make_dish(line("butter", alternatives=["almond butter"]))
    assert any("tree nuts (almond butter, if used instead)" in sentence for sentence in allergen_lines(dish))


@pytest.mark.parametrize(
    "food", ["dairy-free cheddar", "dairy-free spread", "vegan cheese", "plant-based milk"]
)
def test_what_is_made_without_milk_brings_none_but_may_bring_nuts_or_soy(food: str) -> None:
    """Cashews, almonds and soy are what such things are made of: common practice, no source."""
    found = {(allergen, strength) for allergen, strength, _ in allergens_of(food)}
    assert found >= {("tree_nut", "sometimes"), ("soy", "sometimes")}
    assert "milk" not in {allergen for allergen, _ in found}


def test_a_denial_beside_the_name_counts() -> None:
    assert "milk" not in on_line(line("cheddar", preparation="dairy-free"))
    assert "milk" in on_line(line("cheddar", preparation="grated"))
    assert "wheat" not in on_line(line("flour", note="gluten-free"))


def on_line(food: dict[str, Any]) -> set[str]:
    return labels(make_dish(food), "US")


@pytest.mark.parametrize(
    ("food", "brings"),
    [
        ("ghee", {"milk"}),
        ("scones", {"wheat"}),
        ("rye crumbs", {"gluten"}),
        ("tagliatelle", {"wheat"}),
        ("breadcrumbs", {"wheat"}),
        ("Worcester sauce", {"fish"}),
        ("cashew cream", {"tree_nut"}),
    ],
)
def test_foods_bring_what_they_are_made_of(food: str, brings: set[str]) -> None:
    """FDA, Health Canada and FSA leaflets name these; see the sources of lexicons/tables/allergens.tsv."""
    assert {allergen for allergen, _, _ in allergens_of(food)} >= brings


def test_cashew_cream_is_no_milk() -> None:
    assert "milk" not in {allergen for allergen, _, _ in allergens_of("cashew cream")}


def test_the_words_say_may_contain_and_never_that_a_dish_is_free() -> None:
    lines = allergen_lines(make_dish("soy sauce", "egg", "brown sugar"))
    assert lines == [
        "May contain: eggs (egg), wheat (gluten) (soy sauce, by most recipes), soy (soy sauce).",
        "Check the labels for: milk (brown sugar, in some brands).",
    ]
    assert "check labels" in NOTE
    assert allergen_lines(make_dish("potato")) == []


def test_an_allergen_that_only_some_lists_have_names_them() -> None:
    """Mustard: Health Canada and EU 1169/2011 Annex II, not the US list; celery: Annex II alone."""
    assert allergen_lines(make_dish("butter", "mustard powder", "celeriac")) == [
        "May contain: milk (butter).",
        "On the Canada and EU lists also: mustard (mustard powder).",
        "On the EU list also: celery (celeriac).",
    ]


def test_every_row_names_a_known_allergen_once() -> None:
    rows = read_lexicon("allergens", columns=WORD_COLUMNS)
    keys = {
        key
        for row in read_lexicon("allergen_lists", columns=LIST_COLUMNS)
        for key in row["allergens"].split(",")
    }
    for row in rows:
        assert row["allergen"] in keys | {"none"}, row
        assert row["strength"] in {"always", "usually", "sometimes"}, row
        assert set(filter(None, row["lists"].split("; "))) <= set(LISTS), row
        assert row["source"], row
    same = Counter((name_keys(row["word"]), row["allergen"]) for row in rows)
    assert [key for key, count in same.items() if count > 1] == []
    found = {row["allergen"] for row in rows}
    assert keys <= found


@pytest.mark.parametrize("food", ["soy sauce", "Soy Sauces", "SOY SAUCE", "dark soy sauce"])
def test_number_and_case_make_no_difference(food: str) -> None:
    assert {allergen for allergen, _, _ in allergens_of(food)} == {"soy", "wheat"}
