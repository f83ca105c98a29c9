"""What each dish's kitchen holds: its lines, the parts made in it, and the shares taken from them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from extract.reconcile.doubts.doubts import Doubt, batch_doubts, forgotten_parts, sum_doubts
from extract.reconcile.doubts.foods import food_doubts
from extract.reconcile.doubts.made import made_doubts
from extract.reconcile.hearing.hearing import (
    Hearing,
    Portion,
    kept_references,
    name_made,
    open_part,
    put_in,
    speak_of_kept,
    told_total,
    without_echoes,
)
from extract.reconcile.hearing.sharing import leaves
from extract.reconcile.hearing.taking import take
from extract.reconcile.ledger.ledger import Ledger
from extract.reconcile.ledger.quantities import WHOLE
from extract.reconcile.lines.components import Part, find_parts
from extract.reconcile.lines.lines import Line, build_lines, resolve_again
from extract.reconcile.lines.uses import judge
from extract.reconcile.scene import Scene, between, inside
from extract.reconcile.wording import Wording
from extract.segment.dishes import Segments
from extract.segment.stretch import Stretch
from extract.spot.names.foods import same_food
from extract.spot.names.made import find_made_names
from extract.spot.spans import Amount, MadeName, Share
from extract.spot.spotted import Spotted

# Tokens before and after a share that is put by, in which "we kept" tells of that share itself.
KEEPING = (6, 8)

DISH = "dish"  # the kind of foods that are finished dishes


@dataclass(frozen=True)
class Kitchen:
    """One dish, reconciled; ``title`` is its name in the cook's words, ``scene`` what was heard of it."""

    title: str
    scene: Scene
    dish: Stretch
    lines: tuple[Line, ...]
    parts: tuple[Part, ...]
    portions: tuple[Portion, ...]
    doubts: tuple[Doubt, ...] = ()
    divided: tuple[Line, ...] = ()


@dataclass(frozen=True)
class Reconciled:
    """A show reconciled: a kitchen for each dish, and the ledger of all of them."""

    kitchens: tuple[Kitchen, ...]
    ledger: Ledger


def reconcile(spotted: Spotted, segments: Segments) -> Reconciled:
    """Follow every food and every made thing through the show, dish by dish."""
    doc = spotted.speech.doc
    uses = resolve_again(judge(doc, spotted.reading, spotted.mentions))
    names = find_made_names(doc, spotted.foods)
    shares = [share for share in spotted.shares if not _is_batch(spotted, share)]
    wording, hearing = Wording.of(doc), Hearing()
    shared = {i for share in shares for i in range(share.start, share.end) if share.measure is None}
    scenes, heard = [], []
    for number, dish in enumerate(segments.dishes):
        own = inside(uses, dish, lambda use: use.mention.food.start)
        made, taken = inside(names, dish, _start), inside(shares, dish, _start)
        lines = build_lines(own, alone=len(segments.dishes) == 1, shared=shared)
        parts = find_parts(doc, spotted.reading, dish, lines)
        title = segments.titles[number].text if segments.titles[number].announced else ""
        lines = [line for line in lines if not (names_part(line, parts) or names_dish(line, title))]
        scene = Scene(spotted, wording, dish, number, tuple(lines), tuple(parts), made, taken, own)
        scenes.append(scene)
        heard.append(tuple(hear(hearing, scene)))
    kitchens = (
        kitchen_of(title.text, scene, portions, hearing)
        for title, scene, portions in zip(segments.titles, scenes, heard, strict=True)
    )
    return Reconciled(tuple(kitchens), hearing.ledger)


def kitchen_of(title: str, scene: Scene, portions: Sequence[Portion], hearing: Hearing) -> Kitchen:
    """One dish, once the whole show has been heard: what was left over, and what does not add up."""
    told = tuple(replace(portion, gone=leaves(hearing.ledger, portion.out)) for portion in portions)
    doubts = tuple(find_doubts(scene, hearing))
    lines = tuple(line for line in scene.lines if is_divided(line, hearing))
    return Kitchen(title, scene, scene.dish, scene.lines, scene.parts, told, doubts, lines)


