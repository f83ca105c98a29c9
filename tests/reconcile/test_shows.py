"""Two invented shows with every trap, beside what a careful reader wrote: shares taken, sums that do not add up."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import Any

from extract.language import load_model, read_speech
from extract.reconcile.kitchen import Kitchen, reconcile
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
