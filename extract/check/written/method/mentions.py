"""Which of a recipe's foods and components the words of its method name."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from extract.check.written.method.vocabulary import is_thing
from extract.spot.names.foods import look_up, name_keys, word_key

_LONGEST = 4


@dataclass(frozen=True, slots=True)
class Mention:
    """Words ``start`` to ``end`` (exclusive) that name a food or a component."""

    start: int
    end: int
    name: str


class Larder:
    """The names that a recipe's method may use: its ingredients, its components, then any food known."""

    def __init__(self, foods: Iterable[str], components: Iterable[str]) -> None:
        self.components = frozenset(components := list(components))
        self._names: dict[tuple[str, ...], set[str]] = {}
        for name in (*foods, *components):
            keys = tuple(key for key in name_keys(name) if len(key) > 1)
            for start in range(len(keys)):
                self._names.setdefault(keys[start:], set()).add(name)

    def find(self, tokens: Sequence[str]) -> list[Mention]:
        """Every mention in order; the longest name at each place."""
        keys = [word_key(token) for token in tokens]
        found: list[Mention] = []
        at = 0
        while at < len(keys):
            mention = self._at(keys, at) if is_thing(tokens[at].lower()) else None
            if mention is None:
                at += 1
            else:
                found.append(mention)
                at = mention.end
        return found

    def _at(self, keys: Sequence[str], at: int) -> Mention | None:
        for length in range(min(_LONGEST, len(keys) - at), 0, -1):
            words = tuple(keys[at : at + length])
            names = self._names.get(words)
            if names:
                return Mention(at, at + length, next(iter(names)) if len(names) == 1 else " ".join(words))
            entry = look_up(words)
            if entry is not None and (entry.sense == "" or length > 1):
                return Mention(at, at + length, entry.name)
        return None
