"""Pairing said with written ingredient lines: the best overall assignment, then lines merged or split."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from itertools import combinations
from typing import TypeVar

from extract.check.pairs.converted import is_by_feel
from extract.check.pairs.figures import Verdict
from extract.check.pairs.foods import KIN, LIKELY, POSSIBLE, Names, alike, first_kind, likeness, names_of
from extract.check.pairs.hearing import LIKELY as HEARD
from extract.check.pairs.hearing import as_meant
from extract.check.pairs.measures import compare, in_unit_of, ratio, total
from extract.check.pairs.printed import Printed, as_printed, is_print_of
from extract.model import Component, Ingredient
from extract.spot.names.foods import kinds_of, name_keys
from extract.spot.names.identity import is_part, sameness

One = TypeVar("One")
Other = TypeVar("Other")
_MOST_MERGED = 4
_AMOUNT_BONUS, _BOTH_BONUS, _PART_BONUS = 0.12, 0.03, 0.06
_SPOONS = frozenset(("teaspoon", "tablespoon"))
_SURELY = 1.0  # one pair of one food outweighs two of kin
_APART = 0.01  # a place further on in the list


@dataclass(frozen=True, slots=True)
class Line:
    """An ingredient line with the component it stands in and its place in the list.

    ``printed``: its amount as a kitchen's print has it, where it was worked out.
    """

    ingredient: Ingredient
    component: str
    names: Names
    place: int
    printed: Printed | None = None


@dataclass(slots=True)
class Pair:
    """Lines of the two sides that are one use of a food: one each, or several that were merged or split.

    ``summed``: the amounts of several lines make up the other side's, so that nothing differs.
    """

    said: list[Line] = field(default_factory=list)
    written: list[Line] = field(default_factory=list)
    summed: bool = False


@dataclass(slots=True)
class Pairing:
    """All pairs, and the lines of each side that found no partner."""

    pairs: list[Pair] = field(default_factory=list)
    said_only: list[Line] = field(default_factory=list)
    written_only: list[Line] = field(default_factory=list)


def lines_of(components: Sequence[Component], system: str = "us") -> list[Line]:
    """Every ingredient line of a dish, in order; ``system``: whose spoons and cups its amounts are in."""
    flat = [(component.name, line) for component in components for line in component.ingredients]
    listed = [line for _, line in flat]
    return [
        Line(line, name, _with_sort(_in_part(line, name), line, listed), place, as_printed(line, system))
        for place, (name, line) in enumerate(flat)
    ]


def _in_part(line: Ingredient, part: str) -> Names:
    """The names of a line; a written one that is no food by itself has its part's too: "Chicken", "thigh fillets"."""
    names = names_of(line)
    whole = f"{part} {names.main}"
    told = line.written and part and not kinds_of(names.main) and kinds_of(whole)
    return replace(names, also=(*names.also, whole)) if told else names


def _with_sort(names: Names, line: Ingredient, listed: Sequence[Ingredient]) -> Names:
    """The names of a dab of something, with the one sort of it that the list measures: "flour for the board"."""
    if line.amount is not None and not is_by_feel(line.amount):
        return names
    keys = name_keys(names.main)
    sorts = {other.name for other in listed if _is_sort(name_keys(other.name), keys)}
    return replace(names, also=(*names.also, *sorts)) if len(sorts) == 1 else names


def _is_sort(particular: Sequence[str], general: Sequence[str]) -> bool:
    """Whether one name is the other with words before it: "bread flour" of "flour"."""
    return 0 < len(general) < len(particular) and tuple(particular[-len(general) :]) == tuple(general)


def amounts_of_both(said: Line, written: Line, food: str) -> Verdict | None:
    """Whether the amounts of two lines agree, exactly or as a kitchen prints them; None where one has none.

    ``food``: the name by which a weight stands for a volume of it.
    """
    one, other = said.ingredient.amount, written.ingredient.amount
    if one is None or other is None:
        return None
    if said.printed is not None and is_print_of(said.printed, written.ingredient):
        return Verdict("same", "as a kitchen measures it")
    return compare(one, other, food)


