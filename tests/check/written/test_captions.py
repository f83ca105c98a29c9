"""Files beside the recipe that are none."""

from __future__ import annotations

from pathlib import Path

import pytest

from extract.check.written.document import read_written
from extract.check.written.lines.line import read_line
from extract.check.written.yields import read_yield
from extract.errors import CardwrightError

CAPTIONS = {
    "show.vtt": "WEBVTT\n\n00:01.000 --> 00:04.000\n200 g flour\n\n00:05.000 --> 00:09.000\n2 eggs\n",
    "show.srt": "1\n00:00:01,000 --> 00:00:04,000\n200 g flour\n\n2\n00:00:05,000 --> 00:00:09,000\n2 eggs\n",
}


@pytest.mark.parametrize("name", CAPTIONS)
def test_captions_are_no_recipe(tmp_path: Path, name: str) -> None:
    path = tmp_path / name
    path.write_text(CAPTIONS[name], encoding="utf-8")
    with pytest.raises(CardwrightError, match="captions, no written recipe"):
        read_written(path)


@pytest.mark.parametrize(
    ("text", "low", "unit"), [("7 pints", 7, "pints"), ("500 ml", 500, "ml"), ("8", 8, "")]
)
def test_what_is_known_to_be_a_yield_may_be_a_measure(text: str, low: float, unit: str) -> None:
    found = read_yield(text, assume=True)
    assert found is not None
    assert (found.low, found.unit) == (low, unit)


@pytest.mark.parametrize(
    ("text", "name"), [("1 leaf", "leaf"), ("200 thighs", "thighs"), ("2 cloves", "cloves")]
)
def test_a_word_of_counting_alone_is_the_food(text: str, name: str) -> None:
    assert [line.name for line in read_line(text)] == [name]
