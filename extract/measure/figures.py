"""Figures as kitchens write them: exact fractions in, the nearest thing a spoon, cup or scale can do out.

Nothing here rounds by more than ``TOLERANCE``; below an eighth of a teaspoon the caller says "a pinch".
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from fractions import Fraction
from functools import cache

from extract.lexicon import read_lexicon

Figure = int | float | str | Fraction

TOLERANCE = Fraction(1, 20)
_CLOSE = Fraction(1, 40)
_MOST_SPOONS = 7  # tablespoons that anyone counts out; eight are half a cup
_COARSE_CUPS = Fraction(3, 2)  # from so many cups, one measure within 5 % is better than two that are closer
_SNAP = Fraction(1, 10**9)
_DENOMINATORS = ((1,), (2,), (4, 3), (8,), (5, 6), (16,), tuple(range(7, 21)))
VOLUME_COLUMNS = ("unit", "system", "millilitres", "exact", "source")

# (from this size, round to this step): the step is at most a tenth of the size, so the error is at most 5 %.
_GRAM_STEPS = (
    (Fraction(10000), Fraction(250)),
    (Fraction(2000), Fraction(100)),
    (Fraction(1000), Fraction(50)),
    (Fraction(250), Fraction(25)),
    (Fraction(50), Fraction(5)),
    (Fraction(10), Fraction(1)),
    (Fraction(5), Fraction(1, 2)),
    (Fraction(1), Fraction(1, 10)),
    (Fraction(1, 2), Fraction(1, 20)),
)
_ML_STEPS = (
    *_GRAM_STEPS[:4],
    (Fraction(100), Fraction(10)),
    *_GRAM_STEPS[4:7],
    (Fraction(5, 2), Fraction(1, 4)),
    (Fraction(1), Fraction(1, 10)),
    (Fraction(1, 2), Fraction(1, 20)),
)
_CM_STEPS = _GRAM_STEPS[5:]


def exact(value: Figure) -> Fraction:
    """The fraction that ``value`` stands for: 0.3333333333 is a third, "1 1/2" is three halves.

    Raises ValueError for what is no finite number.
    """
    if isinstance(value, Fraction):
        return value
    if isinstance(value, str):
        return sum((Fraction(part) for part in value.split()), Fraction(0))
    if isinstance(value, int):
        return Fraction(value)
    if not math.isfinite(value):
        message = f"{value} is no amount"
        raise ValueError(message)
    fraction = Fraction(value)
    near = fraction.limit_denominator(1000)  # 0.3333333333333333 is a third
    if abs(near - fraction) <= _SNAP * max(Fraction(1), abs(fraction)):
        return near
    return fraction.limit_denominator(10**9)


def mixed(value: Fraction) -> str:
    """``value`` as a mixed number: "1 1/2", "3/4", "2"."""
    whole, rest = divmod(value, 1)
    if not rest:
        return str(whole)
    return f"{whole} {rest}" if whole else str(rest)


def nearest_fraction(value: Fraction, denominators: Iterable[tuple[int, ...]] = _DENOMINATORS) -> Fraction:
    """The simplest kitchen fraction within 2.5 %, failing that within 5 %, of ``value``.

    Halves come before thirds and quarters, these before eighths, odd ones ("2/7") last. Below an eighth or
    so nothing kitchen-like is that near: the value then comes back with its denominator held to 64.
    """
    tiers = tuple(denominators)
    for tolerance in (Fraction(0), _CLOSE, TOLERANCE):
        for tier in tiers:
            candidates = [Fraction(round(value * d), d) for d in tier]
            best = min(candidates, key=lambda c: abs(c - value))
            if best and abs(best - value) <= tolerance * value:
                return best
    return value.limit_denominator(64)


def by_size(value: Fraction, steps: tuple[tuple[Fraction, Fraction], ...]) -> Fraction:
    """``value`` rounded to the step for its size; below the smallest size it stays to two figures."""
    for size, step in steps:
        if value >= size:
            return round(value / step) * step
    return Fraction(f"{float(value):.2g}")


def round_decimal(value: Fraction, unit: str) -> Fraction:
    """A worked-out metric amount rounded for the scale or jug: 1, 5 or 25 g by size, ml alike.

    The unit is one of gram, kilogram, millilitre, litre, centimetre and the like; the error is at most 5 %.
    """
    factor = {"kilogram": 1000, "litre": 1000, "decilitre": 100}.get(unit, 1)
    if unit in {"gram", "kilogram", "milligram"}:
        return by_size(value * factor, _GRAM_STEPS) / factor
    if unit in {"millilitre", "litre", "decilitre"}:
        return by_size(value * factor, _ML_STEPS) / factor
    return by_size(value, _CM_STEPS)


def by_length(value: Fraction, *, inches: bool) -> Fraction:
    """A worked-out length as knives and tins have it: quarter inches below 4, else whole ones; cm alike."""
    if inches:
        if value >= 4:
            return Fraction(round(value))
        return nearest_fraction(value, ((1,), (2,), (4,), (8,), (16,)))
    return by_size(value, _CM_STEPS)


def decimal(value: Fraction) -> str:
    """``value`` as a decimal without trailing zeros and with at most three places: "125", "1.25", "0.5"."""
    text = f"{float(value):.3f}".rstrip("0").rstrip(".")
    return text if text != "0" or not value else f"{float(value):.1g}"


@cache
def spoon_ladder(system: str) -> tuple[int, Fraction]:
    """How many teaspoons go to the tablespoon and to the cup in ``system`` (us, metric, uk, au, ca)."""
    rows = {
        row["unit"]: Fraction(row["millilitres"])
        for row in read_lexicon("volume_units", columns=VOLUME_COLUMNS)
        if row["system"] == system
    }
    return int(rows["tablespoon"] / rows["teaspoon"]), rows["cup"] / rows["teaspoon"]


Term = tuple[Fraction, str]


def spoons_and_cups(teaspoons: Fraction, system: str = "us") -> tuple[Term, ...]:
    """The measures that make up ``teaspoons``, largest first: 1/6 cup is 2 tablespoons and 2 teaspoons.

    Measures are eighths of a teaspoon, tablespoons and halves, quarters and thirds of a cup. The fewest that
    come within 5 % are taken, exact ones before near ones. () below an eighth of a teaspoon. What no spoon
    comes near to ("1/6 teaspoon") is a single teaspoon term in sixths, fifths or sixteenths.
    """
    if teaspoons < Fraction(1, 8):
        return ()
    candidates = [(terms, _error(terms, teaspoons, system)) for terms in _candidates(teaspoons, system)]
    exactly = Fraction(1, 2000)
    few = TOLERANCE if teaspoons >= _COARSE_CUPS * spoon_ladder(system)[1] else _CLOSE
    many = ((1, _CLOSE),) if teaspoons >= _COARSE_CUPS * spoon_ladder(system)[1] else ()
    for size, tolerance in (
        *((1, exactly), *many, (2, exactly), (1, few), (2, Fraction(3, 200))),
        *((1, TOLERANCE), (2, TOLERANCE)),
    ):
        fitting = [(error, terms) for terms, error in candidates if len(terms) == size and error <= tolerance]
        if fitting:
            return min(fitting, key=lambda pair: pair[0])[1]
    return ((nearest_fraction(teaspoons), "teaspoon"),)


def _error(terms: tuple[Term, ...], teaspoons: Fraction, system: str) -> Fraction:
    tablespoon, cup = spoon_ladder(system)
    size = {"teaspoon": Fraction(1), "tablespoon": Fraction(tablespoon), "cup": cup}
    return abs(sum((count * size[unit] for count, unit in terms), Fraction(0)) - teaspoons) / teaspoons


def _candidates(teaspoons: Fraction, system: str) -> Iterator[tuple[Term, ...]]:
    tablespoon, cup = spoon_ladder(system)
    for count in _cups_near(teaspoons / cup):
        yield ((count, "cup"),)
        rest = (teaspoons - count * cup) / tablespoon
        if rest > 0:
            yield from (((count, "cup"), (n, "tablespoon")) for n in _near(rest, 2 if rest < 2 else 1))
    if teaspoons < cup:
        spoons = teaspoons / tablespoon
        yield from (
            ((n, "tablespoon"),) for n in _near(spoons, 2 if spoons < 4 else 1) if 1 <= n <= _MOST_SPOONS
        )
        whole = Fraction(spoons // 1)
        if 1 <= whole <= _MOST_SPOONS:
            rest = teaspoons - whole * tablespoon
            step = {1: 4, 2: 2}.get(int(whole), 1)
            yield from (((whole, "tablespoon"), (n, "teaspoon")) for n in _near(rest, step))
    if teaspoons < tablespoon:
        yield from (((n, "teaspoon"),) for n in _near(teaspoons, 4 if teaspoons > 1 else 8))


def _near(value: Fraction, parts: int) -> Iterator[Fraction]:
    """The multiples of 1/``parts`` just below and above ``value``, zero left out."""
    floor = math.floor(value * parts)
    yield from (Fraction(n, parts) for n in (floor, floor + 1) if n)


def _cups_near(cups: Fraction) -> Iterator[Fraction]:
    """Cup measures about ``cups``: whole cups with quarters and thirds, none below a quarter."""
    for parts in (3, 4):
        yield from (count for count in _near(cups, parts) if count >= Fraction(1, 4))
