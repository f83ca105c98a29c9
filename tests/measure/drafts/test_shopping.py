"""One list from several dishes: summed where measures allow, apart where not, nothing lost."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from making import line, make_dish, make_draft

from extract.errors import CardwrightError
from extract.lexicon import read_lexicon
from extract.measure.shopping.shopping import AISLE_COLUMNS, Item, shopping_list


def shop(*lines: dict[str, Any] | str, **more: Any) -> list[Item]:
    return shopping_list([make_draft(make_dish(*lines), measures=more.pop("measures", "us"))])


@pytest.mark.parametrize(
    ("lines", "words"),
    [
        ([line("flour", 2, "cup"), line("flour", 1.5, "cup")], "flour: 3 1/2 cups"),
        ([line("scallions", 3), line("spring onions", 2)], "scallions: 5"),
        ([line("salt", 1, "teaspoon"), line("salt", 1, "tablespoon")], "salt: 1 tablespoon + 1 teaspoon"),
        ([line("beef", 1, "pound"), line("beef", 8, "ounce")], "beef: 1 1/2 pounds"),
        ([line("garlic", 2, "clove", high=3), line("garlic", 4, "clove")], "garlic: 6–7 cloves"),
        (
            [line("butter", 1, "stick"), line("butter", 2, "tablespoon")],
            "butter: 1 stick + 2 tablespoons [140 g]",
        ),
        (
            [line("onion", 1), line("onion", 1, "cup", preparation="chopped")],
            "onion: 1 + 1 cup (chopped) [275 g]",
        ),
        (
            [line("parsley", 1, "bunch"), line("parsley", 2, "tablespoon", preparation="chopped")],
            "parsley: 1 bunch + 2 tablespoons (chopped)",
        ),
        ([line("milk", 1, "cup"), line("milk", 8, "ounce")], "milk: 2 cups"),
        ([line("olive oil", 2, "tablespoon"), "olive oil"], "olive oil: 2 tablespoons, and some more"),
        (["pepper", "pepper"], "pepper: no amount said"),
        (
            [line("barley", 1, "cup", alternatives=["spelt"], optional=True)],
            "barley: 1 cup (or spelt; optional)",
        ),
        (
            [line("tomatoes", 1, "can", size=(400, "gram")), line("tomatoes", 2, "can", size=(400, "gram"))],
            "tomatoes: 3 (400 g) cans",
        ),
    ],
)
def test_the_same_food_is_one_item(lines: list[dict[str, Any] | str], words: str) -> None:
    """Weights: USDA SR28 (butter 113 g a stick, 14.2 g a tablespoon; onion 110 g, chopped cup 160 g)."""
    [item] = shop(*lines)
    assert str(item) == words


@pytest.mark.parametrize(
    ("lines", "words"),
    [
        ([line("flour", 1, "cup"), line("all-purpose flour", 2, "cup")], ["all-purpose flour: 3 cups"]),
        ([line("milk", 1, "cup"), line("whole milk", 1, "cup")], ["whole milk: 2 cups"]),
        ([line("onion", 1), line("yellow onion", 1)], ["yellow onions: 2"]),
        (
            [line("flour", 1, "cup"), line("plain flour", 1, "cup"), line("rice flour", 1, "cup")],
            ["plain flour: 2 cups", "rice flour: 1 cup"],
        ),
        (
            [line("sugar", 1, "cup"), line("granulated sugar", 1, "cup"), line("caster sugar", 1, "cup")],
            ["caster sugar: 1 cup", "granulated sugar: 1 cup", "sugar: 1 cup"],
        ),
        ([line("egg", 2), line("egg", 3)], ["eggs: 5"]),
        ([line("bay leaf", 1, "leaf"), line("bay leaves", 2, "leaf")], ["bay leaves: 3"]),
        ([line("lemons", 2), line("lemon juice", 80, "millilitre", note="from the lemons")], ["lemons: 2"]),
        ([line("lemons", 2), line("lemon zest", 1)], ["lemons: 2"]),
        ([line("lemon zest", 1), line("lemon juice", 2)], ["lemons: 2"]),
        ([line("lemon juice", 80, "millilitre")], ["lemon juice: 80 ml"]),
    ],
)
def test_only_what_is_one_food_is_summed_and_a_lemon_is_bought_once(
    lines: list[dict[str, Any] | str], words: list[str]
) -> None:
    assert [str(item) for item in shop(*lines)] == words


def test_one_dish_of_several_is_shopped_for_by_name() -> None:
    draft = make_draft(make_dish("leeks", title="Fish pie"), make_dish("pears", title="Loaf"))
    assert [item.name for item in shopping_list([draft], ["loaf"])] == ["pears"]
    with pytest.raises(CardwrightError, match='"cake" names no dish'):
        shopping_list([draft], ["cake"])


def test_what_is_kept_in_another_way_is_another_purchase() -> None:
    items = shop(
        line("chickpeas", 1, "cup", preparation="dried"),
        line("canned chickpeas", 1, "cup"),
        line("chickpeas", 1, "can"),
    )
    assert len(items) == 3


def test_what_cannot_be_weighed_is_kept_apart_from_the_weight() -> None:
    [item] = shop(line("butter", 1, "stick"), line("butter", 1, "cup"), line("butter", 1, "knob"))
    assert item.together is not None
    assert item.together.low == 113 + Fraction(227)
    assert [total.unit for total in item.apart] == ["knob"]
    assert str(item).endswith("[350 g] + a knob")


def test_drafts_in_different_measures_are_summed_by_volume() -> None:
    """A US cup is 236.588 ml, a metric one 250 ml: together 486.6 ml, within 5 % of 2 US cups."""
    drafts = [
        make_draft(make_dish(line("milk", 1, "cup"), title=system), measures=system)
        for system in ("us", "metric")
    ]
    [item] = shopping_list(drafts)
    assert item.said[0].unit == "cup"
    assert float(item.said[0].low) == pytest.approx(1 + 250 / 236.5882365)
    assert item.dishes == ("us", "metric")


def test_water_and_what_the_dish_makes_itself_are_not_bought() -> None:
    dish = make_dish(line("water", 1, "cup"), line("lemon", 1))
    dish.components[0].name = "dressing"
    other = make_dish("dressing", title="Salad")
    dish.components += other.components
    assert [item.name for item in shopping_list([make_draft(dish)])] == ["lemon"]


def test_items_stand_under_the_heading_of_their_kind() -> None:
    aisles = {
        item.name: item.aisle for item in shop("carrot", "chicken thighs", "milk", "plain flour", "cod")
    }
    assert aisles == {
        "carrot": "Vegetables and fruit",
        "chicken thighs": "Meat and fish",
        "milk": "Dairy and eggs",
        "plain flour": "Store cupboard",
        "cod": "Meat and fish",
    }
    rows = read_lexicon("aisles", columns=AISLE_COLUMNS)
    assert len({row["kind"] for row in rows}) == len(rows)


def test_an_amount_that_is_none_is_refused() -> None:
    with pytest.raises(CardwrightError, match="is no amount"):
        shop(line("flour", -1, "cup"))


@given(
    st.lists(
        st.tuples(st.sampled_from(["cup", "tablespoon", "teaspoon"]), st.integers(1, 24)),
        min_size=1,
        max_size=8,
    )
)
def test_a_sum_of_volumes_is_exact_whatever_its_units(parts: list[tuple[str, int]]) -> None:
    """16 tablespoons and 48 teaspoons a cup (NIST Handbook 44)."""
    spoons = {"cup": 48, "tablespoon": 3, "teaspoon": 1}
    [item] = shop(*(line("milk", count / 4, unit) for unit, count in parts))
    [total] = item.said
    expected = sum(Fraction(count, 4) * spoons[unit] for unit, count in parts)
    assert total.low * spoons[total.unit] == expected
