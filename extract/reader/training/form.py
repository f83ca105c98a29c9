"""Annotated talks as they stand in files: every sentence with its role, its dish and the notes below it.

The form is described in tests/talks/README.md. Used by training and by tests; nothing here ships in the wheel.
"""

from __future__ import annotations

import random
import re
import zlib
from dataclasses import dataclass, field
from pathlib import Path

SPEAKER = re.compile(r"([A-Z][A-Z .']{1,20}): ")
PUNCTUATION = re.compile(r"[.,;:!?\"“”…()—–]|(?<!\w)'|'(?!\w)|\s-\s")
FIGURES = re.compile(r"(~?)(\d+(?:\.\d+)?)(?:-(\d+(?:\.\d+)?))?")


@dataclass
class Note:
    """One note: its sign (``+ % ^ ~ =``) and its cells."""

    sign: str
    cells: list[str]

    def cell(self, number: int) -> str:
        """A cell, "" where the note has none there."""
        return self.cells[number] if number < len(self.cells) else ""

    def more(self) -> dict[str, list[str]]:
        """The ``also=``, ``prep=``, ``alt=`` and ``opt`` of an ingredient, each as a list."""
        found: dict[str, list[str]] = {}
        for piece in self.cell(4).split(";"):
            key, _, value = piece.strip().partition("=")
            if key:
                found[key] = [part.strip() for part in value.split(",") if part.strip()]
        return found


@dataclass
class TalkSentence:
    """A sentence, or a clause where the role changes within one. ``dish`` is "-" where it belongs to none."""

    role: str
    dish: str
    text: str
    notes: list[Note] = field(default_factory=list)


@dataclass
class AnnotatedTalk:
    """One show. ``dishes`` maps a letter to its title, in the order of the head."""

    id: str
    dishes: dict[str, str]
    sentences: list[TalkSentence]


def read_annotated(path: Path) -> AnnotatedTalk:
    """One talk from its file; speakers' names are taken off."""
    lines = path.read_text(encoding="utf-8").splitlines()
    cut = lines.index("---")
    head = dict(line.partition(":")[::2] for line in lines[:cut] if line.strip())
    dishes = {key[5:].strip(): value.strip() for key, value in head.items() if key.startswith("dish ")}
    sentences: list[TalkSentence] = []
    for line in lines[cut + 1 :]:
        if not line.strip():
            continue
        if line.startswith(" "):
            sign, _, rest = line.strip().partition(" ")
            sentences[-1].notes.append(Note(sign, [cell.strip() for cell in rest.split("|")]))
            continue
        role, dish, text = line.split(" ", 2)
        speaker = SPEAKER.match(text)
        sentences.append(TalkSentence(role, dish, text[speaker.end() :] if speaker else text))
    return AnnotatedTalk(head.get("id", path.stem).strip(), dishes, sentences)


def spoken(text: str, *, raw: bool) -> str:
    """The words as a caption writes them; ``raw`` as a recogniser does, without stops and capitals."""
    if not raw:
        return text
    bare = (PUNCTUATION.sub("", word) for word in text.split())
    return " ".join(word if re.fullmatch(r"I('\w+)?", word) else word.lower() for word in bare if word)


def roughly_stopped(talk: AnnotatedTalk) -> list[str]:
    """The sentences as a recogniser without an ear for pauses writes them: lower-case, stops and commas set by chance.

    Most ends of a sentence get their stop, many of them some words early or late; the same talk always gets the same.
    """
    rng = random.Random(zlib.crc32(talk.id.encode()))
    rows = [spoken(sentence.text, raw=True).lower().split() for sentence in talk.sentences]
    told = [row for row in rows if row]
    for row, after in zip(told, told[1:], strict=False):
        shift = rng.choice((0, 0, 0, 0, -3, -2, -1, 1, 2, 3, None, None))
        if shift is not None:
            target, at = (after, min(shift, len(after))) if shift > 0 else (row, max(1, len(row) + shift))
            target[at - 1] += "."
    for row in told:
        for k, word in enumerate(row):
            if word[-1] != "." and rng.random() < 0.07:
                row[k] += ","
    return [" ".join(row) for row in rows]


def figures(text: str) -> tuple[float, float] | None:
    """The low and high end of a note's figures, None for "?"."""
    match = FIGURES.fullmatch(text)
    return (float(match[2]), float(match[3] or match[2])) if match else None
