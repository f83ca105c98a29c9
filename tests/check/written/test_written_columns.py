"""Recipes without a headed list of lines: set in columns, in dots, in one line, with numbers, in sentences."""

from __future__ import annotations

import pytest

from extract.check.written import read_written_text

Foods = list[tuple[str, float | None, str]]

LAYOUTS: dict[str, tuple[str, Foods, int]] = {
    "two columns with a bar": (
        "# Soup\n\nINGREDIENTS      |  METHOD\n2 leeks          |  Wash the leeks and cut them\n"
        "1 l fish stock   |  into rings.\n50 g butter      |\n1 tsp salt       |  Simmer for 20 minutes.\n",
        [("leeks", 2, ""), ("fish stock", 1, "litre"), ("butter", 50, "gram"), ("salt", 1, "teaspoon")],
        2,
    ),
    "two columns with a gap": (
        "Soup\n\nINGREDIENTS         METHOD\n2 leeks             Wash the leeks and cut\n"
        "1 l fish stock      them into rings. Simmer\n50 g butter         for 20 minutes.\n",
        [("leeks", 2, ""), ("fish stock", 1, "litre"), ("butter", 50, "gram")],
        1,
    ),
    "dots, and the steps under each part": (
        "GLAZE\nhoney ........ 2 tbsp\nsalt ......... pinch\n  > Warm the honey.\n\n"
        "CAKE\nplain flour ... 200 g\neggs ......... 3\n  > Beat the eggs.\n",
        [("honey", 2, "tablespoon"), ("salt", 1, "pinch"), ("plain flour", 200, "gram"), ("eggs", 3, "")],
        2,
    ),
    "a column of parts": (
        "Cake\n\nPART      ITEM          QTY\nGlaze     Honey         30 ml\n          Black pepper  TT\n"
        "Cake      Plain flour   200 g\n          Eggs          3 ea\n\nMETHOD\n1. Mix.\n",
        [
            ("Honey", 30, "millilitre"),
            ("Black pepper", None, ""),
            ("Plain flour", 200, "gram"),
            ("Eggs", 3, ""),
        ],
        1,
    ),
    "a list with numbers": (
        "# Cake\n\nIngredients, in order of use:\n\n1. Plain flour, 200 g\n2. Eggs, 3\n\nMethod:\n\n1. Mix 1 and 2.\n",
        [("Plain flour", 200, "gram"), ("Eggs", 3, "")],
        1,
    ),
    "a part in a line": (
        "# Cake\n\n**Cake:** 200 g plain flour; 3 eggs; pinch salt\n\n**Glaze:** 2 tbsp honey · 10 g butter\n\n"
        "**1.** Beat.\n\n**2.** Bake.\n",
        [
            ("plain flour", 200, "gram"),
            ("eggs", 3, ""),
            ("salt", 1, "pinch"),
            ("honey", 2, "tablespoon"),
            ("butter", 10, "gram"),
        ],
        2,
    ),
    "sentences": (
        "# Cake\n\nBeat 3 eggs with **200 g of plain flour** and half a teaspoon of salt for six minutes.\n\n"
        "Pour it into a tin with a lump of butter and bake for 40 minutes.\n",
        [("eggs", 3, ""), ("plain flour", 200, "gram"), ("salt", 0.5, "teaspoon"), ("butter", None, "")],
        2,
    ),
    "bold lines": (
        "# Cake\n\n**200 g plain flour**\n**3 eggs**, beaten\n**2 tbsp honey**\n\n**1** Beat.\n\n**2** Bake.\n",
        [("plain flour", 200, "gram"), ("eggs", 3, ""), ("honey", 2, "tablespoon")],
        2,
    ),
    "amounts behind the foods": (
        "# Curry\n\n## Ingredients\n\n- Onions 2, sliced\n- Ginger and garlic 1 tbsp of each\n"
        "- Whole spices 1 cinnamon stick, 4 cloves\n\n## Method\n\n1. Fry.\n",
        [
            ("Onions", 2, ""),
            ("Ginger", 1, "tablespoon"),
            ("garlic", 1, "tablespoon"),
            ("cinnamon", 1, "stick"),
            ("cloves", 4, ""),
        ],
        1,
    ),
}


@pytest.mark.parametrize(("text", "wanted", "steps"), LAYOUTS.values(), ids=LAYOUTS)
def test_a_layout_gives_its_foods_and_its_steps(text: str, wanted: Foods, steps: int) -> None:
    [dish] = read_written_text(text).dishes
    found = [
        (line.name, line.amount.low if line.amount else None, line.amount.unit if line.amount else "")
        for part in dish.components
        for line in part.ingredients
    ]
    assert found == wanted
    assert len(dish.method) == steps


def test_a_tip_is_no_step() -> None:
    [dish] = read_written_text(
        "# Soup\n\n- 2 leeks\n\n1. Boil the leeks.\n\nTip: freeze it for 3 hours.\n"
    ).dishes
    assert [step.text for step in dish.method] == ["Boil the leeks."]


@pytest.mark.parametrize("front", ["Oven: 180 °C", "Serves 4        Fire: lid at 180 °C"])
def test_a_heat_above_the_list_is_read(front: str) -> None:
    [dish] = read_written_text(f"# Pie\n\n{front}\n\n- 2 leeks\n\n1. Bake the leeks.\n").dishes
    heats = [action.heat.low for step in dish.method for action in step.actions if action.heat]
    assert heats == [180]
