"""What foods weigh: the USDA's own measures both ways, and no weight where none is known."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from pathlib import Path

import pytest

from extract.lexicon import read_lexicon, read_table
from extract.measure.units import convert_figure, dimension
from extract.measure.weights import (
    DENSITY_COLUMNS,
    FOOD_COLUMNS,
    PIECE_COLUMNS,
    WORD_COLUMNS,
    NoWeight,
    Weight,
    density,
    measure_of,
    piece,
)
from extract.measure.worked import to_grams
from extract.model import Amount, Size
from extract.spot.names.foods import name_keys

COLUMNS = ("said", "state", "count", "unit", "grams", "record")
USDA = list(read_table(Path(__file__).with_name("usda_weights.tsv"), COLUMNS))
DENSITIES = read_lexicon("densities", columns=DENSITY_COLUMNS)
PIECES = read_lexicon("pieces", columns=PIECE_COLUMNS)
FOODS = read_lexicon("measured_foods", columns=FOOD_COLUMNS)
TOLERANCE = Fraction(1, 20)


def grams(count: str, unit: str, food: str, state: str = "") -> Fraction | None:
    value = float(Fraction(count))
    worked = to_grams(Amount(low=value, high=value, unit=unit), food, state)
    return None if isinstance(worked, NoWeight) else worked[0][0]


@pytest.mark.parametrize("row", USDA, ids=lambda row: f"{row['said']} {row['state']} {row['unit']}".strip())
def test_a_household_measure_weighs_what_the_usda_measured(row: dict[str, str]) -> None:
    """USDA SR28, file WEIGHT: 110 measures of foods named as cooks name them."""
    found = grams(row["count"], row["unit"], row["said"], row["state"])
    assert found is not None
    assert abs(found - Fraction(row["grams"])) <= TOLERANCE * Fraction(row["grams"])


@pytest.mark.parametrize(
    "row",
    [row for row in USDA if row["unit"] in {"cup", "tablespoon", "teaspoon"}],
    ids=lambda row: f"{row['said']} {row['state']} {row['unit']}".strip(),
)
def test_that_weight_is_that_household_measure_again(row: dict[str, str]) -> None:
    """The way back: the printed grams as so many of the printed measure."""
    found = density(row["said"], row["state"])
    assert isinstance(found, Weight)
    millilitres = Fraction(row["grams"]) / found.grams
    count = convert_figure(millilitres, "millilitre", row["unit"])
    assert abs(count - Fraction(row["count"])) <= TOLERANCE * Fraction(row["count"])


def test_at_least_60_foods_are_held_both_ways_and_300_foods_have_a_density() -> None:
    assert len({row["record"] for row in USDA if row["unit"] in {"cup", "tablespoon", "teaspoon"}}) >= 60
    assert len({row["food"] for row in DENSITIES}) >= 300


@pytest.mark.parametrize(
    ("food", "state", "reason"),
    [
        ("kosher salt", "", "no weight is known for kosher salt"),
        ("greek yogurt", "", "no weight is known for greek yogurt"),
        ("steel-cut oats", "", "no weight is known"),
        ("moon dust", "", "no weight is known for moon dust"),
        ("onion", "", "depends on a state that was not said"),
        ("walnuts", "", "depends on a state that was not said"),
        ("chickpeas", "drained", "depends on a state that was not said"),
        ("plain flour", "sifted", "no weight is known when sifted"),
        ("almonds", "chopped", "no weight is known when chopped"),
        ("rice", "puffed", "no weight is known when puffed"),
    ],
)
def test_where_no_figure_is_known_the_reason_is_said(food: str, state: str, reason: str) -> None:
    found = density(food, state)
    assert isinstance(found, NoWeight)
    assert reason in found.reason


@pytest.mark.parametrize(
    ("name", "said", "other_name", "other_said"),
    [
        ("brown sugar", "packed", "brown sugar", "unpacked"),
        ("powdered sugar", "sifted", "powdered sugar", "unsifted"),
        ("onion", "chopped", "onion", "sliced"),
        ("cheddar", "diced", "cheddar", "grated"),
        ("spinach", "cooked", "spinach", "raw"),
        ("cream", "", "moon dust", ""),
    ],
)
def test_the_state_changes_the_weight(name: str, said: str, other_name: str, other_said: str) -> None:
    assert density(name, said) != density(other_name, other_said)


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("chopped onion", ""),
        ("onion", "finely chopped"),
        ("onions, chopped", ""),
        ("onion", "peeled and diced"),
        ("Onion", "CHOPPED"),
        ("red onion", "minced"),
    ],
)
def test_the_state_may_stand_in_the_name_or_beside_it(name: str, said: str) -> None:
    assert density(name, said) == density("onion", "chopped")


@pytest.mark.parametrize(
    ("name", "unit", "said", "weight"),
    [
        ("large eggs", "", "", 50),
        ("eggs", "", "", 50),
        ("extra-large egg", "", "", 56),
        ("small onion", "", "chopped", 70),
        ("medium-sized carrots", "", "", 61),
        ("chicken", "breast", "", 145),
        ("tofu", "block", "", 464),
    ],
)
def test_pieces_weigh_by_the_size_that_was_said(name: str, unit: str, said: str, weight: int) -> None:
    """USDA SR28, file WEIGHT; a block of tofu is four quarters of 116 g."""
    found = piece(name, unit, said)
    assert isinstance(found, Weight)
    assert found.grams == weight


def test_the_size_of_a_can_that_was_said_is_its_weight() -> None:
    """A pound is 453.59237 g (1959 agreement), so two 14-ounce cans are 793.786… g."""
    can = Amount(low=2, high=2, unit="can", size=Size(low=14, high=14, unit="ounce"))
    worked = to_grams(can, "chopped tomatoes")
    assert not isinstance(worked, NoWeight)
    assert worked[0][0] == 28 * Fraction("28.349523125")


def test_a_weight_says_what_it_rests_on() -> None:
    found = density("sour cream")
    assert isinstance(found, Weight)
    assert "USDA SR28 01056" in found.basis
    assert "its own measures differ by 20 %" in found.basis


def test_every_row_of_the_weights_keeps_the_rules() -> None:
    known = {row["food"] for row in FOODS}
    states = {
        word
        for row in WORDS
        if row["role"] in {"state", "cut"}
        for word in row["state"].replace("*", "").split()
    }
    for row in DENSITIES:
        count, _, unit = row["measure"].rpartition(" ")
        assert row["food"] in known, row
        assert dimension(unit) == "volume", row
        assert 0 < Fraction(row["grams"]) / Fraction(count or 1) < 1001, row
        assert set(row["state"].split()) <= states, row
        assert row["default"] in {"", "yes"}, row
        assert row["record"].isdigit(), row
        assert len(row["record"]) == 5, row
    for row in PIECES:
        assert row["food"] in known, row
        assert Fraction(row["grams"]) / Fraction(row["count"]) > 0, row


WORDS = read_lexicon("weight_words", columns=WORD_COLUMNS)


def test_no_food_has_two_weights_in_one_state_nor_two_defaults() -> None:
    for rows, parts in ((DENSITIES, ("food", "state")), (PIECES, ("food", "unit", "size"))):
        doubled = [
            key for key, n in Counter(tuple(row[part] for part in parts) for row in rows).items() if n > 1
        ]
        assert doubled == []
        defaults = Counter((row["food"], row.get("unit", "")) for row in rows if row["default"])
        assert [key for key, count in defaults.items() if count > 1] == []


def test_no_name_belongs_to_two_measured_foods() -> None:
    owners: dict[tuple[str, ...], set[str]] = {}
    for row in FOODS:
        for name in (row["food"], *filter(None, row["also"].split("; "))):
            owners.setdefault(name_keys(name), set()).add(row["food"])
    assert {key: foods for key, foods in owners.items() if len(foods) > 1} == {}
    assert all(row["by"] in {"weight", "volume"} and row["us"] in {"cup", "scale"} for row in FOODS)


def test_how_cooks_measure_a_food() -> None:
    flour, milk, beef = measure_of("plain flour"), measure_of("whole milk"), measure_of("ox heart")
    assert flour is not None
    assert (flour.by, flour.us) == ("weight", "cup")
    assert milk is not None
    assert milk.by == "volume"
    assert beef is None
