"""Lexicons are read strictly, and a user's own rows follow the program's."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from extract.errors import CardwrightError
from extract.lexicon import KINDS, LEARNED, OWN, lexicon_folder, own_folder, read_lexicon, read_table

COLUMNS = ("word", "kind")
FILES = sorted(lexicon_folder().rglob("*.tsv"))


def test_every_lexicon_is_of_one_kind_and_has_a_name_of_its_own() -> None:
    assert {path.parent for path in FILES} == {lexicon_folder() / kind for kind in KINDS}
    assert len({path.name for path in FILES}) == len(FILES)


@pytest.fixture(autouse=True)
def _fresh() -> Iterator[None]:
    """What is read under another environment is not kept for the tests that follow."""
    yield
    own_folder.cache_clear()
    read_lexicon.cache_clear()


def write(folder: Path, text: str) -> Path:
    path = folder / "captions.tsv"
    path.write_text(text, encoding="utf-8")
    return path


def test_comments_and_empty_lines_are_passed_over(tmp_path: Path) -> None:
    path = write(tmp_path, "# source: own\nword\tkind\n\n# more\nhiss\tsound\n")
    assert list(read_table(path, COLUMNS)) == [{"word": "hiss", "kind": "sound"}]


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("word\nhiss\n", 1),
        ("# c\nkind\tword\nhiss\tsound\n", 2),
        ("word\tkind\nhiss\n", 2),
        ("word\tkind\nhiss\tsound\textra\n", 2),
        ("word\tkind\n\tsound\n", 2),
    ],
)
def test_faults_are_told_with_their_line(tmp_path: Path, text: str, line: int) -> None:
    with pytest.raises(CardwrightError) as caught:
        list(read_table(write(tmp_path, text), COLUMNS))
    assert caught.value.line == line


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
def test_every_lexicon_has_a_source_a_header_and_rows(path: Path) -> None:
    lines = path.read_text(encoding="utf-8").splitlines()
    comments = [line for line in lines if line.startswith("#")]
    header = next(line for line in lines if line.strip() and not line.startswith("#")).split("\t")
    rows = list(read_table(path, tuple(header)))
    assert rows
    assert len(rows) == len({tuple(row.values()) for row in rows}), "the same row twice"
    said = " ".join(comments).casefold()
    assert any(word in said for word in ("source", "compiled", "published", "fitted"))


def use(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The folder as that of a user's own."""
    monkeypatch.setenv(OWN, str(folder))
    own_folder.cache_clear()
    read_lexicon.cache_clear()


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
@pytest.mark.parametrize("place", ["", "its kind's"])
def test_rows_of_a_users_own_follow(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, path: Path, place: str
) -> None:
    """Flat and in folders by kind; what was learned says why not."""
    columns = next(
        line for line in path.read_text(encoding="utf-8").splitlines() if line[:1] not in ("#", "")
    )
    folder = tmp_path / path.parent.name if place else tmp_path
    folder.mkdir(exist_ok=True)
    cells = ["own" for _ in columns.split("\t")]
    (folder / path.name).write_text("\n".join([columns, "\t".join(cells)]), encoding="utf-8")
    use(tmp_path, monkeypatch)
    header = tuple(columns.split("\t"))
    if path.parent.name == LEARNED:
        assert "user's own are not read here" in path.read_text(encoding="utf-8")
        with pytest.raises(CardwrightError, match="fitted together"):
            read_lexicon(path.stem, columns=header)
        return
    *programs, last = read_lexicon(path.stem, columns=header)
    assert last == dict.fromkeys(header, "own")
    assert programs == list(read_table(path, header))


def test_folder_of_a_users_own_that_is_not_there_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(OWN, "/no/such/folder")
    own_folder.cache_clear()
    with pytest.raises(CardwrightError, match=OWN):
        own_folder()


def test_own_words_reach_the_readers(tmp_path: Path) -> None:
    write(tmp_path, "word\tkind\nhissing\tsound\n")
    code = (
        "from extract.transcript import read_transcript\n"
        "print(read_transcript(None, b'[0:01] stir (hissing) it').cues[0].text)"
    )
    said = [
        subprocess.run(
            [sys.executable, "-c", code], env=env, capture_output=True, text=True, check=True
        ).stdout
        for env in (dict(os.environ), {**os.environ, OWN: str(tmp_path)})
    ]
    assert said == ["stir (hissing) it\n", "stir it\n"]


def test_own_words_join_the_class_that_the_program_has(tmp_path: Path) -> None:
    (tmp_path / "words").mkdir()
    (tmp_path / "words" / "action_words.tsv").write_text("kind\twords\ndeterminer\tyon\n", encoding="utf-8")
    code = "from extract.spot.verbs.words import words; print({'the', 'yon'} <= words('determiner'))"
    done = subprocess.run(
        [sys.executable, "-c", code],
        env={**os.environ, OWN: str(tmp_path)},
        capture_output=True,
        text=True,
        check=True,
    )
    assert done.stdout == "True\n"
