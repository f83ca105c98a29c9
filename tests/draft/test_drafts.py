"""Draft files are read whole, checked, and written whole or not at all."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from extract.drafts import load_draft, save_draft
from extract.errors import CardwrightError
from extract.model import RecipeDraft

DRAFT: dict[str, Any] = {
    "format": "recipe-draft/1",
    "source": {"file": "show.vtt", "sha256": "00"},
    "dishes": [
        {
            "title": "Barley broth",
            "yield": {"low": 4, "high": 6, "unit": "servings"},
            "components": [
                {"ingredients": [{"name": "barley", "amount": {"low": 1, "high": 1, "unit": "cup"}}]}
            ],
            "method": [{"text": "Stir.", "actions": [{"verb": "stir", "with": ["spoon"]}]}],
            "house note": "keep me",
        }
    ],
}


def write(folder: Path, content: str) -> Path:
    path = folder / "show.draft.json"
    path.write_text(content, encoding="utf-8")
    return path


def test_what_is_saved_is_read_back_unknown_fields_and_the_files_own_names_included(tmp_path: Path) -> None:
    draft = load_draft(write(tmp_path, json.dumps(DRAFT)))
    save_draft(tmp_path / "again.json", draft)
    raw = json.loads((tmp_path / "again.json").read_text(encoding="utf-8"))
    assert load_draft(tmp_path / "again.json") == draft
    assert raw["dishes"][0]["house note"] == "keep me"
    assert raw["dishes"][0]["yield"]["high"] == 6
    assert raw["dishes"][0]["method"][0]["actions"][0]["with"] == ["spoon"]


@pytest.mark.parametrize(
    ("content", "words"),
    [
        ("not json", "line 1: this is no JSON"),
        ('{"format": "recipe-draft/1",\n "source": }', "line 2: this is no JSON"),
        ("[]", "a JSON object was expected"),
        ('{"format": "recipe-draft/2"}', "of a later format, recipe-draft/2"),
        ('{"format": "shopping/1"}', '"format" is "shopping/1"'),
        ("{}", '"format" is null'),
        ('{"format": "recipe-draft/1"}', '"source" is missing'),
        (
            json.dumps(DRAFT).replace('"low": 1,', '"low": "some",'),
            "dishes[0].components[0].ingredients[0].amount.low",
        ),
        (json.dumps(DRAFT).replace('"low": 1,', '"low": NaN,'), "NaN is no number"),
        (json.dumps(DRAFT).replace('"low": 1,', '"low": 1e999,'), "1e999 is no number"),
        ("[" * 100_000, "this is no JSON"),
    ],
)
def test_a_bad_file_is_refused_in_one_line_with_the_file_and_the_place(
    tmp_path: Path, content: str, words: str
) -> None:
    path = write(tmp_path, content)
    with pytest.raises(CardwrightError) as caught:
        load_draft(path)
    message = str(caught.value)
    assert message.startswith(str(path))
    assert words in message
    assert "\n" not in message


def test_bytes_that_are_not_utf8_and_a_file_that_is_not_there_are_refused(tmp_path: Path) -> None:
    path = tmp_path / "show.draft.json"
    with pytest.raises(CardwrightError, match="No such file"):
        load_draft(path)
    path.write_bytes(b"\xff\xfe{}")
    with pytest.raises(CardwrightError, match="not UTF-8"):
        load_draft(path)


def test_a_byte_order_mark_is_no_fault(tmp_path: Path) -> None:
    assert load_draft(write(tmp_path, "\ufeff" + json.dumps(DRAFT))).dishes[0].title == "Barley broth"


def test_a_failed_write_leaves_the_old_file_and_nothing_beside_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = write(tmp_path, "old")
    draft = RecipeDraft.model_validate(DRAFT)

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.fsync", full)
    with pytest.raises(CardwrightError, match="No space left"):
        save_draft(path, draft)
    assert path.read_text(encoding="utf-8") == "old"
    assert list(tmp_path.iterdir()) == [path]


def test_a_write_keeps_the_files_permissions_and_follows_a_link(tmp_path: Path) -> None:
    path = write(tmp_path, "old")
    path.chmod(0o640)
    link = tmp_path / "link.json"
    link.symlink_to(path)
    save_draft(link, RecipeDraft.model_validate(DRAFT))
    assert link.is_symlink()
    assert path.stat().st_mode & 0o777 == 0o640
    assert load_draft(path).dishes[0].title == "Barley broth"


def test_a_draft_of_another_format_is_not_written(tmp_path: Path) -> None:
    draft = RecipeDraft.model_validate(DRAFT | {"format": "recipe-draft/9"})
    with pytest.raises(CardwrightError, match="later format"):
        save_draft(tmp_path / "new.json", draft)
    assert not (tmp_path / "new.json").exists()
