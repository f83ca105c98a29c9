"""Drafts of the labelled shows, a folder beside the checkout, held to the figures of its own scorer.

The floors stand a little under what was measured when they were set, so that a change that costs accuracy is
seen; they are no aims.
"""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from extract.pipeline import draft_transcript
from extract.transcript.reading import read_transcript

LABELLED = Path(__file__).resolve().parents[2] / "shared" / "bench"
TALKS = {"speech": "*.vtt", "shows": "*.transcript.md"}
FLOORS = {
    "speech": {
        "lines.name": 75,
        "lines.amount": 61,
        "gaps": 50,
        "heat": 84,
        "times": 87,
        "dishes": 87,
        "key": 57,
        "verbs": 46,
        "args": 51,
    },
    "shows": {
        "lines.name": 92,
        "lines.amount": 89,
        "gaps": 55,
        "portions": 79,
        "dishes": 99,
        "heat": 93,
        "times": 93,
    },
}

pytestmark = pytest.mark.skipif(
    not LABELLED.is_dir(), reason="the labelled shows are not beside the checkout"
)


@pytest.fixture(scope="module")
def scores(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    """What the scorer prints for each folder, every talk of it drafted once."""
    return {kind: score(kind, tmp_path_factory.mktemp(kind)) for kind in TALKS}


def score(kind: str, folder: Path) -> Any:
    for path in sorted((LABELLED / kind).glob(TALKS[kind])):
        draft = draft_transcript(read_transcript(path))
        name = path.name.split(".")[0]
        (folder / f"{name}.draft.json").write_text(draft.to_json(), encoding="utf-8")
    command = [sys.executable, str(LABELLED / "score.py"), str(folder), str(LABELLED / kind), "--json"]
    printed = subprocess.run(command, check=True, capture_output=True, text=True)
    return json.loads(printed.stdout)


@pytest.mark.parametrize("kind", TALKS)
def test_every_labelled_talk_is_drafted(scores: dict[str, Any], kind: str) -> None:
    assert scores[kind]["cases"] > 0
    assert scores[kind]["absent"] == []


@pytest.mark.parametrize(
    ("kind", "figure", "floor"),
    [
        pytest.param(kind, figure, floor, id=f"{kind}-{figure}")
        for kind, floors in FLOORS.items()
        for figure, floor in floors.items()
    ],
)
def test_accuracy_stays_above_its_floor(scores: dict[str, Any], kind: str, figure: str, floor: float) -> None:
    assert scores[kind]["figures"][figure]["f1"] >= floor
