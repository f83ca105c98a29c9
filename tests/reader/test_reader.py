"""The reader itself: its units, its file, and that a reading is whole, repeatable and loaded only where needed."""

from __future__ import annotations

import subprocess
import sys
import zipfile
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from extract.errors import CardwrightError
from extract.reader.pairs import NEAR_BUCKETS, buckets
from extract.reader.read import MODEL, load_reader, read_card, read_words
from extract.reader.reading import Reading
from extract.reader.units import LONGEST, unit_starts

SPOKEN = (
    "two",
    "cups",
    "of",
    "flour",
    ",",
    "and",
    "stir",
    ".",
    "it",
    "'s",
    "hot",
    "?",
    "-",
    "now",
    "butter",
    "180",
)
WORDS = st.lists(st.sampled_from(SPOKEN), min_size=1)
PROBABILITIES = ("dish", "begin", "role", "things", "figures", "title", "parting")


@given(WORDS)
def test_units_take_in_every_word_in_order_and_are_short(words: list[str]) -> None:
    starts = unit_starts(words)
    assert starts[0] == 0
    assert all(a < b for a, b in pairwise(starts))
    lengths = np.diff([*starts, len(words)])
    assert lengths.sum() == len(words)
    assert all(length <= LONGEST + sum(word in ".,?-" for word in words) for length in lengths)


def test_distances_of_opposite_sign_stand_in_opposite_buckets() -> None:
    distance = np.arange(-300, 301)
    found = buckets(distance)
    assert found.min() >= 0
    assert found.max() < NEAR_BUCKETS
    assert (np.diff(found) >= 0).all()
    assert (found + found[::-1] == NEAR_BUCKETS - 1).all()


@given(WORDS)
def test_a_reading_has_a_likelihood_for_every_word_and_class(words: list[str]) -> None:
    reading = read_words(words)
    assert len(reading) == len(words)
    for name in PROBABILITIES:
        rows = getattr(reading, name)
        assert np.allclose(rows.sum(1), 1, atol=1e-4), name
        assert len(rows) == (len(reading.starts) if name in ("dish", "begin") else len(words))


def test_the_same_words_are_read_the_same_way() -> None:
    words = ["now", "take", "two", "cups", "of", "flour", "and", "a", "pinch", "of", "salt", "and", "stir"]
    first, second = read_words(words), read_words(words)
    assert first.role.tobytes() == second.role.tobytes()
    assert first.pair.tobytes() == second.pair.tobytes()


def test_no_words_are_read_as_nothing() -> None:
    reading = read_words([])
    assert isinstance(reading, Reading)
    assert len(reading) == 0


def test_the_model_is_small_and_carries_its_card() -> None:
    assert MODEL.stat().st_size <= 20_000_000
    card = read_card()
    assert {"base", "licence", "data", "settings", "figures"} <= set(card)


def test_a_missing_model_is_told_in_one_line(tmp_path: Path) -> None:
    with pytest.raises(CardwrightError, match="the reader's model is missing"):
        load_reader.__wrapped__(tmp_path / "reader.model")


@pytest.mark.parametrize("kept", [0, 10, 100_000])
def test_a_damaged_model_is_told_in_one_line(tmp_path: Path, kept: int) -> None:
    torn = tmp_path / "reader.model"
    torn.write_bytes(MODEL.read_bytes()[:kept])
    with pytest.raises(CardwrightError, match="the reader's model is damaged"):
        load_reader.__wrapped__(torn)


def test_a_model_without_its_graph_is_told_as_damaged(tmp_path: Path) -> None:
    torn = tmp_path / "reader.model"
    with zipfile.ZipFile(torn, "w") as archive:
        archive.writestr("card.json", "{}")
    with pytest.raises(CardwrightError, match="damaged"):
        load_reader.__wrapped__(torn)


@pytest.mark.parametrize("arguments", [["--help"], ["check", "--help"], ["scale", "--help"]])
def test_help_loads_no_reader(arguments: list[str]) -> None:
    code = (
        "import sys; from extract.cli import cardwright\n"
        f"try: cardwright({arguments!r}, prog_name='cardwright')\n"
        "except SystemExit: print('onnxruntime' in sys.modules, 'numpy' in sys.modules, file=sys.stderr)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stderr.strip() == "False False"
