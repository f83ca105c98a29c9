"""The things made in a kitchen, and which of them a reference means."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from extract.reconcile.lines import Line, same_thing
from extract.spot.spans import Food, Share

SALIENCE = 120


@dataclass
class Made:
    """Something that shares are taken from: a part of a dish being made, or a bought food that is divided.

    ``named`` are the tokens at which it was spoken of, in order.
    """

    name: str
    at: int
    bought: bool = False
    named: list[int] = field(default_factory=list)

    def last_named(self, before: int) -> int:
        """The last token before ``before`` at which it was spoken of, -1 where there is none."""
        return max((at for at in self.named if at < before), default=-1)


@dataclass
class Shelf:
    """Everything made or divided so far, by name."""

    things: dict[str, Made] = field(default_factory=dict)

    def put(self, name: str, at: int, *, bought: bool = False) -> Made:
        """The thing of that name, new on the shelf where it was not there."""
        thing = self.things.setdefault(name, Made(name, at, bought))
        thing.named.append(at)
        return thing

    def find(self, name: str, at: int) -> Made | None:
        """The thing that ``name`` means at token ``at``: the one spoken of last among those it can mean."""
        means = [t for t in self.things.values() if same_thing(t.name, name)]
        return max(means, key=lambda t: t.last_named(at + 1), default=None)

    def salient(self, at: int) -> Made | None:
        """What "it", "that" or a bare "half" means: the made thing spoken of last, not too long ago."""
        recent = [t for t in self.things.values() if at - SALIENCE <= t.last_named(at) < at]
        return max(recent, key=lambda t: t.last_named(at), default=None)


def shared_thing(shelf: Shelf, share: Share, foods: Sequence[Food], lines: Iterable[Line]) -> Made | None:
    """What a share is taken from, put on the shelf if need be; None where the words name nothing here.

    ``foods`` are the mentions in the dish, ``lines`` its ingredient lines.
    """
    if not share.of:
        return shelf.salient(share.start)
    found = shelf.find(share.of, share.start)
    if found is not None:
        return found
    line = next((li for li in lines if same_thing(li.name, share.of) and li.at <= share.start), None)
    if line is not None:
        return shelf.put(line.name, line.at, bought=True)
    named = [f for f in foods if share.start <= f.start < share.end]
    if named and named[-1].kinds & {"made", "dish", "mixture"}:
        return shelf.put(named[-1].name, named[-1].start)
    return None
