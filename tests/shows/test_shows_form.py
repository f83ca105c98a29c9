"""The labelled shows are well formed: places exist, units are known, planted differences are written."""

import json
import re
from pathlib import Path

import pytest

HERE = Path(__file__).parent
SAMPLES = HERE.parent.parent / "samples"
README = (HERE / "README.md").read_text(encoding="utf-8")
TIMES = {"second", "minute", "hour", "day"}
ENTRIES = ("ingredients", "heat", "times", "portions", "leftover_portions")
GOLDS = sorted(HERE.glob("*.gold.json"))
CHECKS = sorted(HERE.glob("*.discrepancies.json"))


def listed(heading: str) -> set[str]:
    """The closed list that stands in backticks after a heading word of the README."""
    return set(README.partition(heading)[2].split("`")[1].split())


UNITS = listed("Units:") | {""}
KINDS = listed("Kinds of planted difference:")


def load(path: Path) -> dict:
    return json.loads(path.read_text(encoding="utf-8"))


def transcript(name: str) -> Path:
    found = [
        p for folder in (HERE, SAMPLES) for p in folder.glob(f"{name}.*") if p.suffix in (".vtt", ".txt")
    ]
    assert len(found) == 1, f"{name} has {len(found)} transcripts"
    return found[0]


def places(path: Path) -> tuple[str, dict]:
    """The key that places have in the gold, and the words at each place."""
    text = path.read_text(encoding="utf-8")
    if path.suffix == ".vtt":
        blocks = re.findall(r"^\S+ --> \S+\n(.*?)(?:\n\n|\Z)", text, re.M | re.S)
        return "cue", dict(enumerate(" ".join(b.split()) for b in blocks))
    rows = re.findall(r"^\[?(?:00:0?)?(\d+:\d\d)\]?(?: -)? (.*)$", text, re.M)
    return "at", dict(rows)


def entries(dish: dict) -> list[dict]:
    rows = [row for key in ENTRIES for row in dish[key]]
    return rows + ([dish["yield"]] if dish["yield"] else [])


@pytest.mark.parametrize("path", GOLDS, ids=lambda p: p.name.split(".")[0])
def test_every_entry_stands_at_a_place_of_its_transcript(path: Path) -> None:
    gold = load(path)
    key, words = places(transcript(gold["id"]))
    for dish in gold["dishes"]:
        assert entries(dish)
        assert {row[key] for row in entries(dish)} <= set(words)


@pytest.mark.parametrize("path", GOLDS, ids=lambda p: p.name.split(".")[0])
def test_dishes_follow_one_another(path: Path) -> None:
    gold = load(path)
    key, words = places(transcript(gold["id"]))
    order = list(words)
    suffix = "_cue" if key == "cue" else ""
    ends = [order.index(d[f"{side}{suffix}"]) for d in gold["dishes"] for side in ("start", "end")]
    assert ends == sorted(ends)


@pytest.mark.parametrize("path", GOLDS, ids=lambda p: p.name.split(".")[0])
def test_amounts_have_known_units_and_rising_ranges(path: Path) -> None:
    for dish in load(path)["dishes"]:
        for row in dish["ingredients"]:
            assert row["unit"] in UNITS
            assert (row["low"] is None) == (row["high"] is None)
            assert row["low"] is not None or row["unit"] == ""
        assert all(row["unit"] in TIMES for row in dish["times"])
        assert all(row["unit"] in ("", "degF", "degC", "gas_mark") for row in dish["heat"])
        ranged = [r for key in ("ingredients", "heat", "times") for r in dish[key] if r["low"] is not None]
        assert all(r["low"] <= r["high"] for r in ranged)


@pytest.mark.parametrize("path", GOLDS, ids=lambda p: p.name.split(".")[0])
def test_numbered_shares_of_a_made_thing_are_at_most_the_whole(path: Path) -> None:
    for dish in load(path)["dishes"]:
        for row in dish["portions"] + dish["leftover_portions"]:
            assert row["fraction"] in ("rest", "some", "all") or 0 < row["fraction"] <= 1


@pytest.mark.parametrize("path", CHECKS, ids=lambda p: p.name.split(".")[0])
def test_planted_differences_are_in_the_written_text(path: Path) -> None:
    check = load(path)
    name = path.name.split(".")[0]
    written = (HERE / f"{name}.written.md").read_text(encoding="utf-8")
    assert check["dish"] in {d["title"] for d in load(HERE / f"{name}.gold.json")["dishes"]}
    assert 6 <= len(check["planted"]) <= 9
    assert len(check["harmless"]) >= len(check["planted"])
    for planted in check["planted"]:
        assert planted["kind"] in KINDS
        figures = re.findall(r"[\d/½¼¾]+", planted["written"])
        assert all(figure in written for figure in figures), planted


def test_there_are_enough_shows() -> None:
    assert len(GOLDS) >= 8
    assert len(CHECKS) >= 8
