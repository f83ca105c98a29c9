"""Reading how much a written line asks for: figure, unit, size of package, second measure in brackets."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from extract.check.scales import to_base
from extract.check.written.lines.figures import Figure, read_figure
from extract.check.written.lines.units import LENGTHS, MEASURED, WEIGHTS, WrittenUnit, read_unit
from extract.check.written.lines.words import words_of
from extract.spot.names.foods import look_up, name_keys

Sized = tuple[Fraction, Fraction, str]
_LONGEST_NAME = 3  # words of a food's name that begins like a unit
_COMPOUND = frozenset((("pound", "ounce"), ("pint", "fluid_ounce"), ("kilogram", "gram")))


@dataclass(frozen=True, slots=True)
class Quantity:
    """An amount read from tokens; ``end`` is the index after it.

    ``size`` is (low, high, unit) of one piece or package; ``others`` are further measures of the same amount,
    as in "225 g (8 oz)"; ``each`` is true for "a teaspoon each of"; ``note`` keeps words such as "bottle".
    """

    low: Fraction
    high: Fraction
    unit: str
    end: int
    approximate: bool = False
    size: Sized | None = None
    others: tuple[Sized, ...] = ()
    each: bool = False
    note: str = ""


def read_quantity(tokens: Sequence[str], start: int = 0) -> Quantity | None:
    """The amount that begins at ``start``, with all its measures; None where no figure stands there."""
    quantity = None if _names_food(tokens, start) else _first_measure(tokens, start)
    if quantity is None:
        return None
    quantity = _second_measures(tokens, quantity)
    if quantity.others and quantity.unit in LENGTHS:  # "3-inch (7.5 cm) piece ginger"
        quantity = _sized_package(tokens, quantity)
    quantity = _up_to(tokens, _plus(tokens, quantity))
    at = quantity.end
    of = at + 1 < len(tokens) and tokens[at].lower() == "of" and tokens[at + 1].lower() == "each"
    if at < len(tokens) and (of or tokens[at].lower() == "each"):
        quantity = replace(quantity, each=True, end=at + 1 + of)
    return quantity


def _names_food(tokens: Sequence[str], start: int) -> bool:
    """Whether a food's name begins there that only looks like an amount: "half and half", "five spice"."""
    names = (name.split() for name in words_of("no amount"))
    return any([token.lower() for token in tokens[start : start + len(name)]] == name for name in names)


def _first_measure(tokens: Sequence[str], start: int) -> Quantity | None:
    figure = read_figure(tokens, start) or _bare_unit(tokens, start)
    if figure is None:
        return None
    size, at = _size(tokens, figure.end)
    note, unit, end = _unit_after_adjectives(tokens, at)
    if unit is None:
        return Quantity(
            figure.low, figure.high, "", at if size else figure.end, figure.approximate, size, note=""
        )
    quantity = Quantity(
        figure.low * unit.factor,
        figure.high * unit.factor,
        unit.name,
        end,
        figure.approximate,
        size,
        note=" ".join(filter(None, (note, unit.note))),
    )
    return _sized_package(tokens, quantity) if size is None else quantity


def _bare_unit(tokens: Sequence[str], start: int) -> Figure | None:
    """ "Pinch of salt", "Splash cream", "Knob": one of a unit that needs no figure.

    Followed by "of", or an amount by feel.
    """
    told = words_of("size") | words_of("approximate")
    while start < len(tokens) and tokens[start].lower() in told and read_unit(tokens, start) is None:
        start += 1
    found = read_unit(tokens, start)
    if found is None or found[0].name in MEASURED or found[0].note:
        return None
    end = found[1]
    one = Fraction(1)
    singular = not tokens[start].lower().endswith("s") or tokens[start].lower().endswith("ss")
    followed = "of" in [
        token.lower() for token in tokens[end - 1 : end + 1]
    ]  # "thumb of" is a unit's own form
    by_feel = found[0].name in words_of("by feel") and (end >= len(tokens) or tokens[end].isalpha())
    return Figure(one, one, start) if singular and (followed or by_feel) else None