def are_same(said: Line, written: Line, food: str) -> bool:
    """Whether both lines have an amount, and the same."""
    verdict = amounts_of_both(said, written, food)
    return verdict is not None and verdict.same


def ratio_of(said: Line, written: Line) -> Fraction | None:
    """How many times the said amount was written; None where the two are not of one kind, or one has none."""
    one, other = said.ingredient.amount, written.ingredient.amount
    if one is None or other is None:
        return None
    if said.printed is not None and is_print_of(said.printed, written.ingredient):
        return Fraction(1)
    return ratio(one, other)


def pair_lines(said: Sequence[Line], written: Sequence[Line]) -> Pairing:
    """The pairs of the best overall assignment, with leftovers joined to pairs whose amounts they make up."""
    pairing = Pairing()
    ours, theirs = set(range(len(said))), set(range(len(written)))
    for one, other in best_assignment(said, written, _closeness, floor=POSSIBLE):
        pairing.pairs.append(Pair([said[one]], [written[other]]))
        ours.discard(one)
        theirs.discard(other)
    pairing.said_only = [said[place] for place in sorted(ours)]
    pairing.written_only = [written[place] for place in sorted(theirs)]
    _join(pairing)
    _exchange(pairing)
    return pairing


def _exchange(pairing: Pairing) -> None:
    """Leftover lines of one kind, amount and part: one was written in the other's place ("nutmeg", "mace")."""
    said, written = list(pairing.said_only), list(pairing.written_only)
    for one, other in best_assignment(said, written, _exchangeable, floor=POSSIBLE):
        pairing.pairs.append(Pair([said[one]], [written[other]]))
        pairing.said_only.remove(said[one])
        pairing.written_only.remove(written[other])


def _exchangeable(said: Line, written: Line) -> float:
    one, other = said.ingredient.amount, written.ingredient.amount
    kinds = [first_kind(line.names.main) for line in (said, written)]
    if not kinds[0] or kinds[0] != kinds[1] or said.ingredient.optional != written.ingredient.optional:
        return 0.0
    if (one is None) != (other is None) or (one and not are_same(said, written, said.names.main)):
        return 0.0
    apart = bool(said.component and written.component) and not alike_parts(said.component, written.component)
    return 0.0 if apart and one is None else 1.0 - _APART * abs(said.place - written.place)


def best_assignment(
    ours: Sequence[One],
    theirs: Sequence[Other],
    closeness: Callable[[One, Other], float],
    *,
    floor: float,
) -> list[tuple[int, int]]:
    """The one-to-one pairs whose summed closeness is greatest, those below ``floor`` left out."""
    if not ours or not theirs:
        return []
    from scipy.optimize import linear_sum_assignment

    table = [[closeness(one, other) for other in theirs] for one in ours]
    gains = [[value if value >= floor else 0.0 for value in row] for row in table]
    rows, columns = linear_sum_assignment(gains, maximize=True)
    pairs = zip(rows.tolist(), columns.tolist(), strict=True)
    return [(row, column) for row, column in pairs if table[row][column] >= floor]


def is_named_loosely(said: Line, written: Line) -> bool:
    """Whether a said name may stand for the written one because the amount is the same.

    A name that is no food and sounds somewhat like the written one; a plant for its seeds, by the spoon; fruits for
    their juice.
    """
    one, other = said.ingredient.amount, written.ingredient.amount
    if one is None or other is None:
        return False
    loosely = bool(as_meant(said.names.main, written.names.main, HEARD)) or (
        is_part(said.names.main, written.names.main)
        and (one.unit in _SPOONS or one.unit == other.unit == "")  # "2 oranges", "juice of 2 oranges"
    )
    return loosely and are_same(said, written, written.names.main)  # names cost less to compare than amounts


