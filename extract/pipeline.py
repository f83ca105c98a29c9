"""The way through, from a transcript to a draft: each stage takes the value of the one before."""

from __future__ import annotations

from concurrent.futures import Future, ThreadPoolExecutor

from extract.draft.assemble import assemble
from extract.draft.finish import finish
from extract.draft.heard import only_heard
from extract.language import Speech, load_model, read_speech
from extract.model import RecipeDraft
from extract.reader.read import load_reader, read_words
from extract.reader.reading import Reading
from extract.reconcile.kitchen import reconcile
from extract.segment.dishes import segment
from extract.spot.spotted import spot
from extract.transcript import Transcript


def draft_transcript(transcript: Transcript) -> RecipeDraft:
    """The recipe draft of every dish in the transcript."""
    readings: list[Future[Reading]] = []
    with ThreadPoolExecutor(1) as beside:  # the reader is loaded while spaCy is, and reads while it parses
        beside.submit(load_reader)
        speech = read_speech(
            transcript, load_model(), lambda words: readings.append(beside.submit(read_words, words))
        )
    return draft_speech(speech, readings[0].result())


def draft_speech(speech: Speech, reading: Reading | None = None) -> RecipeDraft:
    """The recipe draft of a talk that has been parsed already, and read where ``reading`` is given."""
    spotted = spot(speech, reading)
    segments = segment(spotted)
    return finish(only_heard(assemble(spotted, segments, reconcile(spotted, segments))))
