"""How the cost of a draft grows with the talk: words a second and peak memory at 1, 4, 16 and 64 times its length.

Run with ``python -m pytest tests/benchmarks/test_length_cost.py --benchmark-only -s -n 0``; some minutes. Each length
runs in a fresh process. What is aimed at: as many words a second at every length, and less
than 1 GiB for twelve hours of talk (64 times are seventeen hours). The last put their words into one sentence without
an end.
"""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

ROOT = Path(__file__).parents[2]
WORDS = 2400  # of a quarter of an hour of talk
LENGTHS = (1, 4, 16, 64)
SENTENCES = (1, 4, 16)

CODE = """
import json, resource, sys, time
from extract.language import load_model, read_speech
from extract.pipeline import draft_speech
from extract.transcript import Cue, Transcript, read_transcript
count, one_sentence = int(sys.argv[1]), sys.argv[2] == "True"
cues, total, zero = [], 0, 0
while total < count and not one_sentence:
    for name in ("harvest-supper.vtt", "market-kitchen.txt"):
        for cue in read_transcript(__import__("pathlib").Path("samples") / name).cues:
            if total < count:
                total += len(cue.text.split())
                cues.append(Cue(len(cues), zero + cue.start, zero + cue.end, cue.text))
        zero = cues[-1].end
if one_sentence:
    cues = [Cue(0, 0, 1000, "Add a cup of flour and stir it well, " * (count // 9))]
talk, model = Transcript("show.vtt", "0" * 64, tuple(cues)), load_model()
begin = time.process_time()
draft = draft_speech(read_speech(talk, model))
spent = time.process_time() - begin
peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
print(json.dumps({"speed": count / spent, "peak": peak, "dishes": len(draft.dishes)}))
"""


def cost(words: int, *, one_sentence: bool = False) -> dict[str, float]:
    asked = [sys.executable, "-c", CODE, str(words), str(one_sentence)]
    done = subprocess.run(asked, cwd=ROOT, capture_output=True, text=True, check=True)
    found: dict[str, float] = json.loads(done.stdout)
    return found


@pytest.mark.parametrize("times", LENGTHS)
def test_cost_by_length(benchmark: BenchmarkFixture, times: int) -> None:
    found: dict[str, float] = {}
    benchmark.pedantic(lambda: found.update(cost(times * WORDS)), rounds=1)
    benchmark.extra_info.update(found)
    told = (
        f"{times} times: {found['speed']:.0f} words a second of the processor, peak {found['peak']:.0f} MiB"
    )
    print(f"\n{told}")  # noqa: T201
    assert found["dishes"] >= times  # every quarter of an hour has its dishes
    assert found["peak"] < 1024


@pytest.mark.parametrize("times", SENTENCES)
def test_cost_of_one_sentence(benchmark: BenchmarkFixture, times: int) -> None:
    found: dict[str, float] = {}
    benchmark.pedantic(lambda: found.update(cost(times * 846, one_sentence=True)), rounds=1)
    benchmark.extra_info.update(found)
    print(f"\none sentence, {times} times: {found['speed']:.0f} words a second of the processor")  # noqa: T201
    assert found["dishes"] == 1
