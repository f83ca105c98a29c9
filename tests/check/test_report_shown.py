"""What a report shows: both titles, a doubt where two dishes were compared, an exchanged food in one row."""

from __future__ import annotations

import json
from pathlib import Path

from click.testing import CliRunner, Result
from made_drafts import ALL, STEW

from extract.check.checking import check
from extract.check.showing import html_page, rows_of
from extract.check.written import read_written_text
from extract.cli import cardwright
from extract.drafts import save_draft
from extract.publish.markdown import page

EXCHANGED = page(STEW.draft).replace("**pearl barley**", "**pearl couscous**")
OTHER = "# Barley soup\n\n## Ingredients\n\n- 2 onions\n- salt\n- 1 kg beef\n- 3 turnips\n- 2 limes\n- 1 tbsp miso\n"


def run(tmp_path: Path, text: str, *options: str) -> Result:
    save_draft(tmp_path / "stew.draft.json", STEW.draft)
    (tmp_path / "written.md").write_text(text, encoding="utf-8")
    paths = [str(tmp_path / "stew.draft.json"), str(tmp_path / "written.md")]
    return CliRunner().invoke(cardwright, ["check", *paths, *options])


def test_a_food_in_anothers_place_is_missing_and_extra_and_one_row() -> None:
    [report] = check(STEW.draft, read_written_text(EXCHANGED))
    missing, extra = report.differences
    assert [(each.kind, each.about) for each in (missing, extra)] == [
        ("missing", "pearl barley"),
        ("extra", "pearl couscous"),
    ]
    assert (missing.start, missing.line) == (extra.start, extra.line)
    [row] = rows_of(report, "changes the dish")
    assert (row.about, row.kind) == ("pearl barley / pearl couscous", "another food")


def test_a_swap_is_exit_code_1_with_both_foods(tmp_path: Path) -> None:
    result = run(tmp_path, EXCHANGED)
    assert result.exit_code == 1
    assert "1 that changes the dish" in result.output
    assert "another food" in result.output


def test_both_titles_are_named(tmp_path: Path) -> None:
    text = page(STEW.draft).replace("## Barley and squash stew", "## Squash pot")
    assert "Barley and squash stew (written: Squash pot)" in run(tmp_path, text).output
    assert json.loads(run(tmp_path, text, "--format", "json").output)["written"] == "Squash pot"


def test_a_report_says_when_the_two_may_be_different_dishes(tmp_path: Path) -> None:
    assert "These may be different dishes: 2 of the 6 written foods" in run(tmp_path, OTHER).output
    [report] = check(STEW.draft, read_written_text(OTHER))
    assert report.doubt in html_page([report])
    for made in ALL:
        assert check(made.draft, read_written_text(page(made.draft)))[0].doubt == ""


def test_two_written_dishes_are_not_held_against_one_said_one() -> None:
    draft = STEW.draft.model_copy(update={"dishes": [made.draft.dishes[0] for made in ALL]})
    text = "\n".join(page(made.draft) for made in ALL)
    reports = check(draft, read_written_text(text))
    assert [report.dish for report in reports] == [made.draft.dishes[0].title for made in ALL]
