"""Which thing a share is of: by its name, its kind, the vessel it stands in, or as what was spoken of last."""

from __future__ import annotations

from dataclasses import replace

from extract.reconcile.hearing.hearing import Hearing, bought_line
from extract.reconcile.hearing.things import Thing
from extract.reconcile.ledger.ledger import Ledger, Out
from extract.reconcile.scene import Scene, between
from extract.reconcile.wording import fits
from extract.spot.names.foods import not_foods, word_key
from extract.spot.shares.words import holds, is_one_of
from extract.spot.spans import Food, MadeName, Share
from extract.spot.verbs.things import Equipment, equipment_by_words, singular

SAME_REACH = 40
KIND_REACH = 60
TABLE = "ledger_cues"


def shared_thing(hearing: Hearing, scene: Scene, share: Share) -> Thing | None:
    """What a share is of, put on the shelf if need be; None where the words share nothing of this kitchen."""
    if not share.of:
        known = hearing.shelf.find(share.meant, scene.number) if share.meant else None
        thing = known or spoken_of(hearing, scene, share)
        if thing is not None or not share.meant:
            return thing
        share = replace(share, of=share.meant)
    vessel = equipment_named(share.of)
    if vessel is not None:
        return held_in(hearing, share.of)
    found = hearing.shelf.find(share.of, scene.number)
    if found is None or not found.made:
        found = meant_by_kind(hearing, scene, share) or found
    return found or divided(hearing, scene, share) or first_named(hearing, scene, share)


def spoken_of(hearing: Hearing, scene: Scene, share: Share) -> Thing | None:
    """What a share without a name is of: the thing of the share just before it, else what was spoken of last."""
    recent = hearing.shared if share.start - hearing.shared_at <= SAME_REACH else None
    pronoun = is_one_of(scene.wording.words[share.end - 1], "pronoun")
    if recent is not None and (share.other or share.further or share.fraction == "rest" or not pronoun):
        return recent
    thing = hearing.shelf.salient(share.start)
    return thing if thing is not None and (thing.made or share.kept or share.gone) else None


def equipment_named(name: str) -> Equipment | None:
    """The equipment that the last word of a name or a destination means."""
    return equipment_by_words().get((singular(name.split()[-1]),)) if name else None


def held_in(hearing: Hearing, vessel: str) -> Thing | None:
    """What was put by in a vessel: "half of what's in the blue tub"."""
    head = singular(vessel.split()[-1])
    outs = [out for account in hearing.ledger.accounts.values() for out in account.outs if out.reserve]
    held = [out for out in outs if out.into and singular(out.into.split()[-1]) == head]
    return hearing.shelf.things[held[-1].reserve] if held else None


def leaves(ledger: Ledger, out: Out) -> bool:
    """Whether a share leaves the show: it was said to, or it was stored and nothing takes it up."""
    reserve = ledger.accounts.get(out.reserve)
    waiting = reserve is not None and not reserve.outs and not reserve.touched
    return out.purpose == "gone" or (waiting and is_stored(out.into) and out.part.high > 0)


def is_stored(into: str) -> bool:
    """Whether a share goes into a jar, a tub or another vessel that is put away."""
    return into.startswith("in") and holds(into.split(), "stored")


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


def divided(hearing: Hearing, scene: Scene, share: Share) -> Thing | None:
    """A bought food of which a share is told, by its line."""
    named = between(scene.names, share.start, share.end, _start)
    line = bought_line(scene, share)
    if line is not None and not (named and named[-1].sure):
        thing = hearing.shelf.put(line.name, line.at, scene.number, bought=True)
        hearing.divided[thing.key] = (line, 0)
        return thing
    return None


def first_named(hearing: Hearing, scene: Scene, share: Share) -> Thing | None:
    """A made thing that is first named where a share of it is told."""
    head = word_key(share.of.split()[-1])
    if head in not_foods() or is_one_of(head, "pronoun") or head in ("one", "ingredient"):
        return None
    return hearing.shelf.put(share.of, share.start, scene.number)


def _start(span: MadeName | Share | Food) -> int:
    return span.start
