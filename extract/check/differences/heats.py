"""What differs between the heat settings of the two sides."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from extract.check.pairs.moments import Moment, context, heated, left_open
from extract.check.pairs.pairing import best_assignment
from extract.check.report import Finding, Place, Weight
from extract.check.words import heat_text
from extract.measure.figures import exact
from extract.measure.heat import ovens
from extract.model import Heat

Heated = tuple[Moment, Heat]
Anchors = Sequence[tuple[int, int]]
_EQUAL, _FLOOR, _LEVEL_FLOOR = 2.0, 0.3, 0.75
_SAME_LEVEL, _SAME_PLACE, _APART, _FEWEST_ANCHORS = 0.8, 0.5, 0.3, 2
_ROUNDING = (
    8  # degrees Celsius between the customary figures of two scales (325 F is printed as 160 to 170 C)
)


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure of a setting on one scale."""

    low: Fraction
    high: Fraction
    unit: str
    fan: bool


def heat_findings(
    said: Sequence[Moment], written: Sequence[Moment], anchors: Anchors = ()
) -> Iterator[Finding]:
    """Temperatures and levels that agree, that differ for one piece of work, or that one side alone gives.

    ``anchors``: the places, on either side, of pieces of work that are surely one.
    """
    ours, theirs = heated(said), heated(written)
    yield from _figures(
        [pair for pair in ours if pair[1].low is not None],
        [pair for pair in theirs if pair[1].low is not None],
    )
    said_levels, written_levels = ([pair for pair in side if pair[1].level] for side in (ours, theirs))
    yield from _levels(*left_open(said_levels, written_levels, _same_level), anchors)


def _figures(ours: list[Heated], theirs: list[Heated]) -> Iterator[Finding]:
    open_ours, open_theirs = left_open(ours, theirs, equal_heats)
    pairs = best_assignment(open_ours, open_theirs, _closeness, floor=_FLOOR)
    for one, other in pairs:
        yield _both(open_ours[one], open_theirs[other])
    taken, given = {one for one, _ in pairs}, {other for _, other in pairs}
    for place, pair in enumerate(open_ours):
        if place not in taken:
            yield _said_only(pair, theirs)
    for place, pair in enumerate(open_theirs):
        if place not in given:
            yield _written_only(pair, ours)
    for moment, heat in ours:
        if moment.twin is not None and any(equal_heats(heat, other[1]) for other in theirs):
            about, text = _about((moment, heat)), heat_text(heat)
            yield Place(moment.start).agree(about, (text, text), "in the draft's own words")


def _closeness(one: Heated, other: Heated) -> float:
    if {one[1].kind, other[1].kind} & {"internal"} and one[1].kind != other[1].kind:
        return 0.0
    if {one[1].kind, other[1].kind} == {"oven", "other"} and not equal_heats(one[1], other[1]):
        return 0.0
    same_kind = 0.3 if one[1].kind == other[1].kind else 0.0
    return same_kind + context(one[0], other[0]) + (_EQUAL if equal_heats(one[1], other[1]) else 0.0)


def figures_of(heat: Heat) -> list[Figure]:
    """Every figure of a setting, on each scale it was given in."""
    found = []
    for setting in (heat, *heat.equivalents):
        if setting.low is not None:
            high = setting.low if setting.high is None else setting.high
            found.append(Figure(exact(setting.low), exact(high), setting.unit, setting.fan))
    return found


def equal_heats(said: Heat, written: Heat) -> bool:
    """Whether two settings are one: alike on every scale both give, or, without one, after conversion."""
    ours, theirs = figures_of(said), figures_of(written)
    shared = [(a, b) for a in ours for b in theirs if a.unit == b.unit and a.fan == b.fan]
    if shared:
        return all((a.low, a.high) == (b.low, b.high) for a, b in shared)
    bare = [(a, b) for a in ours for b in theirs if "" in (a.unit, b.unit)]
    ovens_of_both = {a.fan for a, _ in bare} & {b.fan for _, b in bare}
    alike = {a.fan for a, b in bare if a.fan == b.fan and (a.low, a.high) == (b.low, b.high)}
    if ovens_of_both:
        return alike == ovens_of_both
    if any((a.low, a.high) == (b.low, b.high) for a, b in bare):
        return True
    return any(_near(a, b) for a in ours for b in theirs if a.unit and b.unit)


