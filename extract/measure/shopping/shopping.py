"""One shopping list from one dish or many: the same food once, summed as far as measures allow."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import cache

from extract.lexicon import read_lexicon
from extract.measure.counted import name_in_number
from extract.measure.drafts.convert import check_amounts, said_of
from extract.measure.drafts.scale import named_dishes
from extract.measure.figures import exact
from extract.measure.kitchen import print_amount
from extract.measure.shopping.bought import bought
from extract.measure.system import settle
from extract.measure.units import convert_figure, dimension
from extract.measure.weights import NoWeight, states_of
from extract.measure.worked import pours, to_grams
from extract.model import Amount, Dish, Ingredient, RecipeDraft, Source
from extract.spot.names.foods import kinds_of, meaning, name_keys, word_key
from extract.spot.names.general import sort_of
from extract.spot.names.identity import sameness

AISLE_COLUMNS = ("kind", "heading")
OTHER_AISLE = "Store cupboard"


@dataclass(frozen=True, slots=True)
class Need:
    """One ingredient line to shop for, and the dish and system it comes from."""

    line: Ingredient
    dish: str
    system: str


@dataclass(frozen=True, slots=True)
class Total:
    """An amount on the list: a sum of what was said in one unit, or a weight ``worked_out`` from several."""

    low: Fraction
    high: Fraction
    unit: str
    size: tuple[float, float, str] | None = None
    state: str = ""
    summed: bool = False
    worked_out: bool = False
    system: str = "us"

    def __str__(self) -> str:
        words = print_amount(
            self.low,
            self.high,
            self.unit,
            size=self.size,
            worked_out=self.summed or self.worked_out,
            system=self.system,
        )
        words = f"{words} {self.state}".rstrip()
        return f"[{words}]" if self.worked_out else words


@dataclass(frozen=True, slots=True)
class Item:
    """A food to buy: ``said`` are its sums unit by unit, ``together`` their weight in one where it is known.

    ``apart`` are the sums that are not in ``together``; ``unmeasured``: a dish takes some, no amount said.
    """

    name: str
    aisle: str
    said: tuple[Total, ...]
    together: Total | None
    apart: tuple[Total, ...]
    unmeasured: bool
    optional: bool
    alternatives: tuple[str, ...]
    dishes: tuple[str, ...]

    def __str__(self) -> str:
        own = word_key(self.name.split()[-1])  # "bay leaves: 3", not "3 leaves"
        amounts = " + ".join(
            str(replace(total, unit="") if total.unit == own else total) for total in self.said
        )
        if self.together is not None:
            rest = "".join(f" + {total}" for total in self.apart)
            amounts = f"{amounts} {self.together}{rest}"
        if self.unmeasured:
            amounts = f"{amounts}, and some more" if amounts else "no amount said"
        notes = [f"or {', '.join(self.alternatives)}"] if self.alternatives else []
        notes += ["optional"] if self.optional else []
        aside = f" ({'; '.join(notes)})" if notes else ""
        return f"{self.title}: {amounts}{aside}"

    @property
    def title(self) -> str:
        """The name in the plural where several are bought by the piece: "eggs", "bay leaves"."""
        counts = [
            total for total in self.said if not total.unit or total.unit == word_key(self.name.split()[-1])
        ]
        if not counts or len(counts) < len(self.said):
            return self.name
        return name_in_number(self.name, many=any(total.high > 1 for total in counts))


def shopping_list(drafts: Iterable[RecipeDraft], only: Sequence[str] = ()) -> list[Item]:
    """What to buy for every dish of ``drafts``, or for those that ``only`` names, by aisle and name.

    The same food under two names is one item; dried, canned, frozen and cooked are items of their own. A bare
    name ("flour") goes to the one sort of it on the list, and stands alone where there are several. What is
    taken of a fruit that is on the list is not bought again. Sums are exact and in the unit said; where units
    differ and the food's weight is known in each, one weight is given beside them. Raises CardwrightError for
    amounts that are none.
    """
    groups: dict[tuple[str, ...], list[Need]] = {}
    drafts = list(drafts)
    wanted = chosen(drafts, only)
    for draft in drafts:
        check_amounts(draft)
        system = settle(draft).system
        for dish in (dish for dish in draft.dishes if any(dish is one for one in wanted)):
            for line in bought(dish):
                groups.setdefault(_key(line), []).append(Need(line, dish.title, system))
    return sorted(
        (_item(needs) for needs in _joined(groups)), key=lambda item: (item.aisle, item.name.lower())
    )


def chosen(drafts: Sequence[RecipeDraft], only: Sequence[str]) -> list[Dish]:
    """The dishes of all drafts that ``only`` names, all where it is empty.

    Raises CardwrightError for a name that no dish of any draft has.
    """
    together = RecipeDraft(source=Source(file="", sha256=""))
    together.dishes = [dish for draft in drafts for dish in draft.dishes]
    return named_dishes(together, only)


def _joined(groups: dict[tuple[str, ...], list[Need]]) -> list[list[Need]]:
    """The groups with each bare name put to the one group of a sort of it: "flour" to "plain flour"."""
    found = {key: list(needs) for key, needs in groups.items()}
    for key in sorted(groups, key=lambda key: len(key[0].split())):
        others = [
            other
            for other in found
            if other != key
            and key in found
            and other[1:] == key[1:]
            and len(other[0].split()) > len(key[0].split())
            and sameness(key[0], other[0]) == "same"
        ]
        if len(others) == 1:
            found[others[0]] += found.pop(key)
    return list(found.values())


def _key(line: Ingredient) -> tuple[str, ...]:
    """What makes two lines the same purchase: the food and how it is preserved."""
    kept = states_of(f"{line.name} {line.preparation}") & {"dried", "canned", "frozen", "cooked", "smoked"}
    return (sort_of(line.name), *sorted(kept))


@cache
def _aisles() -> dict[str, str]:
    return {row["kind"]: row["heading"] for row in read_lexicon("aisles", columns=AISLE_COLUMNS)}


def _aisle(name: str) -> str:
    kinds = kinds_of(name)
    return next((heading for kind, heading in _aisles().items() if kind in kinds), OTHER_AISLE)


@dataclass(slots=True)
class _Sum:
    """The needs that add up in one unit."""

    needs: list[Need] = field(default_factory=list)

    @property
    def by_state(self) -> bool:
        """Whether the sum is of volumes, which say little without the state of the food."""
        return dimension(self.needs[0].line.amount.unit if self.needs[0].line.amount else "") == "volume"

    def total(self) -> Total:
        """Their sum: in the unit said where all agree, else in the one that most are in."""
        amounts = [_amount(need) for need in self.needs]
        units = [amount.unit for amount in amounts]
        unit, system = max(units, key=units.count), self.needs[0].system
        low, high = Fraction(0), Fraction(0)
        for need, amount in zip(self.needs, amounts, strict=True):
            low += _in_unit(exact(amount.low), amount.unit, unit, need.system, system)
            high += _in_unit(exact(amount.high), amount.unit, unit, need.system, system)
        size = amounts[0].size
        whole = (size.low, size.high, size.unit) if size else None
        states = dict.fromkeys(need.line.preparation for need in self.needs) if self.by_state else {}
        state = f"({', '.join(filter(None, states))})" if any(states) else ""
        return Total(low, high, unit, whole, state, summed=len(amounts) > 1, system=system)


def _in_unit(value: Fraction, unit: str, to: str, system: str, to_system: str) -> Fraction:
    if unit == to and (system == to_system or dimension(unit) == "none"):
        return value
    return convert_figure(value, unit, to, system=system, to_system=to_system)


def _amount(need: Need) -> Amount:
    """The need's amount; ounces of a liquid are taken as fluid ounces."""
    amount = need.line.amount
    assert amount is not None
    if amount.unit == "ounce" and pours(need.line.name):
        return amount.model_copy(update={"unit": "fluid_ounce"})
    return amount


