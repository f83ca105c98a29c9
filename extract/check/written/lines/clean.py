"""The text of a line without what only lays it out: bullets, tick boxes, emphasis, moments of a recording."""

from __future__ import annotations

import re

_MARKUP = re.compile(r"\[([^\]]*)\]\([^)]*\)|\*\*|__|[*_`](?=\S)|(?<=\S)[*_`]")
_TAG = re.compile(r"</?[A-Za-z][^<>]*>")
_STAMP = re.compile(r"\s*\\?\[\d{1,2}:\d\d(?::\d\d)?\\?\](?:\(#[^)]*\))?")
_BULLET = re.compile(r"^\s*(?:[-*+•◦▢□☐‣·–—]\s+|\[[ xX]?\]\s*|\|\s*)+")


def without_stamps(text: str) -> str:
    """The text without the moments of a recording that a page prints: "[3:42](#t=222)"."""
    return _STAMP.sub("", text)


def clean_line(text: str) -> str:
    """The line without bullet, tick box, table bars and Markdown emphasis."""
    text = _STAMP.sub("", _BULLET.sub("", text.strip()))
    text = _MARKUP.sub(lambda match: match[1] or "", _TAG.sub(" ", text))
    return " ".join(text.replace("|", " ").split())
