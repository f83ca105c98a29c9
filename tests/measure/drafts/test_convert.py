"""A draft in other measures: what is worked out, what stays, and that nothing said is lost."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from making import action, line, make_dish, make_draft

from extract.errors import CardwrightError
from extract.measure.drafts.convert import convert, lines
from extract.measure.figures import exact
from extract.measure.kitchen import amount_words, measure_notes, print_temperature
from extract.measure.weights import NoWeight
from extract.measure.worked import to_grams, work_out
from extract.model import Amount, RecipeDraft

# (line, measures, what is printed). Figures: USDA SR28 for weights, NIST and the 1959 pound for the rest.
TO_METRIC: list[tuple[dict[str, Any], str]] = [
    (line("plain flour", 3, "cup"), "3 cups [375 g]"),
    (line("butter", 2, "stick"), "2 sticks [225 g]"),
    (line("sugar", 1.5, "cup"), "1 1/2 cups [300 g]"),
    (line("milk", 1, "cup"), "1 cup [240 ml]"),
    (line("chicken stock", 2, "quart"), "2 quarts [1.9 litres]"),
    (line("olive oil", 6, "tablespoon"), "6 tablespoons [90 ml]"),
    (line("olive oil", 2, "tablespoon"), "2 tablespoons"),
    (line("butter", 3, "tablespoon"), "3 tablespoons [43 g]"),
    (line("ground cumin", 2, "tablespoon"), "2 tablespoons"),
    (line("salt", 1, "teaspoon"), "1 teaspoon"),
    (line("beef", 2.5, "pound", high=3), "2 1/2–3 pounds [1.15–1.35 kg]"),
    (line("cream cheese", 8, "ounce"), "8 ounces [225 g]"),
    (line("milk", 8, "ounce"), "8 ounces [240 ml]"),
    (line("ginger", 1, "inch"), "1 inch [2.5 cm]"),
    (line("egg", 3), "3"),
    (line("garlic", 2, "clove"), "2 cloves"),
    (line("parsley", 1, "handful"), "a handful"),
    (line("rice", 250, "gram"), "250 g"),
    (line("tomatoes", 1, "can", size=(14, "ounce")), "1 (14-ounce) can [1 (400 g) can]"),
    (line("onion", 1, "cup", preparation="chopped"), "1 cup [160 g]"),
    (line("kosher salt", 1, "cup"), "1 cup"),
    (line("chicken", 1, "", size=(3, "pound")), "1 (3-pound) [1 (1.35 kg)]"),
]
TO_US: list[tuple[dict[str, Any], str]] = [
    (line("plain flour", 250, "gram"), "250 g [2 cups]"),
    (line("sugar", 100, "gram"), "100 g [1/2 cup]"),
    (line("milk", 250, "millilitre"), "250 ml [1 cup + 1 tablespoon]"),
    (line("milk", 500, "millilitre"), "500 ml [2 cups + 2 tablespoons]"),
    (line("stock", 1, "litre"), "1 litre [4 1/4 cups]"),
    (line("beef", 500, "gram"), "500 g [1 pound + 2 ounces]"),
    (line("chicken", 1.5, "kilogram"), "1.5 kg [3 1/4 pounds]"),
    (line("onion", 300, "gram"), "300 g [10 1/2 ounces]"),
    (line("ginger", 2.5, "centimetre"), "2.5 cm [1 inch]"),
    (line("butter", 113, "gram"), "113 g [1/2 cup]"),
    (line("salt", 1, "teaspoon"), "1 teaspoon"),
    (line("tomatoes", 1, "can", size=(400, "gram")), "1 (400 g) can [1 (14-ounce) can]"),
]


def printed(each: dict[str, Any], to: str, system: str) -> str:
    [result] = lines(convert(make_draft(make_dish(each)), to, system).dishes[0])
    assert result.amount is not None
    return amount_words(result.amount)


@pytest.mark.parametrize(
    ("each", "words"), TO_METRIC, ids=lambda value: value if isinstance(value, str) else ""
)
def test_american_amounts_for_a_metric_kitchen(each: dict[str, Any], words: str) -> None:
    assert printed(each, "metric", "us") == words


@pytest.mark.parametrize(("each", "words"), TO_US, ids=lambda value: value if isinstance(value, str) else "")
def test_metric_amounts_for_an_american_kitchen(each: dict[str, Any], words: str) -> None:
    assert printed(each, "us", "metric") == words


@pytest.mark.parametrize(
    ("each", "to", "system", "words"),
    [
        (line("milk", 1, "pint"), "metric", "uk", "1 pint [575 ml]"),
        (line("milk", 1, "pint"), "us", "uk", "1 pint [2 1/3 cups]"),
        (line("soy sauce", 1, "tablespoon"), "uk", "au", "1 tablespoon [1 tablespoon + 1 teaspoon]"),
        (line("milk", 1, "cup"), "us", "metric", "1 cup [1 cup + 1 tablespoon]"),
        (line("milk", 1, "cup"), "metric", "au", "1 cup [250 ml]"),
    ],
)
def test_the_same_word_is_another_measure_in_another_country(
    each: dict[str, Any], to: str, system: str, words: str
) -> None:
    """Imperial pint 568.26125 ml; Australian tablespoon 20 ml; metric cup 250 ml."""
    assert printed(each, to, system) == words


def test_what_was_said_stays_and_what_is_worked_out_says_from_what() -> None:
    [flour] = lines(convert(make_draft(make_dish(line("plain flour", 1, "cup"))), "metric", "us").dishes[0])
    assert flour.amount is not None
    assert (flour.amount.low, flour.amount.unit) == (1, "cup")
    assert flour.amount.converted is not None
    assert flour.amount.converted.unit == "gram"
    assert "USDA SR28 20081" in flour.amount.basis


def test_what_cannot_be_converted_says_so_on_the_line_and_in_the_notes() -> None:
    dish = convert(make_draft(make_dish(line("kosher salt", 1, "cup"))), "metric", "us").dishes[0]
    [salt] = lines(dish)
    assert salt.amount is not None
    assert salt.amount.converted is None
    assert salt.amount.basis == "not converted: no weight is known for kosher salt"
    assert "kosher salt: not converted: no weight is known for kosher salt" in measure_notes(dish)


def test_temperatures_tins_and_lengths_are_put_beside_what_was_said() -> None:
    dish = make_dish(
        "flour",
        actions=[action("bake", "cake", heat=("oven", 350, "degF"), text="Cut into 1-inch squares.")],
        equipment=["9-inch square tin", "9 by 13 inch dish"],
    )
    result = convert(make_draft(dish), "uk", "us").dishes[0]
    heat = result.method[0].actions[0].heat
    assert heat is not None
    assert print_temperature(heat) == "350 °F (180 °C, 160 °C fan, gas mark 4)"
    assert result.conversion is not None
    assert result.conversion.notes == ["9-inch is 23 cm", "9 by 13 inch is 23 x 33 cm", "1-inch is 2.5 cm"]


def test_the_degrees_of_a_gas_mark_lead_those_of_a_fan_oven_said_with_it() -> None:
    """Gas mark 3 is 325 °F and 160 °C (extract/measure's table of ovens), beside a fan's 150 °C that would be 170."""
    bake = action("bake", "beef", heat=("oven", 150, "degC"), fan=True)
    bake["heat"]["equivalents"] = [{"kind": "oven", "low": 3, "high": 3, "unit": "gas_mark"}]
    draft = make_draft(make_dish("beef", actions=[bake]))
    told = {
        "": "160 °C, 325 °F",
        "metric": "160 °C, 325 °F",
        "us": "325 °F, 160 °C",
    }  # worked out first leads
    for to, degrees in told.items():
        heat = (convert(draft, to, "uk") if to else draft).dishes[0].method[0].actions[0].heat
        assert heat is not None
        assert print_temperature(heat) == f"150 °C fan / gas mark 3 ({degrees})"


STEPS = [
    ("Stir in 1 cup of milk.", "Stir in 1 cup [240 ml] of milk."),
    ("Add the milk (1 cup), plain flour and salt.", "Add the milk (1 cup [240 ml]), plain flour and salt."),
    ("Roll it an eighth of an inch thick.", "Roll it an eighth of an inch [3 mm] thick."),
    ("Cut into 1-inch squares.", "Cut into 1-inch [2.5 cm] squares."),
    ("Pour into a 2 pound loaf tin.", "Pour into a 2 pound loaf tin."),
    ("Bake for 20 minutes.", "Bake for 20 minutes."),
]


@pytest.mark.parametrize(("text", "wanted"), STEPS)
def test_measures_in_the_steps_stand_beside_what_was_said(text: str, wanted: str) -> None:
    """NIST SP 811: a cup is 236.6 ml, an inch 25.4 mm."""
    draft = make_draft(make_dish("milk", "plain flour", texts=[text]))
    once = convert(draft, "metric", "us")
    assert once.dishes[0].method[0].text == wanted
    assert convert(once, "metric", "us") == once


def test_a_measure_that_the_words_give_themselves_is_not_worked_out_again() -> None:
    amount = Amount(low=1, high=1, unit="cup", equivalents=[Amount(low=240, high=240, unit="millilitre")])
    assert work_out(amount, "milk", "", "metric", "us").converted is None


def test_converting_again_replaces_the_first_conversion() -> None:
    draft = make_draft(make_dish(line("plain flour", 250, "gram"), line("sugar", 1, "cup")))
    twice = convert(convert(draft, "metric", "us"), "us", "us")
    assert twice == convert(draft, "us", "us")
    assert convert(twice, "us", "us") == twice


def test_the_draft_itself_is_not_changed() -> None:
    draft = make_draft(make_dish(line("plain flour", 1, "cup")))
    before = draft.to_json()
    convert(draft, "metric", "us")
    assert draft.to_json() == before


@pytest.mark.parametrize(("to", "system"), [("imperial", ""), ("", ""), ("us", "roman")])
def test_unknown_measures_are_refused(to: str, system: str) -> None:
    with pytest.raises(CardwrightError, match="one of"):
        convert(make_draft(make_dish()), to, system)


@pytest.mark.parametrize(("low", "high"), [(-1, -1), (2, 1)])
def test_an_amount_that_is_none_is_refused_with_its_place(low: float, high: float) -> None:
    with pytest.raises(CardwrightError, match=r"Supper: flour: .* is no amount"):
        convert(make_draft(make_dish(line("flour", low, "cup", high=high))), "metric", "us")


foods = st.sampled_from(
    [
        ("plain flour", ""),
        ("sugar", ""),
        ("milk", ""),
        ("olive oil", ""),
        ("butter", ""),
        ("onion", "chopped"),
        ("beef", ""),
    ]
)
volumes = st.sampled_from(["teaspoon", "tablespoon", "cup", "pint", "quart", "ounce", "pound", "fluid_ounce"])
quarters = st.integers(min_value=1, max_value=64).map(lambda n: n / 4)


@given(foods, volumes, quarters, st.sampled_from(["us", "uk", "au"]))
def test_there_and_back_is_the_same_amount(
    food: tuple[str, str], unit: str, count: float, system: str
) -> None:
    """The converted value weighs or holds what was said, exactly: rounding comes at printing."""
    name, state = food
    there = work_out(Amount(low=count, high=count, unit=unit), name, state, "metric", system).converted
    if there is None:
        return
    back = to_grams(there, name, state, system)
    first = to_grams(Amount(low=count, high=count, unit=unit), name, state, system)
    if isinstance(back, NoWeight) or isinstance(first, NoWeight) or unit in {"ounce", "tablespoon"}:
        return  # an ounce of milk is poured, an Australian tablespoon becomes other spoons
    assert abs(back[0][0] - first[0][0]) <= first[0][0] / 10**6


@given(foods, volumes, quarters, quarters, st.sampled_from(["metric", "us", "uk"]))
def test_a_range_stays_ordered(food: tuple[str, str], unit: str, one: float, more: float, to: str) -> None:
    worked = work_out(Amount(low=one, high=one + more, unit=unit), food[0], food[1], to, "us").converted
    assert worked is None or worked.low <= worked.high


@given(foods, st.sampled_from(["gram", "kilogram", "millilitre", "litre"]), quarters)
def test_metric_to_american_is_the_same_volume_or_weight(
    food: tuple[str, str], unit: str, count: float
) -> None:
    name, state = food
    amount = Amount(low=count * 10, high=count * 10, unit=unit)
    worked = work_out(amount, name, state, "us", "metric").converted
    assert worked is not None
    before, after = to_grams(amount, name, state, "metric"), to_grams(worked, name, state, "us")
    if not isinstance(before, NoWeight) and not isinstance(after, NoWeight):
        assert abs(after[0][0] - before[0][0]) <= before[0][0] / 10**6


def test_a_third_of_a_cup_is_exact_until_printed() -> None:
    worked = work_out(Amount(low=1 / 3, high=1 / 3, unit="cup"), "milk", "", "metric", "us").converted
    assert worked is not None
    assert abs(exact(worked.low) - Fraction("236.5882365") / 3) < Fraction(1, 10**6)


def test_a_draft_with_nothing_in_it_is_converted_to_nothing() -> None:
    empty = RecipeDraft.model_validate({"source": {"file": "a.vtt", "sha256": "0"}})
    assert convert(empty, "metric") == empty
