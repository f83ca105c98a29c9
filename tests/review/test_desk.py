"""The desk: undo without end, over restarts; nothing overwritten unasked; never a torn or lost file."""

from __future__ import annotations

import json
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from conftest import key, read, reopened, steady

from extract.errors import CardwrightError
from extract.model import RecipeDraft
from extract.review.keeping import desk as desk_module
from extract.review.keeping import journal as journal_module
from extract.review.keeping.desk import Conflict, Desk
from extract.review.keeping.journal import journal_path


def line(draft: RecipeDraft, name: str) -> Any:
    return next(
        one
        for dish in draft.dishes
        for part in dish.components
        for one in part.ingredients
        if one.name == name
    )


def amount(draft: RecipeDraft, name: str) -> float | None:
    found = line(draft, name).amount
    return found.low if found else None


def set_amount(desk: Desk, name: str, text: str, base: int | None = None, window: str = "w") -> str:
    edit = {"do": "set line", "line": key(line(desk.draft, name)), "amount": text}
    return desk.edit(edit, desk.number if base is None else base, window, "Ada")


def test_looking_writes_nothing(path: Path) -> None:
    before = path.read_bytes()
    Desk(path, steady())
    assert path.read_bytes() == before
    assert not journal_path(path).exists()


def test_an_edit_is_in_the_file_when_it_returns(desk: Desk, path: Path) -> None:
    set_amount(desk, "cumin", "3 tsp")
    assert amount(read(path), "cumin") == 3
    assert read(path).to_dict() == desk.state


def test_undo_and_redo_go_on_after_a_restart(desk: Desk, path: Path) -> None:
    first = desk.state
    for text in ("3 tsp", "4 tsp", "5 tsp"):
        set_amount(desk, "cumin", text)
    desk.undo(desk.number, "w", "Ada")
    desk = reopened(path)
    assert amount(desk.draft, "cumin") == 4
    desk.undo(desk.number, "w", "Ada")
    desk = reopened(path)
    desk.undo(desk.number, "w", "Ada")
    assert desk.state == first
    with pytest.raises(CardwrightError, match="nothing to undo"):
        desk.undo(desk.number, "w", "Ada")
    desk = reopened(path)
    for wanted in (3, 4, 5):
        desk.redo(desk.number, "w", "Ada")
        assert amount(read(path), "cumin") == wanted
    with pytest.raises(CardwrightError, match="nothing to redo"):
        desk.redo(desk.number, "w", "Ada")


def test_an_edit_after_an_undo_ends_what_could_be_redone_but_loses_no_state(desk: Desk) -> None:
    set_amount(desk, "cumin", "3 tsp")
    desk.undo(desk.number, "w", "Ada")
    set_amount(desk, "cumin", "7 tsp")
    assert desk.journal.redoable == []
    desk.back_to(1, "w", "Ada")
    assert amount(desk.draft, "cumin") == 3
    desk.undo(desk.number, "w", "Ada")
    assert amount(desk.draft, "cumin") == 7


def test_every_earlier_state_can_be_had_again(desk: Desk, path: Path) -> None:
    states = [desk.state]
    for number in range(1, 12):
        set_amount(desk, "cumin", f"{number + 2} tsp")
        states.append(desk.state)
    again = reopened(path)
    assert [again.journal.state_at(number) for number in range(12)] == states


def test_an_edit_that_changes_nothing_is_no_state(desk: Desk) -> None:
    set_amount(desk, "cumin", "2 teaspoons")
    assert desk.number == 0


def test_two_windows_may_change_different_lines(desk: Desk) -> None:
    set_amount(desk, "cumin", "3 tsp", base=0, window="one")
    set_amount(desk, "smoked paprika", "1 tsp", base=0, window="two")
    assert (amount(desk.draft, "cumin"), amount(desk.draft, "smoked paprika")) == (3, 1)


def test_two_windows_on_one_line_the_second_is_asked(desk: Desk) -> None:
    set_amount(desk, "cumin", "3 tsp", base=0, window="one")
    with pytest.raises(Conflict, match="meanwhile Ada changed the same"):
        set_amount(desk, "cumin", "9 tsp", base=0, window="two")
    assert amount(desk.draft, "cumin") == 3
    set_amount(desk, "cumin", "9 tsp", base=desk.number, window="two")
    assert amount(desk.draft, "cumin") == 9


def test_taking_back_what_another_reviewer_did_is_asked_first(desk: Desk) -> None:
    set_amount(desk, "cumin", "3 tsp")
    with pytest.raises(Conflict, match="it was Ada who did this last"):
        desk.undo(desk.number, "two", "Bo")
    desk.undo(desk.number, "two", "Bo", sure=True)
    assert amount(desk.draft, "cumin") == 2


def test_an_undo_does_not_take_back_what_another_window_did_unseen(desk: Desk) -> None:
    set_amount(desk, "cumin", "3 tsp", base=0, window="one")
    with pytest.raises(Conflict):
        desk.undo(0, "two", "Bo")
    assert amount(desk.draft, "cumin") == 3


