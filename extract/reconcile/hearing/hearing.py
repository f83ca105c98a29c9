"""Hearing one dish: its spoken words as ledger events, in the order said."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import zip_longest
from typing import Literal

from extract.reconcile.hearing.things import Shelf, Thing
from extract.reconcile.ledger.ledger import Entry, Ledger, Makes, Out, PutIn
from extract.reconcile.ledger.quantities import Quantity, quantity
from extract.reconcile.lines.components import Part
from extract.reconcile.lines.lines import Line, same_thing
from extract.reconcile.scene import Scene, between
from extract.reconcile.wording import fits, patterns
from extract.spot.spans import Amount, Food, MadeName, Share

TABLE = "ledger_cues"
ECHO_REACH = 8
LOOK_BACK = 8
FractionWord = Fraction | Literal["rest", "some", "all"]


@dataclass(frozen=True, slots=True)
class Portion:
    """A share that was taken: the words, the thing ``of`` which it is, and what the ledger made of it.

    ``fraction`` is as said, worked out where the words told an amount or a share of the rest. ``gone``: it leaves
    the dish. ``entries`` are what went into the thing, where that is told in measures of several kinds.
    """

    share: Share
    of: str
    component: str
    fraction: FractionWord
    out: Out
    entries: tuple[Entry, ...] = ()
    gone: bool = False

    @property
    def size(self) -> Quantity | None:
        """Its millilitres or grams, None where they cannot be worked out."""
        return self.out.size


@dataclass
class Hearing:
    """What has been heard of a show so far; ``shelf`` and ``ledger`` are the whole show's.

    A rub made for the first dish may go into the second. ``divided`` are the lines of bought foods of which shares
    were told, by the key of the food, with how many; ``shared`` is the thing of which a share was told last, at the
    token ``shared_at``.
    """

    ledger: Ledger = field(default_factory=Ledger)
    shelf: Shelf = field(default_factory=Shelf)
    divided: dict[str, tuple[Line, int]] = field(default_factory=dict)
    shared: Thing | None = None
    shared_at: int = 0


def open_part(hearing: Hearing, scene: Scene, part: Part) -> None:
    """A part begins to be made, or is taken up again."""
    thing = hearing.shelf.find(part.name, scene.number)
    if thing is None or thing.dish != scene.number:
        thing = hearing.shelf.put(part.name, part.start, scene.number, also=part.also)
    thing.made = True
    hearing.shelf.speak_of(thing, part.start)


def put_in(hearing: Hearing, scene: Scene, line: Line, at: int) -> None:
    """A food goes, at token ``at``, into the part being made, else into the dish."""
    part = line.component
    thing = hearing.shelf.find(part, scene.number) if part else None
    into = thing.key if thing is not None else scene.account
    hearing.ledger.apply(PutIn(into, line.name, at, quantity(line.amount), line.amount))


def name_made(hearing: Hearing, scene: Scene, name: MadeName) -> None:
    """A made thing is named: it is what "it" means now, and what was put by of it is spoken of again."""
    thing = hearing.shelf.find(name.name, scene.number)
    if thing is None and name.sure:
        thing = hearing.shelf.put(name.name, name.start, scene.number)
    if thing is None:
        return
    hearing.shelf.speak_of(thing, name.start)
    for reserve in hearing.ledger.reserves(thing.key):
        reserve.named.append(name.start)


def told_total(hearing: Hearing, scene: Scene, amount: Amount) -> None:
    """ "You end up with three cups of gravy": how much there is of the thing spoken of."""
    size = quantity(amount)
    before = scene.wording.part(amount.start - LOOK_BACK, amount.start)
    if size is None or not fits(TABLE, "total", before):
        return
    near = between(
        scene.uses, amount.start - LOOK_BACK, amount.end + LOOK_BACK, lambda use: use.mention.food.start
    )
    measured = [use.mention for use in near if use.mention.amount is not None]
    food = next((m.food for m in measured if m.amount is not None and m.amount.start == amount.start), None)
    shelf, thing = hearing.shelf, None
    if food is None:
        thing = shelf.salient(amount.start)
    elif between(scene.names, food.start, food.end, _start):
        thing = shelf.find(food.name, scene.number)
    if thing is not None and not thing.bought and not thing.reserve_of and not _outs(hearing, thing):
        hearing.ledger.apply(Makes(thing.key, amount.start, size))


def _outs(hearing: Hearing, thing: Thing) -> list[Out]:
    return hearing.ledger.accounts[thing.key].outs if thing.key in hearing.ledger.accounts else []


def speak_of_kept(hearing: Hearing, scene: Scene, start: int, end: int) -> None:
    """ "That syrup we kept back": what was put by before is spoken of, and is what "it" means now.

    A made thing that was never heard to be put by is believed to be there all the same.
    """
    shelf = hearing.shelf
    named = list(reversed(between(scene.names, start - LOOK_BACK, end + 3, _start)))
    foods = reversed(between(scene.spotted.foods, start - LOOK_BACK, end, _start))
    things = [shelf.find(name, scene.number) for name in (*(n.name for n in named), *(f.name for f in foods))]
    kept = [out for t in things if t is not None for out in _outs(hearing, t) if out.reserve]
    if not kept and named and named[0].sure and shelf.find(named[0].name, scene.number) is None:
        shelf.put(named[0].name, start, scene.number)
    elif not kept:
        kept = [out for account in hearing.ledger.accounts.values() for out in account.outs if out.reserve]
    meant = max(kept, key=lambda out: (out.purpose == "kept", out.at), default=None)
    if meant is not None:
        hearing.ledger.accounts[meant.reserve].touched.append(start)
        shelf.speak_of(shelf.things[meant.reserve], start)


def kept_references(scene: Scene) -> Iterator[tuple[int, int]]:
    """Where words tell of something put by before, outside the words that put it by."""
    for pattern in patterns(TABLE, "kept"):
        for start, end in scene.wording.find(pattern, scene.dish.start, scene.dish.end):
            if scene.dish.holds(start):
                yield start, end


def without_echoes(shares: tuple[Share, ...]) -> Iterator[Share]:
    """The shares, an echo ("Half. Half the frangipan goes on") only once."""
    last: Share | None = None
    for share, after in zip_longest(shares, shares[1:]):
        bare_first = after is not None and _echoes(share, after) and not after.other
        bare_last = last is not None and share.other and last.other and _echoes(share, last)
        if not bare_first and not bare_last:
            yield share
        last = share


def _echoes(bare: Share, named: Share) -> bool:
    """Whether a bare share stands right beside the same share of a thing that is named."""
    near = abs(named.start - bare.start) <= ECHO_REACH + len(named.of.split())
    return near and not bare.of and bool(named.of) and bare.fraction == named.fraction


def bought_line(scene: Scene, share: Share) -> Line | None:
    """The line of a bought food that a share names, put in before it was said."""
    lines = (line for line in scene.lines if line.at <= share.start and same_thing(line.name, share.of))
    return max(lines, key=lambda line: line.at, default=None)


def _start(span: MadeName | Share | Food) -> int:
    return span.start
