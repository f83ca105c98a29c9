"""Plain text without times: a cue a paragraph, or a line where no empty lines part it."""

from __future__ import annotations

import re

from extract.transcript.formats.others import NotTranscript, kind_beside_talk
from extract.transcript.formats.raw import RawCue, split_lines

_HEADING = re.compile(r"\s*#{1,6}\s")


def read_plain(text: str, name: str) -> list[RawCue]:
    """The paragraphs of ``text``, all at time 0, Markdown headings left out.

    Raises NotTranscript where the text is a document of another kind.
    """
    kind = kind_beside_talk(text)
    if kind:
        raise NotTranscript(kind, name)
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
