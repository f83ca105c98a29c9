"""Nobody's work is lost or mixed: recordings told apart, pairs that agree, edits that stay, leftovers swept."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import time
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
from click.testing import CliRunner, Result

from extract.cli import cardwright
from extract.commands.work.marks import Marked, digest
from extract.commands.work.outputs import Outputs
from extract.drafts import load_draft
from extract.errors import CardwrightError
from extract.model import Dish, Question, RecipeDraft, Source
from extract.transcript import Transcript
from extract.writing import sweep, write_together

TALK = "[0:01] Stir in two cups of oats.\n"
KILLS = int(os.environ.get("KILLS", "40"))


def quick_draft(transcript: Transcript) -> RecipeDraft:
    """A stand-in for the pipeline: a dish for every cue, named by its words, with a question in its own words."""
    dishes = [
        Dish(
            title=cue.text,
            questions=[Question(kind="size", about=f"the oats of {cue.text}", text="What size?")],
        )
        for cue in transcript.cues
    ]
    return RecipeDraft(source=Source(file=transcript.file, sha256=transcript.sha256), dishes=dishes)


def quick_page(draft: RecipeDraft) -> str:
    answers = [f"{q.text} {q.answer}" for dish in draft.dishes for q in dish.questions]
    return "\n".join([*(dish.title for dish in draft.dishes), *answers, ""])


QUICK = SimpleNamespace(page=quick_page)


@pytest.fixture(autouse=True)
def _quick(monkeypatch: pytest.MonkeyPatch) -> None:
    """The language model has no part in these tests, nor has what a question is worth."""
    monkeypatch.setitem(sys.modules, "extract.pipeline", SimpleNamespace(draft_transcript=quick_draft))
    monkeypatch.setitem(sys.modules, "extract.publish.markdown", QUICK)


def run(*arguments: object) -> Result:
    return CliRunner().invoke(cardwright, [str(word) for word in arguments], catch_exceptions=False)


def talk(folder: Path, words: str = TALK, name: str = "show.txt") -> Path:
    folder.mkdir(exist_ok=True, parents=True)
    (folder / name).write_text(words, encoding="utf-8")
    return folder / name


def change(path: Path, *way: Any, to: Any) -> None:
    content = json.loads(path.read_text(encoding="utf-8"))
    inner = content
    for step in way[:-1]:
        inner = inner[step]
    inner[way[-1]] = to
    path.write_text(json.dumps(content, indent=2), encoding="utf-8")


ANSWER = ("dishes", 0, "questions", 0, "answer")


def test_another_recording_of_the_same_name_is_refused_and_nothing_of_the_first_is_touched(
    tmp_path: Path,
) -> None:
    out = tmp_path / "out"
    run("draft", talk(tmp_path / "ep1"), "--out", out)
    change(out / "show.draft.json", *ANSWER, to="large ones")
    before = {path.name: path.read_bytes() for path in out.iterdir()}
    other = talk(tmp_path / "ep2", "[0:01] Stir in two carrots.\n")
    for extra in ((), ("--replace",)):
        result = run("draft", other, "--out", out, *extra)
        assert result.exit_code == 2
        assert "another recording (../ep1/show.txt)" in result.stderr
        assert "choose another folder with --out" in result.stderr
    assert {path.name: path.read_bytes() for path in out.iterdir()} == before


def test_the_same_recording_is_known_by_its_file_and_by_its_words(tmp_path: Path) -> None:
    out = tmp_path / "out"
    source = talk(tmp_path / "ep1")
    run("draft", source, "--out", out)
    source.write_text(TALK.replace("two", "three"), encoding="utf-8")
    assert run("draft", source, "--out", out).stderr.startswith("wrote ")  # corrected in its place
    moved = talk(tmp_path / "elsewhere", source.read_text(encoding="utf-8"))
    assert run("draft", moved, "--out", out).stderr.startswith("wrote ")  # moved as it was
    assert run("draft", source, "--out", out).stderr.startswith("wrote ")


def test_a_project_may_be_moved_as_a_whole(tmp_path: Path) -> None:
    source = talk(tmp_path / "a" / "shows")
    run("draft", source, "--out", tmp_path / "a" / "drafts")
    (tmp_path / "a").rename(tmp_path / "b")
    source = talk(tmp_path / "b" / "shows", TALK.replace("two", "three"))
    assert run("draft", source, "--out", tmp_path / "b" / "drafts").stderr.startswith("wrote ")


def test_answers_stay_with_their_own_dish_and_those_without_one_are_kept_and_told(tmp_path: Path) -> None:
    out = tmp_path / "out"
    source = talk(tmp_path, "[0:01] Stir the oat porridge.\n[5:00] Fry the green plantains.\n")
    run("draft", source, "--out", out)
    draft = out / "show.draft.json"
    change(draft, "dishes", 1, "questions", 0, "answer", to="small ones")
    source.write_text("[0:01] Stir the oat porridge.\n", encoding="utf-8")
    result = run("draft", source, "--out", out)
    assert "1 answer is kept under unplaced" in result.stderr
    kept = load_draft(draft)
    assert [(one.dish, one.answer) for one in kept.unplaced] == [("Fry the green plantains.", "small ones")]
    assert all(not question.answer for question in kept.dishes[0].questions)
    source.write_text("[0:01] Stir the oat porridge.\n[5:00] Fry the green plantains.\n", encoding="utf-8")
    run("draft", source, "--out", out)  # the dish is back, and so is its answer
    back = load_draft(draft)
    assert (back.unplaced, [question.answer for question in back.dishes[1].questions]) == ([], ["small ones"])


# One process that drafts again and again in children of its own, each killed at some line of the writing.
KILLED = """
import json, os, random, signal, sys
from pathlib import Path
from types import SimpleNamespace
sys.path.insert(0, {tests!r})
import test_work_kept as stand_in
sys.modules["extract.pipeline"] = SimpleNamespace(draft_transcript=stand_in.quick_draft)
sys.modules["extract.publish.markdown"] = stand_in.QUICK
import extract.commands.work.outputs, extract.draft.questions
from extract.commands.work.drafting import Batch, find_sources
from extract.drafts import load_draft

