"""The ledger's work grows in line with the talk: counted in calls, so that a busy machine changes nothing."""

from __future__ import annotations

import sys
from pathlib import Path
from types import FrameType
from typing import Any

from heard import spotted_in

from extract.reconcile.kitchen import reconcile
from extract.segment.dishes import segment
from extract.transcript import read_transcript

SAMPLE = Path(__file__).parents[2] / "samples" / "market-kitchen.txt"
TALK = "\n".join(cue.text for cue in read_transcript(SAMPLE).cues)


def calls_in(text: str) -> int:
    """The calls, of Python functions and of built-in ones, that the ledger of a talk takes."""
    spotted = spotted_in(text)
    segments = segment(spotted)
    reconcile(spotted, segments)  # lexicons are read and names compared once
    count = 0

    def counted(frame: FrameType, event: str, argument: Any) -> None:
        nonlocal count
        count += event in ("call", "c_call")

    sys.setprofile(counted)
    try:
        reconcile(spotted, segments)
    finally:
        sys.setprofile(None)
    return count


def test_four_times_the_talk_is_about_four_times_the_work() -> None:
    once, four = calls_in(TALK), calls_in("\n".join([TALK] * 4))
    assert once > 1000
    assert four <= 5 * once
