"""What differs between the times of the two sides."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import combinations

from extract.check.pairs.moments import Moment, context, group_of, is_chance, left_open, timed
from extract.check.pairs.pairing import best_assignment
from extract.check.report import Finding, Place, Weight
from extract.check.scales import minutes
from extract.check.words import duration_text
from extract.check.written.lines.words import words_of
from extract.model import Duration
from extract.spot.names.foods import kinds_of, name_keys

_MADE = frozenset(("stock", "pastry", "bread"))

Timed = tuple[Moment, Duration]
TimePairs = list[tuple[Timed | None, Timed | None]]
Span = tuple[Fraction, Fraction]

_EQUAL, _FLOOR = 2.0, 0.3
_SAME_PLACE, _APART = 0.3, 0.25  # between the same equal times; each one between
_SURE = 0.85  # verb and place, or verb and food, speak for one piece of work
_LIKELY = 0.55
_TOLERANCE = Fraction(1, 50)
_LONG = 240  # minutes
_MOST_APART = 6  # times as long, beyond which two times are of two pieces of work
_MOST_PARTS, _BREATH = 3, 60.0  # of a time told in parts; seconds


def time_findings(
    pairs: TimePairs, written: Sequence[Moment], listed: Sequence[str] = ()
) -> Iterator[Finding]:
    """Times that agree, times that differ for one piece of work, times that one side alone gives.

    ``listed``: the written ingredient lines, which may ask for a food already cooked ("4 hard-boiled eggs").
    """
    ours = [one for one, _ in pairs if one is not None]
    theirs = [other for _, other in pairs if other is not None]
    for one, other in pairs:
        if one is not None and other is not None:
            yield _both(one, other)
        elif one is not None:
            yield _said_only(one, theirs, written, listed)
        elif other is not None:
            yield _written_only(other, ours)


def _settled(
    ours: Sequence[Timed], theirs: Sequence[Timed], left: tuple[Sequence[Timed], Sequence[Timed]]
) -> TimePairs:
    """The times that a written step has in the draft's own words, each with its like."""
    own = [pair for pair in ours if pair not in left[0]]
    like = [pair for pair in theirs if pair not in left[1]]
    found: TimePairs = []
    for pair in own:
        other = next((one for one in like if equal_times(pair[1], one[1])), None)
        if other is not None:
            like.remove(other)
            found.append((pair, other))
    return found


def pair_times(ours: Sequence[Timed], theirs: Sequence[Timed]) -> TimePairs:
    """The times of both sides, paired: equal ones first of all, then by what is done; None for no partner."""
    pairs = best_assignment(ours, theirs, _equal_closeness, floor=_EQUAL)
    pairs, ours, theirs = _with_sums(pairs, ours, theirs)
    moments, others = ([time[0] for time in times] for times in (ours, theirs))
    pairs = [pair for pair in pairs if not is_chance(pair, pairs, (moments, others))]
    pairs += _unequal(pairs, ours, theirs)
    pairs += _in_one_place(pairs, len(ours), len(theirs))
    taken, given = {one for one, _ in pairs}, {other for _, other in pairs}
    found: TimePairs = [(ours[one], theirs[other]) for one, other in pairs]
    found += [(pair, None) for place, pair in enumerate(ours) if place not in taken]
    found += [(None, pair) for place, pair in enumerate(theirs) if place not in given]
    return found


def _with_sums(
    equal: list[tuple[int, int]], ours: Sequence[Timed], theirs: Sequence[Timed]
) -> tuple[list[tuple[int, int]], list[Timed], list[Timed]]:
    """The equal pairs, and both sides with the parts of a time put together where the other side has their sum."""
    left = [time for place, time in enumerate(ours) if place not in {one for one, _ in equal}]
    right = [time for place, time in enumerate(theirs) if place not in {other for _, other in equal}]
    ours, theirs = _put_together(ours, left, right), _put_together(theirs, right, left)
    return best_assignment(ours, theirs, _equal_closeness, floor=_EQUAL), ours, theirs


