"""The parts of a dish: where the making of "the dressing" begins, where it gets its name, where it ends.

Notes for a newcomer. A part opens where its name is announced and measured foods follow ("for the glaze, five
tablespoons of..."), or it gets its name after its foods ("...that's your crumb"). It ends where it is put to
use, put aside or named again in another use, or where the next one opens; what is put in after that belongs to
the dish itself. A part may be taken up again.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import islice, pairwise
from typing import TypeVar

from extract.reconcile.lines import same_thing
from extract.reconcile.wording import Wording, fits, patterns
from extract.spot.food_names import name_keys, same_food
from extract.spot.spans import MadeName, Share

TABLE = "component_cues"
REACH = 9
LOOK_AHEAD = 80
NEAR = 25
TOPIC_REACH = 9
LONGEST_PAUSE = 110
AFTERWORK = 30
RUN_GAP = 45
RUN_REACH = 110
SHARE_LEAD = 4
SHARED_REACH = 200
MINIMUM_LINES = 2
LONGEST_PART = 400


@dataclass(frozen=True, slots=True)
class Part:
    """A part of a dish is made between tokens ``start`` and ``end``; ``also`` are further names it is given."""

    name: str
    start: int
    end: int
    also: tuple[str, ...] = ()


Span = TypeVar("Span", Share, MadeName)


@dataclass(frozen=True, slots=True)
class Bench:
    """What the parts of one dish are found from, each kind in order.

    ``lines`` are its lines (name, whether measured), ``starts`` the tokens at which they begin; ``titles`` the
    words of the dish's own name; ``bought`` the tokens of foods put in as such, which name no part; ``end`` is one
    past its last token.
    """

    wording: Wording
    lines: tuple[tuple[str, bool], ...]
    starts: tuple[int, ...]
    names: tuple[MadeName, ...]
    shares: tuple[Share, ...]
    titles: frozenset[str]
    bought: frozenset[int]
    start: int
    end: int

    def lines_between(self, start: int, end: int) -> Sequence[int]:
        """The first tokens of the lines that begin within the tokens ``start`` to ``end``."""
        return self.starts[bisect_left(self.starts, start) : bisect_left(self.starts, end)]

    def is_measured(self, at: int) -> bool:
        """Whether the line that begins at a token has an amount in figures."""
        return self.lines[bisect_left(self.starts, at)][1]

    def has_line(self, name: str, end: int) -> bool:
        """Whether a line of that food begins before token ``end``."""
        return any(same_food(line, name) for line, _ in self.lines[: bisect_left(self.starts, end)])


def find_parts(bench: Bench) -> list[Part]:
    """Every part of one dish in order; a part taken up again is there twice."""
    parts: list[Part] = []
    known: dict[str, Part] = {}
    for name in bench.names:
        last = parts[-1] if parts else None
        if name.end - 1 in bench.bought or (
            last is not None and last.end > name.start and is_called(last, name)
        ):
            continue
        found = opened(bench, name, known) or (called(bench, name, last) if name.head not in known else None)
        if found is not None:
            if last is not None and last.end > found.start:
                parts[-1] = replace(last, end=found.start)
            parts.append(found)
            known[name.head] = found
        elif last is not None and last.end > name.start:
            parts[-1] = renamed(bench, last, name)
    return [part for part in parts if part.start < part.end and part.name]


def opened(bench: Bench, name: MadeName, known: Mapping[str, Part]) -> Part | None:
    """The part that a name opens, to run to the end of the dish unless something ends it; else None.

    ``known`` are the parts so far by the last word of their names. The dish's own name opens the part called "",
    which is the dish itself.
    """
    ahead = bench.lines_between(name.end, name.end + LOOK_AHEAD)
    if len(ahead) < MINIMUM_LINES or not announces(bench, name, ahead, again=name.head in known):
        return None
    begin, _ = bench.wording.sentence(name.start)
    start = max(begin, name.start - REACH, bench.start)
    if name.head in bench.titles and name.dish:
        return Part("", start, start + 1)
    part = Part(name.name, start, min(bench.end, start + LONGEST_PART))
    return replace(part, end=end_of(bench, part))


def announces(bench: Bench, name: MadeName, ahead: Sequence[int], *, again: bool) -> bool:
    """Whether the words around a name say that the thing is now made, not that it is used.

    ``again``: it was made before, so that only its foods right after its name say that it is taken up again.
    """
    wording, near = bench.wording, ahead[0] - name.end
    begin, end = wording.sentence(name.start)
    before = wording.part(max(begin, name.start - REACH), name.start)
    gap = wording.part(name.end, ahead[0]) if near <= TOPIC_REACH else "-"
    if name.sure and fits(TABLE, "told", gap) and bench.is_measured(ahead[0]):
        return True
    if fits(TABLE, "topic", gap) and bench.is_measured(ahead[0]) and not fits(TABLE, "into", before):
        return name.sure or fits(TABLE, "topic lead", before)
    if again or fits(TABLE, "used", wording.part(name.end, name.end + REACH)):
        return False
    if not name.sure and (len(ahead) <= MINIMUM_LINES or not bench.is_measured(ahead[0])):
        return False
    alone = wording.part(begin, name.start) + "X " + wording.part(name.end, end)
    if fits(TABLE, "for", before) or fits(TABLE, "alone", alone):
        return True
    after = wording.part(name.end, name.end + REACH)
    return name.sure and near <= NEAR and (fits(TABLE, "before", before) or fits(TABLE, "after", after))


def called(bench: Bench, name: MadeName, last: Part | None) -> Part | None:
    """The part that gets its name after its foods: "...and that's your tempering"."""
    if last is not None and last.end > name.start:
        return None
    floor = max(bench.start, last.end if last is not None else bench.start)
    if is_given(bench.wording, name):
        run = [] if bench.has_line(name.name, name.start) else line_run(bench, floor, name.start)
    else:
        run = [at for at in compounded(bench, name) if at >= floor] or shared_run(bench, floor, name)
    return Part(name.name, run[0], name.end) if len(run) >= MINIMUM_LINES else None


def shared_run(bench: Bench, floor: int, name: MadeName) -> list[int]:
    """The lines before a share of a thing that was never announced: "...and half of the dough goes in the tin"."""
    share = next(iter(within(bench.shares, name.start - SHARE_LEAD, name.start + 1)), None)
    if share is None or share.end < name.end or not name.sure or share.measure is not None:
        return []
    if share.known or share.other or share.fraction == "rest":
        return []  # of a thing that was shared before, perhaps in another dish
    lines = bench.lines_between(max(floor, name.start - SHARED_REACH), name.start)
    run = line_run(bench, floor, lines[-1] + 1) if lines else []
    measured = [at for at in run if bench.is_measured(at)]
    return run if len(measured) > MINIMUM_LINES else []


def is_given(wording: Wording, name: MadeName) -> bool:
    """Whether the words before a name give it to something: "that's your tempering"."""
    begin, _ = wording.sentence(name.start)
    return fits(TABLE, "called", wording.part(max(begin, name.start - REACH), name.start))


def compounded(bench: Bench, name: MadeName) -> list[int]:
    """The lines of which a name is put together, as "chili oil" is of a cup of oil and some dried chilies."""
    qualifiers = set(name_keys(name.name)[:-1])
    run = line_run(bench, bench.start, name.start)
    keys = [set(name_keys(bench.lines[bisect_left(bench.starts, at)][0])) for at in run]
    heads = [at for at, own in zip(run, keys, strict=True) if name.head in own and not own & qualifiers]
    others = [at for at, own in zip(run, keys, strict=True) if own & qualifiers and name.head not in own]
    return [at for at in run if min(heads[-1], others[-1]) <= at] if heads and others else []


def line_run(bench: Bench, floor: int, end: int) -> list[int]:
    """The first tokens of the lines just before ``end`` that were put in one after another."""
    run = [end]
    for at in reversed(bench.lines_between(max(floor, end - RUN_REACH), end)):
        if run[0] - at > RUN_GAP:
            break
        run.insert(0, at)
    return run[:-1]


def end_of(bench: Bench, part: Part) -> int:
    """Where the making of a part ends: where its thing is put to use or put aside, else at its longest."""
    at = bench.lines_between(part.start, part.end)
    done = at[MINIMUM_LINES - 1]
    ends = [part.end, *cue_ends(bench, part, done), *uses(bench, part, done)]
    gaps = (one for one, other in pairwise((*at, part.end)) if one >= done and other - one > LONGEST_PAUSE)
    ends.extend(bench.wording.sentence(one + AFTERWORK)[1] for one in islice(gaps, 1))
    ends.extend(
        one for one in at[MINIMUM_LINES:] if fits(TABLE, "bathed", bench.wording.part(one, one + REACH))
    )
    return min(ends)


def cue_ends(bench: Bench, part: Part, done: int) -> Iterator[int]:
    """Where words that end any making stand, once the part has its first foods."""
    for pattern in patterns(TABLE, "end"):
        yield from (end for _, end in islice(bench.wording.find(pattern, done, part.end), 1))


def uses(bench: Bench, part: Part, done: int) -> Iterator[int]:
    """Where a share of the part is taken, or the part by its name is put to use."""
    for share in within(bench.shares, done, part.end):
        named = same_thing(part.name, share.of) or fits("ledger_cues", "kind word", share.of)
        if named if share.of else share.fraction != "some":
            yield share.start
            break
    for name in within(bench.names, done, part.end):
        if same_thing(part.name, name.name) and put_to_use(bench, name):
            yield name.start
            break


def within(spans: Sequence[Span], start: int, end: int) -> Sequence[Span]:
    """The spans, in order of their first token, that begin within the tokens ``start`` to ``end``."""
    first = bisect_left(spans, start, key=_start)
    return spans[first : bisect_left(spans, end, key=_start)]


def _start(span: Share | MadeName) -> int:
    return span.start


def put_to_use(bench: Bench, name: MadeName) -> bool:
    """Whether the words after the name of a part put it to use: "the dressing goes over"."""
    before = bench.wording.part(name.start - 3, name.start)
    return fits(TABLE, "used", bench.wording.part(name.end, name.end + REACH)) and not fits(
        TABLE, "into", before
    )


def renamed(bench: Bench, part: Part, name: MadeName) -> Part:
    """The part with one more name, where the cook gives it one: "it's a frangipane really"."""
    before = bench.wording.part(name.start - REACH, name.start)
    if not name.sure or not fits(TABLE, "also", before):
        return part
    return replace(part, also=(*part.also, name.name))


def is_called(part: Part, name: MadeName) -> bool:
    """Whether a name can be that of a part."""
    return any(same_thing(own, name.name) for own in (part.name, *part.also))


def component_at(parts: Iterable[Part], at: int) -> str:
    """The part being made at token ``at``, "" where it is the dish itself."""
    return next((part.name for part in parts if part.start <= at < part.end), "")
