"""``cardwright draft``: files, folders, standard input; what is written, kept and told."""

from __future__ import annotations

import io
import json
import os
import subprocess
import sys
from pathlib import Path
from types import SimpleNamespace

import pytest
from click.testing import CliRunner, Result

from extract.cli import cardwright
from extract.commands.work import progress
from extract.model import Dish, Question, RecipeDraft, Source
from extract.transcript import Transcript

VTT = "WEBVTT\n\n00:01.000 --> 00:02.000\nStir in two cups of oats.\n"
BROKEN = "WEBVTT\n\n00:01.000 --> \nStir.\n"


def quick_draft(transcript: Transcript) -> RecipeDraft:
    """A stand-in for the pipeline: one dish, named by the first words."""
    if "fault" in transcript.cues[0].text:
        raise KeyError(transcript.file)
    dish = Dish(title=transcript.cues[0].text, questions=[Question(kind="yield", about="", text="How many?")])
    return RecipeDraft(source=Source(file=transcript.file, sha256=transcript.sha256), dishes=[dish])


@pytest.fixture(autouse=True)
def _quick(monkeypatch: pytest.MonkeyPatch) -> None:
    """The language model has no part in these tests."""
    pipeline = SimpleNamespace(draft_transcript=quick_draft)
    markdown = SimpleNamespace(page=lambda draft: f"# {draft.dishes[0].title}\n")
    ledger = SimpleNamespace(ledger_text=lambda transcript: f"ledger of {transcript.file}\n")
    monkeypatch.setitem(sys.modules, "extract.pipeline", pipeline)
    monkeypatch.setitem(sys.modules, "extract.publish.markdown", markdown)
    monkeypatch.setitem(sys.modules, "extract.reconcile", ledger)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    shows = tmp_path / "shows"
    shows.mkdir()
    (shows / "soup.vtt").write_text(VTT, encoding="utf-8")
    (shows / "rice.transcript.md").write_text("[0:01] Stir the rice.\n", encoding="utf-8")
    return shows


def run(*arguments: object, stdin: bytes | None = None) -> Result:
    return CliRunner().invoke(
        cardwright, ["draft", *map(str, arguments)], input=stdin, catch_exceptions=False
    )


def files(folder: Path) -> set[str]:
    return {path.name for path in folder.iterdir()} if folder.exists() else set()


def test_one_file_prints_its_page_and_nothing_else(folder: Path) -> None:
    result = run(folder / "soup.vtt")
    assert (result.exit_code, result.stdout, result.stderr) == (0, "# Stir in two cups of oats.\n", "")
    assert files(folder) == {"soup.vtt", "rice.transcript.md"}


def test_standard_input(tmp_path: Path) -> None:
    assert run("-", stdin=VTT.encode()).stdout == "# Stir in two cups of oats.\n"
    assert run("-", "--out", tmp_path, stdin=VTT.encode()).exit_code == 0
    assert files(tmp_path) == {"stdin.draft.json", "stdin.md"}
    result = run("-", stdin=b"")
    assert result.exit_code == 2
    assert result.stderr.startswith("Error: standard input: line 1: the file is empty")


def test_ledger_is_printed_or_written(folder: Path, tmp_path: Path) -> None:
    assert run(folder / "soup.vtt", "--ledger").stdout == "ledger of soup.vtt\n"
    run(folder / "soup.vtt", "--ledger", "--out", tmp_path / "out")
    assert files(tmp_path / "out") == {"soup.draft.json", "soup.md", "soup.ledger.txt"}


def test_folder_is_written_as_drafts_and_pages(folder: Path, tmp_path: Path) -> None:
    (folder / "clip.mp4").write_bytes(b"\x00\x01")
    (folder / ".hidden.vtt").write_text(VTT, encoding="utf-8")
    (folder / "README.md").write_text("What this folder holds.", encoding="utf-8")
    (folder / "inner").mkdir()
    out = tmp_path / "a" / "b"
    result = run(folder, "--out", out)
    assert (result.exit_code, result.stdout) == (0, "")
    assert files(out) == {"soup.draft.json", "soup.md", "rice.transcript.draft.json", "rice.transcript.md"}
    draft = json.loads((out / "soup.draft.json").read_text(encoding="utf-8"))
    assert draft["format"] == "recipe-draft/1"
    assert draft["source"]["file"] == "soup.vtt"
    assert [line.split()[0] for line in result.stderr.splitlines()] == ["wrote", "wrote"]


def test_folder_drafted_into_itself_keeps_its_transcripts_and_can_be_drafted_again(folder: Path) -> None:
    for _ in range(2):
        assert run(folder, "--out", folder).exit_code == 0
        assert files(folder) == {
            "soup.vtt",
            "soup.draft.json",
            "soup.md",
            "rice.transcript.md",
            "rice.transcript.draft.json",
            "rice.transcript.draft.md",
        }
    assert (folder / "rice.transcript.md").read_text(encoding="utf-8") == "[0:01] Stir the rice.\n"