def is_divided(line: Line, hearing: Hearing) -> bool:
    """Whether one line was put to several uses: shares or measured parts of it were told, or it was named in parts."""
    for key, (divided, times) in hearing.divided.items():
        account = hearing.ledger.accounts.get(key)
        shares = account is not None and any(out.part != WHOLE for out in account.outs)
        if divided is line and (times > 1 or shares):
            return True
    return False


def find_doubts(scene: Scene, hearing: Hearing) -> Iterator[Doubt]:
    """Everything that does not add up in one dish, once the whole show has been heard."""
    things = [hearing.shelf.find(part.name, scene.number) for part in scene.parts]
    keys = [thing.key if thing is not None else "" for thing in things]
    bought = {thing.key for thing in hearing.shelf.things.values() if thing.bought}
    yield from sum_doubts(scene, hearing.ledger, bought)
    yield from forgotten_parts(scene, hearing.ledger, keys)
    yield from made_doubts(scene, hearing.ledger, hearing.shelf)
    yield from food_doubts(scene)
    yield from batch_doubts(scene)


def _start(span: MadeName | Share | Amount) -> int:
    return span.start


def _is_batch(spotted: Spotted, share: Share) -> bool:
    """ "At home you'd do a third of this" is a batch, not a share of what was made."""
    return any(batch.start < share.end and share.start < batch.end for batch in spotted.batches)


def names_dish(line: Line, title: str) -> bool:
    """Whether a line is the dish itself, by its title or as a finished dish by its noun: it is made and not bought."""
    if line.measured:
        return False
    whole = title.lower()
    kind = DISH in line.food.kinds and whole.split()[-1:] == line.name.split()[-1:]
    return kind or (" " in line.name and same_food(line.name, whole))


def names_part(line: Line, parts: Sequence[Part]) -> bool:
    """Whether a line with no amount is only the name of a part of the dish: it is made and not bought."""
    return not line.measured and any(
        same_food(line.name, part.name) and part.start < line.at and line.component != part.name
        for part in parts
    )


def place_of(line: Line) -> int:
    """Where a line is put in: at its first use that puts it in, else where it stands."""
    return next((use.mention.start for use in line.uses if use.put_in), line.at)


def hear(hearing: Hearing, scene: Scene) -> Iterator[Portion]:
    """Enter everything said in one dish into the ledger, in order; the portions taken in it."""
    for event in sorted(events(scene), key=lambda event: event[:2]):
        match event[2]:
            case Part() as part:
                open_part(hearing, scene, part)
            case Line() as line:
                put_in(hearing, scene, line, event[0])
            case MadeName() as name:
                name_made(hearing, scene, name)
            case Amount() as amount:
                told_total(hearing, scene, amount)
            case (int() as start, int() as end):
                speak_of_kept(hearing, scene, start, end)
            case Share() as share:
                portion = take(hearing, scene, share)
                if portion is not None:
                    yield portion


Heard = Part | Line | MadeName | Amount | tuple[int, int] | Share


def events(scene: Scene) -> Iterator[tuple[int, int, Heard]]:
    """(token, order where several begin there, what is heard) of everything in a dish."""
    shares = list(without_echoes(scene.shares))
    keeping = {i for s in shares if s.kept for i in range(s.start - KEEPING[0], s.end + KEEPING[1])}
    yield from ((part.start, 0, part) for part in scene.parts)
    yield from ((place_of(line), 1, line) for line in scene.lines)
    within = {i for share in shares for i in range(share.start, share.end)}
    yield from ((name.start, 2, name) for name in scene.names if name.start not in within)
    amounts = between(scene.spotted.amounts, scene.dish.start, scene.dish.end, _start)
    yield from ((amount.start, 3, amount) for amount in amounts if scene.dish.holds(amount.start))
    yield from ((start, 4, (start, end)) for start, end in kept_references(scene) if start not in keeping)
    yield from ((share.start, 5, share) for share in shares)