def test_taking_out_a_dish_that_another_window_works_on_is_asked(desk: Desk) -> None:
    set_amount(desk, "cumin", "3 tsp", base=0, window="one")
    with pytest.raises(Conflict):
        desk.edit({"do": "drop dish", "dish": key(desk.draft.dishes[0])}, 0, "two", "Bo")


def test_a_draft_changed_on_the_disk_is_taken_in_not_written_over(desk: Desk, path: Path) -> None:
    set_amount(desk, "cumin", "3 tsp")
    content = json.loads(path.read_text())
    content["dishes"][1]["title"] = "Dark gingerbread"
    content["note of the house"] = [1, 2]
    path.write_text(json.dumps(content))
    set_amount(desk, "smoked paprika", "1 tsp")
    found = read(path)
    assert found.dishes[1].title == "Dark gingerbread"
    assert found.model_extra is not None
    assert found.model_extra["note of the house"] == [1, 2]
    assert (amount(found, "cumin"), amount(found, "smoked paprika")) == (3, 1)
    assert [entry.kind for entry in desk.journal.entries] == ["edit", "outside", "edit"]


def test_the_same_line_changed_on_the_disk_is_asked_about(desk: Desk, path: Path) -> None:
    set_amount(desk, "cumin", "3 tsp")
    seen = desk.number
    content = json.loads(path.read_text())
    lines = content["dishes"][0]["components"][0]["ingredients"]
    next(one for one in lines if one["name"] == "cumin")["amount"]["low"] = 2.5
    path.write_text(json.dumps(content))
    with pytest.raises(Conflict, match="something else"):
        set_amount(desk, "cumin", "9 tsp", base=seen)
    assert amount(read(path), "cumin") == 2.5


def test_a_file_torn_by_another_program_is_told_and_left(desk: Desk, path: Path) -> None:
    set_amount(desk, "cumin", "3 tsp")
    torn = path.read_text()[:500]
    path.write_text(torn)
    with pytest.raises(CardwrightError, match="no JSON"):
        set_amount(desk, "cumin", "4 tsp")
    assert path.read_text() == torn
    desk.put_back("Ada")
    assert amount(read(path), "cumin") == 3


def test_a_draft_that_was_deleted_is_told_and_can_be_put_back(desk: Desk, path: Path) -> None:
    set_amount(desk, "cumin", "3 tsp")
    path.unlink()
    with pytest.raises(CardwrightError, match="No such file"):
        set_amount(desk, "cumin", "4 tsp")
    desk.put_back("Ada")
    assert amount(read(path), "cumin") == 3


def test_a_read_only_draft_is_not_replaced(desk: Desk, path: Path) -> None:
    path.chmod(0o444)
    before = path.read_bytes()
    with pytest.raises(CardwrightError, match="read-only"):
        set_amount(desk, "cumin", "3 tsp")
    assert path.read_bytes() == before
    assert not journal_path(path).exists()
    path.chmod(0o644)
    set_amount(desk, "cumin", "3 tsp")
    assert amount(read(path), "cumin") == 3


