"""Cardwright: from the timed transcript of a filmed cooking segment to a written recipe draft."""

__version__ = "0.2.0"
