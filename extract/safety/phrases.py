"""The longest words of a lexicon that a name holds: "coconut milk" before "milk"."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Generic, TypeVar

from extract.spot.names.foods import name_keys

Value = TypeVar("Value")


@dataclass(frozen=True, slots=True)
class Phrases(Generic[Value]):
    """A table from words, compared as names are, to values."""

    table: Mapping[tuple[str, ...], Value]
    longest: int

    @classmethod
    def of(cls, rows: Mapping[str, Value]) -> Phrases[Value]:
        """The table of ``rows``, whose keys are words as written."""
        table = {name_keys(word): value for word, value in rows.items()}
        return cls(table, max(map(len, table), default=0))

    def find(self, text: str) -> Iterator[tuple[str, Value]]:
        """The phrases in ``text`` from left to right, the longest first at each place, none overlapping."""
        keys = name_keys(text)
        place = 0
        while place < len(keys):
            for size in range(min(self.longest, len(keys) - place), 0, -1):
                part = keys[place : place + size]
                if part in self.table:
                    yield " ".join(part), self.table[part]
                    place += size
                    break
            else:
                place += 1