def _put_together(times: Sequence[Timed], open_times: Sequence[Timed], sums: Sequence[Timed]) -> list[Timed]:
    """The times with each run of open ones that makes up one of ``sums`` as a single time: "5 minutes, then 5"."""
    found = list(times)
    for start, end in combinations(range(len(open_times) + 1), 2):
        run = open_times[start:end]
        if not 2 <= len(run) <= _MOST_PARTS or not _are_beside(run) or not all(time in found for time in run):
            continue
        wholes = [time for time in _wholes_of(run) if any(_is_same_work(time, other) for other in sums)]
        if wholes:
            found[found.index(run[0])] = wholes[0]
            found = [time for time in found if time not in run[1:]]
    return found


def _wholes_of(run: Sequence[Timed]) -> Iterator[Timed]:
    """What times told one after the other may come to: their sum, or of two, a range ("5 minutes, 6 minutes")."""
    spans = [span for time in run if (span := span_of(time[1]))]
    sums = tuple(float(sum(span[side] for span in spans)) for side in (0, 1))
    ends = (float(spans[0][0]), float(spans[-1][1]))
    for (low, high), joint in ((sums, " + "), (ends, " to ")):
        text = joint.join(duration_text(time[1]) for time in run)
        if low <= high and (len(run) == 2 or joint == " + "):
            yield run[0][0], Duration(low=low, high=high, unit="minute", text=text)


def _is_same_work(whole: Timed, other: Timed) -> bool:
    """Whether a time told in parts may be one that the other side has as a whole."""
    return equal_times(whole[1], other[1]) and context(whole[0], other[0]) >= _LIKELY


def _are_beside(run: Sequence[Timed]) -> bool:
    """Whether times stand in one written line, or were said in one breath."""
    lines, starts = {time[0].line for time in run}, [time[0].start or 0.0 for time in run]
    return len(lines) == 1 and max(starts) - min(starts) <= _BREATH


def paired_times(
    said: Sequence[Moment], written: Sequence[Moment], told: Mapping[int, Sequence[Duration]] | None = None
) -> TimePairs:
    """The times with figures of both sides, paired; ``told``: further times that were said, by the draft's step."""
    ours, theirs = ([pair for pair in timed(side) if span_of(pair[1])] for side in (said, written))
    left = left_open(ours, theirs, equal_times, told)
    return [*_settled(ours, theirs, left), *pair_times(*left)]


def anchors_of(pairs: TimePairs) -> list[tuple[int, int]]:
    """The places, on either side, of the timed pieces of work that both sides have."""
    return [(one[0].place, other[0].place) for one, other in pairs if one is not None and other is not None]


def _in_one_place(pairs: Sequence[tuple[int, int]], ours: int, theirs: int) -> list[tuple[int, int]]:
    """Times left over that stand alone between the same paired ones on either side: one piece of work."""
    taken, given = {one for one, _ in pairs}, {other for _, other in pairs}
    gaps: dict[tuple[frozenset[int], bool], list[int]] = {}
    before_ours = {
        one: frozenset(other for first, other in pairs if first < one)
        for one in range(ours)
        if one not in taken
    }
    before_theirs = {
        other: frozenset(second for _, second in pairs if second < other)
        for other in range(theirs)
        if other not in given
    }
    for one, before in before_ours.items():
        gaps.setdefault((before, True), []).append(one)
    for other, before in before_theirs.items():
        gaps.setdefault((before, False), []).append(other)
    alone = [before for (before, said), found in gaps.items() if said and len(found) == 1]
    return [
        (gaps[before, True][0], gaps[before, False][0])
        for before in alone
        if len(gaps.get((before, False), ())) == 1
    ]


def _may_differ(one: Timed, other: Timed, ours: Sequence[Timed], theirs: Sequence[Timed]) -> bool:
    """Whether two unequal times are of one piece of work; a time given twice needs the surer signs of it."""
    if _ratio(one[1], other[1]) > _MOST_APART and context(one[0], other[0]) < _SURE:
        return False
    twice = any(equal_times(one[1], time[1]) for time in theirs)
    twice = twice or any(equal_times(other[1], time[1]) for time in ours)
    return context(one[0], other[0]) >= (_LIKELY if twice else _FLOOR)


