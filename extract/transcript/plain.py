"""Plain text without times: a cue a paragraph, or a line where no empty lines part it."""

from __future__ import annotations

import re

from extract.errors import CardwrightError
from extract.transcript.raw import RawCue, split_lines

# Documents that open as text but hold markup or layout instead of words.
_DOCUMENTS = (
    (re.compile(r"%PDF-"), "a PDF document"),
    (re.compile(r"\{\\rtf"), "a rich-text document"),
    (re.compile(r"\s*\[Script Info\]", re.IGNORECASE), "a SubStation script, which is not read,"),
    (re.compile(r"\s*<(!doctype html|html)\b", re.IGNORECASE), "a web page"),
    (re.compile(r"\s*<[?!]\w|\s*<[A-Za-z][\w:.-]*(\s[^<>]*)?/?>"), "XML, but not timed text (TTML)"),
)
_HEADING = re.compile(r"\s*#{1,6}\s")


def read_plain(text: str, name: str) -> list[RawCue]:
    """The paragraphs of ``text``, all at time 0, Markdown headings left out.

    Raises CardwrightError where the text is a document of another kind.
    """
    for pattern, kind in _DOCUMENTS:
        if pattern.match(text):
            problem = f"this is {kind}, not a transcript"
            raise CardwrightError(problem, path=name, line=1, remedy="save the words as plain text")
    lines = split_lines(text)
    whole_lines = "" not in [line.strip() for line in "\n".join(lines).strip().split("\n")]
    cues: list[RawCue] = []
    block: list[str] = []
    for number, line in enumerate([*lines, ""], start=1):
        if line.strip() and not _HEADING.match(line):
            block.append(line)
        if block and (whole_lines or not line.strip() or _HEADING.match(line)):
            behind = 0 if line.strip() and not _HEADING.match(line) else 1
            cues.append(RawCue(0, 0, "\n".join(block), line=number - behind - len(block) + 1))
            block = []
    return cues
