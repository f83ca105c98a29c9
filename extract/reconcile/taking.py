"""Taking a share: which thing it is of, which account it comes out of, and what it amounts to."""

from __future__ import annotations

from fractions import Fraction

from extract.reconcile.components import component_at
from extract.reconcile.hearing import FractionWord, Hearing, Portion, bought_line
from extract.reconcile.ledger import Account, Ledger, Out, Purpose, PutIn, TakeOut
from extract.reconcile.quantities import quantity
from extract.reconcile.scene import Scene, between
from extract.reconcile.share_wording import share_words
from extract.reconcile.things import Thing
from extract.reconcile.wording import fits
from extract.spot.actions_things import equipment_by_words, singular
from extract.spot.spans import MadeName, Share

NEAR = 6
SAME_REACH = 40
KIND_REACH = 60
TABLE = "ledger_cues"
VESSELS = frozenset({"jar", "bowl", "server"})


def take(hearing: Hearing, scene: Scene, share: Share) -> Portion | None:
    """Enter a share into the ledger; None where the words share nothing that was made or divided here."""
    thing = shared_thing(hearing, scene, share)
    if thing is None or not counts(hearing, scene, thing, share):
        return None
    if thing.bought:
        _open_bought(hearing, scene, thing, share)
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
    if not is_portion(whole, account, share) or told_again(hearing.ledger, account, out):
        return None
    return Portion(share, thing.name, whole.name, told(account, share, out), out)


def shared_thing(hearing: Hearing, scene: Scene, share: Share) -> Thing | None:
    """What a share is of, put on the shelf if need be."""
    shelf = hearing.shelf
    if not share.of:
        same = hearing.shared if share.start - hearing.shared_at <= SAME_REACH else None
        bare = share.other or share.fraction == "rest"
        return same if same is not None and bare else shelf.salient(share.start)
    found = shelf.find(share.of, scene.number)
    if found is None or not found.made:
        found = meant_by_kind(hearing, scene, share) or found
    if found is not None:
        return found
    named = between(scene.names, share.start, share.end, _start)
    line = bought_line(scene, share)
    if line is not None and not (named and named[-1].sure):
        thing = shelf.put(line.name, line.at, scene.number, bought=True)
        hearing.divided.append(line)
        return thing
    words = scene.wording.part(share.start, share.end)
    if named and (isinstance(share.fraction, Fraction) or named[-1].sure or words.startswith("most")):
        return shelf.put(named[-1].name, named[-1].start, scene.number)
    return None


def meant_by_kind(hearing: Hearing, scene: Scene, share: Share) -> Thing | None:
    """The part made last, where the share calls it by a word for its kind: "that sauce" for the butterscotch."""
    part = next((part for part in reversed(scene.parts) if part.end <= share.start), None)
    if part is None or share.measure is not None or share.start - part.end > KIND_REACH:
        return None
    if not fits(TABLE, "kind word", share.of):
        return None
    thing = hearing.shelf.find(part.name, scene.number)
    if thing is not None:
        hearing.shelf.also_called(thing, share.of)
    return thing


def counts(hearing: Hearing, scene: Scene, thing: Thing, share: Share) -> bool:
    """Whether a share is one to enter: "some of it" and "all that jelly" are only talk."""
    words = scene.wording.part(share.start, share.end)
    if share.measure is not None and share.fraction == "some":
        return thing.bought or thing.key in hearing.ledger.accounts
    if share.fraction == "some":
        if scene.wording.words[scene.wording.sentence(share.start)[1] - 1] == "?":
            return False
        known = thing.key in hearing.ledger.accounts or words.startswith("most")
        return bool(share.of) and not thing.bought and known
    if share.fraction == "all" and share.measure is None:
        return not thing.bought and (" of " in words or thing.key in hearing.ledger.accounts)
    return True


def _open_bought(hearing: Hearing, scene: Scene, thing: Thing, share: Share) -> None:
    """A bought food that is divided gets an account with what was bought of it."""
    account = hearing.ledger.account(thing.key)
    line = next((line for line in scene.lines if line.name == thing.name), None)
    if not account.ins and line is not None:
        hearing.ledger.apply(PutIn(thing.key, thing.name, line.at, quantity(line.amount), line.amount))


def draw(ledger: Ledger, scene: Scene, thing: Thing, share: Share) -> tuple[Account, TakeOut]:
    """The account that a share comes out of, and the event: of the thing, or of what was put by of it."""
    account, fraction, purpose = ledger.account(thing.key), share.fraction, _purpose(share)
    put_by = likeliest_reserve(ledger, account, share)
    if put_by is not None and _means_reserve(scene, account, share):
        fraction = "all" if share.known and fraction == put_by.said else fraction
        account = ledger.accounts[put_by.reserve]
        purpose = "used" if purpose == "kept" else purpose
    elif thing.reserve_of and purpose == "kept":
        purpose = "used"
    event = TakeOut(
        account.name,
        fraction,
        share.start,
        purpose,
        share.into,
        quantity(share.measure),
        share.of_rest,
        holds=purpose == "used"
        and not account.parent
        and (in_vessel(share.into) or is_allotted(scene, share)),
    )
    return account, event


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
    after = scene.wording.part(share.end, share.end + NEAR)
    told_before = share.known and isinstance(share.fraction, Fraction)
    return not share.other and (account.left.high == 0 or told_before or fits(TABLE, "kept", after))


def is_allotted(scene: Scene, share: Share) -> bool:
    """Whether a share is only told what it is for, to be taken up later: "the other third is for the top"."""
    return fits(TABLE, "allotted", scene.wording.part(share.end, share.end + NEAR))


def in_vessel(into: str) -> bool:
    """Whether a share goes into a vessel in which it waits: a jug, a bowl, a plate."""
    words = into.split()
    thing = equipment_by_words().get((singular(words[-1]),)) if words else None
    return thing is not None and thing.kind in VESSELS and words[0] in {"in", "into"}


def _pass_on(hearing: Hearing, scene: Scene, thing: Thing, share: Share, out: Out) -> None:
    """A share that is used goes into the part being made where the words say so, else into the dish."""
    if out.purpose != "used" or out.reserve:
        return
    what = f"{share_words(out)} of the {thing.name}"
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


def told_again(ledger: Ledger, account: Account, out: Out) -> bool:
    """Whether a rest is the rest that was put by before: "leave the rest... and now the rest of the dough"."""
    parent = ledger.accounts.get(account.parent)
    put_by = next((o for o in parent.outs if o.reserve == account.name), None) if parent is not None else None
    return put_by is not None and put_by.said == out.said == "rest" and account.outs[0] is out


def told(account: Account, share: Share, out: Out) -> FractionWord:
    """The share as the draft tells it: as said, or worked out where an amount or a share of the rest was said."""
    if share.measure is None and not share.of_rest:
        return share.fraction
    if out.asked.exact and (share.measure is None or account.whole is not None):
        return out.asked.low
    return "some" if share.measure is not None else share.fraction


def _start(span: MadeName | Share) -> int:
    return span.start
