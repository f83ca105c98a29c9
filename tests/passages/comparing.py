"""Holding a draft against the ledger that a passage must lead to, aspect by aspect.

Figures are equal within a thousandth, which is far below what a spoon can measure and above the six decimals to
which a draft rounds a share.
"""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from typing import Any

from extract.spot.names.foods import same_food

# A missing amount is seen on its line, so that the passages do not repeat it as a question.
LEDGER_QUESTIONS = frozenset(
    {
        "over-used",
        "nothing left",
        "never used",
        "never made",
        "off camera",
        "never put in",
        "never introduced",
        "which one",
        "two amounts",
        "batch",
    }
)
# Units that count the food itself: "eight chicken thighs" may be eight, or eight thighs.
COUNTS = frozenset({"", "piece", "fillet", "thigh", "breast", "head"})


def aspects(ledger: dict[str, Any], draft: dict[str, Any]) -> dict[str, list[str]]:
    """What is wrong with each aspect of a draft, in words; an empty list where all is right."""
    dishes = draft["dishes"]
    components = [component for dish in dishes for component in dish["components"]]
    return {
        "lines": compare_lines(ledger, components),
        "parts": compare_parts(ledger, components),
        "portions": compare_portions(ledger, components),
        "questions": compare_questions(ledger, dishes),
        "batch": compare_batch(ledger, dishes),
    }


def equal(expected: object, found: float | None) -> bool:
    """Whether a figure of the passage ("1/3", 0.5, null) is the one in the draft."""
    if expected is None or found is None:
        return expected is None and found is None
    value = float(Fraction(str(expected)))
    return abs(value - found) <= 0.001 * max(abs(value), 1.0)


def same_name(one: str, other: str) -> bool:
    """Whether two names can stand for one food: as foods, or one the other with words left out."""
    first, second = set(one.lower().split()), set(other.lower().split())
    return same_food(one, other) or first <= second or second <= first


def same_line(expected: dict[str, Any], found: dict[str, Any]) -> bool:
    amount = found["amount"] or {"low": None, "high": None, "unit": ""}
    figures = equal(expected["low"], amount["low"]) and equal(expected["high"], amount["high"])
    units = {expected["unit"], amount["unit"]} <= COUNTS or expected["unit"] == amount["unit"]
    optional = bool(expected.get("optional")) == found["optional"]
    if expected.get("divided") and not found["divided"]:
        return False
    others = expected.get("alternatives", [])
    varied = all(any(same_name(one, other) for other in found["alternatives"]) for one in others)
    return same_name(expected["name"], found["name"]) and figures and units and optional and varied


def rows_of(components: list[dict[str, Any]], key: str) -> list[tuple[str, dict[str, Any]]]:
    return [(component["name"], row) for component in components for row in component[key]]


def describe(line: dict[str, Any]) -> str:
    amount = line.get("amount", line) or {"low": None, "high": None, "unit": ""}
    return f"{amount['low']}-{amount['high']} {amount['unit']} {line['name']}".replace("  ", " ")


def matched(
    ledger: dict[str, Any], components: list[dict[str, Any]]
) -> tuple[list[tuple[str, str]], list[str], list[str]]:
    """The parts (expected, found) of the lines that agree, then the lines missing and those too many."""
    left = rows_of(components, "ingredients")
    pairs, missing = [], []
    for part, line in rows_of(ledger["components"], "lines"):
        choices = [pair for pair in left if same_line(line, pair[1])]
        found = min(choices, key=lambda pair: not same_name(pair[0], part), default=None)
        if found is None:
            missing.append(describe(line))
        else:
            left.remove(found)
            pairs.append((part, found[0]))
    return pairs, missing, [describe(line) for _, line in left]


def compare_lines(ledger: dict[str, Any], components: list[dict[str, Any]]) -> list[str]:
    _, missing, extra = matched(ledger, components)
    return [f"missing: {line}" for line in missing] + [f"too many: {line}" for line in extra]


def compare_parts(ledger: dict[str, Any], components: list[dict[str, Any]]) -> list[str]:
    """Whether the lines that were found stand in the part of the dish in which they belong."""
    pairs, _, _ = matched(ledger, components)
    return [
        f"in {found or 'the dish'}, not in {part or 'the dish'}"
        for part, found in pairs
        if not (same_name(part, found) if part and found else part == found)
    ]


def compare_portions(ledger: dict[str, Any], components: list[dict[str, Any]]) -> list[str]:
    left = rows_of(components, "portions") + rows_of(components, "leftovers")
    faults = []
    for _, portion in rows_of(ledger["components"], "portions"):
        found = next((pair for pair in left if same_portion(portion, pair[1])), None)
        if found is None:
            faults.append(f"missing: {portion['fraction']} of {portion['of']}, {portion['millilitres']} mL")
        else:
            left.remove(found)
    return faults + [f"too many: {p['fraction']} of {p['of']}, {p['millilitres']} mL" for _, p in left]


def same_portion(expected: dict[str, Any], found: dict[str, Any]) -> bool:
    fraction, said = found["fraction"], expected["fraction"]
    whole = {"rest", "some", "all"}
    shares = fraction == said if fraction in whole or said in whole else equal(said, fraction)
    return shares and same_name(expected["of"], found["of"]) and same_volume(expected["millilitres"], found)


def same_volume(expected: object, found: dict[str, Any]) -> bool:
    """A range in the passage is a pair, in the draft the figure and its high end."""
    if isinstance(expected, list):
        return equal(expected[0], found["millilitres"]) and equal(expected[1], found.get("millilitres_high"))
    return equal(expected, found["millilitres"]) and found.get("millilitres_high") is None


def compare_questions(ledger: dict[str, Any], dishes: list[dict[str, Any]]) -> list[str]:
    asked = [(q["kind"], q["about"]) for dish in dishes for q in dish["questions"]]
    left = [pair for pair in asked if pair[0] in LEDGER_QUESTIONS]
    faults = []
    for question in ledger["questions"]:
        kind, about = question["kind"], question["about"]
        found = next((pair for pair in left if pair[0] == kind and same_name(about, pair[1])), None)
        if found is None:
            faults.append(f"not asked: {kind}, {about}")
        else:
            left.remove(found)
    allowed = Counter((q["kind"], q["about"]) for q in ledger.get("allowed_questions", []))
    return faults + [f"asked in vain: {kind}, {about}" for kind, about in left if not allowed[(kind, about)]]


def compare_batch(ledger: dict[str, Any], dishes: list[dict[str, Any]]) -> list[str]:
    factors = [dish["batch"]["factor"] for dish in dishes if dish["batch"] is not None]
    expected = ledger["batch"]
    if expected is None:
        return [f"a batch of {factor}" for factor in factors]
    return [] if len(factors) == 1 and equal(expected, factors[0]) else [f"batch {factors}, not {expected}"]
