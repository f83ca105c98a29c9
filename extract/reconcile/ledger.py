"""The kitchen ledger: what went into each made thing, what was taken from it, and what is left.

Notes for a newcomer. Every made thing (a dressing, a rub, the whole dish) has an account. Spoken actions are
events, applied in the order said; each adds an entry on the in side or the out side. Shares are exact parts of
the whole, so that out entries and what is left always make one: nothing is created and nothing is lost. A
share put by gets an account of its own, opened with that share, so that "half of the syrup we kept back" is
half of the third that was kept.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from extract.reconcile.quantities import NOTHING, WHOLE, Range, exactly

Said = Fraction | Literal["rest", "some", "all"]
Purpose = Literal["used", "kept", "gone"]


@dataclass(frozen=True, slots=True)
class PutIn:
    """A food, or a share of another made thing, goes into ``into``. ``millilitres`` is None where unknown."""

    into: str
    what: str
    at: int
    millilitres: Range | None = None
    line: int | None = None


@dataclass(frozen=True, slots=True)
class Makes:
    """The cook says how much of a thing there is: "you end up with three cups of gravy"."""

    thing: str
    at: int
    millilitres: Range


@dataclass(frozen=True, slots=True)
class TakeOut:
    """A share of ``thing`` is used, put by for later, or leaves the dish."""

    thing: str
    share: Said
    at: int
    purpose: Purpose = "used"
    into: str = ""


Event = PutIn | Makes | TakeOut


@dataclass(frozen=True, slots=True)
class Entry:
    """One entry on the in side of an account."""

    what: str
    at: int
    millilitres: Range | None
    line: int | None = None


@dataclass(frozen=True, slots=True)
class Out:
    """One entry on the out side: the share as said and as part of the whole."""

    said: Said
    part: Range
    at: int
    purpose: Purpose
    into: str = ""


@dataclass
class Account:
    """What went into one made thing, what came out, and what is left of it (a part of the whole)."""

    name: str
    ins: list[Entry] = field(default_factory=list)
    outs: list[Out] = field(default_factory=list)
    said_volume: Range | None = None
    parent: str = ""
    left: Range = WHOLE

    @property
    def whole(self) -> Range | None:
        """Millilitres of the whole: as the cook said, else the sum of what went in where all of it is known."""
        if self.said_volume is not None:
            return self.said_volume
        volumes = [entry.millilitres for entry in self.ins]
        if not volumes or any(v is None for v in volumes):
            return None
        return sum((v for v in volumes if v is not None), NOTHING)

    def volume_of(self, out: Out) -> Range | None:
        """Millilitres of one out entry, None where the whole or the share is not known."""
        whole = self.whole
        return None if whole is None or out.said == "some" else whole.times(out.part)


@dataclass(frozen=True, slots=True)
class Fault:
    """A sum that does not add up: over-used, rest of nothing, never made, never used."""

    kind: Literal["over-used", "rest of nothing", "never made", "never used"]
    thing: str
    at: int


@dataclass
class Ledger:
    """The accounts of one show, in the order in which they were opened."""

    accounts: dict[str, Account] = field(default_factory=dict)
    faults: list[Fault] = field(default_factory=list)

    def apply(self, event: Event) -> Out | None:
        """Enter one event. Returns the out entry of a TakeOut, None for the others."""
        match event:
            case PutIn():
                entry = Entry(event.what, event.at, event.millilitres, event.line)
                self.account(event.into).ins.append(entry)
            case Makes():
                self.account(event.thing).said_volume = event.millilitres
            case TakeOut():
                return self._take(event)
        return None

    def account(self, name: str) -> Account:
        """The account of a thing, opened where there is none yet."""
        return self.accounts.setdefault(name, Account(name))

    def _take(self, event: TakeOut) -> Out:
        account = self.account(event.thing)
        if not account.ins and account.said_volume is None and not account.parent:
            self.faults.append(Fault("never made", event.thing, event.at))
        part = self._part(account, event)
        out = Out(event.share, part, event.at, event.purpose, event.into)
        account.outs.append(out)
        account.left = _less(account.left, part)
        if event.purpose == "kept":
            kept = self.account(kept_name(event.thing))
            kept.parent = event.thing
            kept.said_volume = account.volume_of(out)
        return out

    def _part(self, account: Account, event: TakeOut) -> Range:
        """The share as a part of the whole; never more than is left, and a fault where more was said."""
        if event.share in ("rest", "all"):
            if account.left.high == 0:
                self.faults.append(Fault("rest of nothing", account.name, event.at))
            return account.left
        if event.share == "some":
            return Range(Fraction(0), account.left.high)
        part = exactly(Fraction(event.share))
        if part.low > account.left.high:
            self.faults.append(Fault("over-used", account.name, event.at))
        return Range(min(part.low, account.left.high), min(part.high, account.left.high))

    def unused(self) -> Iterator[Fault]:
        """Shares put by that nothing took up, and things half used of which the rest was never spoken of."""
        for name, account in self.accounts.items():
            kept = [out for out in account.outs if out.purpose == "kept"]
            for out in kept:
                later = self.accounts.get(kept_name(name))
                if later is not None and not later.outs:
                    yield Fault("never used", kept_name(name), out.at)
            if account.outs and account.left.low > 0:
                yield Fault("never used", name, account.outs[-1].at)


def kept_name(thing: str) -> str:
    """What a share put by is called until it is used."""
    return f"reserved {thing}"


def _less(left: Range, part: Range) -> Range:
    """What is left after ``part`` of it went: an unknown share leaves anything between nothing and all."""
    if part.low == part.high and left.low == left.high:
        return exactly(left.low - part.low)
    if part == left:
        return NOTHING
    return Range(max(Fraction(0), left.low - part.high), max(Fraction(0), left.high - part.low))
