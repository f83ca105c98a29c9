"""Counts that were worked out, as a kitchen takes them: "2 bay leaves", "1 egg (and 1 yolk, or 1 large egg)"."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from extract.measure.figures import exact, mixed
from extract.measure.kitchen import printed_unit
from extract.measure.units import dimension
from extract.model import Amount, Ingredient
from extract.spot.names.foods import canonical, food_words, word_key

_WHOLE = frozenset(("leaf", "sprig"))
_WHOLE_FOODS = frozenset(("bay leaf", "egg yolk", "egg white"))
_HARDLY = Fraction(1, 16)
_NEXT = Fraction(5, 8)  # of an egg, from which one more is nearer
_PARTS = tuple(Fraction(n, d) for n, d in ((1, 4), (1, 3), (1, 2), (2, 3), (3, 4)))
_SMALL = Fraction(3, 4)
_FEW = 4  # up to so many, halves are counted


@dataclass(frozen=True, slots=True)
class Counted:
    """A count in words, and what has to be said beside the food; ``many``: whether the food is in the plural."""

    words: str
    aside: str = ""
    many: bool = False


def is_counted(amount: Amount | None) -> bool:
    """Whether an amount is a worked-out count of pieces or of what no spoon measures, without a said size."""
    if amount is None or amount.unscaled is None or amount.size is not None:
        return False
    way = printed_unit(amount.unit).way
    return way == "vague" or (way == "count" and dimension(amount.unit) == "none")


def counted(line: Ingredient) -> Counted:
    """The worked-out count of a line as a kitchen takes it; its exact figures stay in the draft."""
    amount = line.amount
    assert amount is not None
    low, high = exact(amount.low), exact(amount.high)
    food, unit = canonical(line.name), amount.unit
    if printed_unit(unit).way == "vague":
        return _by_feel(low, high, unit)
    if food == "egg" and not unit and low == high:
        return _eggs(low)
    whole = unit in _WHOLE or food in _WHOLE_FOODS
    first, last = _rounded(low, whole=whole), _rounded(high, whole=whole)
    span = mixed(first) if first == last else f"{mixed(first)}–{mixed(last)}"
    own = bool(unit) and word_key(line.name.split()[-1]) == unit  # "2 bay leaves", not "2 leaves bay leaf"
    words = "" if own else printed_unit(unit).words(last)
    return Counted(f"{span} {words}".rstrip(), many=last > 1 and (own or not unit))


def _by_feel(low: Fraction, high: Fraction, unit: str) -> Counted:
    """ "A small pinch" for less than one; pinches are not halved."""
    printed = printed_unit(unit)
    if high < _SMALL:
        return Counted(f"a small {printed.one}")
    first, last = max(1, round(low)), max(1, round(high))
    if first == last == 1:
        return Counted(f"a {printed.one}")
    span = str(first) if first == last else f"{first}–{last}"
    return Counted(f"{span} {printed.words(Fraction(last))}")


def _eggs(value: Fraction) -> Counted:
    """Whole eggs, with a yolk for part of one; a part of a single egg is taken from it beaten."""
    whole, part = divmod(value, 1)
    if not whole and part <= 1 - _HARDLY:
        share = min(_PARTS, key=lambda known: abs(known - part))
        return Counted("1", f"{mixed(share)} of it, beaten")
    if part < _HARDLY:
        return Counted(str(whole), many=whole > 1)
    if part < _NEXT:
        large = f"{whole} large egg{'s' if whole > 1 else ''}"
        return Counted(str(whole), f"and 1 yolk, or {large}", many=whole > 1)
    small = "small ones" if part <= 1 - _HARDLY else ""
    return Counted(str(whole + 1), small, many=True)


def _rounded(value: Fraction, *, whole: bool) -> Fraction:
    """A count that can be had: parts below one, halves up to four, then whole ones."""
    if whole:
        return Fraction(max(1, round(value)))
    if value < 1 - _HARDLY:
        return min(_PARTS, key=lambda part: abs(part - value)) if value <= Fraction(7, 8) else Fraction(1)
    return Fraction(round(value * 2), 2) if value <= _FEW else Fraction(round(value))


def name_in_number(name: str, *, many: bool) -> str:
    """A food's name in the singular or the plural by its last word: "limes", "bay leaf"."""
    before, _, last = name.rpartition(" ")
    single = word_key(last) if last.lower() != word_key(last) else last
    wanted = _plural(single) if many else single
    if word_key(wanted) != word_key(single):
        return name  # a plural that would not be read as this word's
    return f"{before} {wanted}".strip()


def _plural(word: str) -> str:
    lower = word.lower()
    if lower in _plurals():
        return _plurals()[lower]
    if lower.endswith(("s", "x", "ch", "sh")) or lower in ("potato", "tomato", "mango"):
        return f"{word}es"
    return f"{word[:-1]}ies" if lower.endswith("y") and lower[-2:-1] not in "aeiou" else f"{word}s"


@cache
def _plurals() -> dict[str, str]:
    """The plurals that no rule gives, by their singular."""
    found: dict[str, str] = {}
    for plural, single in food_words("plural").items():
        found.setdefault(single, plural)
    return {single: plural for single, plural in found.items() if not plural.endswith(("ses", "ies"))}