def _closeness(said: Line, written: Line) -> float:
    close = likeness(said.names, written.names)
    if close < LIKELY and is_named_loosely(said, written):
        close = LIKELY
    close += _SURELY if close >= LIKELY else 0.0
    if close < KIN:
        return close
    one, other = said.ingredient.amount, written.ingredient.amount
    if one and other:
        close += _BOTH_BONUS
    if (one is None and other is None) or are_same(said, written, said.names.main):
        close += _AMOUNT_BONUS  # which makes of kin that one was written for the other
    if close < POSSIBLE:
        return close
    if said.component and written.component and alike_parts(said.component, written.component):
        close += _PART_BONUS
    return close


def alike_parts(one: str, other: str) -> bool:
    """Whether two component names share a word that names something."""
    first, second = (
        {word.rstrip("s") for word in name.lower().split() if len(word) > 3} for name in (one, other)
    )
    return bool(first & second)


def _join(pairing: Pairing) -> None:
    """Leftover lines whose amounts, added to a paired line's, come to what the other side gives."""
    for pair in pairing.pairs:
        _merge(pair, pairing.said_only, said_side=True)
        _merge(pair, pairing.written_only, said_side=False)
    for pair in pairing.pairs:
        _say_again(pair, pairing.said_only)
    for line in list(pairing.written_only):
        _take_both(pairing, line)


def _take_both(pairing: Pairing, written: Line) -> None:
    """One written line for foods that were said one by one, with the sum: "700 g minced pork and beef"."""
    foods = written.names.main.split(" and ")
    found = [next((line for line in pairing.said_only if _is_of(line, food)), None) for food in foods]
    lines = [line for line in found if line is not None]
    amounts = [line.ingredient.amount for line in lines if line.ingredient.amount]
    whole, given = total(amounts), written.ingredient.amount
    if len(foods) < 2 or len(lines) < len(foods) or not whole or not given or not compare(whole, given).same:
        return
    pairing.pairs.append(Pair(lines, [written], summed=True))
    pairing.written_only.remove(written)
    for line in lines:
        pairing.said_only.remove(line)


def _is_of(line: Line, food: str) -> bool:
    return sameness(line.names.main, food) in ("same", "sort")


def _say_again(pair: Pair, leftovers: list[Line]) -> None:
    """Further amounts of a food in one part of the dish, which the written line does not have: they belong to it.

    An amount said shortly before the one that is written was taken back.
    """
    own, written = pair.said[-1], pair.written[0].ingredient.amount
    for line in list(leftovers) if not pair.summed else []:
        amount = line.ingredient.amount
        again = line.component == own.component and sameness(line.names.main, own.names.main) == "same"
        if not again or amount is None or written is None or own.ingredient.amount is None:
            continue
        if are_same(line, pair.written[0], own.names.main) or total([own.ingredient.amount, amount]) is None:
            continue
        leftovers.remove(line)
        taken_back = line.place < own.place and are_same(own, pair.written[0], own.names.main)
        if not taken_back:
            pair.said.append(line)


def _merge(pair: Pair, leftovers: list[Line], *, said_side: bool) -> None:
    own, other = (pair.said[0], pair.written[0]) if said_side else (pair.written[0], pair.said[0])
    kin = [line for line in leftovers if _kin(line, own, other) and line.ingredient.amount is not None]
    if own.ingredient.amount is None or other.ingredient.amount is None or not kin:
        return
    for count in range(1, min(len(kin), _MOST_MERGED) + 1):
        for chosen in combinations(kin, count):
            amounts = [line.ingredient.amount for line in (own, *chosen) if line.ingredient.amount]
            whole = total([in_unit_of(amount, amounts[0], own.names.main) for amount in amounts])
            if whole is not None and compare(whole, other.ingredient.amount, own.names.main).same:
                (pair.said if said_side else pair.written).extend(chosen)
                pair.summed = True
                for line in chosen:
                    leftovers.remove(line)
                return


def _kin(line: Line, own: Line, other: Line) -> bool:
    """Whether a leftover line is of the food that a pair is of."""
    return (
        alike(line.names.main, own.names.main) >= LIKELY or alike(line.names.main, other.names.main) >= LIKELY
    )
