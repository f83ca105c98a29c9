"""Hearing one dish: its spoken words as ledger events, in the order said."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from extract.reconcile.components import Opening, component_at, find_openings
from extract.reconcile.ledger import Event, Ledger, Makes, Out, Purpose, PutIn, TakeOut, kept_name
from extract.reconcile.lines import Line
from extract.reconcile.made import Made, Shelf, shared_thing
from extract.reconcile.quantities import Range, volume
from extract.segment.dishes import Stretch
from extract.spot.pairing import Mention
from extract.spot.spans import Food, Share
from extract.spot.spotted import Spotted

ECHO_REACH = 8


@dataclass(frozen=True, slots=True)
class Portion:
    """A share that was taken: the words, the thing, and what the ledger made of it."""

    share: Share
    of: str
    component: str
    out: Out
    millilitres: Range | None


def made_foods(spotted: Spotted, dish: Stretch) -> list[Food]:
    """The mentions of made things in a dish: doughs, sauces, mixtures."""
    return [f for f in spotted.foods if dish.holds(f.start) and f.kinds & {"made"}]


def openings_of(spotted: Spotted, dish: Stretch, lines: Sequence[Line]) -> list[Opening]:
    """Where the parts of the dish begin to be made."""
    return find_openings(spotted.speech.doc, made_foods(spotted, dish), [line.at for line in lines])


def hear(
    spotted: Spotted, dish: Stretch, lines: Sequence[Line], openings: Sequence[Opening], shelf: Shelf, ledger: Ledger
) -> list[Portion]:
    """Enter one dish's events into the ledger and return the portions taken in it.

    ``shelf`` and ``ledger`` are the whole show's: a rub made for the first dish may go into the second.
    """
    for opening in openings:
        shelf.put(opening.name, opening.at)
    for food in made_foods(spotted, dish):
        known = shelf.find(food.name, food.start)
        if known is not None:
            known.named.append(food.start)
    for line in lines:
        ledger.apply(_put_in(line, openings, dish))
    for event in _said_totals(spotted, dish, shelf):
        ledger.apply(event)
    portions: list[Portion] = []
    for share in _shares(spotted, dish):
        portion = _take(spotted, dish, share, lines, shelf, ledger)
        if portion is not None:
            portions.append(portion)
    return portions


def _put_in(line: Line, openings: Sequence[Opening], dish: Stretch) -> Event:
    into = component_at(openings, line.at) or f"dish at {dish.start}"
    return PutIn(into, line.name, line.at, volume(line.amount), line.at)


def _shares(spotted: Spotted, dish: Stretch) -> Iterator[Share]:
    """The shares said in a dish, an echo ("Half. Half the frangipan goes on") only once."""
    held = [s for s in spotted.shares if dish.holds(s.start)]
    for i, share in enumerate(held):
        after = held[i + 1] if i + 1 < len(held) else None
        if after is not None and not share.of and after.fraction == share.fraction:
            if after.start - share.end <= ECHO_REACH and not after.other and after.of:
                continue
        yield share


def _take(
    spotted: Spotted, dish: Stretch, share: Share, lines: Sequence[Line], shelf: Shelf, ledger: Ledger
) -> Portion | None:
    foods = [f for f in spotted.foods if dish.holds(f.start)]
    thing = shared_thing(shelf, share, foods, lines)
    if thing is None or (share.fraction == "some" and thing.bought):
        return None
    thing.named.append(share.start)
    if thing.bought and thing.name not in ledger.accounts:
        line = next((li for li in lines if li.name == thing.name), None)
        ledger.apply(PutIn(thing.name, thing.name, thing.at, volume(line.amount) if line else None))
    purpose: Purpose = "gone" if share.gone else "kept" if share.kept else "used"
    account = _account(ledger, thing, share, purpose)
    out = ledger.apply(TakeOut(account, share.fraction, share.start, purpose, share.into))
    if out is None:
        return None
    return Portion(share, thing.name, thing.name, out, ledger.accounts[account].volume_of(out))


def _account(ledger: Ledger, thing: Made, share: Share, purpose: Purpose) -> str:
    """A share of what was put by comes out of that account once the thing itself is used up."""
    reserved = ledger.accounts.get(kept_name(thing.name))
    whole = ledger.accounts.get(thing.name)
    if reserved is None or purpose == "kept" or whole is None:
        return thing.name
    return reserved.name if whole.left.high == 0 or not reserved.outs and share.fraction == "rest" and share.of else thing.name


def _said_totals(spotted: Spotted, dish: Stretch, shelf: Shelf) -> Iterator[Makes]:
    """ "You end up with three cups of gravy": how much of a made thing there is."""
    for mention in spotted.mentions:
        if dish.holds(mention.start) and is_total(mention, shelf):
            amount = volume(mention.amount)
            thing = shelf.find(mention.food.name, mention.start)
            if amount is not None and thing is not None:
                yield Makes(thing.name, mention.start, amount)


def is_total(mention: Mention, shelf: Shelf) -> bool:
    """Whether a measured mention names something on the shelf rather than a food bought."""
    return "made" in mention.food.kinds and shelf.find(mention.food.name, mention.start) is not None