source, out, chance = Path({talk!r}), Path({out!r}), random.Random(1)
draft, page = out / "show.draft.json", out / "show.md"
count = {{"killed": 0, "torn": 0, "mended": 0, "not mended": 0}}

def run():
    Batch(find_sources([str(source)]), out, ledger=False, replace=False).run()

def agrees():
    return page.exists() and page.read_text(encoding="utf-8") == stand_in.quick_page(load_draft(draft))

def child(end):
    lines = 0
    def watch(frame, event, argument):
        nonlocal lines
        code = frame.f_code
        writes = code.co_filename.endswith("writing.py") and code.co_name not in ("sweep", "_is_given_up")
        if writes and event == "line":
            lines += 1
            if lines == end:
                os.kill(os.getpid(), signal.SIGKILL)
        return watch
    sys.settrace(watch)
    run()
    os._exit(0)

for number in range({kills}):
    source.write_text(stand_in.TALK.replace("two", str(number + 2)), encoding="utf-8")
    end = chance.randrange(1, 75)  # of some 66 lines
    born = os.fork()
    if not born:
        child(end)
    count["killed"] += os.waitpid(born, 0)[1] == signal.SIGKILL
    torn = draft.exists() and not agrees()
    count["torn"] += torn
    if torn or number % 5 == 4:
        run()
        count["mended" if agrees() else "not mended"] += 1
print(json.dumps(count))
"""


@pytest.mark.skipif(not hasattr(os, "fork"), reason="no fork on this system")
def test_a_run_killed_at_any_moment_leaves_a_pair_that_agrees_or_that_the_next_run_mends(
    tmp_path: Path,
) -> None:
    """Killed at some line of the writing, ``KILLS`` times; ``KILLS=1000`` with -s is the long form."""
    out = tmp_path / "out"
    source = talk(tmp_path)
    words = {"tests": str(Path(__file__).parent), "kills": KILLS, "talk": str(source), "out": str(out)}
    script = KILLED.format(**words)
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    count = json.loads(done.stdout)
    assert count["killed"] > KILLS // 2
    assert count["mended"] >= KILLS // 5
    assert count["not mended"] == 0
    left = len(list(out.iterdir())) - 2
    for path in out.iterdir():  # what the last kills left is old by now
        os.utime(path, (time.time() - 60, time.time() - 60))
    run("draft", source, "--out", out)
    assert sorted(path.name for path in out.iterdir()) == ["show.draft.json", "show.md"]
    print(f"{count}, {left} leftovers swept")  # noqa: T201 - for the long form


def test_a_pair_torn_between_its_two_moves_is_mended(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    source = talk(tmp_path)
    run("draft", source, "--out", tmp_path / "out")
    old = (tmp_path / "out" / "show.md").read_bytes()
    source.write_text(TALK.replace("two", "three"), encoding="utf-8")
    replace = Path.replace

    def once(self: Path, target: Path) -> Path:
        if str(target).endswith(".md"):
            raise KeyboardInterrupt
        return replace(self, target)

    monkeypatch.setattr(Path, "replace", once)
    assert run("draft", source, "--out", tmp_path / "out").exit_code == 130
    assert (tmp_path / "out" / "show.md").read_bytes() == old
    monkeypatch.setattr(Path, "replace", replace)
    assert run("draft", source, "--out", tmp_path / "out").stderr.startswith("wrote ")
    assert "three cups" in (tmp_path / "out" / "show.md").read_text(encoding="utf-8")
    assert sorted(path.name for path in (tmp_path / "out").iterdir()) == ["show.draft.json", "show.md"]


def test_a_full_disk_leaves_no_half_of_a_pair(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The disk takes the first file and is full at the second."""
    source, out = talk(tmp_path), tmp_path / "out"
    taken: list[int] = []
    sync = os.fsync

    def full(descriptor: int) -> None:
        taken.append(descriptor)
        if len(taken) > 1:
            raise OSError(28, "No space left on device")
        sync(descriptor)

    monkeypatch.setattr("os.fsync", full)
    result = run("draft", source, "--out", out)
    assert (result.exit_code, result.stderr.count("\n")) == (2, 1)
    assert "No space left on device" in result.stderr
    assert list(out.iterdir()) == []
    monkeypatch.setattr("os.fsync", sync)
    assert run("draft", source, "--out", out).exit_code == 0


