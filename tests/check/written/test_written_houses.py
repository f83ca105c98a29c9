"""Lists and methods as different houses lay them out: the foods, their amounts and the steps are found."""

from __future__ import annotations

import pytest

from extract.check.pairs.measures import compare
from extract.check.written import read_written_text
from extract.check.written.lines.line import read_line
from extract.check.written.method.mentions import Larder
from extract.check.written.method.method import read_step
from extract.check.written.yields import read_yield
from extract.model import Amount, Dish, Size

STEPS = "Warm the milk in a pan with the honey. Stir in the oats and cook for 9 minutes."
FOODS = [("milk", 500.0, "millilitre"), ("honey", 2.0, "tablespoon"), ("oats", 100.0, "gram")]
HOUSES = {
    "a dash behind the food": f"Oat pot\n\nmilk - 500 ml\nhoney - 2 T.\noats - 100 g\n\n{STEPS}\n",
    "one paragraph": f"# Oat pot\n\n**Milk**, 500 ml · **honey**, 2 tbsp · **oats**, 100 g · salt\n\n{STEPS}\n",
    "the list below": f"Oat pot\n\n1. {STEPS}\n\nWHAT YOU NEED\n500 ml milk\n2 tbsp honey\n100 g oats\n",
    "above the step": f"# Oat pot\n\n**1. Cooking**\n500 ml milk, 2 tbsp honey, 100 g oats\n{STEPS}\n",
    "labels in italics": f"# Oat pot\n\n*Pot* – 500 ml milk · 2 tbsp honey · 100 g oats · salt\n\n{STEPS}\n",
    "parts set off": f"# Oat pot\n\n**Ingredients:** 500 ml milk; 2 tbsp honey. *Top:* 100 g oats.\n\n{STEPS}\n",
    "a heading that counts": "OAT POT\n\nIngredients for 2 bowls:\n\n"
    f"milk 500 ml\nhoney 2 tbsp\noats 100 g\n\n{STEPS}\n",
    "a table of a page": "<html><h1>Oat pot</h1><table><tr><th>What</th><th>Metric</th></tr>"
    "<tr><td>Milk</td><td>500 ml</td></tr><tr><td>Honey</td><td>2 tbsp</td></tr>"
    f"<tr><td>Oats</td><td>100 g</td></tr></table><div><p>{STEPS}</p></div></html>",
    "tags behind the food": "<html><h1>Oat pot</h1><ul><li><b>Milk</b> <i>500 ml</i></li>"
    f"<li><b>Honey</b> <i>2 tbsp</i></li><li><b>Oats</b> <i>100 g</i></li></ul><p>{STEPS}</p></html>",
}


def lines(dish: Dish) -> list[tuple[str, float, str]]:
    found = [line for part in dish.components for line in part.ingredients]
    return [(line.name.lower(), line.amount.low, line.amount.unit) for line in found if line.amount]


@pytest.mark.parametrize("house", HOUSES)
def test_list_and_method_are_found_in_any_house(house: str) -> None:
    [dish] = read_written_text(HOUSES[house]).dishes
    assert lines(dish) == FOODS
    times = [action.duration.text for step in dish.method for action in step.actions if action.duration]
    assert times == ["9 minutes"]


LINES: list[tuple[str, list[tuple[str, float | None, str]]]] = [
    ("2 sliced cloves of garlic", [("garlic", 2, "clove")]),
    ("the milk from the bread, made up to 375 ml", [("milk", 375, "millilitre")]),
    ("2 large spoonfuls apricot jam", [("apricot jam", 2, "")]),
    ("1 leek in thick rings", [("leek", 1, "")]),
    ("Salt, white pepper", [("Salt", None, ""), ("white pepper", None, "")]),
    ("a great deal of pepper", [("pepper", None, "")]),
    ("2 chipotles, mashed, and a spoon of their sauce", [("chipotles", 2, "")]),
]


@pytest.mark.parametrize(("text", "wanted"), LINES)
def test_lines_are_read_as_they_are_written(text: str, wanted: list[tuple[str, float | None, str]]) -> None:
    found = [
        (one.name, one.amount and one.amount.low, one.amount.unit if one.amount else "")
        for one in read_line(text)
    ]
    assert found == wanted


def test_what_may_be_left_out_is_optional() -> None:
    assert [line.optional for line in read_line("4 tbsp rum (may be left out)")] == [True]
    assert [line.optional for line in read_line("4 tbsp rum (a good one)")] == [False]


@pytest.mark.parametrize(
    "text", ["Or bake it for 40 minutes.", "(In a pot it takes 40 minutes.)", "Put it on a second plate."]
)
def test_other_ways_and_second_plates_are_no_times(text: str) -> None:
    step, _ = read_step(text, 1, "", Larder((), ()))
    assert not any(action.duration for action in step.actions)
    told, _ = read_step("Bake it for 40 minutes (a second tray needs 5 more).", 1, "", Larder((), ()))
    assert any(action.duration for action in told.actions)


def test_what_is_made_counts_and_what_it_makes_a_good_one_of_does_not() -> None:
    assert read_yield("It makes a very good stand-in.") is None
    made = read_yield("It makes a loaf.")
    assert made is not None
    assert (made.low, made.unit) == (1, "loaf")


def _amount(low: float, unit: str, *others: tuple[float, str]) -> Amount:
    return Amount(
        low=low, high=low, unit=unit, equivalents=[Amount(low=a, high=a, unit=b) for a, b in others]
    )


def test_the_cups_beside_a_weight_decide() -> None:
    said = _amount(1.625, "cup")
    assert compare(said, _amount(385, "gram", (1.625, "cup")), "water").same
    assert not compare(said, _amount(350, "gram", (1.5, "cup")), "water").same


def test_the_weight_of_one_piece_is_round() -> None:
    roast = Amount(low=1, high=1, unit="", size=Size(low=13 / 3, high=13 / 3, unit="pound"))
    assert compare(_amount(4.3, "pound"), roast, "chuck roast").same
    assert not compare(_amount(5, "pound"), roast, "chuck roast").same
