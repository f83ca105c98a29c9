"""The words of a talk as one string, searched by patterns, found again as tokens."""

from __future__ import annotations

import re
from bisect import bisect_left, bisect_right
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from extract.lexicon import read_lexicon

if TYPE_CHECKING:
    from spacy.tokens import Doc

STOPS = frozenset({".", "?", "!"})
LONGEST_SENTENCE = 60


@dataclass(frozen=True, slots=True)
class Wording:
    """A talk in lower case, each token followed by one space; ``offsets[i]`` is where token ``i`` begins."""

    words: tuple[str, ...]
    text: str
    offsets: tuple[int, ...]
    stops: tuple[int, ...]

    @classmethod
    def of(cls, doc: Doc) -> Wording:
        """The wording of one parsed talk."""
        words = tuple(token.lower_ for token in doc)
        offsets, at = [], 0
        for word in words:
            offsets.append(at)
            at += len(word) + 1
        stops = tuple(i for i, word in enumerate(words) if word in STOPS)
        return cls(words, "".join(f"{word} " for word in words), tuple(offsets), stops)

    def part(self, start: int, end: int) -> str:
        """The tokens ``start`` to ``end`` (exclusive), each followed by a space."""
        start, end = max(0, start), min(end, len(self.words))
        return self.text[self.offsets[start] : self._stop(end)] if start < end else ""

    def _stop(self, end: int) -> int:
        return self.offsets[end] if end < len(self.words) else len(self.text)

    def token_at(self, offset: int) -> int:
        """The token that holds the character at ``offset``."""
        return bisect_right(self.offsets, offset) - 1

    def find(self, pattern: re.Pattern[str], start: int, end: int) -> Iterator[tuple[int, int]]:
        """(first token, one past the last) of each place in the tokens ``start`` to ``end`` that fits."""
        start = max(0, start)
        if start >= min(end, len(self.words)):
            return
        for found in pattern.finditer(self.text, self.offsets[start], self._stop(end)):
            last = len(found.group().rstrip())
            if last:
                first = len(found.group()) - len(found.group().lstrip())
                yield self.token_at(found.start() + first), self.token_at(found.start() + last - 1) + 1

    def sentence(self, at: int) -> tuple[int, int]:
        """The sentence around token ``at``, no further than a long one: its first token, one past its last."""
        number = bisect_left(self.stops, at)
        start = self.stops[number - 1] + 1 if number else 0
        end = self.stops[number] + 1 if number < len(self.stops) else len(self.words)
        return max(start, at - LONGEST_SENTENCE), min(end, at + LONGEST_SENTENCE)


@cache
def patterns(table: str, kind: str) -> tuple[re.Pattern[str], ...]:
    """The compiled patterns of one kind in a lexicon of the columns ``kind``, ``pattern``."""
    rows = read_lexicon(table, columns=("kind", "pattern"))
    return tuple(re.compile(row["pattern"]) for row in rows if row["kind"] == kind)


def fits(table: str, kind: str, text: str) -> bool:
    """Whether any pattern of a kind is found in the text."""
    return any(pattern.search(text) for pattern in patterns(table, kind))
