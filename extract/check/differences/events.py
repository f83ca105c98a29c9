"""The things that both sides do, each with its place in either order: foods put in, timed work, shares dealt out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from extract.check.differences.shares import Share
from extract.check.differences.times import Timed, TimePairs, equal_times, is_long
from extract.check.pairs.foods import LIKELY, alike
from extract.check.pairs.moments import Moment, group_of
from extract.check.pairs.pairing import Line, Pairing
from extract.check.words import duration_text
from extract.check.written.lines.tokens import tokens_of
from extract.check.written.lines.words import words_of
from extract.spot.names.foods import canonical, kinds_of, name_keys
from extract.spot.names.identity import sameness
from extract.spot.verbs.forms import verb_forms

_GAP = 60.0  # seconds beyond which a mention and a use, or two lines of a list, do not belong together
_STRETCH = 4  # actions
_LIST = 4  # lines
_GENERAL = frozenset(("generic", "made", "dish", "sauce", "mixture"))
_LINES = 1000.0  # more lines than a dish has


@dataclass(frozen=True, slots=True)
class Event:
    """One thing that both sides do: a food put in, or a timed piece of work.

    ``said`` and ``written`` are places in the two orders (actions counted from the start), ``start`` the
    moment in the recording, ``line`` the written line; ``cooks``: it is done on the heat; ``exact`` is false
    for a food whose moment is known, but not its place among what is done there; ``shared``: a share of
    something made is put somewhere; ``timed``: a timed piece of work; ``parts``: the said components it
    belongs to, where they are known.
    """

    name: str
    said: float
    written: int
    start: float
    line: int | None
    cooks: bool = False
    exact: bool = True
    shared: bool = False
    timed: bool = False
    parts: frozenset[str] = frozenset()


def food_events(
    pairing: Pairing, said: Sequence[Moment], written: Sequence[Moment], dealt: Sequence[str] = ()
) -> Iterator[Event]:
    """Each paired food that goes in once, where it goes in on either side; ``dealt``: foods put in by shares."""
    lines = [pair.said[0] for pair in pairing.pairs]
    several = _listed_twice(pairing)
    ours = _uses(lines, said)
    theirs = _uses([pair.written[0] for pair in pairing.pairs], written)
    starts, late = _put_in(lines), _said_late(lines) | _listed_first(lines, said)
    for pair in pairing.pairs:
        line = pair.said[0]
        there = theirs.get(pair.written[0].place, [])
        merged = len(pair.said) > 1 or len(pair.written) > 1
        if (
            merged
            or _is_cooked_before(pair.written[0])
            or line.place in several
            or not _is_one_use(there)
            or _is_dealt(line, pair.written[0], dealt)
            or line.place not in starts
        ):
            continue
        here, start = ours.get(line.place, []), starts[line.place]
        if here and not _is_before_use(line, start, here[0]):
            if _is_one_use(here) and here[0].start is not None:
                yield _food(line, (here[0].place, here[0].start), there[0], exact=True)
        elif line.place not in late:
            place = _place_at(start, said) + line.place / _LINES  # of foods said in one breath, in list order
            yield _food(line, (place, start), there[0], exact=False)


def _is_dealt(said: Line, written: Line, dealt: Sequence[str]) -> bool:
    """Whether a food is put in share by share, "half of the cheese" and later the rest: no one moment is its own."""
    names = [*name_keys(said.names.main)[-1:], *name_keys(written.names.main)[-1:]]
    return any(set(name_keys(name)) & set(names) or alike(name, said.names.main) >= LIKELY for name in dealt)


def _is_cooked_before(written: Line) -> bool:
    """Whether a line itself says that its food is cooked first: "clams, steamed for 6 minutes"."""
    words = tokens_of(written.ingredient.preparation.lower())
    forms = [verb_forms().get(word) for word in words]
    return any(found is not None and found[0].lemma in words_of("cooks") for found in forms)


def _food(line: Line, said: tuple[float, float], there: Moment, *, exact: bool) -> Event:
    """A food put in; ``said``: its place among the actions and its moment."""
    parts = frozenset((line.component,))
    return Event(line.names.main, said[0], there.place, said[1], there.line, exact=exact, parts=parts)


def _listed_twice(pairing: Pairing) -> set[int]:
    """The places of said lines whose food either side lists more than once: no one moment is theirs."""
    pairs = pairing.pairs
    found = set()
    for pair in pairs:
        names = (pair.said[0].names.main, pair.written[0].names.main)
        others = [other for other in pairs if other is not pair]
        if any(
            sameness(names[0], other.said[0].names.main) == "same"
            or sameness(names[1], other.written[0].names.main) == "same"
            for other in others
        ):
            found.add(pair.said[0].place)
    return found


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
        action = moment.action
        named = (_line_named(name, lines) for name in (*action.objects, *action.with_, *action.place))
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
    if any(_is_other_by_last_word(name, line, named) for line in lines):
        return None
    keys = set(name_keys(canonical(name) or name))
    if not named and kinds_of(name).isdisjoint(_GENERAL):
        named = [line for line in lines if keys and keys <= set(name_keys(line.names.main))]
    if len(named) > 1:
        named = [line for line in named if set(name_keys(name)) == set(name_keys(line.names.main))]
    return named[0] if len(named) == 1 else None


def _is_other_by_last_word(name: str, line: Line, named: Sequence[Line]) -> bool:
    """Whether a name may as well mean a measured food that ends in it: "the pepper" beside a green one."""
    seasoned = len(named) == 1 and named[0] is not line and named[0].ingredient.amount is None
    keys, word = name_keys(line.names.main), name_keys(name)
    return seasoned and len(keys) > len(word) > 0 and keys[-len(word) :] == word


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


def _listed_first(lines: Sequence[Line], said: Sequence[Moment]) -> set[int]:
    """The places of lines said before anything is done, where they are a list: no moment of theirs is a use."""
    begin = min((moment.start for moment in said if moment.start is not None), default=None)
    if begin is None:
        return set()
    found = {line.place for line in lines if (start := _first_in_use(line)) is not None and start < begin}
    return found if len(found) >= _LIST else set()


def _place_at(start: float, said: Sequence[Moment]) -> float:
    """Where in the order of actions a moment of the recording lies: between the actions around it."""
    return sum(1 for moment in said if moment.start is not None and moment.start <= start) - 0.5


def time_events(times: TimePairs, pairing: Pairing, written: Sequence[Moment]) -> Iterator[Event]:
    """Each timed piece of work that both sides have, but for days and for times that a side gives twice."""
    ours = [one for one, _ in times if one is not None]
    theirs = [other for _, other in times if other is not None]
    for one, other in times:
        if one is None or other is None or one[0].start is None or is_long(one[1]):
            continue
        if _is_twice(one, ours) or _is_twice(other, theirs):
            continue
        verbs = (one[0].action.verb, other[0].action.verb)
        cooks = any(group_of(verb) == "heat" for verb in verbs)
        name = " ".join((verbs[0], *one[0].action.objects[:1]))
        name = f"{name} ({duration_text(one[1])})"
        parts = _parts_at(other[0], pairing, written)
        places = (one[0].place, other[0].place)
        yield Event(name, *places, one[0].start, other[0].line, cooks, timed=True, parts=parts)


def _parts_at(work: Moment, pairing: Pairing, written: Sequence[Moment]) -> frozenset[str]:
    """The said components of the foods that the step of a piece of work names up to it, or, without any, after."""
    parts = {id(pair.written[0]): pair.said[0].component for pair in pairing.pairs}
    lines = [pair.written[0] for pair in pairing.pairs]
    step = [moment for moment in written if moment.line == work.line]
    for moments in ([one for one in step if one.place <= work.place], step):
        names = [
            name for one in moments for name in (*one.action.objects, *one.action.with_, *one.action.place)
        ]
        named = [line for name in names if (line := _line_named(name, lines)) is not None]
        if named:
            return frozenset(parts[id(line)] for line in named)
    return frozenset()


def share_events(
    shares: Sequence[tuple[Share, Share]], said: Sequence[Moment], written: Sequence[Moment]
) -> Iterator[Event]:
    """Each share of something made that both sides put somewhere, once."""
    for one, other in shares:
        start, line = one.where.start, other.where.line
        there = [moment.place for moment in written if moment.line == line]
        action = other.portion.written.action if other.portion.written else None
        if start is None or not there or action is None:
            continue
        place = _place_at(start, said)
        if place < 0 or one.planned:  # an announcement of how it will be shared
            continue
        written_at = there[min(action, len(there) - 1)]
        yield Event(one.text, place, written_at, start, line, exact=False, shared=True)


def _is_twice(pair: Timed, others: Sequence[Timed]) -> bool:
    return sum(equal_times(pair[1], other[1]) for other in others) > 1
