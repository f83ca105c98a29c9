"""What each dish's kitchen holds: its lines, the things made in it, and the shares taken from them."""

from __future__ import annotations

from dataclasses import dataclass

from extract.reconcile.lines import Line, build_lines, resolve_again
from extract.reconcile.uses import judge
from extract.segment.dishes import Segments, Stretch
from extract.spot.spotted import Spotted


@dataclass(frozen=True)
class Kitchen:
    """One dish, reconciled."""

    dish: Stretch
    lines: tuple[Line, ...]


def reconcile(spotted: Spotted, segments: Segments) -> tuple[Kitchen, ...]:
    """A kitchen for each dish of the show, in order."""
    uses = resolve_again(judge(spotted.speech.doc, spotted.mentions))
    kitchens = []
    for dish in segments.dishes:
        own = [u for u in uses if dish.holds(u.mention.food.start)]
        kitchens.append(Kitchen(dish, tuple(build_lines(own))))
    return tuple(kitchens)
