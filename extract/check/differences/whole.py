"""What differs in the dish as a whole: yield, batch, components."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction

from extract.check.differences.telling import place_of
from extract.check.pairs.dishes import Sides
from extract.check.pairs.pairing import Line, Pair, Pairing, ratio_of
from extract.check.report import Finding, Place
from extract.check.words import first_moment
from extract.check.written.yields import read_yield
from extract.measure.drafts.factors import batch_of
from extract.measure.figures import exact, mixed
from extract.model import Batch, Dish, Yield
from extract.publish.words import batch_words, yield_words

_PEOPLE = frozenset(("serving", "person", "people", "portion", "bowl", "plate", "helping"))
_FEWEST, _MOST_OF = 4, 0.6


def yield_findings(sides: Sides, times: Fraction | None = None) -> Iterator[Finding]:
    """How much the dish makes, where either side says so; ``times``: the written batch is so many times larger."""
    said, written = sides.said.yield_, sides.written.yield_
    place = Place(
        first_moment(said.said) if said else None,
        written.written.line if written and written.written else None,
    )
    texts = (yield_words(said) if said else "", yield_words(written) if written else "")
    if said is None or written is None:
        if said is not None or written is not None:
            yield place.differ("yield", "yield", texts, "worth a look" if said else "wording")
        return
    printed = read_yield(texts[0]) if sides.said.scaling else None  # "about 6" for the 6 1/4 of scaling
    ours = [*_counts(said), *filter(None, (printed,))]
    if any(_same_number(one, other, times) for one in ours for other in _counts(written)):
        yield place.agree("yield", texts, "the same number")
    elif any(_of_one_kind(one, other) for one in _counts(said) for other in _counts(written)):
        yield place.differ("yield", f"yield: {_counted(said)}", texts, "worth a look")
    else:
        yield place.agree("yield", texts, "counted in other things")


def _counts(made: Yield) -> list[Yield]:
    return [made, *made.also]


def _counted(made: Yield) -> str:
    return "servings, people" if _of_people(made) else made.unit


def _same_number(one: Yield, other: Yield, times: Fraction | None) -> bool:
    """Whether two counts are equal, as they stand or with the said one as much larger as the batch."""
    if _of_people(one) != _of_people(other) and one.unit and other.unit:
        return False
    factors = {1.0, float(times or 1)}
    return any(
        one.low * factor <= other.low and other.high <= one.high * factor for factor in factors
    )  # a figure within the range that was said is no other one


def _of_one_kind(one: Yield, other: Yield) -> bool:
    return _of_people(one) == _of_people(other) or not (one.unit and other.unit)


def _of_people(made: Yield) -> bool:
    return bool(made.unit) and made.unit.lower().split()[0].rstrip("s") in _PEOPLE


def batch_ratio(pairing: Pairing) -> Fraction | None:
    """How many times the said amounts the written ones are, where most lines agree on one such number."""
    ratios: Counter[Fraction] = Counter()
    kept = parts_as_made(pairing)
    for pair in pairing.pairs:
        if pair.said[0].component in kept:
            continue
        times = None if pair.summed else ratio_of(pair.said[0], pair.written[0])
        if times is not None:
            ratios[times.limit_denominator(12)] += 1
    if not ratios:
        return None
    times, count = ratios.most_common(1)[0]
    enough = count >= _FEWEST and count >= _MOST_OF * sum(ratios.values())
    return times if enough and times != 1 else None


def batch_findings(sides: Sides, times: Fraction | None) -> Iterator[Finding]:
    """A batch written larger or smaller than it was made, by its amounts or by what is written of them."""
    said, written = _said_batch(sides), sides.written.batch
    place = Place(first_moment(said.said) if said else None, _line_of(written))
    if times is not None and said is not None and times * exact(said.factor) == 1:
        texts = (batch_words(said.factor), "the normal batch")
        yield place.agree("the batch", texts, "the amounts of the normal batch")
        return
    made = f"{said.factor:g} times the normal batch" if said else "as said"
    if times is not None:
        texts = (made, f"{mixed(times)} times what was said")
        yield place.differ("batch", "the amounts of the whole batch", texts, "changes the dish")
    elif written is not None and (said.factor if said else 1) != written.factor:
        texts = (made, f"{written.factor:g} times the normal batch")
        yield place.differ("batch", "the batch", texts, "changes the dish")
    elif said is not None and written is None:
        yield place.differ("batch", "the batch", (made, "the same amounts"), "wording")


def _said_batch(sides: Sides) -> Batch | None:
    """The batch that the amounts of the dish make, or those of the part that alone was multiplied."""
    names = ["", *(part.name for part in sides.said.components if part.name)]
    return next(filter(None, (batch_of(sides.said, name) for name in names)), None)


def part_ratios(sides: Sides, pairing: Pairing) -> dict[str, Fraction]:
    """The parts made as a multiple that are written for their normal batch, each with the written ratio."""
    found = {}
    for part in sides.said.components:
        own = [pair for pair in pairing.pairs if pair.said[0].component == part.name]
        batch = batch_of(sides.said, part.name) if part.name else None
        if batch is None or not own:
            continue
        wanted = 1 / exact(batch.factor)
        ratios = [ratio_of(pair.said[0], pair.written[0]) for pair in own if _both_measured(pair)]
        if ratios and sum(times == wanted for times in ratios) > len(ratios) / 2:
            found[part.name] = wanted
    return found


def _both_measured(pair: Pair) -> bool:
    return all(line.ingredient.amount is not None for line in (pair.said[0], pair.written[0]))


def parts_as_made(pairing: Pairing) -> frozenset[str]:
    """The parts of a batch written larger or smaller whose own amounts are as said: a stock, made once for all."""
    found: dict[str, list[Fraction]] = {}
    for pair in pairing.pairs:
        times = ratio_of(pair.said[0], pair.written[0])
        if times is not None:
            found.setdefault(pair.said[0].component, []).append(times)
    return frozenset(part for part, ratios in found.items() if ratios.count(Fraction(1)) >= _FEWEST)


def _line_of(batch: Batch | None) -> int | None:
    return batch.written.line if batch and batch.written else None


def lost_components(dish: Dish, alone: Sequence[Line]) -> list[tuple[str, list[Line]]]:
    """The components of which every line, at least two, stands among ``alone``."""
    found = []
    for component in dish.components:
        own = [line for line in alone if line.component == component.name]
        passing = component.name.lower().startswith(("to ", "for "))  # "to serve" is no part by itself
        measured = any(line.ingredient.amount for line in own)
        if component.name and measured and not passing and len(own) == len(component.ingredients) >= 2:
            found.append((component.name, own))
    return found


def component_findings(sides: Sides, pairing: Pairing) -> Iterator[Finding]:
    """Whole components that only one side has; their lines are taken out of the pairing's leftovers."""
    for name, lines in lost_components(sides.said, pairing.said_only):
        pairing.said_only = [line for line in pairing.said_only if line not in lines]
        text = f"{name}: {', '.join(line.names.main for line in lines)}"
        yield place_of(lines[0], None).differ("component", name, (text, ""), "changes the dish")
    for name, lines in lost_components(sides.written, pairing.written_only):
        pairing.written_only = [line for line in pairing.written_only if line not in lines]
        text = f"{name}: {', '.join(line.names.main for line in lines)}"
        yield place_of(None, lines[0]).differ("component", name, ("", text), "changes the dish")