def test_a_stop_between_journal_and_draft_is_made_good(
    desk: Desk, path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    set_amount(desk, "cumin", "3 tsp")

    def stop(*_: object) -> None:
        raise KeyboardInterrupt

    with monkeypatch.context() as patch:
        patch.setattr(desk_module, "write_atomic", stop)
        with pytest.raises(KeyboardInterrupt):
            set_amount(desk, "cumin", "4 tsp")
    assert amount(read(path), "cumin") == 3
    again = reopened(path)
    assert amount(again.draft, "cumin") == 4
    assert again.state == read(path).to_dict()
    assert [entry.kind for entry in again.journal.entries] == ["edit", "edit"]


def test_half_a_line_at_the_end_of_the_journal_is_no_line(desk: Desk, path: Path) -> None:
    set_amount(desk, "cumin", "3 tsp")
    whole = journal_path(path).read_bytes()
    for cut in (1, 20, len(whole.splitlines()[-1])):
        journal_path(path).write_bytes(whole + whole.splitlines()[-1][:cut])
        again = reopened(path)
        assert amount(again.draft, "cumin") == 3
        set_amount(again, "cumin", "4 tsp")
        assert amount(reopened(path).draft, "cumin") == 4
        again.undo(again.number, "w", "Ada")
        shutil.copy(path, path.with_suffix(".kept"))
        journal_path(path).write_bytes(whole)


def test_a_journal_damaged_in_the_middle_is_told_with_its_line(desk: Desk, path: Path) -> None:
    for text in ("3 tsp", "4 tsp"):
        set_amount(desk, "cumin", text)
    lines = journal_path(path).read_bytes().splitlines(keepends=True)
    journal_path(path).write_bytes(lines[0] + b"{broken}\n" + lines[2])
    with pytest.raises(CardwrightError, match=r"line 2: the journal of the review is damaged"):
        reopened(path)


def test_another_file_is_no_journal(path: Path) -> None:
    journal_path(path).write_text('{"format": "something else"}\n')
    with pytest.raises(CardwrightError, match="no journal of a review"):
        reopened(path)


def test_a_disk_that_is_full_loses_nothing(path: Path) -> None:
    """A real limit of the system on the size of a file, met in the middle of a line of the journal."""
    code = """
import resource, signal, sys
from datetime import datetime, UTC
from pathlib import Path
from extract.errors import CardwrightError
from extract.review.keeping.desk import Desk
path = Path(sys.argv[1])
desk = Desk(path, lambda: datetime.now(UTC))
key = desk.draft.dishes[0].model_extra["key"]
desk.edit({"do": "set dish", "dish": key, "title": "First"}, 0, "w", "")
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
resource.setrlimit(resource.RLIMIT_FSIZE, (desk.journal.size + 40, hard))
try:
    desk.edit({"do": "set dish", "dish": key, "title": "Second " + "x" * 200}, 1, "w", "")
except CardwrightError as error:
    print(error)
resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))
print(desk.draft.dishes[0].title, desk.number)
desk.edit({"do": "set dish", "dish": key, "title": "Third"}, 1, "w", "")
"""
    done = subprocess.run([sys.executable, "-c", code, str(path)], capture_output=True, text=True, check=True)
    told, kept = done.stdout.splitlines()
    assert "harvest-supper.review.jsonl: not saved: File too large" in told
    assert kept == "First 1"
    again = reopened(path)
    assert [entry.words for entry in again.journal.entries] == [
        f"corrected the dish {title} (title)" for title in ("First", "Third")
    ]
    assert read(path).dishes[0].title == "Third"
    assert [one.name for one in path.parent.iterdir() if one.suffix == ".tmp"] == []


def test_no_space_left_for_the_draft_leaves_the_journal_as_it_was(
    desk: Desk, path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    set_amount(desk, "cumin", "3 tsp")
    before = (path.read_bytes(), journal_path(path).read_bytes(), desk.state)

    def full(*_: object) -> None:
        problem = "cannot be written: No space left on device"
        raise CardwrightError(problem)

    with monkeypatch.context() as patch:
        patch.setattr(desk_module, "write_atomic", full)
        with pytest.raises(CardwrightError, match="No space left"):
            set_amount(desk, "cumin", "4 tsp")
    assert (path.read_bytes(), journal_path(path).read_bytes(), desk.state) == before
    set_amount(desk, "cumin", "5 tsp")
    assert amount(read(path), "cumin") == 5


def test_a_write_that_cannot_be_made_to_last_is_cut_off(
    desk: Desk, path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    set_amount(desk, "cumin", "3 tsp")
    whole = journal_path(path).read_bytes()

    def failing(_descriptor: int) -> None:
        raise OSError(5, "Input/output error")

    with monkeypatch.context() as patch:
        patch.setattr(journal_module.os, "fsync", failing)
        with pytest.raises(CardwrightError, match="not saved: Input/output error"):
            set_amount(desk, "cumin", "4 tsp")
    assert journal_path(path).read_bytes() == whole
    set_amount(desk, "cumin", "5 tsp")
    assert amount(reopened(path).draft, "cumin") == 5


def test_killed_in_the_middle_of_200_saves_nothing_told_as_saved_is_lost(path: Path) -> None:
    """Saves in a process that is killed outright; every one that it reported is there, and undo goes back over it."""
    code = """
import sys
from datetime import datetime, UTC
from pathlib import Path
from extract.review.keeping.desk import Desk
desk = Desk(Path(sys.argv[1]), lambda: datetime.now(UTC))
key = desk.draft.dishes[0].model_extra["key"]
for number in range(200):
    desk.edit({"do": "set dish", "dish": key, "title": f"Title {number}"}, desk.number, "w", "")
    print(number, flush=True)
"""
    saved = -1
    for stop in (7, 40):  # killed twice, the second time going on from what the first left
        with subprocess.Popen(
            [sys.executable, "-c", code, str(path)], stdout=subprocess.PIPE, text=True
        ) as process:
            assert process.stdout is not None
            for row in process.stdout:
                saved = int(row)
                if saved >= stop:
                    process.kill()
                    break
            told = [int(row) for row in process.stdout.read().splitlines() if row.isdecimal()]
            saved = max([saved, *told])
        number = int(read(path).dishes[0].title.removeprefix("Title "))
        assert number in (saved, saved + 1)
        again = reopened(path)
        assert int(again.draft.dishes[0].title.removeprefix("Title ")) in (saved, saved + 1)
        assert read(path).to_dict() == again.state
    again = reopened(path)
    while again.journal.undoable:
        again.undo(again.number, "w", "")
    assert again.draft.dishes[0].title == "Sweet Potato and Black Bean Hand Pies"
