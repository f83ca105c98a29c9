"""Where the two sides do things in another order and it can matter.

Two things are held against each other only where they belong together: in one pot, near one another in the
recording, on the heat or with some cooking between them on one side at least. A sauce made before the
pasta instead of after it, or dry things weighed in another order, is no contradiction.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

from extract.check.foods import LIKELY, alike
from extract.check.moments import Moment, group_of, same_pot, timed
from extract.check.pairing import Line, Pairing
from extract.check.report import Finding, Place
from extract.check.times import Timed, equal_times, pair_times
from extract.check.words import duration_text
from extract.spot.food_names import canonical, kinds_of, name_keys

_NEAR = 150.0  # seconds of the recording within which two things are one stretch of cooking
_GAP = 60.0  # seconds beyond which a mention and a use, or two lines of a list, do not belong together
_STRETCH = 4  # actions
_GENERAL = frozenset(("generic", "made", "dish", "sauce", "mixture"))
_MOST = 2


@dataclass(frozen=True, slots=True)
class Event:
    """One thing that both sides do: a food put in, or a timed piece of work.

    ``said`` and ``written`` are places in the two orders (actions counted from the start), ``start`` the
    moment in the recording, ``line`` the written line; ``cooks``: it is done on the heat; ``exact`` is false
    for a food whose moment is known, but not its place among what is done there.
    """

    name: str
    said: float
    written: int
    start: float
    line: int | None
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
        and not _as_drafted(written[second.written], written[first.written])
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
        turned = [pair for pair in turned if first not in pair and second not in pair]


def _foods(pairing: Pairing, said: Sequence[Moment], written: Sequence[Moment]) -> Iterator[Event]:
    """Each paired food that goes in once, where it goes in on either side."""
    lines = [pair.said[0] for pair in pairing.pairs]
    ours = _uses(lines, said)
    theirs = _uses([pair.written[0] for pair in pairing.pairs], written)
    starts, late = _put_in(lines), _said_late(lines)
    for pair in pairing.pairs:
        line = pair.said[0]
        there = theirs.get(pair.written[0].place, [])
        merged = len(pair.said) > 1 or len(pair.written) > 1
        if merged or not _is_one_use(there) or line.place not in starts:
            continue
        here, start = ours.get(line.place, []), starts[line.place]
        if here and not _is_before_use(line, start, here[0]):
            if _is_one_use(here) and here[0].start is not None:
                yield Event(line.names.main, here[0].place, there[0].place, here[0].start, there[0].line)
        elif line.place not in late:
            place = _place_at(start, said)
            yield Event(line.names.main, place, there[0].place, start, there[0].line, exact=False)


def _is_before_use(line: Line, start: float, use: Moment) -> bool:
    """Whether a food went in before the first action that names it: its amount was told late, on its own.

    Either its list says so, or it was spoken of more than once; a list said in one breath is neither.
    """
    told_late = start < (_first_in_use(line) or start)
    again = len({evidence.start for evidence in line.ingredient.said}) > 1
    return told_late or (again and use.start is not None and start < use.start)


def _put_in(lines: Sequence[Line]) -> dict[int, float]:
    """When each line's food goes in, by its place: when it is said, but before what stands below it.

    A list is in the order of use; an amount that is told late belongs where its line stands.
    """
    found: dict[int, float] = {}
    below: dict[str, float] = {}
    for line in sorted(lines, key=lambda line: line.place, reverse=True):
        start = _first_in_use(line)
        if start is not None:
            found[line.place] = below[line.component] = min(start, below.get(line.component, start))
    return found


def _first_in_use(line: Line) -> float | None:
    """When a food is first spoken of while cooking: a mention long before the next one is the opening's."""
    starts = sorted(evidence.start for evidence in line.ingredient.said)
    while len(starts) > 1 and starts[1] - starts[0] > _GAP:
        starts.pop(0)
    return starts[0] if starts else None


def _uses(lines: Sequence[Line], moments: Sequence[Moment]) -> dict[int, list[Moment]]:
    """The actions that work on each line's food, in order, by the line's place."""
    found: dict[int, list[Moment]] = {}
    for moment in moments:
        named = (_line_named(name, lines) for name in (*moment.action.objects, *moment.action.with_))
        for place in {line.place for line in named if line is not None}:
            found.setdefault(place, []).append(moment)
    return found


def _is_one_use(uses: Sequence[Moment]) -> bool:
    """Whether actions on a food are one stretch of work ("add the onion, cook it"), not uses far apart."""
    return bool(uses) and uses[-1].place - uses[0].place <= _STRETCH


def _line_named(name: str, lines: Sequence[Line]) -> Line | None:
    """The one line that a name in the method means, None where it could be several or none."""
    if " and " in name:
        return None
    named = [line for line in lines if alike(name, line.names.main) >= LIKELY]
    keys = set(name_keys(canonical(name) or name))
    if not named and kinds_of(name).isdisjoint(_GENERAL):
        named = [line for line in lines if keys and keys <= set(name_keys(line.names.main))]
    if len(named) > 1:
        named = [line for line in named if set(name_keys(name)) == set(name_keys(line.names.main))]
    return named[0] if len(named) == 1 else None


def _said_late(lines: Sequence[Line]) -> set[int]:
    """The places of lines said long after the line before them: amounts told late, not foods put in late."""
    late: set[int] = set()
    before: dict[str, float] = {}
    for line in sorted(lines, key=lambda line: line.place):
        start = _first_in_use(line)
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
    """Each timed piece of work that both sides have, but for days and for times that a side gives twice."""
    ours, theirs = timed(said), timed(written)
    for one, other in pair_times(ours, theirs):
        if one is None or other is None or one[0].start is None or one[1].unit == "day":
            continue
        if _is_twice(one, ours) or _is_twice(other, theirs):
            continue
        verbs = (one[0].action.verb, other[0].action.verb)
        cooks = any(group_of(verb) == "heat" for verb in verbs)
        name = " ".join((verbs[0], *one[0].action.objects[:1]))
        name = f"{name} ({duration_text(one[1])})"
        yield Event(name, one[0].place, other[0].place, one[0].start, other[0].line, cooks)


def _is_twice(pair: Timed, others: Sequence[Timed]) -> bool:
    return sum(equal_times(pair[1], other[1]) for other in others) > 1


def _matters(first: Event, second: Event, said: Sequence[Moment], written: Sequence[Moment]) -> bool:
    """Whether two things belong together so closely that their order tells."""
    if abs(second.start - first.start) > _NEAR:
        return False
    if not (first.exact and second.exact) and second.start <= first.start:
        return False
    one, other = written[first.written], written[second.written]
    together = same_pot(one, other)
    if first.exact and second.exact:
        together = together or same_pot(said[int(first.said)], said[int(second.said)])
    if not together:
        return False
    between = [moment for moment in written if second.written <= moment.place < first.written]
    between += [moment for moment in said if first.said <= moment.place < second.said]
    return (first.cooks and second.cooks) or (one.hot and other.hot) or any(map(_is_cooking, between))


def _as_drafted(earlier: Moment, later: Moment) -> bool:
    """Whether two written moments stand in steps of the draft's own, in the draft's order."""
    return earlier.twin is not None and later.twin is not None and earlier.twin <= later.twin


def _is_cooking(moment: Moment) -> bool:
    action = moment.action
    if action.duration is not None:
        return group_of(action.verb) in ("heat", "wait")
    return action.heat is not None and group_of(action.verb) == "heat"
