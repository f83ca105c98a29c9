"""Plain amounts against quantulum3, a general reader of quantities, in words and in figures.

It reads physics rather than kitchens ("half a cup" as half a unit a cup, a range as its mean), so that only
what both understand alike is compared: one number before one unit. "Pounds" it takes for money.
"""

from __future__ import annotations

import warnings
from fractions import Fraction
from functools import cache
from types import ModuleType

import pytest
from marked_sentences import parse

from extract.spot.amounts.find import find_amounts

NUMBERS = ("2", "12", "250", "1.5", "0.75", "three", "twelve", "twenty five", "a hundred")
# The unit of a draft, and quantulum3's name of it.
UNITS = {
    "teaspoon": "teaspoon",
    "tablespoon": "tablespoon",
    "cup": "cup",
    "quart": "quart",
    "litre": "litre",
    "millilitre": "cubic centimetre",  # the same volume
    "gram": "gram",
    "kilogram": "kilogram",
    "ounce": "ounce",
}


@cache
def quantulum() -> ModuleType:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # it warns that its classifier is not installed
        from quantulum3 import parser
    return parser


@pytest.mark.parametrize("unit", UNITS)
def test_one_number_before_one_unit_is_read_alike(unit: str) -> None:
    ours, theirs = [], []
    for number in NUMBERS:
        text = f"add {number} {unit}s of oats"
        ours += [(float(one.low or 0), one.unit) for one in find_amounts(parse(text))]
        theirs += [(one.value, one.unit.name) for one in quantulum().parse(text)]
    assert [(Fraction(value), UNITS[name]) for value, name in ours] == [
        (Fraction(value), name) for value, name in theirs
    ]
    assert len(ours) == len(NUMBERS)
