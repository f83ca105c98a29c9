"""The parts of a dish: where they open, get their names and end. The talks are invented."""

from __future__ import annotations

import pytest
from heard import segments_of, spotted_in

from extract.reconcile.kitchen import Kitchen, reconcile
from extract.reconcile.lines.components import Part, component_at


def kitchen_of(text: str) -> Kitchen:
    (kitchen,) = reconcile(spotted_in(text), segments_of(text)).kitchens
    return kitchen


def parts_in(text: str) -> dict[str, list[str]]:
    """The foods of each part of the one dish in a talk, "" for the dish itself."""
    parts: dict[str, list[str]] = {}
    for line in kitchen_of(text).lines:
        parts.setdefault(line.component, []).append(line.name)
    return parts


TALKS = [
    (
        "For the glaze, five tablespoons of honey and a third of a cup of orange juice. Half of the "
        "glaze goes over one "
        "squash.",
        {"glaze": ["honey", "orange juice"], "": ["squash"]},
    ),
    ("Two cups of rice and three cups of water.", {"": ["rice", "water"]}),
]


@pytest.mark.parametrize(("text", "parts"), TALKS)
def test_foods_stand_in_the_part_they_go_into(text: str, parts: dict[str, list[str]]) -> None:
    found = parts_in(text)
    assert {part: sorted(foods) for part, foods in found.items()} == {
        part: sorted(foods) for part, foods in parts.items()
    }


def test_a_part_is_found_by_token() -> None:
    parts = [Part("rub", 3, 9), Part("glaze", 12, 20)]
    assert [component_at(parts, at) for at in (2, 3, 8, 9, 12, 20)] == ["", "rub", "rub", "", "glaze", ""]
