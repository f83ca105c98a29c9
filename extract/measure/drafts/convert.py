"""Putting a draft into the measures of another kitchen, beside the ones the cook spoke."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from functools import partial

from extract.errors import CardwrightError
from extract.measure.drafts.factors import factor_of_step
from extract.measure.drafts.step_amounts import keep_edits, restate
from extract.measure.figures import exact
from extract.measure.heat import ovens
from extract.measure.heat.scales import settle_dish_heats
from extract.measure.system import Settled, amounts, check_system, heats, settle
from extract.measure.tins import find_lengths
from extract.measure.worked import METRIC, TARGETS, work_out
from extract.model import Conversion, Dish, Heat, Ingredient, Question, RecipeDraft


def convert(draft: RecipeDraft, to: str, system: str = "") -> RecipeDraft:
    """A copy of ``draft`` with every amount, length and temperature also in the measures ``to``.

    What the cook said stays where it is; the worked-out value stands beside it (``Amount.converted`` with its
    ``basis``, ``Heat.equivalents`` marked ``worked_out``, lengths in ``Dish.conversion.notes``). ``system``
    says whose cups and spoons were said; by default that is settled from the talk, and a question is added
    where the talk does not tell. An earlier conversion is replaced. Raises CardwrightError for measures that
    are not known and for amounts that are none.
    """
    if to not in TARGETS:
        problem = f'cannot convert to "{to}"'
        raise CardwrightError(problem, remedy=f"one of {', '.join(TARGETS)}")
    if system:
        check_system(system)
    check_amounts(draft)
    result = draft.model_copy(deep=True)
    settled = settle(result)
    whose = system or settled.system
    known = Settled(whose, sure=bool(system) or settled.sure, why="")
    for dish in result.dishes:
        before = dish.conversion.measures if dish.conversion else whose
        keep_edits(dish, partial(factor_of_step, dish), before)
        settle_dish_heats(dish, known)
        _convert_dish(dish, to, whose)
    if settled.question is not None and not system:
        _add_question(result, settled.question)
    if system:
        result.measures = system
    return result


def check_amounts(draft: RecipeDraft) -> None:
    """Raise CardwrightError, with the line, where an amount is negative or its ends are out of order."""
    for dish in draft.dishes:
        for line in lines(dish):
            amount = line.amount
            if amount is not None and not 0 <= amount.low <= amount.high < float("inf"):
                problem = f"{dish.title}: {line.name}: {amount.low:g} to {amount.high:g} is no amount"
                raise CardwrightError(problem, remedy="mend it in the draft")


def lines(dish: Dish) -> Iterator[Ingredient]:
    """Every ingredient line of a dish."""
    for component in dish.components:
        yield from component.ingredients


def said_of(line: Ingredient) -> str:
    """What was said of the line's food beside its name, as far as it bears on its weight."""
    return line.preparation


def _convert_dish(dish: Dish, to: str, system: str) -> None:
    for line in lines(dish):
        if line.amount is not None:
            line.amount = work_out(line.amount, line.name, said_of(line), to, system)
    for heat in heats(dish):
        convert_heat(heat, to)
    notes = [*_length_notes(dish, to), *_scale_notes(dish), *_doubt_notes(dish)]
    dish.conversion = Conversion(to=to, measures=system, notes=notes)
    restate(dish, partial(factor_of_step, dish), system)


def _length_notes(dish: Dish, to: str) -> list[str]:
    """The sizes of tins and pieces that stand in words, each once, in the other unit."""
    foreign = "inch" if to in METRIC else "centimetre"
    texts = [*dish.equipment, *(step.as_said or step.text for step in dish.method)]
    found = [length for text in texts for length in find_lengths(text) if length.unit == foreign]
    return list(dict.fromkeys(f"{length.text} is {length.other_scale()}" for length in found))


def _scale_notes(dish: Dish) -> list[str]:
    """That bare figures of heat were taken on the scale that goes with the cook's measures."""
    bare = [heat for heat in heats(dish) if heat.scale_from == "the measures"]
    signs = dict.fromkeys("°F" if heat.unit == "degF" else "°C" for heat in bare)
    return [
        f"Temperatures said without a scale are taken as {sign}, like the other measures." for sign in signs
    ]


