"""Lengths and tins in words."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest

from extract.measure.tins import find_lengths, find_tins


@pytest.mark.parametrize(
    ("text", "other"),
    [
        ("a 9-inch round tin", "23 cm"),
        ("a 9 by 13 inch dish", "23 x 33 cm"),
        ("9 x 13-inch pan", "23 x 33 cm"),
        ("1-inch pieces", "2.5 cm"),
        ("1 1/2 inches thick", "3.8 cm"),
        ("1 to 2 inches", "2.5–5 cm"),
        ("a 20 cm tin", "8 inches"),
        ("a 23cm tin", "9 inches"),
        ("1/2 inch dice", "1.3 cm"),
        ("2.5 cm cubes", "1 inch"),
        ('an 8" pan', "20 cm"),
        ("a nine inch springform", "23 cm"),
        ("a nine by thirteen inch dish", "23 x 33 cm"),
        ("One-inch pieces", "2.5 cm"),
    ],
)
def test_a_length_is_given_in_the_other_unit(text: str, other: str) -> None:
    """1 inch is 2.54 cm (1959 agreement); 9 inches as 23 cm and 8 as 20 cm are common practice, no source."""
    [length] = find_lengths(text)
    assert length.other_scale() == other


@pytest.mark.parametrize(
    "text", ["350 degrees", "2 cups", "inch by inch", "0 inch", "cut it small", "9 incha"]
)
def test_what_is_no_length_is_left_alone(text: str) -> None:
    assert list(find_lengths(text)) == []


@pytest.mark.parametrize(
    ("text", "shape", "area"),
    [
        ("an 8-inch round cake tin", "round", math.pi * 16),
        ("an 8-inch square pan", "square", 64),
        ("a 9 by 13 inch baking dish", "rectangle", 117),
        ("a 20 cm tin", "round", math.pi * 100),
        ("an eight-inch square tin", "square", 64),
    ],
)
def test_a_tin_has_the_area_of_its_floor(text: str, shape: str, area: float) -> None:
    [tin] = find_tins(text)
    assert tin.shape == shape
    assert tin.area == pytest.approx(area)


@pytest.mark.parametrize(
    ("before", "after", "factor"),
    [
        ("8-inch round tin", "9-inch round tin", 1.265625),
        ("8-inch square tin", "9 x 13 inch tin", 1.828125),
        ("20 cm round tin", "23 cm round tin", 1.3225),
    ],
)
def test_areas_compare_as_worked_on_paper(before: str, after: str, factor: float) -> None:
    [small], [large] = find_tins(before), find_tins(after)
    assert large.area / small.area == pytest.approx(factor, abs=1e-6)
    if small.shape == large.shape:
        assert small.resized(Fraction(factor)).split()[0] == after.split("-")[0].split()[0]


def test_lengths_that_are_no_tins_are_none() -> None:
    assert list(find_tins("cut into 1-inch pieces and put them in the tin")) == []
    assert list(find_tins("a 3 to 4 inch tin")) == []
