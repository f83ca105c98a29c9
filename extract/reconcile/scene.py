"""One dish as the ledger hears it: its words, lines, parts, made names and shares, each in order."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TypeVar

from extract.reconcile.lines.components import Part
from extract.reconcile.lines.lines import Line
from extract.reconcile.lines.uses import Use
from extract.reconcile.wording import Wording
from extract.segment.stretch import Stretch
from extract.spot.spans import MadeName, Share
from extract.spot.spotted import Spotted

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Scene:
    """One dish of a show, by its number, with everything spotted in it; ``uses`` are the mentions of its foods."""

    spotted: Spotted
    wording: Wording
    dish: Stretch
    number: int
    lines: tuple[Line, ...]
    parts: tuple[Part, ...]
    names: tuple[MadeName, ...]
    shares: tuple[Share, ...]
    uses: tuple[Use, ...]

    @property
    def account(self) -> str:
        """The account of the dish itself, into which goes what goes into no part of it."""
        return dish_account(self.number)


def dish_account(number: int) -> str:
    """The account of the dish of that number (from 0)."""
    return f"dish {number + 1}"


def is_dish_account(name: str) -> bool:
    """Whether an account is that of a whole dish."""
    first, _, number = name.partition(" ")
    return first == "dish" and number.isdigit()


def between(spans: Sequence[T], start: int, end: int, at: Callable[[T], int]) -> Sequence[T]:
    """The spans, in order of ``at``, for which it lies within the tokens ``start`` to ``end``."""
    return spans[bisect_left(spans, start, key=at) : bisect_left(spans, end, key=at)]


def inside(spans: Sequence[T], dish: Stretch, at: Callable[[T], int]) -> tuple[T, ...]:
    """The spans, in order of ``at``, that a dish holds, visits left out."""
    return tuple(span for span in between(spans, dish.start, dish.end, at) if dish.holds(at(span)))