def _unit_after_adjectives(tokens: Sequence[str], at: int) -> tuple[str, WrittenUnit | None, int]:
    """The unit at ``at``, past words such as "heaped" or "large" that describe the measure."""
    begin = at
    if at + 1 < len(tokens) and tokens[at] == "-" and (found := read_unit(tokens, at + 1)):
        return "", found[0], found[1]
    while at < len(tokens) and (tokens[at].lower() in words_of("size") or tokens[at].endswith("-sized")):
        at += 1
    at = _past_preparation(tokens, at)
    found = read_unit(tokens, at)
    if found is None or (at > begin and found[0].name in WEIGHTS) or _begins_name(tokens, at, found[0]):
        return "", None, begin
    return " ".join(tokens[begin:at]).lower(), found[0], found[1]


def _past_preparation(tokens: Sequence[str], at: int) -> int:
    """The index of the pieces that words of preparation stand before: "2 sliced cloves of garlic"; else ``at``."""
    end = at
    while end < len(tokens) and tokens[end].lower() in words_of("preparation") | words_of("manner"):
        end += 1
    found = read_unit(tokens, end) if end > at else None
    of = found is not None and [token.lower() for token in tokens[found[1] : found[1] + 1]] == ["of"]
    return end if found is not None and of and found[0].after else at


def _begins_name(tokens: Sequence[str], at: int, unit: WrittenUnit) -> bool:
    """Whether a word for pieces begins the name of a food that the lexicon has: "2 stem gingers", "1 glass noodle"."""
    if unit.name in MEASURED:
        return False
    phrases = (tokens[at:end] for end in range(at + 2, min(at + _LONGEST_NAME, len(tokens)) + 1))
    return any(
        all(word[0].isalpha() for word in phrase) and phrase[1].lower() != "of" and _is_name(phrase)
        for phrase in phrases
    )


def _is_name(phrase: Sequence[str]) -> bool:
    """Whether words are a food's name as it stands; "cans tuna" counts what "canned tuna" names."""
    food = look_up(name_keys(" ".join(phrase)))
    return food is not None and (not food.name.split()[0].endswith("ed") or phrase[0].lower().endswith("ed"))


def _size(tokens: Sequence[str], at: int) -> tuple[Sized | None, int]:
    """The size of one package after its number: "(14 ounce)", "14-ounce", "x 400 g"."""
    bracket = at < len(tokens) and tokens[at] == "("
    here = at + (at < len(tokens) and tokens[at].lower() in ("(", "x"))
    measure = read_measure(tokens, here)
    if measure is None:
        return None, at
    sized, end = measure
    if not bracket:
        return sized, end
    close = _closing(tokens, at)
    return (sized, close + 1) if close is not None and _is_size(tokens, end, close) else (None, at)


def _is_size(tokens: Sequence[str], end: int, close: int) -> bool:
    """Whether what follows a measure within brackets is only a second measure or says that it is one."""
    rest = [token.lower() for token in tokens[end:close]]
    if not rest or rest == ["each"]:
        return True
    return rest[0] in ("/", "or", "-", "|", ",") and read_measure(tokens, end + 1) is not None


def read_measure(tokens: Sequence[str], at: int) -> tuple[Sized, int] | None:
    """A figure with a unit of weight, volume or length: "14-ounce", "8 oz", "9 cm"."""
    figure = read_figure(tokens, at)
    if figure is None:
        return None
    end = figure.end + (figure.end < len(tokens) and tokens[figure.end] == "-")
    found = read_unit(tokens, end)
    if found is None or found[0].name not in MEASURED:
        return None
    unit, end = found
    return (figure.low * unit.factor, figure.high * unit.factor, unit.name), end


def _sized_package(tokens: Sequence[str], quantity: Quantity) -> Quantity:
    """ "400 g tin of tomatoes" and "3-inch piece": one package whose size was read as the amount."""
    if quantity.unit not in MEASURED:
        return quantity
    found = read_unit(tokens, quantity.end)
    if found is None or found[0].name not in words_of("sized"):
        return quantity
    one, size = Fraction(1), (quantity.low, quantity.high, quantity.unit)
    unit, end = found
    return replace(quantity, low=one, high=one, unit=unit.name, end=end, size=size, note=unit.note)


