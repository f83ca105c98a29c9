"""Reading timed transcripts: one reader a format in, one ``Transcript`` of cues out."""

from extract.transcript.cues import Cue, Transcript

__all__ = ["Cue", "Transcript"]
