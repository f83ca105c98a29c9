"""Yields, tables, labels and further foods of a line are read wherever written recipes put them."""

from __future__ import annotations

import pytest

from extract.check.written import read_written_text
from extract.check.written.lines.line import read_line
from extract.check.written.method.mentions import Larder
from extract.check.written.method.method import read_step
from extract.check.written.yields import read_yield
from extract.model import Dish

Counts = list[tuple[float, float, str]]
YIELDS: list[tuple[str, Counts]] = [
    ("8 servings", [(8, 8, "servings")]),
    ("For 8 people", [(8, 8, "servings")]),
    ("Prep 20 min | Serves 8", [(8, 8, "servings")]),
    ("Makes 1 loaf (10 slices)", [(1, 1, "loaf"), (10, 10, "slices")]),
    ("Makes one 9-inch cake", [(1, 1, "cake")]),
    ("Serves 4 (or 6 as a starter)", [(4, 4, "servings"), (6, 6, "servings")]),
    ("A bun for the night watch. Makes about 24 twists.", [(24, 24, "twists")]),
    ("Makes 2 cups", [(2, 2, "cups")]),
    ("Add 8 eggs", []),
    ("Bake for 10 minutes", []),
    ("Serve with 2 lemons", []),
]


def counts(dish: Dish) -> Counts:
    made = dish.yield_
    return [(each.low, each.high, each.unit) for each in (made, *made.also)] if made else []


@pytest.mark.parametrize(("text", "wanted"), YIELDS)
def test_a_yield_is_read_in_whatever_words_it_is_given(text: str, wanted: Counts) -> None:
    made = read_yield(text)
    found = [(each.low, each.high, each.unit) for each in (made, *made.also)] if made else []
    assert found == wanted


LIST = "## Ingredients\n\n- 2 pears\n\n## Method\n\n1. Poach the pears.\n"
PLACES = [
    f"# Pears\n\n1 loaf (10 slices)\n\n{LIST}",
    f"# Pears\n\n{LIST}\nMakes 1 loaf (10 slices).\n",
    f"# Pears (makes 1 loaf)\n\n{LIST}",
]


@pytest.mark.parametrize("text", PLACES)
def test_a_yield_is_read_wherever_it_stands(text: str) -> None:
    assert counts(read_written_text(text).dishes[0])[0] == (1, 1, "loaf")


def test_every_recipe_of_a_file_keeps_its_own_yield() -> None:
    text = f"# Pears\n\nServes 4\n\n{LIST}\n# Apples\n\nServes 8\n\n{LIST.replace('pears', 'apples')}"
    first, second = read_written_text(text).dishes
    assert (first.title, counts(first)) == ("Pears", [(4, 4, "servings")])
    assert (second.title, counts(second)) == ("Apples", [(8, 8, "servings")])


def test_the_heading_right_above_a_list_is_the_title_not_the_books() -> None:
    text = f"# Winter book\n\n## Pears\n\n{LIST.replace('##', '###')}"
    assert [dish.title for dish in read_written_text(text).dishes] == ["Pears"]


def test_the_head_of_a_table_and_a_label_are_no_foods() -> None:
    text = "# Pears\n\n## Ingredients\n\n| Quantity | |\n|---|---|\n| 2 | pears |\n\nTo finish\n\n- Pearl sugar\n"
    [dish] = read_written_text(text).dishes
    named = [(part.name, line.name) for part in dish.components for line in part.ingredients]
    assert named == [("", "pears"), ("to finish", "Pearl sugar")]


Lines = list[tuple[str, float | None, str]]
FURTHER: list[tuple[str, Lines]] = [
    ("100ml water mixed with 1 teaspoon flour", [("water", 100, "millilitre"), ("flour", 1, "teaspoon")]),
    ("½ cup soy sauce, plus 1 tbsp more", [("soy sauce", 0.5, "cup"), ("soy sauce", 1, "tablespoon")]),
    ("1/2 cup plus 2 tbsp milk", [("milk", 0.625, "cup")]),
    ("feta, 100 g, crumbled", [("feta", 100, "gram")]),
    ("4 whole cloves", [("cloves", 4, "")]),
    ("6 garlic cloves", [("garlic", 6, "clove")]),
    ("Generous pinch of salt", [("salt", 1, "pinch")]),
    ("3-inch (7.5 cm) piece ginger", [("ginger", 1, "piece")]),
    ("Zest of 1 lemon and juice of ½", [("lemon", 1, "")]),
    ("1 kg pork belly in one piece", [("pork belly", 1, "kilogram")]),
    ("1 litre chicken or vegetable stock", [("chicken stock", 1, "litre")]),
]


@pytest.mark.parametrize(("text", "wanted"), FURTHER)
def test_every_food_of_a_line_is_read_with_its_own_amount(text: str, wanted: Lines) -> None:
    found = [
        (line.name, line.amount.low if line.amount else None, line.amount.unit if line.amount else "")
        for line in read_line(text)
    ]
    assert found == wanted


SHARES: list[tuple[str, list[tuple[float | str, str]]]] = [
    ("Mash the butter for the filling and spread half of it over the dough.", [(0.5, "filling")]),
    ("Quarter the eggs.", []),
    ("Press half of the remaining seeds over the top.", [(0.5, "remaining seeds")]),
    ("Toss with all the remaining pesto.", [("all", "pesto")]),
    ("Blend with the remaining paste ingredients.", []),
]


@pytest.mark.parametrize(("text", "wanted"), SHARES)
def test_a_share_is_of_what_was_made(text: str, wanted: list[tuple[float | str, str]]) -> None:
    _, portions = read_step(text, 1, "", Larder(["butter", "eggs", "pesto"], ["filling", "dough"]))
    assert [(portion.fraction, portion.of) for portion in portions] == wanted


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("Bake until browned and 155°F in the center.", "internal"),
        ("Grill for 3 minutes, to 67°C in the centre.", "internal"),
        ("Bake at 180°C in the oven.", "oven"),
    ],
)
def test_a_figure_of_the_inside_is_no_oven(text: str, kind: str) -> None:
    step, _ = read_step(text, 1, "", Larder(["lamb"], []))
    assert [action.heat.kind for action in step.actions if action.heat] == [kind]
