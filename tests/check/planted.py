"""Whether a reported difference is a planted one: of its kind, and about its subject."""

from __future__ import annotations

import re
from typing import Any

from rapidfuzz import fuzz

from extract.check.report import Difference
from extract.spot.names.foods import name_keys, same_food

KINDS = {
    "alternative_dropped": "alternative",
    "optional": "alternative",
    "unit": "quantity",
    "amount": "quantity",
    "portion": "quantity",
    "batch": "quantity",
    "oven_temperature": "temperature",
    "internal_temperature": "temperature",
    "level": "temperature",
}
_WORD = re.compile(r"\b(?!heat\b)[a-z]+")
FOODS = ("missing", "extra", "alternative", "quantity")


def kind_of(kind: str) -> str:
    """Kinds that one report may give for another: a unit is an amount, a share is one too."""
    return KINDS.get(kind, kind)


def answers(planted: dict[str, Any], found: Difference) -> bool:
    """Whether ``found`` names what was planted: the food, or the figure that is written."""
    kind = kind_of(planted["kind"])
    if kind_of(found.kind) != kind:
        return False
    if kind in FOODS:
        parts = re.split(r"/| in place of | on | into |,| \(", planted["what"])
        return any(_names(part, found.about) for part in parts)
    if kind in ("temperature", "time"):
        return bool(_figures(planted["written"]) & _figures(found.written))
    return True


def _names(part: str, about: str) -> bool:
    one, other = " ".join(name_keys(part)), " ".join(name_keys(about))
    return bool(one and other) and (same_food(part, about) or fuzz.token_set_ratio(one, other) >= 85)


def _figures(text: str) -> set[str]:
    """The figures of a time or a heat, or its words where it is a level ("medium high")."""
    return set(re.findall(r"\d+", text)) or {" ".join(_WORD.findall(text.lower()))}
