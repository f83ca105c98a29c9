"""Where the two sides do things in another order and it can matter.

Two things are held against each other only where they belong together: in one pot, near one another in the
recording, on the heat or with some cooking between them on one side at least. A sauce made before the
pasta instead of after it, or dry things weighed in another order, is no contradiction.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations

from extract.check.differences.events import Event, food_events, share_events, time_events
from extract.check.differences.shares import Share
from extract.check.differences.times import TimePairs
from extract.check.pairs.moments import Moment, group_of, same_pot
from extract.check.pairs.pairing import Pairing
from extract.check.report import Finding, Place

_NEAR = 150.0  # seconds of the recording within which two things are one stretch of cooking
_MOST = 2
_BESIDE = 2  # lines of the written method


def order_findings(
    pairing: Pairing,
    moments: tuple[Sequence[Moment], Sequence[Moment]],
    times: TimePairs,
    shares: Sequence[tuple[Share, Share]],
    dealt: Sequence[str] = (),
) -> Iterator[Finding]:
    """The things that stand in another order on the written side, those that most others contradict first.

    ``dealt``: what the written side puts in share by share.
    """
    said, written = moments
    events = [
        *food_events(pairing, said, written, dealt),
        *time_events(times, pairing, written),
        *share_events(shares, said, written),
    ]
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


def _matters(first: Event, second: Event, said: Sequence[Moment], written: Sequence[Moment]) -> bool:
    """Whether two things belong together so closely that their order tells."""
    if abs(second.start - first.start) > _NEAR:
        return False
    if first.shared or second.shared:
        return _share_matters(first, second)
    if first.parts and second.parts and first.parts.isdisjoint(second.parts):
        return False
    breath = not (first.exact and second.exact) and second.start <= first.start
    if breath and (first.exact or second.exact or second.start < first.start):
        return False
    one, other = written[first.written], written[second.written]
    together = same_pot(one, other)
    if first.exact and second.exact:
        together = together or same_pot(said[int(first.said)], said[int(second.said)])
    if not together:
        return False
    between = [moment for moment in written if second.written <= moment.place < first.written]
    between += [moment for moment in said if first.said <= moment.place < second.said]
    if not (first.exact and second.exact):
        return (first.cooks and second.cooks) or any(map(_is_timed_cooking, between))
    hot = one.hot and other.hot
    return (first.cooks and second.cooks) or hot or any(map(_is_cooking, between))


def _share_matters(first: Event, second: Event) -> bool:
    """Whether a share goes in on the other side of a timed piece of work that stands beside it."""
    work = second if first.shared else first
    apart = abs((first.line or 0) - (second.line or 0))
    return first.shared != second.shared and work.timed and second.start > first.start and apart <= _BESIDE


def _is_timed_cooking(moment: Moment) -> bool:
    return moment.action.duration is not None and _is_cooking(moment)


def _as_drafted(earlier: Moment, later: Moment) -> bool:
    """Whether two written moments stand in steps of the draft's own, in the draft's order."""
    return earlier.twin is not None and later.twin is not None and earlier.twin <= later.twin


def _is_cooking(moment: Moment) -> bool:
    action = moment.action
    if action.duration is not None:
        return group_of(action.verb) in ("heat", "wait")
    return action.heat is not None and group_of(action.verb) == "heat"
