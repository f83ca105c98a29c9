"""``cardwright check`` prints tables, JSON or a page, and says by its exit code whether both agree."""

from __future__ import annotations

import json
from html.parser import HTMLParser
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from made_drafts import STEW

from extract.cli import cardwright
from extract.drafts import save_draft
from extract.publish.markdown import page


@pytest.fixture
def draft(tmp_path: Path) -> Path:
    path = tmp_path / "stew.draft.json"
    save_draft(path, STEW.draft)
    return path


@pytest.fixture
def same(tmp_path: Path) -> Path:
    path = tmp_path / "same.md"
    path.write_text(page(STEW.draft), encoding="utf-8")
    return path


@pytest.fixture
def other(tmp_path: Path) -> Path:
    path = tmp_path / "other.md"
    path.write_text(page(STEW.draft).replace("600 g", "900 g <b>"), encoding="utf-8")
    return path


def run(*arguments: object) -> Result:
    return CliRunner().invoke(cardwright, ["check", *map(str, arguments)])


def test_agreement_is_exit_code_0(draft: Path, same: Path) -> None:
    result = run(draft, same)
    assert result.exit_code == 0
    assert "0 that change the dish" in result.output


def test_a_difference_is_exit_code_1_with_both_sides_in_the_table(draft: Path, other: Path) -> None:
    result = run(draft, other)
    assert result.exit_code == 1
    for words in ("butternut squash", "600 g", "900 g", "1:08", "Neither side is called right"):
        assert words in result.output


def test_what_agrees_is_listed_on_demand_with_the_reason(draft: Path, same: Path) -> None:
    assert "the same setting" not in run(draft, same).output
    assert "Agree" in run(draft, same, "--all").output


def test_json_is_one_object_with_the_fields_of_the_report(draft: Path, other: Path) -> None:
    report = json.loads(run(draft, other, "--format", "json").output)
    assert set(report) == {"dish", "written", "doubt", "differences", "agreements"}
    (found,) = report["differences"]
    assert set(found) == {"kind", "about", "said", "written", "weight", "start", "line"}
    assert (found["kind"], found["about"], found["start"]) == ("amount", "butternut squash", 68.0)
    assert set(report["agreements"][0]) == {"about", "said", "written", "why", "start", "line"}


class Tags(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.seen: set[str] = set()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.seen.add(tag)
        if tag != "meta":
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag


def test_the_page_is_whole_and_escapes_what_was_written(draft: Path, other: Path) -> None:
    text = run(draft, other, "--format", "html", "--all").output
    tags = Tags()
    tags.feed(text)
    assert tags.open == []
    assert "b" not in tags.seen
    assert {"caption", "th"} <= tags.seen
    assert "900 g" in text


@pytest.mark.parametrize("missing", ["draft", "written"])
def test_what_cannot_be_read_is_exit_code_2_in_one_line(draft: Path, same: Path, missing: str) -> None:
    gone = draft.with_name("gone")
    result = run(gone if missing == "draft" else draft, gone if missing == "written" else same)
    assert result.exit_code == 2
    assert "gone" in result.stderr
    assert len(result.stderr.strip().splitlines()) == 1
