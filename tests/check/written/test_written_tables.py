"""Ingredient lists in columns are read by what their cells are."""

from __future__ import annotations

import pytest

from extract.check.written import read_written_text

Foods = list[tuple[str, str, float | None, str]]

COLUMNS: list[tuple[str, Foods]] = [
    (
        "| Food | Amount | |\n|---|---|---|\n| **Sauce** | | |\n| tomatoes | 2 | |\n| oil | 30 ml (2 tbsp) | |\n",
        [("sauce", "tomatoes", 2, ""), ("sauce", "oil", 30, "millilitre")],
    ),
    (
        "Sour\nRye flour      150 g      33\nWarm water     200 g      44\n\nDough\nSalt           9 g        2\n",
        [
            ("sour", "Rye flour", 150, "gram"),
            ("sour", "Warm water", 200, "gram"),
            ("dough", "Salt", 9, "gram"),
        ],
    ),
]


@pytest.mark.parametrize(("lines", "wanted"), COLUMNS, ids=["table", "baker's percent"])
def test_a_list_in_columns(lines: str, wanted: Foods) -> None:
    [dish] = read_written_text(f"# Test\n\n## Ingredients\n\n{lines}\n## Method\n\n1. Mix.\n").dishes
    found = [
        (part.name, line.name, line.amount and line.amount.low, line.amount.unit if line.amount else "")
        for part in dish.components
        for line in part.ingredients
    ]
    assert found == wanted


@pytest.mark.parametrize(
    "head",
    ["| Serves | 6 |", "**Serves 6 · one pan**", "*For 6*", "| Serves | Oven |\n|---|---|\n| 6 | hot |"],
)
def test_a_yield_is_read_in_any_layout(head: str) -> None:
    [dish] = read_written_text(
        f"# Test\n\n{head}\n\n## Ingredients\n\n- 2 eggs\n\n## Method\n\n1. Boil the eggs.\n"
    ).dishes
    assert dish.yield_ is not None
    assert dish.yield_.low == 6
