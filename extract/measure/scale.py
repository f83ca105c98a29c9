"""Making a draft larger or smaller: every amount and yield, and honest words for what does not scale."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable
from fractions import Fraction

from extract.errors import CardwrightError
from extract.measure.convert import check_amounts, convert, lines
from extract.measure.figures import exact, spoon_ladder
from extract.measure.scale_notes import scale_notes
from extract.measure.system import settle
from extract.model import Amount, Dish, RecipeDraft, Scaling
from extract.spot.food_names import word_key

LARGEST = 10_000  # times and servings, and the parts of a fraction: no kitchen has more
LONGEST = 20  # characters of a number that is typed
_SERVINGS = frozenset({"serving", "people", "person", "portion", "bowl", "plate", "helping"})
_LARGER = {"gram": ("kilogram", 1000), "millilitre": ("litre", 1000), "ounce": ("pound", 16)}
_SMALLER = {large: (small, times) for small, (large, times) in _LARGER.items()}


def scale(draft: RecipeDraft, factor: Fraction | float | str) -> RecipeDraft:
    """A copy of ``draft`` with every dish made ``factor`` times as large.

    Amounts, portions' volumes and yields change; times, temperatures, sizes of cans and tins do not. What was
    said is kept in ``Amount.unscaled``, what to think of in ``Dish.scaling``. Scaling again works from what
    was said, so that by 3 and then by 1/3 gives the draft as it was. Raises CardwrightError for a factor that
    is zero, negative or no number.
    """
    checked = positive(factor)
    return _scale_each(draft, lambda dish: checked)


def scale_to_servings(draft: RecipeDraft, servings: Fraction | float | str) -> RecipeDraft:
    """A copy of ``draft`` with every dish made for ``servings``.

    A yield said as a range counts by its middle ("serves four to six" is five). Raises CardwrightError where
    ``servings`` is no positive number, or a dish has no yield in servings.
    """
    wanted = positive(servings, what="servings")

    def factor(dish: Dish) -> Fraction:
        made = dish.yield_
        if made is None or word_key(made.unit) not in _SERVINGS:
            problem = f"{dish.title}: the cook did not say how many servings it makes"
            if made is not None:
                problem = f"{dish.title}: the cook said {made.low:g} {made.unit}, not servings"
            raise CardwrightError(problem, remedy="scale by a factor instead")
        return wanted / ((positive(made.low) + positive(made.high)) / 2)

    return _scale_each(draft, factor)


def scale_to_normal_batch(draft: RecipeDraft) -> RecipeDraft:
    """A copy of ``draft`` with every dish that was made as a multiple of its batch brought back to one batch.

    ``Dish.batch`` stays: it says what was made on camera. Raises CardwrightError where no dish was made as a
    multiple.
    """
    if not any(dish.batch for dish in draft.dishes):
        problem = "no dish of this draft was made as a double, a half or another multiple of its batch"
        raise CardwrightError(problem)

    def factor(dish: Dish) -> Fraction:
        return 1 / positive(dish.batch.factor) / _scaled_by(dish) if dish.batch else Fraction(1)

    return _scale_each(draft, factor)


def positive(value: Fraction | float | str, what: str = "the factor") -> Fraction:
    """``value`` as an exact fraction. Raises CardwrightError where it is no number above zero."""
    try:
        number = exact(_in_plain_figures(value) if isinstance(value, str) else value)
    except (ValueError, ZeroDivisionError, TypeError, OverflowError):
        number = Fraction(0)
    if not 0 < number <= LARGEST or number.denominator > LARGEST:
        problem = f"{what} must be a number above zero, not {str(value)[:LONGEST]}"
        raise CardwrightError(problem, remedy=f'for example 2, 0.5 or "1 1/2"; at most {LARGEST}')
    return number


def _in_plain_figures(text: str) -> str:
    """A number as typed, "1½" as "1 1/2"; "" for what is written in powers or too long to be meant."""
    plain = unicodedata.normalize("NFKC", re.sub(r"(?<=\d)(?=[¼-¾⅐-⅞])", " ", text)).replace("⁄", "/")
    return plain if len(plain) <= LONGEST and not re.search(r"[^\d./ ]", plain.strip()) else ""


def _scale_each(draft: RecipeDraft, factor: Callable[[Dish], Fraction]) -> RecipeDraft:
    check_amounts(draft)
    result = draft.model_copy(deep=True)
    system = settle(draft).system
    for dish in result.dishes:
        _scale_dish(dish, factor(dish), system)
    to = next((dish.conversion for dish in draft.dishes if dish.conversion), None)
    return convert(result, to.to, draft.measures) if to is not None else result


def _scaled_by(dish: Dish) -> Fraction:
    return exact(dish.scaling.by) if dish.scaling else Fraction(1)


def _scale_dish(dish: Dish, factor: Fraction, system: str) -> None:
    total = factor * _scaled_by(dish)
    for line in lines(dish):
        if line.amount is not None:
            line.amount = _scale_amount(line.amount, total, system)
    for component in dish.components:
        for portion in component.portions:
            if portion.millilitres is not None:
                portion.millilitres = float(exact(portion.millilitres) * factor)
            if portion.grams is not None:
                portion.grams = float(exact(portion.grams) * factor)
    if dish.yield_ is not None:
        dish.yield_.low = float(exact(dish.yield_.low) * factor)
        dish.yield_.high = float(exact(dish.yield_.high) * factor)
    dish.scaling = None if total == 1 else Scaling(by=str(total), notes=scale_notes(dish, total))


def _scale_amount(amount: Amount, total: Fraction, system: str) -> Amount:
    """``amount`` at ``total`` times what was said, in the unit of its ladder that the size calls for."""
    said = amount.unscaled or amount
    bare = said.model_copy(update={"converted": None, "unscaled": None, "basis": ""}, deep=True)
    if total == 1:
        return bare
    low, high = exact(said.low) * total, exact(said.high) * total
    low, high, unit = _fitting_unit(low, high, said.unit, system)
    scaled = {"low": float(low), "high": float(high), "unit": unit, "unscaled": bare, "equivalents": []}
    return bare.model_copy(update=scaled)


def _fitting_unit(low: Fraction, high: Fraction, unit: str, system: str) -> tuple[Fraction, Fraction, str]:
    """The amount in teaspoons, tablespoons or cups by size; grams as kilograms from 1000, and so on."""
    if unit in {"teaspoon", "tablespoon", "cup"}:
        tablespoon, cup = spoon_ladder(system)
        size = {"teaspoon": Fraction(1), "tablespoon": Fraction(tablespoon), "cup": cup}
        spoons = low * size[unit]
        fit = "cup" if spoons >= cup / 4 else "tablespoon" if spoons >= tablespoon else "teaspoon"
        return low * size[unit] / size[fit], high * size[unit] / size[fit], fit
    larger, times = _LARGER.get(unit, ("", 0))
    if times and low >= times:
        return low / times, high / times, larger
    smaller, times = _SMALLER.get(unit, ("", 0))
    if times and low < 1 and unit != "pound":
        return low * times, high * times, smaller
    return low, high, unit
