"""Whatever is put in, a call ends with its exit code and at most one line on standard error."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result
from hypothesis import given
from hypothesis import strategies as st

from extract.cli import cardwright
from extract.draft_faults import line_of
from extract.errors import CardwrightError
from extract.language.english import other_language
from extract.language.pieces import PIECE, pieces_of

DRAFT: dict[str, Any] = {
    "format": "recipe-draft/1",
    "source": {"file": "pie.vtt", "sha256": "00"},
    "dishes": [
        {
            "title": "Fish Pie",
            "yield": {"low": 4, "high": 4},
            "components": [
                {"ingredients": [{"name": "cumin", "amount": {"low": 2, "high": 2, "unit": "teaspoon"}}]},
            ],
            "method": [
                {
                    "text": "Bake it.",
                    "actions": [
                        {"verb": "bake", "heat": {"kind": "oven", "low": 180, "high": 180, "unit": "degC"}}
                    ],
                }
            ],
            "times": {"total": "PT1H"},
        }
    ],
}
LINE = ("dishes", 0, "components", 0, "ingredients", 0)
# The way to a field, what stands in it, and words of the line that is to be told.
FAULTS: list[tuple[tuple[str | int, ...], Any, str]] = [
    ((*LINE, "amount", "low"), 3, 'dish "Fish Pie", cumin'),
    ((*LINE, "amount", "low"), "nan", "low"),
    ((*LINE, "amount", "low"), "two", "write a number such as 2 or 0.5"),
    ((*LINE, "amount", "low"), -2, "less than nothing"),
    ((*LINE, "amount", "high"), 1e308, "no figure of a recipe"),
    ((*LINE, "amount"), "2 teaspoons", 'write {"low": 2, "high": 2, "unit": "teaspoon"}'),
    ((*LINE, "amount"), {"low": 2}, '"high" is missing'),
    ((*LINE, "amount", "unit"), "tsp", 'write "teaspoon"'),
    ((*LINE, "amount", "size"), 14, 'write {"low": 14, "high": 14, "unit": "ounce"}'),
    ((*LINE, "name"), "  ", '"name" is empty'),
    ((*LINE, "name"), None, "words in quotation marks"),
    ((*LINE, "said"), [{"cue": "x"}], "said"),
    (("dishes", 0, "title"), "Pie \ud800", "half of a character"),
    (("dishes", 0, "yield", "high"), 1e308, "no figure"),
    (("dishes", 0, "times", "total"), "1 hour 40 minutes", 'write it as ISO 8601 does: "PT1H40M"'),
    (("dishes", 0, "times", "total"), "PT99999999999H", "no duration"),
    (("dishes", 0, "method", 0, "actions", 0, "heat", "high"), 1e308, "no figure"),
    (("dishes", 0, "method", 0, "actions", 0, "verb"), "", '"verb" is empty'),
    (("dishes", 0, "batch"), {"factor": 0}, "more than nothing"),
    (("dishes", 0, "scaling"), {"by": "0/0"}, "no factor"),
    (("dishes",), None, "list in square brackets"),
    (("format",), "recipe-draft/" + "9" * 5000, "no recipe draft"),
]
COMMANDS = (["page"], ["questions"], ["scale", "--by", "2"], ["convert", "--to", "metric"], ["shopping"])


def run(*words: object) -> Result:
    return CliRunner().invoke(cardwright, [str(word) for word in words])


def told_in_one_line(result: Result, code: int = 2) -> str:
    assert (result.exit_code, result.stdout) == (code, ""), result.output
    assert result.stderr.count("\n") == 1
    assert result.stderr.startswith("Error: ")
    return result.stderr


def written(folder: Path, way: tuple[str | int, ...], value: Any) -> Path:
    content = json.loads(json.dumps(DRAFT))
    inner = content
    for step in way[:-1]:
        inner = inner[step]
    inner[way[-1]] = value
    path = folder / "pie.draft.json"
    path.write_text(json.dumps(content, indent=2), encoding="utf-8")
    return path


def test_the_draft_that_the_faults_are_put_into_is_whole(tmp_path: Path) -> None:
    path = written(tmp_path, ("dishes", 0, "title"), "Fish Pie")
    assert [run(*command, path).exit_code for command in COMMANDS if command[0] != "questions"] == [0] * 4


@pytest.mark.parametrize(("way", "value", "words"), FAULTS, ids=str)
def test_faults_of_a_draft_are_told_with_what_is_right(
    tmp_path: Path, way: tuple[str | int, ...], value: Any, words: str
) -> None:
    path = written(tmp_path, way, value)
    for command in COMMANDS:
        line = told_in_one_line(run(*command, path))
        assert line.startswith(f"Error: {path}: ")
        assert words in line
        assert len(line) < 500


def test_a_fault_is_told_with_the_line_on_which_it_stands(tmp_path: Path) -> None:
    path = written(tmp_path, (*LINE, "amount", "low"), 3)
    lines = path.read_text(encoding="utf-8").splitlines()
    number = next(at for at, line in enumerate(lines, start=1) if '"low": 3' in line)
    assert f"{path}: line {number}: " in told_in_one_line(run("page", path))


def test_what_lies_too_deep_is_refused(tmp_path: Path) -> None:
    deep: Any = 1
    for _ in range(900):
        deep = [deep]
    path = written(tmp_path, (*LINE, "own"), deep)
    assert "too deep" in told_in_one_line(run("page", path))


JSON = st.recursive(
    st.none() | st.booleans() | st.integers(-9, 9) | st.text(max_size=4),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=3), inner, max_size=4),
    max_leaves=20,
)


@given(JSON, st.sampled_from([None, 0, 2]), st.data())
def test_the_line_of_any_value_is_where_it_begins(
    value: Any, indent: int | None, data: st.DataObject
) -> None:
    way: list[str | int] = []
    inner = value
    while isinstance(inner, dict | list) and inner and data.draw(st.booleans()):
        step = data.draw(st.sampled_from(list(inner) if isinstance(inner, dict) else list(range(len(inner)))))
        way.append(step)
        inner = inner[step]
    text = json.dumps(value, indent=indent)
    line = line_of(text, way)
    assert line is not None
    first = json.dumps(inner)[:1]
    assert first in text.splitlines()[line - 1]


@pytest.mark.parametrize(
    "by", ["1e309", "1e5000", "1e100000000", "9" * 5000, "0/0", "nan", "inf", "-1", "", "1" + "/" * 9]
)
def test_factors_that_no_kitchen_has_are_refused_at_once(tmp_path: Path, by: str) -> None:
    path = written(tmp_path, ("dishes", 0, "title"), "Fish Pie")
    assert "a number above zero" in told_in_one_line(run("scale", path, "--by", by))
    assert "a number above zero" in told_in_one_line(run("scale", path, "--servings", by))


@pytest.mark.parametrize("by", ["½", "1½", "1 1/2", "0.5"])
def test_factors_are_taken_as_people_type_them(tmp_path: Path, by: str) -> None:
    path = written(tmp_path, ("dishes", 0, "title"), "Fish Pie")
    assert run("scale", path, "--by", by).exit_code == 0


@pytest.mark.parametrize(
    "words",
    [
        "Put 2 cups of flour in a bowl. Bake the bread for 99999999999 hours.",
        "Put 2 cups of flour in it. Put it in a 9 by 0/0 inch pan and bake it for 20 minutes.",
        "Add two cups of flour. Add two. Add 1+AL0 cups.",
        "Stir in two \ud800 cups of oats.",
        "Stir in " + "9" * 400 + " cups of oats.",
        "Stir in 1e308 cups of oats at 99999999999 degrees.",
    ],
)
def test_figures_that_no_kitchen_has_end_in_a_draft(tmp_path: Path, words: str) -> None:
    path = tmp_path / "talk.json"
    path.write_text(json.dumps([{"start": 0, "end": 9, "text": words}]), encoding="utf-8")
    result = run("draft", path, "--out", tmp_path / "out")
    assert result.exit_code in (0, 1), result.stderr  # 1 tells that no dish was heard
    draft = tmp_path / "out" / "talk.draft.json"
    for command in (["page"], ["scale", "--by", "2"], ["convert", "--to", "metric"], ["shopping"]):
        assert run(*command, draft).exit_code == 0


def test_folders_and_links_that_cannot_be_read_are_one_line(tmp_path: Path) -> None:
    loop = tmp_path / "loop"
    loop.symlink_to(tmp_path / "back")
    (tmp_path / "back").symlink_to(loop)
    for words in (
        ["draft", loop],
        ["draft", ""],
        ["page", loop],
        ["page", tmp_path],
        ["draft", tmp_path / "none"],
    ):
        told_in_one_line(run(*words))


def test_a_folder_that_may_not_be_read_is_one_line(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def forbidden(_: Path) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "iterdir", forbidden)
    assert "Permission denied" in told_in_one_line(run("draft", tmp_path))


@pytest.mark.parametrize(
    "words", [["bake"], ["draft"], ["draft", "--loud", "x"], ["draft", "--out"], ["scale"]]
)
def test_bad_usage_is_one_line_that_says_where_help_is(words: list[str]) -> None:
    assert "--help shows how" in told_in_one_line(run(*words))


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no /dev/full on this system")
@pytest.mark.parametrize(
    "words", [["--help"], ["page", "DRAFT"], ["questions", "DRAFT"], ["shopping", "DRAFT"]]
)
def test_a_full_disk_behind_a_redirect_is_one_line(tmp_path: Path, words: list[str]) -> None:
    path = written(tmp_path, ("dishes", 0, "title"), "Fish Pie")
    code = "from extract.cli import main; main()"
    with Path("/dev/full").open("w") as full:
        asked = [sys.executable, "-c", code, *(str(path) if word == "DRAFT" else word for word in words)]
        done = subprocess.run(asked, stdout=full, stderr=subprocess.PIPE, text=True, check=False)
    assert (done.returncode, done.stderr) == (2, "Error: standard output: No space left on device\n")


@pytest.mark.skipif(not hasattr(os, "fork"), reason="pipes of this system are closed otherwise")
def test_a_closed_pipe_is_quiet(tmp_path: Path) -> None:
    path = written(tmp_path, ("dishes", 0, "title"), "Fish Pie")
    code = "from extract.cli import main; main()"
    reader, writer = os.pipe()
    os.close(reader)
    done = subprocess.run(
        [sys.executable, "-c", code, "page", str(path)], stdout=writer, stderr=subprocess.PIPE, check=False
    )
    os.close(writer)
    assert (done.returncode, done.stderr) == (141, b"")


def test_an_interruption_is_130(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    def interrupted(_: Path) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("extract.drafts.load_draft", interrupted)
    assert run("page", tmp_path).exit_code == 130


def test_a_draft_without_dishes_opens_no_gate(tmp_path: Path) -> None:
    path = written(tmp_path, ("dishes",), [])
    result = run("questions", path)
    assert (result.exit_code, result.stdout) == (1, "")
    assert "no dish was heard" in result.stderr


OTHER_TALKS = {
    "German": "Heute kochen wir eine Suppe, und dann schneiden wir die Zwiebeln und geben sie in die Pfanne",
    "French": "On prend le beurre et la farine, on ajoute les oeufs et puis on mélange avec une pincée de sel",
    "Arabic letters": "مرحبا بكم في مطبخي اليوم سنحضر شوربة العدس",
}


@pytest.mark.parametrize("language", OTHER_TALKS)
def test_a_talk_in_another_language_is_refused_by_its_name(tmp_path: Path, language: str) -> None:
    path = tmp_path / "talk.txt"
    path.write_text(f"[0:01] {OTHER_TALKS[language]}\n", encoding="utf-8")
    assert f"this talk is in {language}" in told_in_one_line(run("draft", path))


@pytest.mark.parametrize(
    "words",
    [
        "200 g flour 3 eggs 1 pinch salt 300 ml milk",
        "Hello",
        "dont salt it and its done when the crust is golden",
    ],
)
def test_short_and_bare_english_is_not_taken_for_another_language(words: str) -> None:
    assert other_language([words]) == ""


@pytest.mark.parametrize(
    "words",
    ["The committee met. All in favour? Carried. Next, the car park and the bins.", "Hello there, everyone."],
)
def test_a_talk_without_a_dish_says_so(tmp_path: Path, words: str) -> None:
    path = tmp_path / "talk.txt"
    path.write_text(words, encoding="utf-8")
    result = run("draft", path)
    assert result.exit_code == 1
    assert "no dish was heard" in result.stderr
    assert "No dish was found" in result.stdout
    assert "Untitled" not in result.stdout


@given(st.lists(st.sampled_from(["add", "it.", "salt", "x" * 50, "now!"]), max_size=3000).map(" ".join))
def test_pieces_of_a_talk_are_the_whole_talk(text: str) -> None:
    longer = text * 20
    pieces = list(pieces_of(longer))
    assert " ".join(pieces) == longer
    assert all(len(piece) <= PIECE * 2 for piece in pieces)


def test_an_error_is_one_line_whatever_its_words() -> None:
    assert str(CardwrightError("a\nb", path="x")) == "x: a b"
