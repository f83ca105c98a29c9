"""The kitchen ledger: what went into each made thing, what was taken from it, and what is left.

Notes for a newcomer. Every made thing (a dressing, a rub, the whole dish) has an account. Spoken actions are
events, applied in the order said; each adds an entry on the in side or the out side. Shares are exact parts of
the whole, so that out entries and what is left always make one: nothing is created and nothing is lost. A
share put by gets an account of its own, opened with that share, so that "half of the syrup we kept back" is
half of the third that was kept.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from extract.reconcile.ledger.quantities import NOTHING, WHOLE, Quantity, Range, exactly, total
from extract.spot.spans import Amount

Said = Fraction | Literal["rest", "some", "all"]
Purpose = Literal["used", "kept", "gone"]


@dataclass(frozen=True, slots=True)
class PutIn:
    """A food, or a share of another made thing, goes into the account ``into``; ``size`` is None where unknown.

    ``amount`` is the amount in the cook's own units.
    """

    into: str
    what: str
    at: int
    size: Quantity | None = None
    amount: Amount | None = None


@dataclass(frozen=True, slots=True)
class Makes:
    """The cook says how much of a thing there is: "you end up with three cups of gravy"."""

    thing: str
    at: int
    size: Quantity


@dataclass(frozen=True, slots=True)
class TakeOut:
    """A share of ``thing`` is used, put by for later, or leaves the dish.

    ``measure``: the share was told as an amount; with ``share`` "all" it is what is held back ("all but a
    cup"). ``of_rest``: the share is of what is left. ``holds``: it is put by in a vessel of its own. ``again``: it was
    told before, so that nothing more is taken.
    """

    thing: str
    share: Said
    at: int
    purpose: Purpose = "used"
    into: str = ""
    measure: Quantity | None = None
    of_rest: bool = False
    holds: bool = False
    again: bool = False


Event = PutIn | Makes | TakeOut


@dataclass(frozen=True, slots=True)
class Entry:
    """One entry on the in side of an account."""

    what: str
    at: int
    size: Quantity | None
    amount: Amount | None = None


@dataclass(frozen=True, slots=True)
class Out:
    """One entry on the out side: the share as said, as part of the whole, and its size where it is known.

    ``part`` is what was there to be taken, ``asked`` what the words ask for; they differ where more was asked
    for than was left. ``size`` is that of what was asked for.
    """

    said: Said
    part: Range
    asked: Range
    at: int
    purpose: Purpose
    into: str = ""
    size: Quantity | None = None
    reserve: str = ""
    again: bool = False


@dataclass
class Account:
    """What went into one made thing, what came out, and what is left of it (a part of the whole).

    ``said`` is how much there was by the cook's words at token ``said_at``, of which all is known that went in before.
    ``parent`` is the thing of which this account holds a share put by. ``vague``: a share without a figure was
    taken, so that what is left has no figure either. ``touched`` are the tokens at which what was put by was
    spoken of again as such ("what we kept"), ``named`` those at which its thing was named again.
    """

    name: str
    ins: list[Entry] = field(default_factory=list)
    outs: list[Out] = field(default_factory=list)
    said: Quantity | None = None
    said_at: int = -1
    parent: str = ""
    left: Range = WHOLE
    vague: bool = False
    touched: list[int] = field(default_factory=list)
    named: list[int] = field(default_factory=list)

    @property
    def whole(self) -> Quantity | None:
        """How much there was: as the cook said with what went in after that, else the sum of what went in."""
        later = [entry.size for entry in self.ins if entry.at > self.said_at]
        return total([self.said, *later] if self.said is not None else later)

    @property
    def made(self) -> bool:
        """Whether anything is known of where it comes from."""
        return bool(self.ins or self.parent) or self.said is not None


FaultKind = Literal["over-used", "nothing left", "never made"]


@dataclass(frozen=True, slots=True)
class Fault:
    """A sum that does not add up: more taken than was left, a share of nothing, a thing no one made.

    ``left`` is the part of the whole that was left when ``part`` was asked for.
    """

    kind: FaultKind
    thing: str
    at: int
    left: Range = NOTHING
    part: Range = NOTHING


@dataclass
class Ledger:
    """The accounts of one show, in the order in which they were opened."""

    accounts: dict[str, Account] = field(default_factory=dict)
    faults: list[Fault] = field(default_factory=list)

    def apply(self, event: Event) -> Out | None:
        """Enter one event. Returns the out entry of a TakeOut, None for the others."""
        match event:
            case PutIn():
                self.account(event.into).ins.append(Entry(event.what, event.at, event.size, event.amount))
            case Makes():
                account = self.account(event.thing)
                account.said, account.said_at = event.size, event.at
            case TakeOut():
                return self._take(event)
        return None

    def account(self, name: str) -> Account:
        """The account of a thing, opened where there is none yet."""
        return self.accounts.setdefault(name, Account(name))

    def reserves(self, thing: str) -> list[Account]:
        """The accounts of shares of a thing that were put by, the latest first."""
        names = (
            [out.reserve for out in self.accounts[thing].outs if out.reserve]
            if thing in self.accounts
            else []
        )
        return [self.accounts[name] for name in reversed(names)]

    def _take(self, event: TakeOut) -> Out:
        account = self.account(event.thing)
        if not account.made:
            self.faults.append(Fault("never made", event.thing, event.at))
        asked, vague = self._asked(account, event)
        part = NOTHING if event.again else self._within(account, asked, event)
        size = event.measure if event.measure is not None and event.share != "all" else None
        if size is None and not vague and account.whole is not None:
            size = account.whole.times(asked)
        reserve = self._reserve(account, size, event.at) if event.purpose == "kept" or event.holds else ""
        out = Out(event.share, part, asked, event.at, event.purpose, event.into, size, reserve, event.again)
        account.outs.append(out)
        account.left = NOTHING if part == account.left else account.left.less(part)
        account.vague = account.vague or vague
        return out

    def _reserve(self, account: Account, size: Quantity | None, at: int) -> str:
        """The name of a new account for a share put by."""
        number = sum(1 for out in account.outs if out.reserve) + 1
        name = kept_name(account.name) if number == 1 else f"{kept_name(account.name)} ({number})"
        self.accounts[name] = Account(name, parent=account.name, said=size, said_at=at)
        return name

    def _asked(self, account: Account, event: TakeOut) -> tuple[Range, bool]:
        """The share as a part of the whole, and whether it is without a figure."""
        left = account.left
        if event.measure is not None:
            return self._measured(account, event, event.measure)
        if event.share in ("rest", "all"):
            return left, account.vague
        if event.share == "some":
            return Range(Fraction(0), left.high), True
        part = exactly(Fraction(event.share))
        return (left.times(part), account.vague) if event.of_rest else (part, False)

    def _measured(self, account: Account, event: TakeOut, measure: Quantity) -> tuple[Range, bool]:
        """A share told as an amount: its part where the whole is known, else anything up to all that is left."""
        whole = account.whole
        if whole is None or whole.kind != measure.kind or whole.size.low == 0:
            return Range(Fraction(0), account.left.high), True
        part = measure.size.over(whole.size)
        return (account.left.less(part), account.vague) if event.share == "all" else (part, False)

    def _within(self, account: Account, asked: Range, event: TakeOut) -> Range:
        """What was there to be taken of the share asked for; a fault where that is less."""
        if event.share in ("rest", "all", "some") and event.measure is None:
            if account.left.high == 0 and event.share != "some":
                self.faults.append(Fault("nothing left", account.name, event.at))
        elif asked.low > account.left.high:
            self.faults.append(Fault("over-used", account.name, event.at, account.left, asked))
        return asked.capped(account.left.high)


def kept_name(thing: str) -> str:
    """What a share put by is called until it is used."""
    return f"reserved {thing}"
