"""Plain text broken at a width, and cards drawn in a box, say what the same text says unbroken."""

from __future__ import annotations

import textwrap

import pytest

from extract.check.written.document import read_written_text

RECIPE = """Barley and leek soup

Serves 4

Ingredients

200 g pearl barley
3 leeks, sliced
1 tsp salt

Method

Wash the barley until the water runs clear, then put it into a large pan with the leeks and the salt. \
Cover with cold water, bring it to the boil and simmer for 40 minutes, until the grains are soft. \
Leave the soup to stand for 10 minutes before you serve it.
"""


def told(text: str) -> object:
    [dish] = read_written_text(text).dishes
    lines = [(line.name, line.amount) for part in dish.components for line in part.ingredients]
    steps = [[(one.verb, one.duration and one.duration.low) for one in step.actions] for step in dish.method]
    return dish.title, dish.yield_ and dish.yield_.low, lines, steps


@pytest.mark.parametrize("width", [48, 60, 72, 100])
def test_text_broken_at_a_width_reads_as_unbroken(width: int) -> None:
    broken = "\n".join(
        "\n".join(textwrap.wrap(line, width)) if len(line) > width else line for line in RECIPE.splitlines()
    )
    assert told(broken) == told(RECIPE)


def test_a_box_drawn_around_the_text_is_no_part_of_it() -> None:
    lines = RECIPE.splitlines()
    width = max(map(len, lines))
    edge = "+" + "-" * (width + 2) + "+"
    boxed = "\n".join([edge, *(f"| {line:<{width}} |" for line in lines), edge])
    assert told(boxed) == told(RECIPE)
