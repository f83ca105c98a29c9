"""Drafts of the invented shows, the samples and the talks to learn from, each made once in a test run."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from extract.model import RecipeDraft
from extract.pipeline import draft_speech, draft_transcript
from extract.transcript.reading import read_transcript

HERE = Path(__file__).parent
TALKS = {
    path.name.split(".")[0]: path
    for folder in (HERE / "shows", HERE.parent / "samples")
    for suffix in (".vtt", ".txt")
    for path in folder.glob(f"*{suffix}")
}
SAMPLES = ("harvest-supper", "market-kitchen")


@cache
def drafted(name: str) -> RecipeDraft:
    """The draft of a show or sample; copy it before changing it."""
    return draft_transcript(read_transcript(TALKS[name]))


@cache
def drafted_talk(name: str) -> RecipeDraft:
    """The draft of a talk of ``tests/talks``, as captions with marks have it; copy it before changing it."""
    from extract.reader.training.form import read_annotated
    from extract.reader.training.titles import speech_of

    speech, _ = speech_of(read_annotated(HERE / "talks" / f"{name}.talk"), raw=False)
    return draft_speech(speech)