def test_folder_goes_on_past_files_that_fail_and_names_them_at_the_end(folder: Path, tmp_path: Path) -> None:
    (folder / "broken.vtt").write_text(BROKEN, encoding="utf-8")
    (folder / "empty.srt").write_text("", encoding="utf-8")
    (folder / "odd.txt").write_text("a fault of our own", encoding="utf-8")
    result = run(folder, "--out", tmp_path / "out")
    assert result.exit_code == 70
    assert files(tmp_path / "out") == {
        "soup.draft.json",
        "soup.md",
        "rice.transcript.draft.json",
        "rice.transcript.md",
    }
    told = result.stderr.splitlines()[-4:]
    assert told[0] == "3 of 5 transcripts were not drafted:"
    assert told[1].startswith(f"Error: {folder / 'broken.vtt'}: line 3: ")
    assert told[2].startswith(f"Error: {folder / 'empty.srt'}: line 1: the file is empty")
    assert told[3].startswith(f"Error: {folder / 'odd.txt'}: a fault in this program")


def test_one_bad_file_is_one_line_and_writes_nothing(folder: Path, tmp_path: Path) -> None:
    (folder / "broken.vtt").write_text(BROKEN, encoding="utf-8")
    for arguments in ((folder / "broken.vtt",), (folder / "broken.vtt", "--out", tmp_path / "out")):
        result = run(*arguments)
        assert (result.exit_code, result.stdout) == (2, "")
        assert result.stderr.count("\n") == 1
        assert result.stderr.startswith(f"Error: {folder / 'broken.vtt'}: line 3: ")
    assert files(tmp_path / "out") == set()


def test_fault_of_the_program_is_not_hidden_for_a_single_file(tmp_path: Path) -> None:
    (tmp_path / "odd.txt").write_text("a fault of our own", encoding="utf-8")
    result = run(tmp_path / "odd.txt")
    assert (result.exit_code, result.stdout, result.stderr.count("\n")) == (70, "", 1)
    assert "a fault in this program, please report it: KeyError" in result.stderr
    assert "--traceback" in result.stderr
    told = run("--traceback", tmp_path / "odd.txt")
    assert told.exit_code == 70
    assert "Traceback (most recent call last)" in told.stderr


@pytest.mark.parametrize(
    "arguments", [("{}",), ("{}/soup.vtt", "{}/rice.transcript.md"), ("-", "{}/soup.vtt")]
)
def test_several_without_a_place_to_go_are_bad_usage(folder: Path, arguments: tuple[str, ...]) -> None:
    result = run(*(argument.format(folder) for argument in arguments))
    assert result.exit_code == 2
    assert "add --out DIR" in result.stderr


def test_empty_folder_is_told(tmp_path: Path) -> None:
    result = run(tmp_path)
    assert (result.exit_code, result.stderr) == (2, f"Error: {tmp_path}: no transcript in this folder\n")


def test_file_named_twice_is_drafted_once(folder: Path) -> None:
    result = run(folder / "soup.vtt", folder / "." / "soup.vtt")
    assert (result.exit_code, result.stdout.count("#")) == (0, 1)


def test_two_transcripts_of_one_name_are_both_refused(folder: Path, tmp_path: Path) -> None:
    (folder / "soup.srt").write_text("1\n00:00:01,000 --> 00:00:02,000\nStir.\n", encoding="utf-8")
    result = run(folder, "--out", tmp_path / "out")
    assert result.exit_code == 2
    assert result.stderr.count("would be written as soup.draft.json") == 2
    assert files(tmp_path / "out") == {"rice.transcript.draft.json", "rice.transcript.md"}


def test_place_that_cannot_be_written_is_told(folder: Path, tmp_path: Path) -> None:
    (tmp_path / "out").write_text("a file", encoding="utf-8")
    result = run(folder / "soup.vtt", "--out", tmp_path / "out")
    assert result.exit_code == 2
    assert result.stderr.count("\n") == 1
    assert str(tmp_path / "out") in result.stderr


def answer(path: Path) -> None:
    """As the review page or an editor does it: a question answered, the rest as it was."""
    draft = json.loads(path.read_text(encoding="utf-8"))
    draft["dishes"][0]["questions"][0]["answer"] = "six"
    path.write_text(json.dumps(draft, indent=1), encoding="utf-8")


def retitle(path: Path) -> None:
    draft = json.loads(path.read_text(encoding="utf-8"))
    draft["dishes"][0]["title"] = "Our soup"
    path.write_text(json.dumps(draft), encoding="utf-8")


def spelled_otherwise(path: Path) -> None:
    """Another program's spelling of the same values is no change."""
    draft = json.loads(path.read_text(encoding="utf-8"))
    path.write_text(json.dumps(draft, indent=None, sort_keys=True), encoding="utf-8")


def test_untouched_draft_is_replaced(folder: Path, tmp_path: Path) -> None:
    run(folder / "soup.vtt", "--out", tmp_path)
    spelled_otherwise(tmp_path / "soup.draft.json")
    (folder / "soup.vtt").write_text(VTT.replace("two", "three"), encoding="utf-8")
    result = run(folder / "soup.vtt", "--out", tmp_path)
    assert result.stderr.startswith("wrote ")
    assert "three cups" in (tmp_path / "soup.draft.json").read_text(encoding="utf-8")
    assert "three cups" in (tmp_path / "soup.md").read_text(encoding="utf-8")


