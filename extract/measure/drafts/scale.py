"""Making a draft larger or smaller: every amount and yield, and honest words for what does not scale."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Sequence
from fractions import Fraction
from functools import partial

from extract.errors import CardwrightError
from extract.measure.drafts.convert import check_amounts, convert
from extract.measure.drafts.factors import factor_of_step
from extract.measure.drafts.scale_notes import scale_notes
from extract.measure.drafts.step_amounts import fitting_unit, keep_edits, restate
from extract.measure.figures import exact
from extract.measure.system import settle
from extract.model import Amount, Component, Dish, Portion, RecipeDraft, Scaling
from extract.spot.names.foods import word_key

LARGEST = 10_000  # times and servings, and the parts of a fraction: no kitchen has more
LONGEST = 20  # characters of a number that is typed
_SERVINGS = frozenset({"serving", "people", "person", "portion", "bowl", "plate", "helping"})
BATCH_QUESTION = "amounts of the batch"


def scale(draft: RecipeDraft, factor: Fraction | float | str, only: Sequence[str] = ()) -> RecipeDraft:
    """A copy of ``draft`` with every dish, or those of ``only``, made ``factor`` times as large.

    Amounts, also those in the words of the method, portions' volumes and yields change; times, temperatures,
    sizes of cans and tins do not. What was said is kept in ``Amount.unscaled`` and ``Step.as_said``, what to
    think of in ``Dish.scaling``. Scaling again works from what was said, so that by 3 and then by 1/3 gives
    the draft as it was. Raises CardwrightError for a factor that is zero, negative or no number, and for a
    name in ``only`` that no dish has.
    """
    checked = positive(factor)
    return _scale_each(draft, lambda dish: checked, only)


def scale_to_servings(
    draft: RecipeDraft, servings: Fraction | float | str, only: Sequence[str] = ()
) -> RecipeDraft:
    """A copy of ``draft`` with every dish, or those of ``only``, made for ``servings``.

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
            remedy = "scale by a factor instead, or name the dishes to scale with --dish"
            raise CardwrightError(problem, remedy=remedy)
        return wanted / ((positive(made.low) + positive(made.high)) / 2)

    return _scale_each(draft, factor, only)


def scale_to_normal_batch(draft: RecipeDraft, only: Sequence[str] = ()) -> RecipeDraft:
    """A copy of ``draft`` with what was made as a multiple of its batch brought back to one batch.

    A batch that stands on a component is that part's alone: the rest of the dish stays as it was said, its
    yield too. ``batch`` stays: it says what was made on camera. Raises CardwrightError where nothing was made
    as a multiple, and where it is still to be asked which amounts were said for it.
    """
    wanted = named_dishes(draft, only)
    if not any(dish.batch or any(part.batch for part in dish.components) for dish in wanted):
        problem = "no dish of this draft was made as a double, a half or another multiple of its batch"
        raise CardwrightError(problem)
    for dish in wanted:
        _refuse_open(dish)

    def factor(dish: Dish) -> Fraction:
        return 1 / positive(dish.batch.factor) / _scaled_by(dish) if dish.batch else Fraction(1)

    return _scale_each(draft, factor, only, parts=True)


def _refuse_open(dish: Dish) -> None:
    """Raise CardwrightError where a dish was made as a multiple and what its amounts are for is not answered."""
    for number, question in enumerate(dish.questions, start=1):
        if dish.batch and question.kind == BATCH_QUESTION and not question.answer:
            problem = f"{dish.title}: question {number} is open: {question.text}"
            remedy = (
                "write the reply into its answer, or put the batch to the component that alone was multiplied"
            )
            raise CardwrightError(problem, remedy=remedy)


def named_dishes(draft: RecipeDraft, only: Sequence[str]) -> list[Dish]:
    """The dishes that ``only`` names by title, by part of one or by number from 1; all where it is empty.

    Raises CardwrightError for a name that no dish has, or that several have.
    """
    found: list[Dish] = []
    for name in only:
        words = name.strip().lower()
        exactly = [dish for dish in draft.dishes if dish.title.lower() == words]
        inside = [dish for dish in draft.dishes if words and words in dish.title.lower()]
        number = int(words) if words.isascii() and words.isdigit() else 0
        counted = draft.dishes[number - 1 : number] if number else []
        matching = exactly or inside or counted
        if len(matching) != 1:
            titles = ", ".join(f'"{dish.title}"' for dish in draft.dishes)
            problem = f'"{name}" names {"several dishes" if matching else "no dish"} of this draft'
            raise CardwrightError(problem, remedy=f"one of {titles}")
        found += matching
    return found if only else list(draft.dishes)


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


def _scale_each(
    draft: RecipeDraft,
    factor: Callable[[Dish], Fraction],
    only: Sequence[str] = (),
    *,
    parts: bool = False,
) -> RecipeDraft:
    """``parts``: components that were made as a multiple by themselves are brought back to their batch as well."""
    check_amounts(draft)
    result = draft.model_copy(deep=True)
    system = settle(draft).system
    for dish in named_dishes(result, only):
        keep_edits(dish, partial(factor_of_step, dish), system)
        own = {id(part): _own(part) for part in dish.components}
        if parts:
            for part in dish.components:
                part.scaled_by = str(1 / positive(part.batch.factor)) if part.batch else part.scaled_by
        _scale_dish(dish, factor(dish), system, own)
    to = next((dish.conversion for dish in draft.dishes if dish.conversion), None)
    return convert(result, to.to, draft.measures) if to is not None else result


def _scaled_by(dish: Dish) -> Fraction:
    return exact(dish.scaling.by) if dish.scaling else Fraction(1)


def _own(part: Component) -> Fraction:
    """By how much a component has been scaled beside its dish."""
    return exact(part.scaled_by) if part.scaled_by else Fraction(1)


def _scale_dish(dish: Dish, factor: Fraction, system: str, before: dict[int, Fraction]) -> None:
    total = factor * _scaled_by(dish)
    for part in dish.components:
        for line in part.ingredients:
            if line.amount is not None:
                line.amount = _scale_amount(line.amount, total * _own(part), system)
        change = factor * _own(part) / before[id(part)]
        for portion in (*part.portions, *part.leftovers):
            _scale_portion(portion, change)
    if dish.yield_ is not None:
        for made in (dish.yield_, *dish.yield_.also):
            made.low, made.high = (float(exact(end) * factor) for end in (made.low, made.high))
    scaled = total != 1 or any(part.scaled_by for part in dish.components)
    dish.scaling = Scaling(by=str(total), notes=scale_notes(dish, total)) if scaled else None
    restate(dish, partial(factor_of_step, dish), system)


def _scale_portion(portion: Portion, factor: Fraction) -> None:
    for measure in ("millilitres", "millilitres_high", "grams", "grams_high"):
        value = getattr(portion, measure)
        if value is not None:
            setattr(portion, measure, float(exact(value) * factor))


def _scale_amount(amount: Amount, total: Fraction, system: str) -> Amount:
    """``amount`` at ``total`` times what was said, in the unit of its ladder that the size calls for."""
    said = amount.unscaled or amount
    bare = said.model_copy(update={"converted": None, "unscaled": None, "basis": ""}, deep=True)
    if total == 1:
        return bare
    low, high = exact(said.low) * total, exact(said.high) * total
    low, high, unit = fitting_unit(low, high, said.unit, system)
    scaled = {"low": float(low), "high": float(high), "unit": unit, "unscaled": bare, "equivalents": []}
    return bare.model_copy(update=scaled)