@pytest.mark.parametrize("name", ["show.draft.json", "show.md"])
def test_an_edit_saved_while_drafting_runs_is_kept(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str
) -> None:
    source, out = talk(tmp_path), tmp_path / "out"
    run("draft", source, "--out", out)

    def edit() -> None:
        if name.endswith(".md"):
            (out / name).write_text("# My page\n", encoding="utf-8")
        else:
            change(out / name, "dishes", 0, "title", to="My porridge")

    def slow(transcript: Transcript) -> RecipeDraft:
        edit()
        return quick_draft(transcript)

    monkeypatch.setitem(sys.modules, "extract.pipeline", SimpleNamespace(draft_transcript=slow))
    result = run("draft", source, "--out", out)
    assert result.stderr.startswith(f"kept {out / name}: changed since it was written")
    assert "My p" in (out / name).read_text(encoding="utf-8")


def test_what_is_saved_right_before_the_move_is_kept_and_an_answer_is_taken_in(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    source, out = talk(tmp_path), tmp_path / "out"
    run("draft", source, "--out", out)
    sync, done = os.fsync, []

    def answering(descriptor: int) -> None:
        if not done:
            done.append(True)
            change(out / "show.draft.json", *ANSWER, to="six")
        sync(descriptor)

    monkeypatch.setattr("os.fsync", answering)
    assert run("draft", source, "--out", out).stderr.startswith("wrote ")
    assert load_draft(out / "show.draft.json").dishes[0].questions[0].answer == "six"


def test_a_page_older_than_its_corrected_draft_is_told_and_page_prints_the_new_one(tmp_path: Path) -> None:
    source, out = talk(tmp_path), tmp_path / "out"
    run("draft", source, "--out", out)
    draft = out / "show.draft.json"
    change(draft, "dishes", 0, "title", to="Our porridge")
    told = run("draft", source, "--out", out).stderr
    assert f"{out / 'show.md'} is older than it (cardwright page {draft} prints it anew)" in told
    printed = run("page", draft)
    assert (printed.exit_code, printed.stdout.splitlines()[0]) == (0, "Our porridge")
    (out / "show.md").write_text(printed.stdout, encoding="utf-8")
    assert "is older than" not in run("draft", source, "--out", out).stderr


def test_a_page_printed_anew_with_its_answers_is_no_change_by_hand(tmp_path: Path) -> None:
    source, out = talk(tmp_path), tmp_path / "out"
    run("draft", source, "--out", out)
    change(out / "show.draft.json", *ANSWER, to="six")
    (out / "show.md").write_text(run("page", out / "show.draft.json").stdout, encoding="utf-8")
    assert run("draft", source, "--out", out).stderr.startswith("wrote ")


@pytest.mark.parametrize("value", [2, 2.0])
def test_another_spelling_of_a_figure_is_no_change(tmp_path: Path, value: float) -> None:
    source, out = talk(tmp_path), tmp_path / "out"
    run("draft", source, "--out", out)
    change(out / "show.draft.json", "source", "end", to=json.loads("0" if isinstance(value, int) else "0.0"))
    assert run("draft", source, "--out", out).stderr.startswith("wrote ")


def test_a_ledger_that_a_person_changed_is_kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    ledger = SimpleNamespace(ledger_text=lambda transcript: "Kitchen ledger of it\n")
    monkeypatch.setitem(sys.modules, "extract.reconcile", ledger)
    source, out = talk(tmp_path), tmp_path / "out"
    for _ in range(2):
        assert run("draft", source, "--out", out, "--ledger").stderr.startswith("wrote ")
    assert "show.ledger.txt" in run("draft", source, "--out", out, "--ledger").stderr
    run("draft", source, "--out", out)
    (out / "show.ledger.txt").write_text("Kitchen ledger of it, with my notes\n", encoding="utf-8")
    assert run("draft", source, "--out", out, "--ledger").stderr.startswith(f"kept {out / 'show.ledger.txt'}")
    assert run("draft", source, "--out", out).stderr.startswith("wrote ")


@pytest.mark.parametrize("name", ["show.draft.json", "show.md"])
def test_a_folder_in_the_place_of_a_file_is_one_line(tmp_path: Path, name: str) -> None:
    (tmp_path / "out" / name).mkdir(parents=True)
    result = run("draft", talk(tmp_path), "--out", tmp_path / "out")
    assert (result.exit_code, result.stderr.count("\n")) == (2, 1)


def test_leftovers_are_swept_but_not_what_is_being_written(tmp_path: Path) -> None:
    old = tmp_path / ".show.draft.json.abcd1234.tmp"
    mine = tmp_path / ".notes.tmp"
    for path in (old, mine):
        path.write_text("half", encoding="utf-8")
        os.utime(path, (time.time() - 60, time.time() - 60))
    held: list[int] = []
    write_together([(tmp_path / "show.md", "whole\n")], unless=lambda: held.append(sweep(tmp_path)))
    assert held == [1]
    assert sorted(path.name for path in tmp_path.iterdir()) == [".notes.tmp", "show.md"]


def test_nothing_is_moved_where_the_last_look_stops_it(tmp_path: Path) -> None:
    def stop() -> None:
        problem = "somebody was faster"
        raise CardwrightError(problem)

    with pytest.raises(CardwrightError, match="faster"):
        write_together([(tmp_path / "a", "1"), (tmp_path / "b", "2")], unless=stop)
    assert list(tmp_path.iterdir()) == []


# What scale, convert and written write.
WORKED = [("scale", "--by", "2"), ("convert", "--to", "metric")]


@pytest.fixture
def drafted(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    run("draft", talk(tmp_path), "--out", tmp_path / "out")
    return tmp_path / "out" / "show.draft.json"


@pytest.mark.parametrize("command", WORKED, ids=lambda words: words[0])
def test_worked_drafts_write_over_their_own_and_nothing_else(
    tmp_path: Path, drafted: Path, command: tuple[str]
) -> None:
    name, *options = command
    out = tmp_path / "worked.draft.json"
    for _ in range(2):
        assert run(name, drafted, *options, "--out", out).exit_code == 0
    change(out, *ANSWER, to="six")
    before = out.read_bytes()
    for target in (out, drafted, talk(tmp_path, "my notes", "notes.txt")):
        kept = target.read_bytes()
        result = run(name, drafted, *options, "--out", target)
        assert (result.exit_code, result.stderr.count("\n")) == (2, 1)
        assert "add --replace" in result.stderr
        assert target.read_bytes() == kept
    assert out.read_bytes() == before
    assert run(name, drafted, *options, "--out", out, "--replace").exit_code == 0
    assert Marked.at(out).is_whole_from(name)


def test_what_scale_wrote_in_the_place_of_a_draft_is_not_drafted_over(tmp_path: Path, drafted: Path) -> None:
    run("scale", drafted, "--by", "2", "--out", drafted, "--replace")
    assert run("draft", tmp_path / "show.txt", "--out", drafted.parent).stderr.startswith("kept ")


def test_written_writes_over_nothing_unasked_and_names_what_it_wrote(tmp_path: Path) -> None:
    recipe = "# Porridge\n\n## Ingredients\n\n- 2 cups oats\n\n## Method\n\n1. Stir the oats.\n"
    page, other = talk(tmp_path, recipe, "soup.md"), talk(tmp_path, recipe, "soup.txt")
    out = tmp_path / "read"
    result = run("written", page, other, "--out", out)
    assert (result.exit_code, result.stderr.count("would be written as soup.written.json")) == (2, 2)
    assert not out.exists()
    assert run("written", page, "--out", out).stderr == f"wrote {out / 'soup.written.json'}\n"
    assert run("written", page, "--out", out).exit_code == 0
    change(out / "soup.written.json", "dishes", 0, "title", to="Mine")
    assert run("written", page, "--out", out).exit_code == 2
    assert run("written", page, "--out", out, "--replace").exit_code == 0


def test_a_torn_first_draft_knows_no_page_but_its_own(tmp_path: Path) -> None:
    out = tmp_path / "out"
    run("draft", talk(tmp_path), "--out", out)
    marks = Marked.at(out / "show.draft.json").marks
    assert marks["page"] == digest((out / "show.md").read_bytes())
    assert marks["page_before"] is None
    assert Outputs(out, "show", tmp_path / "show.txt").changed_by_hand() is None
