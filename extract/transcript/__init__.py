"""Reading timed transcripts: one reader a format in, one ``Transcript`` of cues out."""

from extract.transcript.cues import Cue, Transcript
from extract.transcript.reading import read_transcript

__all__ = ["Cue", "Transcript", "read_transcript"]
