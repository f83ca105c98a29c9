"""``cardwright answer`` writes one answer or a sheet of them, the page with them, and loses nothing."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from making import line, make_dish, make_draft

from extract.cli import cardwright
from extract.commands.work.outputs import Outputs
from extract.drafts import load_draft


def run(*arguments: str) -> Result:
    return CliRunner().invoke(cardwright, list(arguments))


@pytest.fixture
def path(tmp_path: Path) -> Path:
    draft = make_draft(make_dish(line("flour"), line("sugar", preparation="sieved"), title="oat cake"))
    outputs = Outputs(tmp_path, "show")
    outputs.write(draft, None, replace=False)
    return outputs.draft


def asked(path: Path) -> list[dict[str, str]]:
    found = json.loads(run("questions", str(path), "--all", "--format", "json").output)
    assert isinstance(found, list)
    return found


def sheet(path: Path, answers: dict[str, str], delimiter: str = ",") -> Path:
    printed = run("questions", str(path), "--all", "--format", "csv").output
    rows = list(csv.DictReader(io.StringIO(printed)))
    for row in rows:
        row["answer"] = answers.get(row["kind"], "")
    target = path.with_name("answers.csv")
    with target.open("w", encoding="utf-8-sig", newline="") as stream:
        writer = csv.DictWriter(stream, list(rows[0]), delimiter=delimiter)
        writer.writeheader()
        writer.writerows(rows)
    return target


def test_one_answer_stands_in_the_draft_and_on_the_page(path: Path) -> None:
    name = next(q["id"] for q in asked(path) if q["kind"] == "no yield")
    result = run("answer", str(path), name, "8 wedges")
    assert result.exit_code == 0
    assert "yield: 8 wedges" in result.output
    made = load_draft(path).dishes[0].yield_
    assert made is not None
    assert made.unit == "wedges"
    assert "- Makes: 8 wedges" in path.with_name("show.md").read_text(encoding="utf-8")


def test_a_draft_with_answers_is_not_written_over_unasked(path: Path) -> None:
    run("answer", str(path), next(q["id"] for q in asked(path) if q["kind"] == "no yield"), "8 wedges")
    assert Outputs(path.parent, "show").changed_by_hand() == path


def test_a_page_changed_by_hand_is_kept(path: Path) -> None:
    mine = path.with_name("show.md")
    mine.write_text("my own page", encoding="utf-8")
    result = run("answer", str(path), asked(path)[0]["id"], "8")
    assert result.exit_code == 0
    assert "kept" in result.output
    assert mine.read_text(encoding="utf-8") == "my own page"


@pytest.mark.parametrize("delimiter", [",", ";"])
def test_a_sheet_that_was_filled_in_comes_back(path: Path, delimiter: str) -> None:
    filled = sheet(path, {"no yield": "8 wedges", "missing amount": "200 g flour, 100 g sugar"}, delimiter)
    result = run("answer", str(path), "--sheet", str(filled))
    assert result.exit_code == 0, result.output
    dish = load_draft(path).dishes[0]
    assert [food.amount and food.amount.low for food in dish.components[0].ingredients] == [200, 100]
    again = run("answer", str(path), "--sheet", str(filled))
    assert "No row of the sheet has a new answer" in again.output


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["zzzz", "1 g"], "no question zzzz"),
        ([], "give an ID"),
        (["--sheet", "none.csv"], "none.csv"),
    ],
)
def test_bad_use_is_told_and_changes_nothing(path: Path, arguments: list[str], words: str) -> None:
    before = path.read_bytes()
    result = run("answer", str(path), *arguments)
    assert result.exit_code == 2
    assert words in result.output
    assert path.read_bytes() == before


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("about,answer\nflour,1 g\n", "line 1: the sheet has no column id"),
        ("id,answer\nzzzz,1 g\n", "line 2: no question zzzz"),
    ],
)
def test_a_sheet_that_does_not_fit_is_refused_with_its_line(path: Path, text: str, words: str) -> None:
    bad = path.with_name("bad.csv")
    bad.write_text(text, encoding="utf-8")
    before = path.read_bytes()
    result = run("answer", str(path), "--sheet", str(bad))
    assert result.exit_code == 2
    assert f"bad.csv: {words}" in result.output
    assert path.read_bytes() == before


def test_rows_of_another_draft_are_left_alone(path: Path) -> None:
    other = path.with_name("other.csv")
    other.write_text("draft,id,answer\nelse.draft.json,zzzz,1 g\n", encoding="utf-8")
    assert run("answer", str(path), "--sheet", str(other)).exit_code == 0
