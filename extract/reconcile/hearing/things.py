"""The things made in a kitchen, and which of them a name or a pronoun means."""

from __future__ import annotations

from dataclasses import dataclass, field

from extract.reconcile.lines.lines import same_thing
from extract.spot.names.foods import meaning

SALIENCE = 120


@dataclass
class Thing:
    """Something that shares are taken from: a part being made, a bought food divided, a share put by.

    ``key`` names its account; ``also`` are further names the cook gives it; ``last`` is the token at which it
    was spoken of last. ``reserve_of``: the key of the thing of which this is a share put by. ``made``: its making
    was told or a share of it taken, so that another dish may take it up.
    """

    name: str
    key: str
    dish: int
    last: int
    bought: bool = False
    also: tuple[str, ...] = ()
    reserve_of: str = ""
    made: bool = False

    def is_called(self, name: str) -> bool:
        """Whether a name can mean it."""
        return any(same_thing(own, name) for own in (self.name, *self.also))


def heads_of(*names: str) -> set[str]:
    """The last words by which names are compared, so that only things of like names need comparing."""
    raw = {name.split()[-1] for name in names if name}
    return raw | {keys[-1] for name in names if (keys := meaning(name).keys)}


@dataclass
class Shelf:
    """Everything made or divided so far, the thing spoken of last at the end of ``things``."""

    things: dict[str, Thing] = field(default_factory=dict)
    by_head: dict[str, list[Thing]] = field(default_factory=dict)

    def put(
        self, name: str, at: int, dish: int, *, bought: bool = False, also: tuple[str, ...] = ()
    ) -> Thing:
        """A new thing on the shelf; a second one of the same name gets an account of its own.

        One of which nothing but its name was heard is that thing.
        """
        spoken = self.things.get(name)
        if spoken is not None and not spoken.made and not spoken.bought:
            spoken.dish, spoken.also, spoken.bought = dish, (*spoken.also, *also), bought
            self.speak_of(spoken, at)
            return spoken
        key, number = name, 1
        while key in self.things:
            number += 1
            key = f"{name} ({number})"
        return self._add(Thing(name, key, dish, at, bought, also))

    def put_by(self, thing: Thing, key: str, at: int) -> Thing:
        """A share of a thing, put by under the name of its account."""
        return self._add(Thing(key, key, thing.dish, at, reserve_of=thing.key, made=True))

    def _add(self, thing: Thing) -> Thing:
        self.things[thing.key] = thing
        if not thing.reserve_of:
            for head in heads_of(thing.name, *thing.also):
                self.by_head.setdefault(head, []).append(thing)
        return thing

    def speak_of(self, thing: Thing, at: int) -> None:
        """The thing is named at token ``at``: it is now what "it" means."""
        thing.last = at
        self.things[thing.key] = self.things.pop(thing.key)

    def find(self, name: str, dish: int) -> Thing | None:
        """The thing that a name means in a dish: one of that dish before others, the one spoken of last."""
        alike = {thing.key: thing for head in heads_of(name) for thing in self.by_head.get(head, ())}
        called = [t for t in alike.values() if t.is_called(name) and (t.made or t.dish == dish)]
        return max(called, key=lambda thing: (thing.dish == dish, thing.made, thing.last), default=None)

    def also_called(self, thing: Thing, name: str) -> None:
        """The thing has one more name."""
        thing.also = (*thing.also, name)
        for head in heads_of(name):
            self.by_head.setdefault(head, []).append(thing)

    def salient(self, at: int) -> Thing | None:
        """What "it", "that" or a bare "half" means: the thing spoken of last, not too long ago."""
        last = next(reversed(self.things.values()), None)
        return last if last is not None and at - SALIENCE <= last.last <= at else None
