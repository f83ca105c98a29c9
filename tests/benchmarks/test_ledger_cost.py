"""What the kitchen ledger costs: its share of a whole run, and how its cost grows with the length of the talk.

Run with ``python -m pytest tests/benchmarks/test_ledger_cost.py --benchmark-only -s -n 0``. The figures are printed
and kept in the benchmark's ``extra_info``; nothing fails for being slow on a busy machine. What is aimed at: at most a
tenth of the run on a quarter of an hour of talk, and the same cost a word at 1, 4 and 16 times the length.
"""

from __future__ import annotations

import time
from functools import cache
from pathlib import Path
from statistics import median

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from extract.language import load_model, read_speech
from extract.pipeline import draft_speech
from extract.reconcile.kitchen import reconcile
from extract.segment.dishes import Segments, segment
from extract.spot.spotted import Spotted, spot
from extract.transcript import Cue, Transcript, read_transcript

SAMPLES = Path(__file__).parents[2] / "samples"
WORDS = 2400  # of a quarter of an hour of talk
ROUNDS = 5
LENGTHS = (1, 4, 16)


def show_of(words: int) -> Transcript:
    """The two samples one after the other, over and over, until there are enough words."""
    cues: list[Cue] = []
    total = zero = 0
    while total < words:
        for name in ("harvest-supper.vtt", "market-kitchen.txt"):
            for cue in read_transcript(SAMPLES / name).cues:
                if total < words:
                    total += len(cue.text.split())
                    cues.append(Cue(len(cues), zero + cue.start, zero + cue.end, cue.text))
            zero = cues[-1].end
    return Transcript("show.vtt", "0" * 64, tuple(cues))


@cache
def heard(times: int) -> tuple[Spotted, Segments]:
    """A show of so many quarters of an hour, up to the ledger."""
    spotted = spot(read_speech(show_of(times * WORDS), load_model()))
    assert spotted.mentions  # paired before the clock runs
    return spotted, segment(spotted)


def seconds_of_ledger(times: int) -> float:
    """The fastest of a few rounds."""
    spotted, segments = heard(times)
    rounds = []
    for _ in range(ROUNDS):
        begin = time.perf_counter()
        reconcile(spotted, segments)
        rounds.append(time.perf_counter() - begin)
    return min(rounds)


def tell(benchmark: BenchmarkFixture, name: str, value: float, aim: str) -> None:
    benchmark.extra_info[name] = round(value, 4)
    print(f"\n{name}: {value:.3f} (aim: {aim})")  # noqa: T201 - what the benchmark is for


def test_share_of_a_whole_run(benchmark: BenchmarkFixture) -> None:
    show, model = show_of(WORDS), load_model()
    heard(1)
    whole: list[float] = []

    def one_round() -> None:
        begin = time.perf_counter()
        draft_speech(read_speech(show, model))
        whole.append(time.perf_counter() - begin)

    benchmark.pedantic(one_round, rounds=ROUNDS, warmup_rounds=1)
    ledger = seconds_of_ledger(1)
    assert ledger > 0
    tell(benchmark, "seconds of a whole run", median(whole), "none")
    tell(benchmark, "the ledger's share of it", ledger / median(whole), "at most 0.1")


@pytest.mark.parametrize("times", LENGTHS)
def test_cost_by_length(benchmark: BenchmarkFixture, times: int) -> None:
    spotted, segments = heard(times)
    benchmark.pedantic(lambda: reconcile(spotted, segments), rounds=ROUNDS, warmup_rounds=1)
    best = seconds_of_ledger(times)
    words = times * WORDS
    tell(
        benchmark,
        f"microseconds a word at {times} times the length",
        1e6 * best / words,
        "the same at every length",
    )
    assert len(reconcile(spotted, segments).kitchens) >= times
