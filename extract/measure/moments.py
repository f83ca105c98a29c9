"""Moments of a recording in words."""

from __future__ import annotations


def clock(seconds: float) -> str:
    """A moment as m:ss, from an hour on as h:mm:ss, never rounded up past the second it lies in."""
    whole = int(seconds)
    hours, minutes, rest = whole // 3600, whole % 3600 // 60, whole % 60
    return f"{hours}:{minutes:02d}:{rest:02d}" if hours else f"{minutes}:{rest:02d}"
