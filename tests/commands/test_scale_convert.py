"""``cardwright scale``, ``convert`` and ``shopping`` at the command line."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from making import action, line, make_dish, make_draft

from extract.cli import cardwright
from extract.drafts import load_draft, save_draft


@pytest.fixture
def draft(tmp_path: Path) -> Path:
    path = tmp_path / "show.draft.json"
    dish = make_dish(
        line("plain flour", 1.5, "cup"),
        line("egg", 2),
        line("kosher salt", 0.5, "cup"),
        actions=[action("bake", "cake", heat=("oven", 350, "degF"), text="Bake the cake at 350 °F.")],
        **{"yield": {"low": 4, "high": 4, "unit": "servings"}, "batch": {"factor": 2}},
    )
    save_draft(path, make_draft(dish))
    return path


def run(*arguments: str | Path) -> Result:
    return CliRunner().invoke(cardwright, [str(each) for each in arguments])


def test_scale_shows_a_page_and_leaves_the_draft_alone(draft: Path) -> None:
    before = draft.read_bytes()
    result = run("scale", draft, "--by", "1.5")
    assert result.exit_code == 0, result.output
    assert "2 1/4 cups **plain flour**" in result.stdout
    assert "3 **" in result.stdout
    assert "salt: season to taste" in result.output
    assert draft.read_bytes() == before


@pytest.mark.parametrize(
    ("options", "cups"),
    [
        (["--by", "1 1/2"], 2.25),
        (["--servings", "8"], 3),
        (["--normal-batch"], 0.75),
        (["--by", "0.5"], 0.75),
    ],
)
def test_scale_writes_the_scaled_draft(draft: Path, tmp_path: Path, options: list[str], cups: float) -> None:
    out = tmp_path / "new.draft.json"
    result = run("scale", draft, *options, "--out", out)
    assert result.exit_code == 0, result.output
    amount = load_draft(out).dishes[0].components[0].ingredients[0].amount
    assert amount is not None
    assert (amount.low, amount.unit) == (cups, "cup")


def test_a_draft_may_be_scaled_onto_itself_and_back(draft: Path) -> None:
    before = load_draft(draft)
    assert run("scale", draft, "--by", "3", "--out", draft, "--replace").exit_code == 0
    assert load_draft(draft).dishes != before.dishes
    assert run("scale", draft, "--by", "1/3", "--out", draft, "--replace").exit_code == 0
    assert load_draft(draft).dishes == before.dishes


def test_convert_shows_said_and_worked_out_side_by_side(draft: Path) -> None:
    result = run("convert", draft, "--to", "metric", "--measures", "us")
    assert result.exit_code == 0, result.output
    assert "1 1/2 cups [190 g] **plain flour**" in result.stdout


def test_convert_writes_what_it_worked_out(draft: Path, tmp_path: Path) -> None:
    out = tmp_path / "uk.draft.json"
    assert run("convert", draft, "--to", "uk", "--measures", "us", "--out", out).exit_code == 0
    dish = json.loads(out.read_text(encoding="utf-8"))["dishes"][0]
    flour = dish["components"][0]["ingredients"][0]["amount"]
    assert flour["converted"] == flour["converted"] | {"low": 187.5, "high": 187.5, "unit": "gram"}
    assert "USDA SR28 20081" in flour["basis"]
    assert [each["unit"] for each in dish["method"][0]["actions"][0]["heat"]["equivalents"]] == [
        "degC",
        "degC",
        "gas_mark",
    ]
    assert "kosher salt: not converted: no weight is known for kosher salt" in dish["conversion"]["notes"]


def test_shopping_sums_several_drafts(draft: Path, tmp_path: Path) -> None:
    other = tmp_path / "other.draft.json"
    save_draft(other, make_draft(make_dish(line("flour", 250, "gram"), line("eggs", 3), title="Buns")))
    result = run("shopping", draft, other)
    assert result.exit_code == 0, result.output
    assert "eggs: 5" in result.stdout
    items = json.loads(run("shopping", draft, other, "--format", "json").stdout)
    flour = next(item for item in items if item["name"] == "flour" or item["name"] == "plain flour")
    assert {item["name"] for item in items} >= {"egg", "kosher salt"}
    assert flour["amounts"]


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["scale", "DRAFT", "--by", "-2"], "the factor must be a number above zero, not -2"),
        (["scale", "DRAFT", "--by", "0"], "the factor must be a number above zero, not 0"),
        (["scale", "DRAFT", "--by", "lots"], "the factor must be a number above zero, not lots"),
        (["scale", "DRAFT", "--servings", "0"], "servings must be a number above zero, not 0"),
        (["scale", "DRAFT"], "say one of --by"),
        (["scale", "DRAFT", "--by", "2", "--normal-batch"], "say one of --by"),
        (["convert", "DRAFT", "--to", "cubits"], 'cannot convert to "cubits" (one of metric, us, uk)'),
        (["convert", "DRAFT", "--to", "us", "--measures", "roman"], '"roman" is no system of measures'),
        (["convert", "missing.json", "--to", "us"], "missing.json: No such file or directory"),
        (["shopping", "missing.json"], "missing.json: No such file or directory"),
    ],
)
def test_bad_input_is_one_clear_line_and_exit_code_2(draft: Path, arguments: list[str], words: str) -> None:
    before = draft.read_bytes()
    extra = ["--out", str(draft)] if arguments[0] != "shopping" else []
    result = run(*(str(draft) if each == "DRAFT" else each for each in arguments), *extra)
    assert result.exit_code == 2
    assert words in result.stderr
    [line_shown] = [shown for shown in result.stderr.splitlines() if shown.startswith("Error")]
    assert words in line_shown
    assert draft.read_bytes() == before
    assert list(draft.parent.iterdir()) == [draft]


@pytest.mark.parametrize(
    ("content", "words"),
    [
        ("not json", "line 1: this is no JSON"),
        ('{"format": "recipe-draft/2"}', "of a later format, recipe-draft/2"),
        ("[1]", "a JSON object was expected"),
        (
            '{"format": "recipe-draft/1", "source": {"file": "a", "sha256": "b"}, "dishes": 3}',
            '"dishes" holds 3',
        ),
    ],
)
@pytest.mark.parametrize("command", ["scale", "convert", "shopping"])
def test_a_file_that_is_no_draft_is_refused_and_left_as_it_was(
    tmp_path: Path, command: str, content: str, words: str
) -> None:
    path = tmp_path / "bad.draft.json"
    path.write_text(content, encoding="utf-8")
    options = {
        "scale": ["--by", "2", "--out", path],
        "convert": ["--to", "us", "--out", path],
        "shopping": [],
    }
    result = run(command, path, *options[command])
    assert result.exit_code == 2
    [line_shown] = result.stderr.splitlines()
    assert line_shown.startswith(f"Error: {path}: ")
    assert words in line_shown
    assert path.read_text(encoding="utf-8") == content


def test_an_amount_that_is_none_is_refused_with_its_place(tmp_path: Path) -> None:
    path = tmp_path / "bad.draft.json"
    save_draft(path, make_draft(make_dish(line("flour", 3, "cup", high=2))))
    for arguments in (["scale", path, "--by", "2"], ["convert", path, "--to", "us"], ["shopping", path]):
        result = run(*arguments)
        assert result.exit_code == 2
        assert 'dish "Supper"' in result.stderr
        assert '"low" is 3 and "high" is 2' in result.stderr
