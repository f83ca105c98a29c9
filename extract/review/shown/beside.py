"""The reader's doubts, asked in a process of its own: hours of talk are read and nobody's edits wait for it."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import threading
import time
from pathlib import Path

from extract.errors import CardwrightError
from extract.model import RecipeDraft

YIELDING = 15  # how far it stands back for other work, of at most 19
LOOK = 0.5  # seconds between looks at whether the server is still there
_ASK = "from extract.review.shown.beside import answer; answer()"


def unsure_beside(transcript: Path, draft: RecipeDraft) -> dict[str, list[str]]:
    """By key, which fields of the draft the reader was less sure of, as ``Hearing.unsure`` tells it.

    Raises CardwrightError where the transcript cannot be read.
    """
    command = [sys.executable, "-c", _ASK, str(transcript.resolve())]
    asked = json.dumps(draft.to_dict())
    done = subprocess.run(command, input=asked, capture_output=True, text=True, encoding="utf-8", check=False)
    if done.returncode:
        problem = "the reader could not be asked how sure it was"
        raise CardwrightError(problem, path=transcript)
    return {str(key): list(fields) for key, fields in json.loads(done.stdout).items()}


def _end_with(parent: int) -> None:
    """End where the server that asked is gone."""
    while os.getppid() == parent:
        time.sleep(LOOK)
    os._exit(1)


def answer() -> None:
    """Read a draft from standard input, print what the reader was less sure of; the transcript is the argument."""
    from extract.review.shown.hearing import hear

    if hasattr(os, "nice"):
        os.nice(YIELDING)
    if sys.platform == "linux":  # one core is enough; the others are for the page
        os.sched_setaffinity(0, {max(os.sched_getaffinity(0))})
    threading.Thread(target=_end_with, args=(os.getppid(),), daemon=True).start()
    draft = RecipeDraft.model_validate(json.loads(sys.stdin.buffer.read().decode()))
    sys.stdout.buffer.write(json.dumps(hear(Path(sys.argv[1])).unsure(draft)).encode())
