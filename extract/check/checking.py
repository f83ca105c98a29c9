"""Holding a written recipe against a draft of what was said."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import ceil

from extract.check.differences.heats import heat_findings
from extract.check.differences.lines import line_findings
from extract.check.differences.order import order_findings
from extract.check.differences.shares import paired_shares, share_findings
from extract.check.differences.times import anchors_of, paired_times, time_findings
from extract.check.differences.told_times import times_told
from extract.check.differences.whole import (
    batch_findings,
    batch_ratio,
    component_findings,
    part_ratios,
    parts_as_made,
    yield_findings,
)
from extract.check.pairs.dishes import Sides, choose, doubt_of
from extract.check.pairs.moments import moments_of
from extract.check.pairs.pairing import Line, lines_of, pair_lines
from extract.check.report import WEIGHTS, Difference, Finding, Report
from extract.errors import CardwrightError
from extract.model import Amount, RecipeDraft
from extract.spot.names.foods import kinds_of


def check(draft: RecipeDraft, written: RecipeDraft) -> list[Report]:
    """One report for each written dish, in its order.

    Raises CardwrightError where no dish of the draft is like any written one.
    """
    reports = [check_dish(sides) for sides in choose(draft, written)]
    if not reports:
        titles = ", ".join(f'"{dish.title}"' for dish in draft.dishes) or "no dish at all"
        problem = f"no dish of the draft is like this recipe; the draft has {titles}"
        raise CardwrightError(problem, path=written.source.file)
    return reports


def check_dish(sides: Sides) -> Report:
    """All that differs and all that agrees between the two sides of one dish."""
    report = Report(dish=sides.said.title, written=sides.written.title, doubt=doubt_of(sides))
    for finding in _findings(sides):
        if isinstance(finding, Difference):
            report.differences.append(finding)
        else:
            report.agreements.append(finding)
    report.differences.sort(
        key=lambda found: (WEIGHTS.index(found.weight), found.start is None, found.start or 0)
    )
    return report


def _findings(sides: Sides) -> Iterator[Finding]:
    said_lines = lines_of(sides.said.components, sides.system)
    pairing = pair_lines(said_lines, lines_of(sides.written.components))
    times = batch_ratio(pairing)
    parts = part_ratios(sides, pairing) if times is None else {}
    kept = parts_as_made(pairing) if times is not None else frozenset()
    for pair in pairing.pairs:
        part = pair.said[0].component
        factor = parts.get(part) if part in kept or times is None else times
        pair.said = [_scaled(line, factor) for line in pair.said] if factor else pair.said
    yield from batch_findings(sides, times)
    yield from component_findings(sides, pairing)
    yield from line_findings(sides, pairing)
    said = moments_of(sides.said, {own: place for place, own in sides.drafted.items()})
    written = moments_of(sides.written, sides.drafted)
    times_of_both = paired_times(said, written, times_told(sides.said))
    yield from heat_findings(said, written, anchors_of(times_of_both))
    yield from time_findings(times_of_both, written, sides.listed_texts)
    shares = paired_shares(sides, pairing)
    dealt = [share.of for part in sides.written.components for share in part.portions]
    yield from order_findings(pairing, (said, written), times_of_both, shares, dealt)
    yield from share_findings(sides, pairing)
    yield from yield_findings(sides, times)


def _scaled(line: Line, times: Fraction) -> Line:
    """A said line with its amount as many times larger as its batch was written, so that only the rest differs."""
    amount = line.ingredient.amount
    if amount is None:
        return line
    low, high = amount.low * float(times), amount.high * float(times)
    if "egg" in kinds_of(line.ingredient.name) and not amount.unit:
        low, high = float(ceil(low)), float(ceil(high))  # nobody cracks half an egg
    larger = Amount(low=low, high=high, unit=amount.unit, size=amount.size)
    return Line(line.ingredient.model_copy(update={"amount": larger}), line.component, line.names, line.place)