def _second_measures(tokens: Sequence[str], quantity: Quantity) -> Quantity:
    """Measures in brackets or after a slash: the same amount again, or the size of the package."""
    at = quantity.end
    if at < len(tokens) and tokens[at] in ("/", "|") and (measure := read_measure(tokens, at + 1)):
        return _second_measures(
            tokens, replace(quantity, others=(*quantity.others, measure[0]), end=measure[1])
        )
    if at >= len(tokens) or tokens[at] != "(" or (close := _closing(tokens, at)) is None:
        return quantity
    measures, each = measures_within(tokens[at + 1 : close])
    if not measures:
        return quantity
    if quantity.unit in MEASURED and not each:
        return replace(quantity, others=(*quantity.others, *measures), end=close + 1)
    return replace(quantity, size=quantity.size or measures[0], end=close + 1)


def measures_within(tokens: Sequence[str]) -> tuple[tuple[Sized, ...], bool]:
    """The measures that a bracket holds, and whether they are of each piece; () where it holds more."""
    found: list[Sized] = []
    each = False
    at = 0
    while at < len(tokens):
        measure = read_measure(tokens, at)
        if measure is not None:
            found.append(measure[0])
            at = measure[1]
        elif tokens[at].lower() in (
            "each",
            "weighing",
            "total",
            "in",
            "/",
            "or",
            ";",
            ",",
            "|",
            "of",
            "across",
            "wide",
            "long",
        ):
            each = each or tokens[at].lower() in ("each", "across", "wide", "long")
            at += 1
        else:
            return (), False
    return tuple(found), each


def _plus(tokens: Sequence[str], quantity: Quantity) -> Quantity:
    """ "1/2 cup plus 2 tbsp", "1 lb 5 oz": one amount, in the first unit."""
    at = quantity.end
    if at < len(tokens) and (quantity.unit, _unit_of(read_measure(tokens, at))) in _COMPOUND:
        measure = read_measure(tokens, at)
    elif at < len(tokens) and tokens[at].lower() in ("plus", "+", "and", "&"):
        measure = read_measure(tokens, at + 1)
    else:
        return quantity
    first, second = to_base(quantity.unit), to_base(measure[0][2]) if measure else None
    if measure is None or first is None or second is None or first[0] != second[0]:
        return quantity
    factor = second[1] / first[1]
    low, high, _ = measure[0]
    return replace(
        quantity, low=quantity.low + low * factor, high=quantity.high + high * factor, end=measure[1]
    )


def _up_to(tokens: Sequence[str], quantity: Quantity) -> Quantity:
    """A range whose ends are in measures of their own: "2 teaspoons to 1 tablespoon", "a pinch to 1/4 teaspoon"."""
    at = quantity.end
    if at + 1 >= len(tokens) or tokens[at].lower() != "to" or read_measure(tokens, at + 1) is None:
        return quantity
    last = _plus(tokens, _measured(tokens, at + 1))
    if quantity.unit in words_of("by feel"):
        return replace(last, low=Fraction(0))
    first, second = to_base(quantity.unit), to_base(last.unit)
    if first is None or second is None or first[0] != second[0]:
        return quantity
    high = last.high * second[1] / first[1]
    return replace(quantity, high=high, end=last.end) if high > quantity.low else quantity


def _measured(tokens: Sequence[str], at: int) -> Quantity:
    """A measure that is known to stand at ``at``, as a quantity."""
    measure = read_measure(tokens, at)
    assert measure is not None
    (low, high, unit), end = measure
    return Quantity(low, high, unit, end)


def _unit_of(measure: tuple[Sized, int] | None) -> str:
    return measure[0][2] if measure else ""


def _closing(tokens: Sequence[str], opening: int) -> int | None:
    """The index of the bracket that closes the one at ``opening``."""
    depth = 0
    for index in range(opening, len(tokens)):
        depth += (tokens[index] == "(") - (tokens[index] == ")")
        if depth == 0:
            return index
    return None