def _ratio(one: Duration, other: Duration) -> Fraction:
    """How many times as long the longer of two times is."""
    first, second = span_of(one), span_of(other)
    if first is None or second is None or not first[0] or not second[0]:
        return Fraction(1)
    return max(first[0] / second[0], second[0] / first[0])


def span_of(duration: Duration) -> Span | None:
    """A time in minutes, None for one without figures ("overnight")."""
    if duration.low is None or duration.high is None:
        return None
    low, high = minutes(duration.low, duration.unit), minutes(duration.high, duration.unit)
    return None if low is None or high is None else (low, high)


def is_long(duration: Duration) -> bool:
    """Whether a time is so long that it was over before the camera ran, and is told whenever it fits."""
    span = span_of(duration)
    return span is None or span[0] >= _LONG


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


def _equal_closeness(one: Timed, other: Timed) -> float:
    return _EQUAL + context(one[0], other[0]) if equal_times(one[1], other[1]) else 0.0


def _unequal(
    equal: Sequence[tuple[int, int]], ours: Sequence[Timed], theirs: Sequence[Timed]
) -> list[tuple[int, int]]:
    """Times left over that are of one piece of work, by what is done and by the equal times around them."""
    left = [place for place in range(len(ours)) if place not in {one for one, _ in equal}]
    right = [place for place in range(len(theirs)) if place not in {other for _, other in equal}]

    around = [pair for pair in equal if not is_long(ours[pair[0]][1])]

    def closeness(one: int, other: int) -> float:
        apart = abs(sum(first < one for first, _ in around) - sum(second < other for _, second in around))
        return context(ours[one][0], theirs[other][0]) + (_SAME_PLACE if apart == 0 else -_APART * apart)

    return [
        (left[one], right[other])
        for one, other in best_assignment(left, right, closeness, floor=_FLOOR)
        if _may_differ(ours[left[one]], theirs[right[other]], ours, theirs)
    ]


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


def _said_only(
    pair: Timed, others: Sequence[Timed], written: Sequence[Moment], listed: Sequence[str]
) -> Finding:
    """A time that is not written: given elsewhere, left off a step that is there, or its step left out."""
    moment, duration = pair
    text, about = duration_text(duration), " ".join((moment.action.verb, *moment.action.objects[:1]))
    if any(equal_times(duration, other[1]) for other in others):
        return Place(moment.start).agree(about, (text, text), "said more than once")
    same = next(
        (step for step in written if not step.action.duration and context(moment, step) >= _SURE), None
    )
    weight: Weight = "worth a look" if same is not None or _is_work(moment) else "wording"
    if duration.unit == "day" or (same is None and _is_bought(moment, listed)):
        weight = "wording"
    return Place(moment.start, same.line if same else None).differ("time", about, (text, ""), weight)


def _is_bought(moment: Moment, listed: Sequence[str]) -> bool:
    """Whether the list asks for a food in the state that the work would bring it to."""
    stem = moment.action.verb.split()[0].rstrip("e")
    made = [name for name in moment.action.objects if kinds_of(name) & _MADE]
    if any(set(name_keys(name)) <= set(name_keys(text)) for name in made for text in listed):
        return True  # a stock that the list asks for is bought, or made elsewhere
    keys = {key for name in moment.action.objects for key in name_keys(name)}
    return any(
        keys & set(name_keys(text)) and any(key.startswith(stem) for key in name_keys(text))
        for text in listed
    )


def _is_work(moment: Moment) -> bool:
    """Whether a time is of cooking that a reader would have to do."""
    return group_of(moment.action.verb) == "heat" and moment.action.verb.split()[0] in words_of("cooks")


def _written_only(pair: Timed, others: Sequence[Timed]) -> Finding:
    """A time that was never said, or written once more."""
    moment, duration = pair
    text, about = duration_text(duration), " ".join((moment.action.verb, *moment.action.objects[:1]))
    if any(equal_times(duration, other[1]) for other in others):
        return Place(line=moment.line).agree(about, (text, text), "written more than once")
    return Place(line=moment.line).differ("time", about, ("", text), "worth a look")
