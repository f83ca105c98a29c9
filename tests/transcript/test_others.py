"""What is no transcript is told by its content: refused when named, passed over in a folder."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path

import pytest
from click.testing import CliRunner

from extract.cli import COMMANDS, cardwright
from extract.errors import CardwrightError
from extract.transcript import read_transcript
from extract.transcript.reading import kind_of_file

ROOT = Path(__file__).parents[2]
TALKS = sorted(
    path
    for folder in (ROOT / "samples", ROOT / "tests" / "shows")
    for suffix in (".vtt", ".txt", ".srt")
    for path in folder.glob(f"*{suffix}")
)
OTHERS = {
    "script.py": "import sys\n\n\ndef main() -> None:\n    print(sys.argv)\n",
    "short.py": "x = 1\n",
    "old.py": "print 'a', x\n" + "for i in range(10): a[i] = {i: (i, b[i])}; c = d(e)\n" * 9,
    "run": "#!/bin/sh\nls\n",
    "page.js": "const a = (b) => { return c[b] + d({e: f}); };\n" * 9,
    "codes.scc": "A header of the format\n\n00:00:01:05\t9420 9420 94ad 94ad 9470 9470 d3f4 e9f2\n",
    "times.csv": "start,end,text\n0,1,Stir it\n1,2,Bake it\n",
    "times.tsv": "start\tend\ttext\n0\t1\tStir it\n1\t2\tBake it\n",
    "number.json": "5\n",
    "word.json": '"hello"\n',
    "settings.json": '{"name": "show", "files": ["a", "b"]}',
    "rows.json": '[{"a": 1}, {"a": 2}]',
    "page.html": "<!DOCTYPE html><html><p>Stir it.</p></html>",
    "letter.rtf": r"{\rtf1 Stir it.}",
    "feed.xml": "<feed><entry/></feed>",
}


@pytest.mark.parametrize("name", OTHERS)
def test_other_kinds_are_refused_by_name_and_known_in_a_folder(tmp_path: Path, name: str) -> None:
    path = tmp_path / name
    path.write_text(OTHERS[name], encoding="utf-8")
    assert kind_of_file(path)
    with pytest.raises(CardwrightError) as caught:
        read_transcript(path)
    assert caught.value.line


@pytest.mark.parametrize("path", TALKS, ids=lambda path: path.stem)
def test_talks_are_not_taken_for_something_else(path: Path) -> None:
    assert kind_of_file(path) == ""


@pytest.mark.parametrize(
    "words",
    [
        "Stir in two cups of oats.",
        "[Music] HOST: Hello. [laughs] (applause)\nGUEST: Hi, hello, welcome.\n" * 9,
        "Salt, pepper, oil.\nFlour, butter, eggs.\nMilk, sugar, cream.\n",
        "hello",
    ],
)
def test_talk_without_times_is_not_taken_for_something_else(tmp_path: Path, words: str) -> None:
    path = tmp_path / "talk.txt"
    path.write_text(words, encoding="utf-8")
    assert kind_of_file(path) == ""


def own_prints(folder: Path) -> Iterator[tuple[str, str]]:
    """What every command prints of the samples, as a person redirects it into the folder."""
    sample = ROOT / "samples" / "market-kitchen.txt"
    assert run("draft", sample, "--out", folder).exit_code == 0
    draft = folder / "market-kitchen.draft.json"
    written = ROOT / "tests" / "shows" / "market-kitchen.written.md"
    yield "ledger.txt", run("draft", sample, "--ledger").stdout
    yield "page.md", run("page", draft).stdout
    for form in ("text", "json", "csv"):
        yield f"ask.{form}", run("questions", draft, "--format", form).stdout
    for form in ("text", "json", "html"):
        yield f"check.{form}", run("check", draft, written, "--format", form).stdout
    for form in ("text", "json"):
        yield f"shop.{form}", run("shopping", draft, "--format", form).stdout
    yield "read.json", run("written", written).stdout
    yield "twice.md", run("scale", draft, "--by", "2").stdout
    yield "metric.md", run("convert", draft, "--to", "metric").stdout


def run(*words: object):  # type: ignore[no-untyped-def]
    return CliRunner().invoke(cardwright, [str(word) for word in words])


def test_own_prints_are_passed_over_whatever_they_are_called(tmp_path: Path) -> None:
    prints = dict(own_prints(tmp_path))
    for name, text in prints.items():
        assert text.strip(), name
        (tmp_path / name).write_text(text, encoding="utf-8")
    taken = [path.name for path in sorted(tmp_path.iterdir()) if not kind_of_file(path)]
    assert taken == []
    assert len(prints) > len(COMMANDS)
    assert run("draft", tmp_path, "--out", tmp_path).stderr.endswith("no transcript in this folder\n")


def test_segments_are_no_other_kind(tmp_path: Path) -> None:
    path = tmp_path / "talk.json"
    path.write_text(json.dumps({"segments": [{"start": 0, "end": 2, "text": "Stir it."}]}), encoding="utf-8")
    assert kind_of_file(path) == ""
