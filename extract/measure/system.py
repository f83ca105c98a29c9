"""Whose measures a cook speaks: a US cup is not a metric cup, and an imperial pint is a fifth larger."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from extract.errors import CardwrightError
from extract.language.spelling import plainly
from extract.lexicon import read_lexicon
from extract.measure.units import SYSTEMS, convert_figure, dimension, pint_name
from extract.model import Amount, Dish, Evidence, Heat, Question, RecipeDraft

SIGN_COLUMNS = ("sign", "kind", "systems", "weight")
QUESTION_KIND = "measures"
_MATTERS = Fraction(105, 100)
_NAMES = {"us": "American", "metric": "metric", "uk": "British", "au": "Australian", "ca": "Canadian"}
_FAINT = 1  # a cup alone: American, or the metric one of a dozen countries
_CLEAR = 2  # the leading system must have this many times the weight of the next


@dataclass(frozen=True, slots=True)
class Settled:
    """The system to work with; ``sure`` is false where the talk does not tell, ``why`` says what it rests on.

    ``question`` is for the cook, where the answer would change an amount by more than 5 %.
    """

    system: str
    sure: bool
    why: str
    question: Question | None = None


def settle(draft: RecipeDraft) -> Settled:
    """Whose measures the cook of ``draft`` speaks: us, metric, uk, au or ca.

    In this order: what was set on the draft, a person's answer to the question, the signs in the talk
    (``lexicons/words/measure_signs.tsv``). Raises CardwrightError where the draft was set to an unknown system.
    """
    if draft.measures:
        check_system(draft.measures)
        return Settled(draft.measures, sure=True, why="set on the draft")
    for dish in draft.dishes:
        for question in dish.questions:
            answered = _answered(question)
            if answered:
                return Settled(answered, sure=True, why="answered by a person")
    weights = _weigh(draft)
    ranked = sorted(SYSTEMS, key=lambda system: (-weights[system], SYSTEMS.index(system)))
    best, following = ranked[0], ranked[1]
    if weights[best] and weights[best] >= _CLEAR * weights[following]:
        return Settled(best, sure=True, why="the units and words of the talk")
    likely = [system for system in ranked if weights[system] * _CLEAR > weights[best]] or list(SYSTEMS)
    if weights[best] <= _FAINT:
        likely += ["metric"]
    rivals = max(weights["us"], weights["metric"], weights["uk"])
    if best in {"us", "metric", "uk"}:  # Canada and Australia need a sign of their own
        likely = [system for system in likely if system not in {"au", "ca"} or weights[system] > rivals]
    doubt = _ask(draft, likely)
    return Settled(best, sure=doubt is None, why="the likeliest by the talk", question=doubt)


def check_system(system: str) -> None:
    """Raise CardwrightError unless ``system`` is one that the program knows."""
    if system not in SYSTEMS:
        problem = f'"{system}" is no system of measures'
        raise CardwrightError(problem, remedy=f"one of {', '.join(SYSTEMS)}")


def amounts(dish: Dish) -> Iterator[tuple[Amount, list[Evidence]]]:
    """Every amount of a dish's ingredient lines with the words it rests on."""
    for component in dish.components:
        for line in component.ingredients:
            if line.amount is not None:
                yield line.amount, line.said


def heats(dish: Dish) -> Iterator[Heat]:
    """Every heat setting of a dish's method."""
    for step in dish.method:
        yield from (action.heat for action in step.actions if action.heat is not None)


@cache
def _signs(kind: str) -> dict[str, tuple[tuple[str, ...], int]]:
    rows = read_lexicon("measure_signs", columns=SIGN_COLUMNS)
    return {
        row["sign"]: (tuple(row["systems"].split("; ")), int(row["weight"]))
        for row in rows
        if row["kind"] == kind
    }


@cache
def _word_signs() -> re.Pattern[str]:
    words = sorted(_signs("word"), key=len, reverse=True)
    return re.compile(rf"\b({'|'.join(map(re.escape, words))})(?:e?s)?\b")


def _weigh(draft: RecipeDraft) -> Counter[str]:
    """How much speaks for each system. A sign counts once, however often it comes."""
    found: set[tuple[str, str]] = set()
    for dish in draft.dishes:
        found.update(("unit", amount.unit) for amount, _ in amounts(dish))
        for heat in heats(dish):
            for each in (heat, *heat.equivalents):
                if not each.worked_out:
                    found.update({("heat", each.unit), ("heat", "fan" if each.fan else "")})
        found.update(("word", match.group(1)) for match in _word_signs().finditer(_talk(dish)))
    weights: Counter[str] = Counter()
    for kind, sign in found:
        systems, weight = _signs(kind).get(sign, ((), 0))
        weights.update(dict.fromkeys(systems, weight))
    return weights


def _talk(dish: Dish) -> str:
    """The words of the dish, with the names of its foods and its gear."""
    lines = [line for component in dish.components for line in component.ingredients]
    steps = [action for step in dish.method for action in step.actions]
    said = [evidence.text for line in lines for evidence in line.said]
    said += [evidence.text for step in steps for evidence in step.said]
    return " ".join([*map(plainly, said), *(line.name for line in lines), *dish.equipment]).lower()


def _answered(question: Question) -> str | None:
    """The system that a person's answer names, if it names one."""
    if question.kind != QUESTION_KIND or not question.answer:
        return None
    words = re.findall(r"[a-z]+", question.answer.lower().replace("u.s", "us").replace("u.k", "uk"))
    return next((systems[0] for sign, (systems, _) in _signs("answer").items() if sign in words), None)


def _ask(draft: RecipeDraft, likely: list[str]) -> Question | None:
    """The question for the cook, about the first unit whose size the likely systems do not agree on."""
    for dish in draft.dishes:
        for amount, said in amounts(dish):
            sizes = _sizes(amount.unit, likely)
            if sizes and max(sizes) > min(sizes) * _MATTERS:
                options = " or ".join(f"{'/'.join(who)} ({round(size)} ml)" for size, who in sizes.items())
                text = f"Which {amount.unit.replace('_', ' ')} is meant: {options}?"
                return Question(kind=QUESTION_KIND, about=amount.unit, text=text, said=said[:1])
    return None


def _sizes(unit: str, systems: list[str]) -> dict[Fraction, list[str]]:
    """What ``unit`` holds in ``systems``, in millilitres, with the names of those that share a size."""
    sizes: dict[Fraction, list[str]] = {}
    for system in dict.fromkeys(systems):
        if pint_name(unit, system) is not None and dimension(unit, system) == "volume":
            size = convert_figure(Fraction(1), unit, "millilitre", system=system)
            same = next((known for known in sizes if max(known, size) <= min(known, size) * _MATTERS), size)
            sizes.setdefault(same, []).append(_NAMES[system])
    return sizes
