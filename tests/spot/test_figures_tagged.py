"""A figure that the reader takes for a heat and that names no scale must be one that such a thing can have."""

from __future__ import annotations

from dataclasses import replace

import pytest
from heard import speech_of
from plainly_read import one_hot, plain_reading

from extract.reader.labels import FIGURES
from extract.spot.figures_tagged import settings
from extract.spot.heat.find import find_heat
from extract.spot.words import Words


@pytest.mark.parametrize(
    ("said", "kind", "heats"),
    [
        ("bake it at 180 until it is golden", "oven", [180]),
        ("bake it at 35 until it is golden", "oven", []),
        ("bake it at 700 until it is golden", "oven", []),
        ("the oil wants 190 before they go in", "oil", [190]),
        ("the oil wants 60 before they go in", "oil", []),
        ("the oil wants 600 before they go in", "oil", []),
        ("until the middle reads 63 all through", "internal", [63]),
        ("until the middle reads 165 all through", "internal", [165]),
        ("until the middle reads 20 all through", "internal", []),
        ("until the middle reads 400 all through", "internal", []),
    ],
)
def test_a_bare_figure_is_a_heat_where_such_a_thing_can_be_so_hot(
    said: str, kind: str, heats: list[int]
) -> None:
    assert tagged(said, kind) == heats


def test_a_figure_with_its_scale_is_taken_at_its_word() -> None:
    assert tagged("bake it at 35 degrees celsius until it is dry", "oven") == [35]


def tagged(said: str, kind: str) -> list[object]:
    """The lowest figures of the heats read where the reader takes every figure of the words for one of ``kind``."""
    speech = speech_of(said)
    figures = [FIGURES.index(f"heat {kind}") if token.like_num else 0 for token in speech.doc]
    reading = replace(plain_reading(speech), figures=one_hot(figures, len(FIGURES)))
    return [heat.low for heat in settings(Words.of(speech.doc), reading, find_heat(speech.doc))]