def _near(one: Figure, other: Figure) -> bool:
    first, second = _celsius(one), _celsius(other)
    return (
        first is not None
        and second is not None
        and all(abs(a - b) <= _ROUNDING for a, b in zip(first, second, strict=True))
    )


def _celsius(figure: Figure) -> tuple[Fraction, Fraction] | None:
    """A figure in degrees Celsius of an ordinary oven; None for a mark that no oven has."""
    try:
        low, high = (_one_celsius(value, figure.unit) for value in (figure.low, figure.high))
    except ValueError:
        return None
    step = Fraction(ovens.FAN_STEP) if figure.fan else Fraction(0)
    return low + step, high + step


def _one_celsius(value: Fraction, unit: str) -> Fraction:
    if unit == "gas_mark":
        return ovens.to_celsius(ovens.gas_to_fahrenheit(value))
    return ovens.to_celsius(value) if unit == "degF" else value


def _about(pair: Heated) -> str:
    names = {"oven": "oven", "internal": "core temperature", "oil": "oil"}
    return names.get(pair[1].kind) or " ".join((pair[0].action.verb, *pair[0].action.objects[:1]))


def _both(one: Heated, other: Heated) -> Finding:
    place, texts = Place(one[0].start, other[0].line), (heat_text(one[1]), heat_text(other[1]))
    if equal_heats(one[1], other[1]):
        return place.agree(_about(one), texts, "the same setting")
    return place.differ("temperature", _about(one), texts, "changes the dish")


def _said_only(pair: Heated, others: Sequence[Heated]) -> Finding:
    place, text = Place(pair[0].start), heat_text(pair[1])
    twin = next((other for other in others if equal_heats(pair[1], other[1])), None)
    if twin is not None:
        return place.agree(_about(pair), (text, heat_text(twin[1])), "said more than once")
    weight: Weight = "wording" if any(other[1].kind == pair[1].kind for other in others) else "worth a look"
    return place.differ("temperature", _about(pair), (text, ""), weight)


def _written_only(pair: Heated, others: Sequence[Heated]) -> Finding:
    place, text = Place(line=pair[0].line), heat_text(pair[1])
    twin = next((other for other in others if equal_heats(other[1], pair[1])), None)
    if twin is not None:
        return place.agree(_about(pair), (heat_text(twin[1]), text), "written more than once")
    return place.differ("temperature", _about(pair), ("", text), "worth a look")


def _levels(ours: list[Heated], theirs: list[Heated], anchors: Anchors) -> Iterator[Finding]:
    """Hob levels, compared where verb, food or what is done around them make it one piece of work."""

    def closeness(one: Heated, other: Heated) -> float:
        equal = _SAME_LEVEL if one[1].level == other[1].level else 0.0
        return context(one[0], other[0]) + equal + _place_weight(one[0], other[0], anchors)

    pairs = best_assignment(ours, theirs, closeness, floor=_LEVEL_FLOOR)
    if len(ours) == len(theirs) == 1:
        pairs = [(0, 0)]  # all that is left on either side, whatever is told of it
    for one, other in pairs:
        said, written = ours[one], theirs[other]
        place, texts = Place(said[0].start, written[0].line), (heat_text(said[1]), heat_text(written[1]))
        about = " ".join((said[0].action.verb, *said[0].action.objects[:1]))
        if _same_level(said[1], written[1]):
            yield place.agree(about, texts, "the same level")
        else:
            yield place.differ("temperature", about, texts, "worth a look")


def _place_weight(one: Moment, other: Moment, anchors: Anchors) -> float:
    """What it adds that two pieces of work stand between the same others, or takes away that they do not."""
    if len(anchors) < _FEWEST_ANCHORS:
        return 0.0
    before = sum(said <= one.place for said, _ in anchors)
    apart = abs(before - sum(written <= other.place for _, written in anchors))
    return _SAME_PLACE if apart == 0 else -_APART * apart


def _same_level(one: Heat, other: Heat) -> bool:
    """Whether two levels are one: "low to medium" is what print calls medium-low."""
    first, second = (set((heat.level or "").split()) - {"to"} for heat in (one, other))
    return first == second
