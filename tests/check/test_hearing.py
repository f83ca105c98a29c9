"""Said names that are no food are mended by the written ones, and by nothing else."""

from __future__ import annotations

import pytest

from extract.check.pairs.hearing import as_meant, rejoined


@pytest.mark.parametrize(
    ("said", "written", "meant"),
    [
        ("leaks", "leeks", "leeks"),
        ("flower", "plain flour", "flour"),
        ("tie basil leaves", "Thai basil leaves", "thai basil leaves"),
        ("cosher salt", "kosher salt", "kosher salt"),
        ("pears", "peas", ""),  # a food as it stands
        ("leftover", "polenta crust", ""),
        ("old bread", "stale bread", ""),
        ("mustard", "mustard powder", ""),  # only fewer words
    ],
)
def test_a_name_that_is_no_food_is_mended_by_sound(said: str, written: str, meant: str) -> None:
    assert as_meant(said, written) == meant


@pytest.mark.parametrize(
    ("name", "whole"), [("egg plants", "eggplants"), ("nut meg", "nutmeg"), ("egg yolks", ""), ("leeks", "")]
)
def test_two_words_are_joined_where_that_makes_a_food(name: str, whole: str) -> None:
    assert rejoined(name) == whole
