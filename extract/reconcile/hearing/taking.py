"""Taking a share: which thing it is of, which account it comes out of, and what it amounts to."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from extract.reconcile.hearing.hearing import FractionWord, Hearing, Portion
from extract.reconcile.hearing.sharing import equipment_named, is_stored, shared_thing
from extract.reconcile.hearing.things import Thing
from extract.reconcile.ledger.ledger import Account, Ledger, Out, Purpose, PutIn, TakeOut
from extract.reconcile.ledger.quantities import quantity
from extract.reconcile.ledger.wording import share_words
from extract.reconcile.lines.components import component_at
from extract.reconcile.scene import Scene
from extract.reconcile.wording import fits
from extract.spot.spans import Share

NEAR = 6
TABLE = "ledger_cues"
VESSELS = frozenset({"jar", "bowl", "server"})


def take(hearing: Hearing, scene: Scene, share: Share) -> Portion | None:
    """Enter a share into the ledger; None where the words share nothing that was made or divided here."""
    thing = shared_thing(hearing, scene, share)
    if thing is not None and thing.key in hearing.divided:
        line, times = hearing.divided[thing.key]
        more = " more " in scene.wording.part(share.start, share.end)  # "a bit more of it": not the first
        hearing.divided[thing.key] = (line, times + (2 if more else 1))
    if thing is None or not counts(hearing, scene, thing, share):
        return None
    if thing.bought:
        _open_bought(hearing, scene, thing)
    account, event = draw(hearing.ledger, scene, thing, share)
    hearing.shelf.speak_of(thing, share.start)
    out = hearing.ledger.apply(event)
    if out is None:
        return None
    if out.reserve:
        hearing.shelf.put_by(thing, out.reserve, share.start)
        hearing.shelf.speak_of(thing, share.start)
    thing.made = True
    hearing.shared, hearing.shared_at = thing, share.start
    _pass_on(hearing, scene, thing, share, out)
    whole = hearing.shelf.things.get(thing.reserve_of, thing)
    if not is_portion(whole, account, share) or told_again(hearing.ledger, scene, account, share, out):
        return None
    entries = tuple(account.ins) if out.size is None and out.asked.exact and has_weights(account) else ()
    return Portion(share, thing.name, whole.name, told(account, share, out), out, entries)


def has_weights(account: Account) -> bool:
    """Whether some of what went in was told by weight, and all of it in figures, so that a share may be weighed."""
    kinds = {entry.size.kind for entry in account.ins if entry.size is not None}
    figures = all(entry.amount is not None and entry.amount.low is not None for entry in account.ins)
    return "mass" in kinds and figures


def counts(hearing: Hearing, scene: Scene, thing: Thing, share: Share) -> bool:
    """Whether a share is one to enter: "some of it" and "all that jelly" are only talk."""
    words = scene.wording.part(share.start, share.end)
    if share.measure is not None and share.fraction == "some":
        return True
    if share.fraction == "some":
        if scene.wording.words[scene.wording.sentence(share.start)[1] - 1] == "?":
            return False
        return bool(share.of or share.meant) and not thing.bought
    if words.startswith("what") and not thing.made:
        return False  # "what I've got left of the pastry": of some other day
    if share.fraction == "all" and share.measure is None:
        return not thing.bought and (" of " in words or thing.key in hearing.ledger.accounts)
    return True


def _open_bought(hearing: Hearing, scene: Scene, thing: Thing) -> None:
    """A bought food that is divided gets an account with what was bought of it."""
    account = hearing.ledger.account(thing.key)
    line = next((line for line in scene.lines if line.name == thing.name), None)
    if not account.ins and line is not None:
        hearing.ledger.apply(PutIn(thing.key, thing.name, line.at, quantity(line.amount), line.amount))


def draw(ledger: Ledger, scene: Scene, thing: Thing, share: Share) -> tuple[Account, TakeOut]:
    """The account that a share comes out of, and the event: of the thing, or of what was put by of it."""
    account, fraction, purpose = ledger.account(thing.key), share.fraction, _purpose(share)
    put_by = likeliest_reserve(ledger, account, share)
    again = is_repeated(scene, account, share, put_by)
    if again:
        purpose = "used" if purpose == "kept" else purpose
    elif put_by is not None and _means_reserve(scene, account, share):
        whole = fraction == put_by.said and (share.known or share.other)
        fraction = "all" if whole else fraction
        account = ledger.accounts[put_by.reserve]
        purpose = "used" if purpose == "kept" else purpose
    elif thing.reserve_of and purpose == "kept" and not share.other:
        purpose = "used"
    event = TakeOut(
        account.name,
        fraction,
        share.start,
        purpose,
        share.into,
        quantity(share.measure),
        share.of_rest,
        holds=purpose == "used" and not account.parent and not again and waits(scene, share),
        again=again,
    )
    return account, event


def is_repeated(scene: Scene, account: Account, share: Share, put_by: Out | None) -> bool:
    """Whether a thing is all dealt out and the same share of it was told: it is told again, as it goes in.

    What was ``put_by`` is taken up instead where another dish tells of it, or where it is that very share.
    """
    if account.left.high > 0 or share.measure is not None:
        return False
    same = [out for out in account.outs if out.said == share.fraction]
    here = any(scene.dish.holds(out.at) for out in same)
    return bool(same) and (put_by is None or (here and put_by.said != share.fraction))


def waits(scene: Scene, share: Share) -> bool:
    """Whether a share goes where it can be taken up from later, or is only told what it is for."""
    after = scene.wording.part(share.end, share.end + NEAR)
    return in_vessel(share.into) or is_stored(share.into) or fits(TABLE, "allotted", after)


def likeliest_reserve(ledger: Ledger, account: Account, share: Share) -> Out | None:
    """What was put by of a thing and is not used up: that of the same share, put by for later, else the latest."""
    held = [out for out in account.outs if out.reserve and ledger.accounts[out.reserve].left.high > 0]
    return max(
        held, key=lambda out: (out.said == share.fraction, out.purpose == "kept", out.at), default=None
    )


def _purpose(share: Share) -> Purpose:
    return "gone" if share.gone else "kept" if share.kept else "used"


def _means_reserve(scene: Scene, account: Account, share: Share) -> bool:
    """Whether a share is of what was put by: "that third", "the half we kept", or nothing else is left."""
    if account.left.high == 0:
        return True
    after = scene.wording.part(share.end, share.end + NEAR)
    told_before = share.known and isinstance(share.fraction, Fraction)
    return not share.other and (told_before or fits(TABLE, "kept", after))


def in_vessel(into: str) -> bool:
    """Whether a share goes into a vessel in which it waits: a jug, a bowl, a plate."""
    vessel = equipment_named(into)
    return vessel is not None and vessel.kind in VESSELS and into.startswith("in")


def _pass_on(hearing: Hearing, scene: Scene, thing: Thing, share: Share, out: Out) -> None:
    """A share that is used goes into the part being made where the words say so, else into the dish."""
    if out.purpose != "used" or out.reserve:
        return
    what = f"{share_words(replace(out, said=share.fraction))} of the {thing.name}"
    part = component_at(scene.parts, share.start)
    making = hearing.shelf.find(part, scene.number) if part else None
    if (
        making is not None
        and making is not thing
        and fits(TABLE, "there", scene.wording.part(share.end, share.end + NEAR))
    ):
        hearing.ledger.apply(PutIn(making.key, what, share.start, out.size))
    elif making is not thing:
        hearing.ledger.apply(PutIn(scene.account, what, share.start, out.size))


def is_portion(thing: Thing, account: Account, share: Share) -> bool:
    """Whether a share is told in the draft: an amount of a bought food is a use of its line, not a share."""
    if not thing.bought:
        return True
    if share.measure is not None or share.fraction in ("some", "all"):
        return False
    shared = any(isinstance(out.said, Fraction) for out in account.outs)
    return shared or bool(account.parent)


def told_again(ledger: Ledger, scene: Scene, account: Account, share: Share, out: Out) -> bool:
    """Whether a share is one that this dish told before: "leave the rest... and now the rest of the dough".

    A share that another dish takes up is told there as well.
    """
    parent = ledger.accounts.get(account.parent)
    if parent is not None:
        first = next(o for o in parent.outs if o.reserve == account.name)
        return first.said == share.fraction and account.outs[0] is out and scene.dish.holds(first.at)
    earlier = (o for o in account.outs if o is not out and o.said == out.said)
    return out.again and any(scene.dish.holds(o.at) for o in earlier)


def told(account: Account, share: Share, out: Out) -> FractionWord:
    """The share as the draft tells it: as said, or worked out where an amount or a share of the rest was said."""
    if share.measure is None and not share.of_rest:
        return share.fraction
    if out.asked.exact and (share.measure is None or account.whole is not None):
        return out.asked.low
    return "some" if share.measure is not None else share.fraction
