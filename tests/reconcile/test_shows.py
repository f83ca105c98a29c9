"""Two invented shows with every trap, beside what a careful reader wrote: shares taken, sums that do not add up."""

from __future__ import annotations

import json
from collections import Counter
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from extract.language import load_model, read_speech
from extract.reconcile.kitchen import Kitchen, reconcile
from extract.reconcile.lines import same_thing
from extract.segment.dishes import segment
from extract.spot.spotted import spot
from extract.transcript import read_transcript

SHOWS = Path(__file__).parents[1] / "shows"
NAMES = {"block-party": "block-party.vtt", "village-hall": "village-hall.txt"}


@cache
def kitchens_of(name: str) -> tuple[Kitchen, ...]:
    spotted = spot(read_speech(read_transcript(SHOWS / NAMES[name]), load_model()))
    return reconcile(spotted, segment(spotted)).kitchens


def told(name: str, key: str) -> list[dict[str, Any]]:
    """The rows of one kind that the careful reader wrote, over all dishes."""
    gold = json.loads((SHOWS / f"{name}.gold.json").read_text(encoding="utf-8"))
    return [row for dish in gold["dishes"] for row in dish.get(key, [])]


def share(figure: object) -> str:
    return figure if isinstance(figure, str) else f"{float(figure):.2f}"  # type: ignore[arg-type]


@pytest.mark.parametrize("name", NAMES)
def test_shares_are_those_a_careful_reader_found(name: str) -> None:
    portions = [p for kitchen in kitchens_of(name) for p in kitchen.portions]
    used = Counter(share(p.fraction) for p in portions if not p.gone)
    assert used == Counter(share(row["fraction"]) for row in told(name, "portions"))
    left = Counter(share(p.fraction) for p in portions if p.gone)
    assert left == Counter(share(row["fraction"]) for row in told(name, "leftover_portions"))


@pytest.mark.parametrize("name", NAMES)
def test_doubts_are_those_a_careful_reader_had_and_no_others(name: str) -> None:
    doubts = [(d.kind, d.about) for kitchen in kitchens_of(name) for d in kitchen.doubts]
    expected = [(row["kind"], row["about"]) for row in told(name, "questions")]
    assert sorted(kind for kind, _ in doubts) == sorted(kind for kind, _ in expected)
    for kind, about in expected:
        assert any(kind == other and same_thing(about, thing) for other, thing in doubts), (kind, about)
