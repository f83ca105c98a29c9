"""For the tests of the review: drafts to work on, a desk, and a page served as a user starts it."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
import wave
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from itertools import count
from pathlib import Path
from typing import Any

import pytest

from extract.draft.questions import find_questions
from extract.drafts import load_draft, save_draft
from extract.model import Question, RecipeDraft
from extract.review.keeping.desk import Desk
from extract.review.keys import give_keys

ROOT = Path(__file__).parents[2]
SHOW = ROOT / "samples" / "harvest-supper.vtt"
WRITTEN = ROOT / "tests" / "shows" / "harvest-supper.written.md"


@pytest.fixture(scope="session")
def drafted() -> RecipeDraft:
    """A draft of a sample show, as the program once made it, so that its lines are known. Not to be changed."""
    draft = load_draft(Path(__file__).with_name("harvest-supper.draft.json"))
    for dish in draft.dishes:
        dish.questions = []
        dish.questions = find_questions(dish, draft)
    return draft


@pytest.fixture
def keyed(drafted: RecipeDraft) -> RecipeDraft:
    """A copy of it in which everything has a key."""
    copy = drafted.model_copy(deep=True)
    give_keys(copy)
    return copy


@pytest.fixture
def folder(drafted: RecipeDraft, tmp_path: Path) -> Path:
    """A folder with the show's transcript and its draft."""
    shutil.copy(SHOW, tmp_path / SHOW.name)
    save_draft(tmp_path / "harvest-supper.draft.json", drafted)
    return tmp_path


@pytest.fixture
def path(folder: Path) -> Path:
    return folder / "harvest-supper.draft.json"


def steady() -> Callable[[], datetime]:
    """A clock that goes on a second at every look."""
    seconds = count()
    return lambda: datetime.fromtimestamp(1_700_000_000 + next(seconds), tz=UTC)


@pytest.fixture
def desk(path: Path) -> Desk:
    return Desk(path, steady())


def reopened(path: Path) -> Desk:
    """The desk as a later run finds it."""
    return Desk(path, steady())


def ask(draft: RecipeDraft, kind: str, about: str) -> str:
    """Put a question about a line into ``draft``, as the talk raises it; its key."""
    for dish in draft.dishes:
        for line in (one for part in dish.components for one in part.ingredients if one.name == about):
            given = {"kind": kind, "about": about, "text": f"What of the {about}?", "said": line.said[:1]}
            name = f"k{900 + len(dish.questions)}"
            dish.questions.append(Question.model_validate({**given, "key": name}))
            return name
    raise LookupError(about)


def write_sound(path: Path, seconds: int) -> None:
    """A silent recording: 8 bits, 8000 samples a second, which browsers play."""
    with wave.open(str(path), "wb") as sound:
        sound.setnchannels(1)
        sound.setsampwidth(1)
        sound.setframerate(8000)
        sound.writeframes(b"\x80" * 8000 * seconds)


@dataclass
class Served:
    """A review that runs in a process of its own."""

    address: str
    process: subprocess.Popen[str]

    @property
    def origin(self) -> str:
        return self.address.partition("/?")[0]

    @property
    def token(self) -> str:
        return self.address.partition("run=")[2]

    @property
    def port(self) -> int:
        return int(self.origin.rpartition(":")[2])


@contextmanager
def serving(path: Path, *options: str, **environment: str) -> Iterator[Served]:
    """``cardwright review`` on ``path``, ended at the end."""
    command = [sys.executable, "-m", "extract.cli", "review", str(path), "--no-browser", *options]
    process = subprocess.Popen(
        command,
        cwd=ROOT,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
        env={**os.environ, **environment},
    )
    try:
        assert process.stdout is not None
        found = re.search(r"http://\S+", process.stdout.readline())
        assert found is not None, "the review did not start"
        yield Served(found[0], process)
    finally:
        process.kill()
        process.wait()
        assert process.stdout is not None
        process.stdout.close()


def tell(figures: str) -> None:
    """Show what was measured (``pytest -s``)."""
    sys.stdout.write(f"\n{figures}\n")


def skip_where_busy(figures: str) -> None:
    """Skip what is left of a test of speed where other work has the machine: it would measure that."""
    load, cores = os.getloadavg()[0], os.cpu_count() or 1
    if load > 1.5 * cores:
        pytest.skip(
            f"the machine is busy (load {load:.1f} on {cores} cores); measured all the same: {figures}"
        )


def read(path: Path) -> RecipeDraft:
    return load_draft(path)


def key(item: Any) -> str:
    return str(item.model_extra["key"])
