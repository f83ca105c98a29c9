"""A stretch of the talk: a dish, or what is left out of every dish."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Stretch:
    """Tokens ``start`` to ``end`` (exclusive) of the talk: a dish, or what is left out and why."""

    start: int
    end: int
    reason: str = ""
    visits: tuple[tuple[int, int], ...] = ()

    def holds(self, token: int) -> bool:
        """Whether ``token`` belongs to the stretch and to no visit inside it."""
        return self.start <= token < self.end and not any(a <= token < b for a, b in self.visits)

    def pieces(self) -> tuple[tuple[int, int], ...]:
        """The token spans that are the dish itself, in order."""
        edges = [self.start, *(edge for hole in self.visits for edge in hole), self.end]
        return tuple((a, b) for a, b in zip(edges[::2], edges[1::2], strict=True) if a < b)
