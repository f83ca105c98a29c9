"""What each dish's kitchen holds: its lines, the things made in it, and the shares taken from them."""

from __future__ import annotations

from dataclasses import dataclass

from extract.reconcile.alternatives import find_alternatives
from extract.reconcile.components import Opening, component_at
from extract.reconcile.hearing import Portion, hear, openings_of
from extract.reconcile.ledger import Ledger
from extract.reconcile.lines import Line, build_lines, resolve_again
from extract.reconcile.made import Shelf
from extract.reconcile.uses import judge
from extract.segment.dishes import Segments, Stretch
from extract.spot.spotted import Spotted


@dataclass(frozen=True)
class Kitchen:
    """One dish, reconciled."""

    dish: Stretch
    lines: tuple[Line, ...]
    openings: tuple[Opening, ...]
    portions: tuple[Portion, ...]


@dataclass(frozen=True)
class Reconciled:
    """A show reconciled: a kitchen for each dish, and the ledger of all of them."""

    kitchens: tuple[Kitchen, ...]
    ledger: Ledger


def reconcile(spotted: Spotted, segments: Segments) -> Reconciled:
    """Follow every food and every made thing through the show, dish by dish."""
    uses = resolve_again(judge(spotted.speech.doc, spotted.mentions, spotted.actions))
    ledger, shelf = Ledger(), Shelf()
    kitchens = []
    for dish in segments.dishes:
        own = [u for u in uses if dish.holds(u.mention.food.start)]
        lines = build_lines(own, find_alternatives(spotted.speech.doc, own))
        openings = openings_of(spotted, dish, lines)
        for line in lines:
            line.component = component_at(openings, line.at)
        portions = hear(spotted, dish, lines, openings, shelf, ledger)
        kitchens.append(Kitchen(dish, tuple(lines), tuple(openings), tuple(portions)))
    return Reconciled(tuple(kitchens), ledger)
