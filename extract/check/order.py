"""Where the two sides do things in another order and it can matter.

Two things are held against each other only where they belong together: foods and times of one component, near
one another in the recording, with some cooking between them on one side at least. A sauce made before the
pasta instead of after it, or dry things weighed in another order, is no contradiction.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

from extract.check.foods import LIKELY, alike
from extract.check.moments import Moment, group_of, timed
from extract.check.pairing import Line, Pairing
from extract.check.report import Finding, Place
from extract.check.times import pair_times
from extract.check.words import duration_text, first_moment

_NEAR = 150.0  # seconds of the recording within which two things are one stretch of cooking
_GAP = 60.0  # seconds after the line before it from which a line is taken for an amount told late
_MOST = 2


@dataclass(frozen=True, slots=True)
class Event:
    """One thing that both sides do: a food put in, or a timed piece of work.

    ``said`` and ``written`` are places in the two orders (actions counted from the start), ``start`` the
    moment in the recording, ``line`` the written line, ``component`` where it belongs, "" if not told;
    ``exact`` is false for a food whose moment is known, but not its place among what is done there.
    """

    name: str
    said: float
    written: int
    start: float
    line: int | None
    component: str
    cooks: bool = False
    exact: bool = True


def order_findings(pairing: Pairing, said: Sequence[Moment], written: Sequence[Moment]) -> Iterator[Finding]:
    """The things that stand in another order on the written side, those that most others contradict first."""
    events = [*_foods(pairing, said, written), *_times(said, written)]
    turned = [
        (first, second)
        for first, second in combinations(sorted(events, key=lambda event: event.said), 2)
        if first.said < second.said
        and second.written < first.written
        and _matters(first, second, said, written)
    ]
    for _ in range(_MOST):
        if not turned:
            return
        counts = {event: sum(event in pair for pair in turned) for pair in turned for event in pair}
        moved = max(counts, key=lambda event: (counts[event], event.cooks, -event.start))
        first, second = next(pair for pair in turned if moved in pair)
        place = Place(first.start, second.line)
        texts = (f"{first.name}, then {second.name}", f"{second.name}, then {first.name}")
        yield place.differ("order", f"{first.name} and {second.name}", texts, "changes the dish")
        turned = [pair for pair in turned if moved not in pair]


def _foods(pairing: Pairing, said: Sequence[Moment], written: Sequence[Moment]) -> Iterator[Event]:
    """Each paired food at its first use on either side."""
    ours = _first_uses([pair.said[0] for pair in pairing.pairs], said)
    theirs = _first_uses([pair.written[0] for pair in pairing.pairs], written)
    late = _said_late([pair.said[0] for pair in pairing.pairs])
    for pair in pairing.pairs:
        line = pair.said[0]
        start, there = first_moment(line.ingredient.said), theirs.get(pair.written[0].place)
        here = ours.get(line.place)
        merged = len(pair.said) > 1 or len(pair.written) > 1
        if merged or there is None or start is None or (here is None and line.place in late):
            continue
        exact = here is not None and here.start is not None and here.start <= start
        place = float(here.place) if here is not None and exact else _place_at(start, said)
        yield Event(line.names.main, place, there.place, start, there.line, line.component, exact=exact)


def _first_uses(lines: Sequence[Line], moments: Sequence[Moment]) -> dict[int, Moment]:
    """The first action that works on each line's food, by its place; none for names that two share."""
    found: dict[int, Moment] = {}
    for moment in moments:
        for name in (*moment.action.objects, *moment.action.with_):
            line = _line_named(name, lines)
            if line is not None:
                found.setdefault(line.place, moment)
    return found


def _line_named(name: str, lines: Sequence[Line]) -> Line | None:
    """The one line that a name in the method means, None where it could be several or none."""
    close = [(alike(name, line.names.main), line) for line in lines]
    best = max((value for value, _ in close), default=0.0)
    named = [line for value, line in close if value == best]
    return named[0] if best >= LIKELY and len(named) == 1 else None


def _said_late(lines: Sequence[Line]) -> set[int]:
    """The places of lines said long after the line before them: amounts told late, not foods put in late."""
    late: set[int] = set()
    before: dict[str, float] = {}
    for line in sorted(lines, key=lambda line: line.place):
        start = first_moment(line.ingredient.said)
        if start is None:
            continue
        if start - before.get(line.component, start) > _GAP:
            late.add(line.place)
        before[line.component] = start
    return late


def _place_at(start: float, said: Sequence[Moment]) -> float:
    """Where in the order of actions a moment of the recording lies: between the actions around it."""
    return sum(1 for moment in said if moment.start is not None and moment.start <= start) - 0.5


def _times(said: Sequence[Moment], written: Sequence[Moment]) -> Iterator[Event]:
    """Each timed piece of work that both sides have."""
    for one, other in pair_times(timed(said), timed(written)):
        if one is None or other is None or one[0].start is None:
            continue
        verb = other[0].action.verb
        name = " ".join((one[0].action.verb, *one[0].action.objects[:1]))
        cooks = group_of(verb) == "heat" or group_of(one[0].action.verb) == "heat"
        yield Event(
            f"{name} ({duration_text(one[1])})",
            one[0].place,
            other[0].place,
            one[0].start,
            other[0].line,
            "",
            cooks,
        )


def _matters(first: Event, second: Event, said: Sequence[Moment], written: Sequence[Moment]) -> bool:
    """Whether two things belong together so closely that their order tells."""
    if abs(second.start - first.start) > _NEAR:
        return False
    if not (first.exact and second.exact) and second.start <= first.start:
        return False
    if first.component and second.component and first.component != second.component:
        return False
    if first.cooks and second.cooks:
        return True
    between = [moment for moment in written if second.written <= moment.place < first.written]
    between += [moment for moment in said if first.said <= moment.place < second.said]
    return any(_is_cooking(moment) for moment in between)


def _is_cooking(moment: Moment) -> bool:
    action = moment.action
    return group_of(action.verb) == "heat" and (action.duration is not None or action.heat is not None)
