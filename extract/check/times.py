"""What differs between the times of the two sides."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from extract.check.moments import Moment, context, left_open, timed
from extract.check.pairing import best_assignment
from extract.check.report import Finding, Place, Weight
from extract.check.scales import minutes
from extract.check.words import duration_text
from extract.model import Duration

Timed = tuple[Moment, Duration]
Span = tuple[Fraction, Fraction]

_EQUAL, _FLOOR = 2.0, 0.3
_SURE = 0.85  # verb and place, or verb and food, speak for one piece of work
_LIKELY = 0.55
_TOLERANCE = Fraction(1, 50)


def time_findings(said: Sequence[Moment], written: Sequence[Moment]) -> Iterator[Finding]:
    """Times that agree, times that differ for one piece of work, times that one side alone gives."""
    ours = [pair for pair in timed(said) if span_of(pair[1])]
    theirs = [pair for pair in timed(written) if span_of(pair[1])]
    yield from _settled(ours, theirs)
    for one, other in pair_times(*left_open(ours, theirs, equal_times)):
        if one is not None and other is not None:
            yield _both(one, other)
        elif one is not None:
            yield _said_only(one, theirs, written)
        elif other is not None:
            yield _written_only(other, ours)


def _settled(ours: Sequence[Timed], theirs: Sequence[Timed]) -> Iterator[Finding]:
    """The times that a written step has in the draft's own words."""
    for moment, duration in ours:
        if moment.twin is not None and any(equal_times(duration, other[1]) for other in theirs):
            about, text = " ".join((moment.action.verb, *moment.action.objects[:1])), duration_text(duration)
            yield Place(moment.start).agree(about, (text, text), "in the draft's own words")


def pair_times(ours: Sequence[Timed], theirs: Sequence[Timed]) -> list[tuple[Timed | None, Timed | None]]:
    """The times of both sides, paired: equal ones first of all, then by what is done; None for no partner."""
    pairs = [
        (one, other)
        for one, other in best_assignment(ours, theirs, _closeness, floor=_FLOOR)
        if equal_times(ours[one][1], theirs[other][1]) or _may_differ(ours[one], theirs[other], ours, theirs)
    ]
    taken, given = {one for one, _ in pairs}, {other for _, other in pairs}
    found: list[tuple[Timed | None, Timed | None]] = [(ours[one], theirs[other]) for one, other in pairs]
    found += [(pair, None) for place, pair in enumerate(ours) if place not in taken]
    found += [(None, pair) for place, pair in enumerate(theirs) if place not in given]
    return found


def _may_differ(one: Timed, other: Timed, ours: Sequence[Timed], theirs: Sequence[Timed]) -> bool:
    """Whether two unequal times are of one piece of work; a time given twice needs the surer signs of it."""
    twice = any(equal_times(one[1], time[1]) for time in theirs)
    twice = twice or any(equal_times(other[1], time[1]) for time in ours)
    return context(one[0], other[0]) >= (_LIKELY if twice else _FLOOR)


def span_of(duration: Duration) -> Span | None:
    """A time in minutes, None for one without figures ("overnight")."""
    if duration.low is None or duration.high is None:
        return None
    low, high = minutes(duration.low, duration.unit), minutes(duration.high, duration.unit)
    return None if low is None or high is None else (low, high)


def equal_times(one: Duration, other: Duration) -> bool:
    """Whether two times are the same length, in whatever units."""
    first, second = span_of(one), span_of(other)
    return (
        first is not None
        and second is not None
        and all(_near(a, b) for a, b in zip(first, second, strict=True))
    )


def _near(one: Fraction, other: Fraction) -> bool:
    return abs(one - other) <= _TOLERANCE * max(one, other)


def _closeness(one: Timed, other: Timed) -> float:
    return context(one[0], other[0]) + (_EQUAL if equal_times(one[1], other[1]) else 0.0)


def _both(one: Timed, other: Timed) -> Finding:
    place, texts = Place(one[0].start, other[0].line), (duration_text(one[1]), duration_text(other[1]))
    if equal_times(one[1], other[1]):
        why = "the same time" if texts[0] == texts[1] else "the same time in other words"
        return place.agree(_about(one, other), texts, why)
    return place.differ("time", _about(one, other), texts, "changes the dish")


def _about(one: Timed, other: Timed) -> str:
    """What is done for that long, in the words of the side that says more."""
    foods = one[0].action.objects or other[0].action.objects
    return " ".join((one[0].action.verb or other[0].action.verb, *foods[:1]))


def _said_only(pair: Timed, others: Sequence[Timed], written: Sequence[Moment]) -> Finding:
    """A time that is not written: given elsewhere, left off a step that is there, or its step left out."""
    moment, duration = pair
    text, about = duration_text(duration), " ".join((moment.action.verb, *moment.action.objects[:1]))
    if any(equal_times(duration, other[1]) for other in others):
        return Place(moment.start).agree(about, (text, text), "said more than once")
    same = next(
        (step for step in written if not step.action.duration and context(moment, step) >= _SURE), None
    )
    weight: Weight = "wording" if same is None or duration.unit == "day" else "worth a look"
    return Place(moment.start, same.line if same else None).differ("time", about, (text, ""), weight)


def _written_only(pair: Timed, others: Sequence[Timed]) -> Finding:
    """A time that was never said, or written once more."""
    moment, duration = pair
    text, about = duration_text(duration), " ".join((moment.action.verb, *moment.action.objects[:1]))
    if any(equal_times(duration, other[1]) for other in others):
        return Place(line=moment.line).agree(about, (text, text), "written more than once")
    return Place(line=moment.line).differ("time", about, ("", text), "worth a look")
