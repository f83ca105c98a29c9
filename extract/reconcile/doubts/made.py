"""Doubts about made things: used though nobody made them, or made where no camera was."""

from __future__ import annotations

from collections.abc import Iterator

from extract.reconcile.doubts.doubts import TABLE, Doubt, around
from extract.reconcile.hearing.things import Shelf
from extract.reconcile.ledger.ledger import Ledger
from extract.reconcile.scene import Scene
from extract.reconcile.wording import fits
from extract.spot.spans import MadeName

REACH = 12
MOST_FOODS = 1


def made_doubts(scene: Scene, ledger: Ledger, shelf: Shelf) -> Iterator[Doubt]:
    """Every doubt about the making of things in one dish, each thing once."""
    asked: set[str] = set()
    for name in scene.names:
        if name.name in asked or is_made(name, scene, ledger, shelf):
            continue
        doubt = off_camera(scene, name) or never_made(scene, name)
        if doubt is not None:
            asked.add(name.name)
            yield doubt


def is_made(name: MadeName, scene: Scene, ledger: Ledger, shelf: Shelf) -> bool:
    """Whether the ledger holds what went into a thing."""
    thing = shelf.find(name.name, scene.number)
    return thing is not None and thing.key in ledger.accounts and bool(ledger.accounts[thing.key].ins)


def off_camera(scene: Scene, name: MadeName) -> Doubt | None:
    """A thing said to have been made before or in another show, of which nothing went in."""
    wording = scene.wording
    text = wording.part(name.start - REACH, name.start) + "X " + wording.part(name.end, name.end + REACH)
    if not fits(TABLE, "off camera", text):
        return None
    asked = f"The {name.name} was made off camera. What goes into it, and how is it made?"
    return Doubt("off camera", name.name, asked, (around(scene, name.start),))


def never_made(scene: Scene, name: MadeName) -> Doubt | None:
    """A thing put to use that no word made and no foods before it can have become."""
    wording = scene.wording
    first = next(other for other in scene.names if other.head == name.head)
    begin, end = wording.sentence(name.start)
    before = wording.part(max(begin, name.start - REACH), name.start)
    if not name.sure or name is not first or not fits(TABLE, "put", before):
        return None
    foods = [line for line in scene.lines if line.at < name.start]
    if len(foods) > MOST_FOODS or fits(TABLE, "bought", wording.part(begin, end)):
        return None
    asked = f"The {name.name} is put to use, and nobody has made it. What goes into it?"
    return Doubt("never made", name.name, asked, (around(scene, name.start),))