def _item(needs: Sequence[Need]) -> Item:
    sums: dict[object, _Sum] = {}
    for need in needs:
        if need.line.amount is not None:
            sums.setdefault(_bucket(need), _Sum()).needs.append(need)
    weighed = {key: _weigh(group) for key, group in sums.items()} if len(sums) > 1 else {}
    known = [span for span in weighed.values() if span is not None]
    together: Total | None = None
    apart: tuple[Total, ...] = ()
    if len(known) > 1:
        low, high = (
            sum((span[0] for span in known), Fraction(0)),
            sum((span[1] for span in known), Fraction(0)),
        )
        together = Total(low, high, "gram", worked_out=True)
        apart = tuple(sums[key].total() for key, span in weighed.items() if span is None)
    first = needs[0].line
    alternatives = dict.fromkeys(other for need in needs for other in need.line.alternatives)
    return Item(
        name=first.name,
        aisle=_aisle(first.name),
        said=tuple(group.total() for key, group in sums.items() if not (apart and weighed[key] is None)),
        together=together,
        apart=apart,
        unmeasured=any(need.line.amount is None for need in needs),
        optional=all(need.line.optional for need in needs),
        alternatives=tuple(alternatives),
        dishes=tuple(dict.fromkeys(need.dish for need in needs)),
    )


def _bucket(need: Need) -> object:
    """What adds up without knowing the food: all volumes, all weights, or counts of one unit and size."""
    amount = _amount(need)
    size = amount.size and (amount.size.low, amount.size.high, amount.size.unit)
    kind = dimension(amount.unit, need.system)
    if size or kind in {"none", "length"}:
        return amount.unit, size
    if kind == "volume":
        return kind, frozenset(states_of(f"{_around_food(need.line.name)} {need.line.preparation}"))
    return kind


def _around_food(name: str) -> str:
    """The words of a name beside the food's own: nothing in "whole milk", "chopped" in "chopped parsley"."""
    entry = meaning(name).entry
    own = set(name_keys(entry.name)) if entry else set()
    return " ".join(word for word in name.split() if word_key(word) not in own)


def _weigh(group: _Sum) -> tuple[Fraction, Fraction] | None:
    """The needs' weight in grams, None where one of them cannot be weighed."""
    low, high = Fraction(0), Fraction(0)
    for need in group.needs:
        worked = to_grams(_amount(need), need.line.name, said_of(need.line), need.system)
        if isinstance(worked, NoWeight):
            return None
        low, high = low + worked[0][0], high + worked[0][1]
    return low, high