@pytest.mark.parametrize("asked", [(), ("--replace",)])
def test_answers_are_carried_over_to_a_later_run(
    folder: Path, tmp_path: Path, asked: tuple[str, ...]
) -> None:
    run(folder / "soup.vtt", "--out", tmp_path)
    answer(tmp_path / "soup.draft.json")
    (folder / "soup.vtt").write_text(VTT.replace("two", "three"), encoding="utf-8")
    assert run(folder / "soup.vtt", "--out", tmp_path, *asked).stderr.startswith("wrote ")
    draft = json.loads((tmp_path / "soup.draft.json").read_text(encoding="utf-8"))
    assert "three cups" in json.dumps(draft)
    assert [q["answer"] for q in draft["dishes"][0]["questions"] if q["answer"]] == ["six"]


@pytest.mark.parametrize(
    ("name", "change"),
    [
        ("soup.draft.json", retitle),
        ("soup.draft.json", lambda path: path.write_text('{"format": "recipe-draft/1"}', encoding="utf-8")),
        ("soup.draft.json", lambda path: path.write_text("{half", encoding="utf-8")),
        ("soup.draft.json", lambda path: path.write_text("[" * 100_000, encoding="utf-8")),
        ("soup.md", lambda path: path.write_text("# Our own page\n", encoding="utf-8")),
    ],
)
def test_what_a_person_changed_is_kept_unless_asked(
    folder: Path, tmp_path: Path, name: str, change: object
) -> None:
    assert callable(change)
    run(folder / "soup.vtt", "--out", tmp_path)
    change(tmp_path / name)
    before = {path.name: path.read_bytes() for path in tmp_path.iterdir() if path.is_file()}
    (folder / "soup.vtt").write_text(VTT.replace("two", "three"), encoding="utf-8")

    result = run(folder / "soup.vtt", "--out", tmp_path)
    assert result.exit_code == 0
    assert result.stderr.startswith(f"kept {tmp_path / name}: changed since it was written")
    assert {path.name: path.read_bytes() for path in tmp_path.iterdir() if path.is_file()} == before

    assert run(folder / "soup.vtt", "--out", tmp_path, "--replace").exit_code == 0
    assert "three cups" in (tmp_path / "soup.draft.json").read_text(encoding="utf-8")


def test_page_that_was_there_before_any_draft_is_kept(folder: Path, tmp_path: Path) -> None:
    (tmp_path / "soup.md").write_text("# My notes\n", encoding="utf-8")
    assert "kept" in run(folder / "soup.vtt", "--out", tmp_path).stderr
    assert (tmp_path / "soup.md").read_text(encoding="utf-8") == "# My notes\n"
    assert not (tmp_path / "soup.draft.json").exists()


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


@pytest.mark.parametrize(
    ("stream", "patience", "shown"),
    [(Terminal, 0.0, True), (Terminal, 60.0, False), (io.StringIO, 0.0, False)],
)
def test_progress_is_shown_to_a_person_who_has_to_wait(
    monkeypatch: pytest.MonkeyPatch, stream: type[io.StringIO], patience: float, shown: bool
) -> None:
    error = stream()
    monkeypatch.setattr(sys, "stderr", error)
    monkeypatch.setattr(progress, "PATIENCE", patience)
    monkeypatch.setenv("TERM", "xterm")
    with progress.Progress(3) as watch:
        if watch.timer is not None and patience == 0:
            watch.timer.join()
        watch.advance("wrote soup.draft.json")
    assert ("1/3" in error.getvalue()) is shown
    assert "wrote soup.draft.json" in error.getvalue()


WATCHED = """
import sys, time
from types import SimpleNamespace
from extract.commands.work import progress
progress.PATIENCE = 0.0
def slow(transcript):
    time.sleep(0.4)
    return SimpleNamespace(dishes=["soup"])
sys.modules["extract.pipeline"] = SimpleNamespace(draft_transcript=slow)
sys.modules["extract.publish.markdown"] = SimpleNamespace(page=lambda draft: "# Soup\\n")
from extract.cli import main
sys.argv = ["cardwright", "draft", sys.argv[1]]
main()
"""


@pytest.mark.skipif(not hasattr(os, "openpty"), reason="no pseudo-terminals on this system")
def test_page_goes_to_standard_output_while_a_person_watches(folder: Path) -> None:
    """The bar is drawn on the terminal, and nothing of it gets into a file that standard output leads to."""
    master, terminal = os.openpty()
    with os.fdopen(master, "rb", buffering=0) as screen:
        environment = {**os.environ, "TERM": "xterm"}
        words = [sys.executable, "-c", WATCHED, str(folder / "soup.vtt")]
        done = subprocess.run(words, stdout=subprocess.PIPE, stderr=terminal, env=environment, check=True)
        os.close(terminal)
        seen = screen.read(4096)
    assert done.stdout == b"# Soup\n"
    assert b"drafting" in seen
