"""The speech of a cue: speaker labels, dashes, music and laughter taken off."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable
from functools import cache

from extract.lexicon import read_lexicon

# All capitals ("HOST:"), or up to three capitalised words or a number after one ("Ana Brook:", "Speaker 2:").
_LABEL = re.compile(
    r"[-–—>*_\s]*"
    r"(?P<name>[A-Z][A-Z0-9 .'&/-]{0,30}[A-Z0-9]|[A-Z]\w*[.']?(?: [A-Z0-9][\w.']*){0,2})"
    r"[*_]*:[*_]*(?=\s|$)"
)
# The same within a line, where another begins to speak: capitals alone, behind the end of a sentence or a dash.
_TURN = re.compile(r"(?:(?<=[.!?…\"”’)—–-] )|(?<=^))(?P<name>[A-Z][A-Z0-9 .'&/-]{0,30}): ")
_DASHES = re.compile(r"(?m)^\s*(?:[-–—](?=\s|[^\W\d])|>+)\s*|>>+\s*")
_SUNG = re.compile(r"[♪♫♬♩][^♪♫♬♩]*[♪♫♬♩]+|[♪♫♬♩]")
_BRACKETS = re.compile(r"\[([^\[\]]{0,80})\]|\{([^{}]{0,80})\}")
_PARENTHESES = re.compile(r"\(([^()]{0,60})\)|\*([^*\n]{1,40})\*")
_INVISIBLE = re.compile("[\u200b-\u200f\u202a-\u202e\u2060-\u2064\u2066-\u2069\ufeff\u00ad]")
_LETTERS = re.compile(r"[^\W\d_]+")


@cache
def _listed(kind: str) -> frozenset[str]:
    rows = read_lexicon("captions", columns=("word", "kind"))
    return frozenset(row["word"] for row in rows if row["kind"] == kind)


def label_names(texts: Iterable[str]) -> frozenset[str]:
    """The names that stand as speaker labels in a transcript.

    Capitals alone ("HOST:") and a numbered name ("Speaker 1:") count at once, other names when they come
    twice, and words that open a sentence or a heading ("Next:", "Tip:") never.
    """
    counts: Counter[str] = Counter()
    for text in texts:
        for line in text.split("\n"):
            found = _LABEL.match(line)
            if found:
                counts[found["name"]] += 1
            counts.update(turn["name"] for turn in _TURN.finditer(line[found.end() if found else 0 :]))
    return frozenset(name for name, count in counts.items() if _is_name(name, count))


def _is_name(name: str, count: int) -> bool:
    words = [word.casefold() for word in _LETTERS.findall(name)]
    if not words or any(word in _listed("heading") for word in words):
        return False
    return count > 1 or (name.isupper() and len(name) > 1) or name[-1].isdecimal()


def take_label(text: str, names: frozenset[str]) -> tuple[str, str]:
    """The speaker label that opens ``text`` ("" for none or several) and the words, labels of later turns gone too."""
    speakers, lines = [], []
    for line in text.split("\n"):
        found = _LABEL.match(line)
        if found and found["name"] in names:
            speakers.append(found["name"])
            line = line[found.end() :]
        turns = [turn["name"] for turn in _TURN.finditer(line) if turn["name"] in names]
        if turns:
            speakers += turns
            line = _TURN.sub(lambda turn: "" if turn["name"] in names else turn[0], line)
        lines.append(line)
    same = len(set(speakers)) == 1
    return (speakers[0] if same else ""), "\n".join(lines)


def spoken(text: str) -> str:
    """``text`` without music, sounds and dashes before a speaker, one line still a line."""
    text = _INVISIBLE.sub("", text)
    text = _SUNG.sub(" ", text)
    text = _BRACKETS.sub(lambda found: _unless_sound(found, bracketed=True), text)
    text = _PARENTHESES.sub(lambda found: _unless_sound(found, bracketed=False), text)
    text = _DASHES.sub("", text)
    return "\n".join(" ".join(line.split()) for line in text.split("\n"))


def _unless_sound(found: re.Match[str], *, bracketed: bool) -> str:
    """Nothing for a sound; brackets hold sounds or remarks unless there is a figure in them."""
    inside = next((part for part in found.groups() if part is not None), "")
    words = _LETTERS.findall(inside.casefold())
    figures = any(char.isdecimal() for char in inside)
    shouted = inside.isupper() and len(words) < 4 and not figures
    listed = len(words) <= 5 and any(word in _listed("sound") for word in words)
    if listed or shouted or (bracketed and not figures):
        return " "
    return found[0]
