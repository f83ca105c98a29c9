"""Formats: the text of a file in, raw cues out (``raw.RawCue``); a module a format.

Own lexicons: none. Tests: ``tests/transcript``, a file a format.
"""
