"""``cardwright questions`` prints a list, JSON or a sheet, and stops a script while a must is open."""

from __future__ import annotations

import csv
import io
import json
import re
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from extract.cli import cardwright
from extract.draft.questions import find_questions
from extract.drafts import load_draft, save_draft
from extract.model import Amount, Component, Dish, Evidence, Ingredient, RecipeDraft, Source, Yield


@pytest.fixture
def path(tmp_path: Path) -> Path:
    words = [Evidence(cue=3, start=65.0, end=67.0, text="some flour")]
    lines = [
        Ingredient(name="plain flour", said=words),
        Ingredient(name="thyme", said=[Evidence(cue=4, start=70.0, end=71.0, text="=thyme, torn")]),
        Ingredient(name="butter", amount=Amount(low=50, high=50, unit="gram"), said=words),
    ]
    dish = Dish(title="oat cake", components=[Component(ingredients=lines)])
    dish.yield_ = Yield(low=4, high=4)
    draft = RecipeDraft(source=Source(file="show.vtt", sha256="00"), dishes=[dish])
    target = tmp_path / "show.draft.json"
    save_draft(target, draft)
    return target


def run(*arguments: str) -> Result:
    return CliRunner().invoke(cardwright, ["questions", *arguments])


def test_text_lists_what_must_be_answered_first_with_its_time(path: Path) -> None:
    result = run(str(path), "--all")
    assert result.exit_code == 1
    flour, thyme = result.output.index("How much plain flour"), result.output.index("How much thyme")
    assert flour < thyme
    assert "1:05" in result.output[:flour]


def test_json_holds_every_field_of_every_question(path: Path) -> None:
    result = run(str(path), "--format", "json")
    first = json.loads(result.output)[0]
    assert result.exit_code == 1
    assert (first["kind"], first["about"], first["start"], first["must"]) == (
        "missing amount",
        "plain flour",
        65.0,
        True,
    )
    assert first["words"] == "some flour"
    assert re.fullmatch("[a-z2-7]{4}", first["id"])


def test_the_lesser_questions_are_listed_on_request(path: Path) -> None:
    few, every = (json.loads(run(str(path), "--format", "json", *more).output) for more in ((), ("--all",)))
    assert [question["about"] for question in few] == ["plain flour"]
    assert [question["about"] for question in every] == ["plain flour", "thyme"]


def test_the_sheet_has_a_row_a_question_and_no_formula(path: Path) -> None:
    result = run(str(path), "--all", "--format", "csv")
    rows = list(csv.DictReader(io.StringIO(result.output)))
    thyme = next(row for row in rows if row["about"] == "thyme")
    assert (rows[0]["about"], rows[0]["time"]) == ("plain flour", "1:05")
    assert thyme["words"] == "'=thyme, torn"  # a cell that begins with "=" would be run by a spreadsheet


def test_the_exit_code_is_0_once_what_must_be_answered_is(path: Path) -> None:
    draft = load_draft(path)
    dish = draft.dishes[0]
    dish.questions = find_questions(dish, draft)
    for question in dish.questions:
        question.answer = "200 g"
    save_draft(path, draft)
    result = run(str(path))
    assert result.exit_code == 0
    assert "Answer: 200 g" in result.output


def test_several_drafts_are_listed_one_after_another(path: Path, tmp_path: Path) -> None:
    other = tmp_path / "other.draft.json"
    other.write_bytes(path.read_bytes())
    found = json.loads(run(str(path), str(other), "--format", "json").output)
    assert {question["draft"] for question in found} == {str(path), str(other)}


def test_a_file_that_is_no_draft_is_told_in_one_line(tmp_path: Path) -> None:
    bad = tmp_path / "bad.draft.json"
    bad.write_text("[]", encoding="utf-8")
    result = run(str(bad))
    assert result.exit_code == 2
    assert "bad.draft.json" in result.output


def test_a_draft_without_a_dish_does_not_open_the_gate(tmp_path: Path) -> None:
    target = tmp_path / "none.draft.json"
    save_draft(target, RecipeDraft(source=Source(file="show.vtt", sha256="00")))
    result = run(str(target))
    assert result.exit_code == 1
    assert "no dish was heard" in result.output
