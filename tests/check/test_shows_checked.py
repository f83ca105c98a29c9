"""Planted differences of the invented shows are found, and what only looks different is passed over."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from planted import answers
from right_drafts import right_draft

from extract.check.checking import check
from extract.check.report import Difference
from extract.check.written import read_written

SHOWS = Path(__file__).parents[1] / "shows"
PLANTED = sorted(SHOWS.glob("*.discrepancies.json"))
LABELLED = Path(__file__).resolve().parents[3] / "shared" / "bench"


def planted_in(path: Path) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = json.loads(path.read_text(encoding="utf-8"))["planted"]
    return found


def reported(path: Path) -> list[Difference]:
    """What a check of the right draft against the written version reports, mere wording aside."""
    stem = path.name.removesuffix(".discrepancies.json")
    draft = right_draft(path.with_name(f"{stem}.gold.json"))
    report = check(draft, read_written(path.with_name(f"{stem}.written.md")))[0]
    return [difference for difference in report.differences if difference.weight != "wording"]


def test_there_are_shows_to_check() -> None:
    assert len(PLANTED) >= 6
    assert sum(len(planted_in(path)) for path in PLANTED) >= 60


def test_of_the_planted_differences_95_in_100_are_found() -> None:
    missed, count = [], 0
    for path in PLANTED:
        found = reported(path)
        for planted in planted_in(path):
            count += 1
            if not any(answers(planted, difference) for difference in found):
                missed.append((path.name, planted["kind"], planted["what"]))
    assert len(missed) <= 0.05 * count, missed


@pytest.mark.parametrize("path", PLANTED, ids=[path.name.split(".")[0] for path in PLANTED])
def test_at_most_one_report_a_show_answers_nothing_planted(path: Path) -> None:
    planted = planted_in(path)
    false = [found for found in reported(path) if not any(answers(each, found) for each in planted)]
    assert len(false) <= 1, [(found.kind, found.about, found.said, found.written) for found in false]


@pytest.mark.skipif(not LABELLED.is_dir(), reason="the labelled shows are not beside the checkout")
def test_the_labelled_shows_are_checked_as_well(tmp_path: Path) -> None:
    for path in sorted((LABELLED / "shows").glob("*.discrepancies.json")):
        stem = path.name.removesuffix(".discrepancies.json")
        draft = right_draft(path.with_name(f"{stem}.gold.json"))
        report = check(draft, read_written(path.with_name(f"{stem}.written.md")))[0]
        (tmp_path / f"{stem}.check.json").write_text(report.model_dump_json(), encoding="utf-8")
    scorer = [sys.executable, "score_check.py", str(tmp_path), "shows", "--json"]
    done = subprocess.run(scorer, capture_output=True, text=True, check=True, cwd=LABELLED)
    score = json.loads(done.stdout)
    assert score["found"] >= 95
    assert score["false"] <= 3