def _doubt_notes(dish: Dish) -> list[str]:
    """The lines that stay as said because no figure is known."""
    worked = [(line.name, line.amount.basis) for line in lines(dish) if line.amount is not None]
    return [f"{name}: {basis}" for name, basis in worked if basis.startswith("not converted")]


def convert_heat(heat: Heat, to: str) -> None:
    """Add to ``heat`` the settings that a cook with the measures ``to`` would turn to, marked as worked out.

    An oven for British measures gets °C, fan and gas; anything else the one scale of the place. Settings that
    were said are left alone, earlier worked-out ones are replaced.
    """
    heat.equivalents = [each for each in heat.equivalents if not each.worked_out]
    if heat.low is None or heat.unit not in {"degC", "degF", "gas_mark"}:
        return
    said = {(each.unit, each.fan) for each in (heat, *heat.equivalents)}
    gas = next((each for each in heat.equivalents if each.unit == "gas_mark"), heat)
    for unit, fan in _wanted(heat, to):
        if (unit, fan) in said:
            continue
        source = heat if fan else gas  # a gas mark has degrees of its own, whatever was said with it
        ends = [_setting(end, source, unit, fan=fan) for end in _ends(source)]
        if ends[0] is not None and ends[1] is not None:
            heat.equivalents.append(
                Heat(
                    kind=heat.kind,
                    low=float(ends[0]),
                    high=float(ends[1]),
                    unit=unit,
                    fan=fan,
                    worked_out=True,
                )
            )


def _ends(heat: Heat) -> tuple[Fraction, Fraction]:
    low = exact(heat.low if heat.low is not None else 0)
    return low, exact(heat.high) if heat.high is not None else low


def _wanted(heat: Heat, to: str) -> list[tuple[str, bool]]:
    if to == "us":
        return [("degF", False)]
    if to == "uk" and heat.kind == "oven":
        return [("degC", False), ("degC", True), ("gas_mark", False)]
    return [("degC", False)]


def _setting(value: Fraction, heat: Heat, unit: str, *, fan: bool) -> Fraction | None:
    """``value`` of ``heat`` on another scale; None where the scale does not reach there."""
    if heat.kind != "oven" and heat.unit != "gas_mark":
        return ovens.rounded(value, unit, heat.kind) if unit != heat.unit else value
    try:
        deg_f, deg_c = _ordinary(value, heat)
    except ValueError:
        return None
    if unit == "degF":
        return deg_f
    if unit == "gas_mark":
        return ovens.gas_mark(deg_f)
    return ovens.fan_celsius(deg_c) if fan else deg_c


def ordinary_oven(heat: Heat) -> Fraction | None:
    """The °F of an ordinary oven for an oven setting (a fan's, a range's lower end); None without a scale."""
    if heat.low is None or heat.unit not in {"degC", "degF", "gas_mark"}:
        return None
    try:
        return _ordinary(exact(heat.low), heat)[0]
    except ValueError:
        return None


def _ordinary(value: Fraction, heat: Heat) -> tuple[Fraction, Fraction]:
    """The setting of an ordinary oven as cookery prints it, in °F and in °C."""
    if heat.unit == "gas_mark":
        deg_f = ovens.gas_to_fahrenheit(value)
        return deg_f, ovens.oven_celsius(deg_f)
    if heat.unit == "degF" and not heat.fan:
        return value, ovens.oven_celsius(value)
    deg_c = value if heat.unit == "degC" else ovens.oven_celsius(value)
    if heat.fan:
        deg_c = ovens.conventional_celsius(deg_c)
    return ovens.oven_fahrenheit(deg_c), deg_c


def _add_question(draft: RecipeDraft, question: Question) -> None:
    """Put ``question`` to the dish whose line it is about, unless it is there already."""
    for dish in draft.dishes:
        asked = {(each.kind, each.about) for each in dish.questions}
        if any(amount.unit == question.about for amount, _ in amounts(dish)):
            if (question.kind, question.about) not in asked:
                dish.questions.append(question)
            return
