"""Published minimum core temperatures, row by row, and what a cook said held against them."""

from __future__ import annotations

from fractions import Fraction

import pytest

from extract.lexicon import read_lexicon
from extract.safety.minimums import AUTHORITIES, COLUMNS, authority_for, meets, minimums, published

# USDA FSIS, Safe Minimum Internal Temperature Chart, and FoodSafety.gov, Cook to a Safe Minimum Internal
# Temperature: class of food, °F, °C as whole degrees, rest in minutes.
USDA = [
    ("whole cut", 145, 63, 3),
    ("pork cut", 145, 63, 3),
    ("ground meat", 160, 71, 0),
    ("raw ham", 145, 63, 3),
    ("poultry", 165, 74, 0),
    ("whole poultry", 165, 74, 0),
    ("ground poultry", 165, 74, 0),
    ("stuffing", 165, 74, 0),
    ("egg dish", 160, 71, 0),
    ("fish", 145, 63, 0),
    ("crustacean", 145, 63, 0),
    ("mollusc", 145, 63, 0),
    ("leftovers", 165, 74, 0),
    ("casserole", 165, 74, 0),
    ("game", 160, 71, 0),
]
# Health Canada, Safe internal cooking temperatures; game by its chart of 2012.
HEALTH_CANADA = [
    ("whole cut", 145, 63),
    ("pork cut", 160, 71),
    ("ground meat", 160, 71),
    ("poultry", 165, 74),
    ("ground poultry", 165, 74),
    ("stuffing", 165, 74),
    ("whole poultry", 180, 82),
    ("egg dish", 165, 74),
    ("fish", 158, 70),
    ("crustacean", 165, 74),
    ("mollusc", 165, 74),
    ("leftovers", 165, 74),
    ("hot dog", 165, 74),
    ("game", 165, 74),
]
# UK Food Standards Agency, Cooking your food: °C, hold in minutes; reaching any one pair is enough.
UK_FSA = [
    (60, Fraction(45)),
    (65, Fraction(10)),
    (70, Fraction(2)),
    (75, Fraction(1, 2)),
    (80, Fraction(1, 10)),
]
# FoodSafety.gov gives these a look in place of a figure.
LOOKS = [("egg", "yolk and white are firm"), ("crustacean", "opaque"), ("mollusc", "shells open")]
# FDA Food Code as adopted in state codes: 3-501.14 cooling, 3-501.16 holding, 3-403.11 reheating.
FOOD_CODE = [
    ("cooling first", 70, 21, "within 2 hours"),
    ("cooling whole", 41, 5, "within a total of 6 hours"),
    ("hot holding", 135, 57, ""),
    ("cold holding", 41, 5, ""),
    ("reheating", 165, 74, "15 seconds"),
]


@pytest.mark.parametrize(("food_class", "deg_f", "deg_c", "rest"), USDA)
def test_the_minimum_is_usdas(food_class: str, deg_f: int, deg_c: int, rest: int) -> None:
    row = minimums(food_class, "USDA")[0]
    assert row.deg_c is not None
    assert (row.deg_f, round(row.deg_c), row.minutes()) == (deg_f, deg_c, rest)
    assert meets(food_class, Fraction(deg_f), "degF", "USDA")
    assert meets(food_class, Fraction(deg_c), "degC", "USDA")
    assert meets(food_class, Fraction(deg_f - 1), "degF", "USDA") is False
    assert meets(food_class, Fraction(deg_c - 1), "degC", "USDA") is False


@pytest.mark.parametrize(("food_class", "deg_f", "deg_c"), HEALTH_CANADA)
def test_the_minimum_is_health_canadas(food_class: str, deg_f: int, deg_c: int) -> None:
    row = minimums(food_class, "Health Canada")[0]
    assert (row.deg_f, row.deg_c) == (deg_f, deg_c)
    assert meets(food_class, Fraction(deg_c), "degC", "Health Canada")
    assert meets(food_class, Fraction(deg_c - 1), "degC", "Health Canada") is False


