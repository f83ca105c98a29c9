"""What a draft costs beside the bare language model: time, words a second, memory.

Run with ``python -m pytest tests/benchmarks --benchmark-only -s -n 0``. The ratios are printed and kept in the
benchmark's ``extra_info``; nothing fails for being slow on a busy machine. What is aimed at: a whole run
within 1.6 times the bare run, at least 0.6 of its words a second in a long run, at most 1.6 times its peak
memory.
"""

from __future__ import annotations

import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from statistics import median

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from extract.language.speech import MODELS
from extract.transcript import Cue, read_transcript
from extract.transcript.times import show_clock

ROOT = Path(__file__).parents[2]
WORDS = 2400  # of a quarter of an hour of talk
ROUNDS = 7

FIND_MODEL = f"""
from importlib.util import find_spec
MODEL = next(name for name in {MODELS!r} if find_spec(name))
"""
BARE = f"""
import sys, spacy
{FIND_MODEL}
spacy.load(MODEL)(open(sys.argv[1], encoding="utf-8").read())
"""
DRAFT = """
import sys
from extract.cli import cardwright
cardwright(["draft", sys.argv[1]], standalone_mode=False)
"""
PEAK = """
with open("/proc/self/status") as status:
    print(next(line.split()[1] for line in status if line.startswith("VmHWM")), file=sys.stderr)
"""
# In the long run every talk begins at another word, so that nothing is gained by having met it before.
TIMED = """
import time
{}
talks = [turned(number * 101) for number in range(24)]
run(talks[:4])
begin = time.perf_counter()
run(talks[4:])
print(time.perf_counter() - begin)
"""
TALKS = 20
BARE_LONG = f"""
import sys, spacy
{FIND_MODEL}
nlp, words = spacy.load(MODEL), open(sys.argv[1], encoding="utf-8").read().split()
def turned(by):
    return " ".join(words[by:] + words[:by])
def run(talks):
    for doc in nlp.pipe(talks): doc.text
"""
# The hardest measure: only the components that drafting uses, in the batches that are fastest for long texts.
LEAN_LONG = BARE_LONG.replace("spacy.load(MODEL)", 'spacy.load(MODEL, exclude=["ner"])').replace(
    "pipe(talks)", "pipe(talks, batch_size=4)"
)
DRAFT_LONG = """
import sys
from dataclasses import replace
from pathlib import Path
from extract.pipeline import draft_transcript
from extract.transcript import read_transcript
show = read_transcript(Path(sys.argv[1]))
def turned(by):
    cues = show.cues[by % len(show.cues):] + show.cues[:by % len(show.cues)]
    timed = [replace(cue, start=own.start, end=own.end, index=own.index) for cue, own in zip(cues, show.cues)]
    return replace(show, cues=tuple(timed))
def run(talks):
    for talk in talks: draft_transcript(talk)
"""


def cues() -> Iterator[Cue]:
    """The two samples one after the other, until there are enough words."""
    total = zero = 0
    for name in ("harvest-supper.vtt", "market-kitchen.txt"):
        transcript = read_transcript(ROOT / "samples" / name)
        for cue in transcript.cues:
            if total >= WORDS:
                return
            total += len(cue.text.split())
            yield Cue(cue.index, zero + cue.start, zero + cue.end, cue.text)
        zero += transcript.cues[-1].end


@pytest.fixture(scope="module")
def show(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Path]:
    """The same words as captions and as bare text."""
    folder = tmp_path_factory.mktemp("show")
    found = list(cues())
    blocks = [f"{show_clock(cue.start)} --> {show_clock(cue.end)}\n{cue.text}" for cue in found]
    (folder / "show.vtt").write_text("\n\n".join(["WEBVTT", *blocks]) + "\n", encoding="utf-8")
    (folder / "show.txt").write_text(" ".join(cue.text for cue in found), encoding="utf-8")
    return folder / "show.vtt", folder / "show.txt"


def run(code: str, path: Path) -> subprocess.CompletedProcess[str]:
    """A fresh process; what it prints on either stream is at hand."""
    words = [sys.executable, "-c", code, str(path)]
    return subprocess.run(words, cwd=ROOT, capture_output=True, text=True, check=True)


def seconds(code: str, path: Path) -> float:
    begin = time.perf_counter()
    run(code, path)
    return time.perf_counter() - begin


def tell(benchmark: BenchmarkFixture, name: str, value: float, aim: str) -> None:
    benchmark.extra_info[name] = round(value, 3)
    print(f"\n{name}: {value:.2f} (aim: {aim})")  # noqa: T201 - what the benchmark is for


def test_whole_run_beside_a_bare_run(benchmark: BenchmarkFixture, show: tuple[Path, Path]) -> None:
    captions, text = show
    bare: list[float] = []
    drafted: list[float] = []

    def one_round() -> None:
        """One after the other, so that a busy machine is busy for both."""
        bare.append(seconds(BARE, text))
        drafted.append(seconds(DRAFT, captions))

    benchmark.pedantic(one_round, rounds=ROUNDS, warmup_rounds=1)
    assert "### Ingredients" in run(DRAFT, captions).stdout
    ratio = median(drafted[1:]) / median(bare[1:])
    tell(benchmark, "time of a whole run, beside bare spaCy", ratio, "at most 1.6")
    tell(benchmark, "the same, fastest of each", min(drafted) / min(bare), "at most 1.6")


def test_long_run_beside_a_bare_pipe(benchmark: BenchmarkFixture, show: tuple[Path, Path]) -> None:
    captions, text = show
    codes = {"bare": (BARE_LONG, text), "lean": (LEAN_LONG, text), "draft": (DRAFT_LONG, captions)}
    times: dict[str, list[float]] = {name: [] for name in codes}

    def one_round() -> None:
        for name, (code, path) in codes.items():
            times[name].append(float(run(TIMED.format(code), path).stdout))

    benchmark.pedantic(one_round, rounds=3)
    words = TALKS * len(text.read_text(encoding="utf-8").split())
    speed = {name: words / median(found) for name, found in times.items()}
    assert min(speed.values()) > 0
    tell(benchmark, "words a second of bare nlp.pipe", speed["bare"], "none")
    tell(benchmark, "words a second of drafting", speed["draft"], "none")
    tell(benchmark, "drafting beside bare nlp.pipe", speed["draft"] / speed["bare"], "at least 0.6")
    tell(benchmark, "beside a pipe without entities", speed["draft"] / speed["lean"], "none")


@pytest.mark.skipif(not Path("/proc/self/status").exists(), reason="peak memory is read from Linux's /proc")
def test_peak_memory_beside_a_bare_run(benchmark: BenchmarkFixture, show: tuple[Path, Path]) -> None:
    captions, text = show
    peaks: dict[str, int] = {}

    def one_round() -> None:
        peaks["bare"] = int(run(BARE + PEAK, text).stderr.split()[-1])
        peaks["draft"] = int(run(DRAFT + PEAK, captions).stderr.split()[-1])

    benchmark.pedantic(one_round, rounds=1)
    assert min(peaks.values()) > 50_000  # kB: the model alone takes more
    tell(benchmark, "peak of bare spaCy in MB", peaks["bare"] / 1000, "none")
    tell(benchmark, "peak memory, beside bare spaCy", peaks["draft"] / peaks["bare"], "at most 1.6")
