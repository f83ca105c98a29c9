"""The words of a talk as the number and amount readers look at them: lower-cased once, matched by phrase."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field
from functools import cache
from typing import TYPE_CHECKING

from extract.lexicon import read_lexicon

if TYPE_CHECKING:
    from spacy.tokens import Doc

    from extract.spot.spans import Number

BREAKS = frozenset({",", ".", ";"})
DASHES = frozenset({"-", "–", "—"})


@dataclass(slots=True)
class Words:
    """The tokens of ``doc`` as lower-case strings; ``at`` may look past either end, where it finds "".

    ``read`` keeps the numbers already read, by their first token, so that the finders share one reading.
    """

    doc: Doc
    low: list[str]
    read: dict[int, Number | None] = field(default_factory=dict)

    @classmethod
    def of(cls, doc: Doc) -> Words:
        """The view of one parsed talk, made once."""
        shelf = getattr(doc, "user_data", {})  # a written recipe has words without a parse, and no shelf
        kept = shelf.get("words")
        if not isinstance(kept, cls) or len(kept) != len(doc):
            kept = shelf["words"] = cls(doc, [token.lower_ for token in doc])
        return kept

    def __len__(self) -> int:
        return len(self.low)

    def at(self, place: int) -> str:
        """The word at ``place``, "" outside the talk."""
        return self.low[place] if 0 <= place < len(self.low) else ""

    def capital(self, place: int) -> bool:
        """Whether the word is written with a capital, which real speech recognition seldom gives."""
        return 0 <= place < len(self.low) and self.doc[place].text[:1].isupper()

    def skip_dash(self, place: int) -> int:
        """The place after a hyphen, or ``place`` itself."""
        return place + 1 if self.at(place) in DASHES else place

    def skip_break(self, place: int) -> int:
        """The place after one comma or full stop, or ``place`` itself."""
        return place + 1 if self.at(place) in BREAKS else place


class Phrases:
    """A set of phrases that can be looked for at a place, longest first."""

    def __init__(self, phrases: Iterable[str]) -> None:
        by_first: dict[str, list[tuple[str, ...]]] = defaultdict(list)
        by_last: dict[str, list[tuple[str, ...]]] = defaultdict(list)
        for words in sorted({tuple(phrase.split()) for phrase in phrases}, key=len, reverse=True):
            by_first[words[0]].append(words)
            by_last[words[-1]].append(words)
        self._by_first = dict(by_first)
        self._by_last = dict(by_last)
        self._single = frozenset(first for first, rows in by_first.items() if (first,) in rows)

    def __contains__(self, word: str) -> bool:
        """Whether ``word`` alone is one of the phrases."""
        return word in self._single

    def may_begin(self, word: str) -> bool:
        """Whether any phrase begins with ``word``."""
        return word in self._by_first

    def match(self, words: Words, place: int) -> int:
        """How many tokens the longest phrase that begins at ``place`` has; 0 where none does."""
        rows = self._by_first.get(words.at(place))
        if rows is None:
            return 0
        for phrase in rows:
            if tuple(words.low[place : place + len(phrase)]) == phrase:
                return len(phrase)
        return 0

    def ends_at(self, words: Words, end: int, *, longest: int = 4) -> int:
        """The first token of the longest phrase that ends just before ``end``; ``end`` where none does."""
        for phrase in self._by_last.get(words.at(end - 1), ()):
            start = end - len(phrase)
            if len(phrase) <= longest and start >= 0 and tuple(words.low[start:end]) == phrase:
                return start
        return end


@cache
def phrases(table: str, role: str) -> Phrases:
    """The phrases with one role in a lexicon of the columns ``words``, ``role``."""
    rows = read_lexicon(table, columns=("words", "role"))
    return Phrases(row["words"] for row in rows if row["role"] == role)
