"""Drafts of the invented shows beside the answers a careful reader gave, over all shows together.

The comparison is a small one of its own: an ingredient line is found where a drafted line names the same food,
and right where the amount and its unit are the same too, or neither has one. Lines are matched one to one in
the best way. The floors stand two points under what was measured when they were set.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from drafted import drafted
from scipy.optimize import linear_sum_assignment

from extract.model import Dish, Ingredient, RecipeDraft
from extract.spot.names.foods import same_food

HERE = Path(__file__).parent
SHOWS = HERE / "shows"
# A piece named by its cut is one piece of it, and a stalk of celery a rib.
ALIKE = {
    "leaf": "",
    "fillet": "",
    "breast": "",
    "thigh": "",
    "piece": "",
    "ear": "",
    "head": "",
    "stalk": "rib",
}
CLOSE = 0.02
NAME_FLOOR = 88.5
AMOUNT_FLOOR = 82.5
DISH_FLOOR = 0.8


@dataclass(frozen=True)
class Compared:
    """One show: dishes told and drafted, lines told (those that are not optional) and drafted, and matches.

    ``found`` and ``right`` count drafted lines with a match, ``found_told`` and ``right_told`` told lines.
    """

    dishes: tuple[int, int]
    told: int
    drafted: int
    found: int
    right: int
    found_told: int
    right_told: int


def golds() -> list[dict[str, Any]]:
    return [json.loads(path.read_text(encoding="utf-8")) for path in sorted(SHOWS.glob("*.gold.json"))]


def lines_of(dishes: list[Dish]) -> list[Ingredient]:
    return [line for dish in dishes for part in dish.components for line in part.ingredients]


def names_match(line: Ingredient, told: dict[str, Any]) -> bool:
    return any(same_food(line.name, name) for name in (told["name"], *told["also"]))


def amounts_match(line: Ingredient, told: dict[str, Any]) -> bool:
    if line.amount is None or told["low"] is None:
        return line.amount is None and told["low"] is None
    units = {ALIKE.get(unit, unit) for unit in (line.amount.unit, told["unit"])}
    ends = ((line.amount.low, told["low"]), (line.amount.high, told["high"]))
    return len(units) == 1 and all(abs(a - b) <= CLOSE * max(a, b) for a, b in ends)


def compare(gold: dict[str, Any], draft: RecipeDraft) -> Compared:
    told = [line for dish in gold["dishes"] for line in dish["ingredients"]]
    drafted = lines_of(draft.dishes)
    worth = [[names_match(d, t) * (2 + amounts_match(d, t)) for t in told] for d in drafted]
    pairs = [(d, t) for d, t in zip(*linear_sum_assignment(worth, maximize=True), strict=True) if worth[d][t]]
    right = [(d, t) for d, t in pairs if amounts_match(drafted[d], told[t])]
    needed = {i for i, line in enumerate(told) if not line["optional"]}
    return Compared(
        dishes=(len(gold["dishes"]), len(draft.dishes)),
        told=len(needed),
        drafted=len(drafted),
        found=len(pairs),
        right=len(right),
        found_told=sum(t in needed for _, t in pairs),
        right_told=sum(t in needed for _, t in right),
    )


@pytest.fixture(scope="module")
def compared() -> list[Compared]:
    return [compare(gold, drafted(gold["id"])) for gold in golds()]


def f1(hits: int, drafted: int, hits_told: int, told: int) -> float:
    """The harmonic mean of the shares of drafted and of told lines that are hits, of 100."""
    precision, recall = hits / drafted, hits_told / told
    return 200 * precision * recall / (precision + recall)


def test_nearly_every_show_has_its_dishes(compared: list[Compared]) -> None:
    right = sum(told == drafted for told, drafted in (show.dishes for show in compared))
    assert right / len(compared) >= DISH_FLOOR


def test_lines_are_found(compared: list[Compared]) -> None:
    sums = [
        sum(getattr(show, key) for show in compared) for key in ("found", "drafted", "found_told", "told")
    ]
    assert f1(*sums) >= NAME_FLOOR


def test_amounts_are_right(compared: list[Compared]) -> None:
    sums = [
        sum(getattr(show, key) for show in compared) for key in ("right", "drafted", "right_told", "told")
    ]
    assert f1(*sums) >= AMOUNT_FLOOR


@pytest.mark.parametrize(
    ("unit", "low", "high", "same"),
    [
        ("cup", 2.0, 2.0, True),
        ("cup", 2.0, 3.0, False),
        ("pint", 2.0, 2.0, False),
        ("", None, None, False),
    ],
)
def test_the_comparison_tells_right_amounts_from_wrong(
    unit: str, low: float | None, high: float | None, same: bool
) -> None:
    line = Ingredient.model_validate({"name": "oats", "amount": {"low": 2, "high": 2, "unit": "cup"}})
    assert amounts_match(line, {"low": low, "high": high, "unit": unit}) is same