@pytest.mark.parametrize(("deg_c", "minutes"), UK_FSA)
def test_any_pair_of_the_uk_agency_is_enough(deg_c: int, minutes: Fraction) -> None:
    assert [row for row in minimums("poultry", "UK FSA") if row.deg_c == deg_c and row.minutes() == minutes]
    assert meets("poultry", Fraction(deg_c), "degC", "UK FSA", minutes)
    if minutes >= 2:
        assert meets("poultry", Fraction(deg_c), "degC", "UK FSA", minutes / 2) is False


@pytest.mark.parametrize(("food_class", "look"), LOOKS)
def test_where_the_chart_gives_a_look_it_is_kept(food_class: str, look: str) -> None:
    assert look in " ".join(row.look for row in minimums(food_class, "USDA"))
    assert meets("egg", Fraction(145), "degF", "USDA") is None


@pytest.mark.parametrize(("what", "deg_f", "deg_c", "time"), FOOD_CODE)
def test_the_food_codes_figures_stand_in_the_table(what: str, deg_f: int, deg_c: int, time: str) -> None:
    [row] = [row for row in read_lexicon("safe_temperatures", columns=COLUMNS) if row["classes"] == what]
    assert (row["authority"], int(row["deg_f"]), int(row["deg_c"]), row["time"]) == (
        "FDA Food Code",
        deg_f,
        deg_c,
        time,
    )


@pytest.mark.parametrize(
    ("food_class", "degrees", "unit", "minutes", "authority", "enough"),
    [
        ("poultry", 74, "degC", 0, "USDA", True),
        ("poultry", 73, "degC", 0, "USDA", False),
        ("pork cut", 145, "degF", 0, "USDA", True),
        ("pork cut", 145, "degF", 0, "Health Canada", False),
        ("ground meat", 70, "degC", 2, "UK FSA", True),
        ("ground meat", 70, "degC", 2, "USDA", False),
        ("whole poultry", 165, "degF", 0, "USDA", True),
        ("whole poultry", 165, "degF", 0, "Health Canada", False),
    ],
)
def test_authorities_differ_and_each_is_held_to_its_own_chart(
    food_class: str, degrees: int, unit: str, minutes: int, authority: str, enough: bool
) -> None:
    assert meets(food_class, Fraction(degrees), unit, authority, Fraction(minutes)) is enough


def test_every_row_is_plausible_and_both_scales_agree() -> None:
    """Charts print °C rounded from °F or the other way round, within a degree."""
    for row in read_lexicon("safe_temperatures", columns=COLUMNS):
        assert row["authority"] in {
            "USDA FSIS",
            "FoodSafety.gov",
            *AUTHORITIES["Health Canada"],
            "UK FSA",
            "FDA Food Code",
        }
        assert bool(row["deg_f"]) == bool(row["deg_c"]), row
        assert row["deg_f"] or row["look"], row
        if row["deg_f"]:
            assert abs((float(row["deg_f"]) - 32) * 5 / 9 - float(row["deg_c"])) <= 1, row


def test_the_words_name_the_authority_and_both_scales() -> None:
    assert published("poultry", "USDA") == "USDA FSIS 165 °F (74 °C); Health Canada 165 °F (74 °C)"
    assert "with a rest of at least 3 minutes" in published("pork cut", "USDA")
    assert published("fish", "Health Canada").startswith("Health Canada 158 °F (70 °C); USDA FSIS 145 °F")
    assert published("fish", "UK FSA").startswith(
        "UK FSA 158 °F (70 °C) for 2 minutes, or another of its pairs"
    )


def test_the_chart_goes_with_the_cooks_measures() -> None:
    measures = ("us", "metric", "au", "ca", "uk")
    assert [authority_for(each) for each in measures] == ["USDA", "USDA", "USDA", "Health Canada", "UK FSA"]
