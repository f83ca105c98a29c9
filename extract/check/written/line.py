"""Reading one ingredient line of a written recipe into the foods it asks for."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from extract.check.written.amounts import Quantity, Sized, measures_within, read_quantity
from extract.check.written.naming import Named, name_food, split_foods
from extract.check.written.tokens import joined, tokens_of
from extract.check.written.units import read_unit
from extract.check.written.words import words_of
from extract.measure.kitchen import printed_unit
from extract.model import Amount, Ingredient, Size, Written
from extract.spot.food_names import kinds_of

_MARKUP = re.compile(r"\[([^\]]*)\]\([^)]*\)|\*\*|__|[*_`](?=\S)|(?<=\S)[*_`]")
_STAMP = re.compile(r"\s*\\?\[\d{1,2}:\d\d(?::\d\d)?\\?\](?:\(#[^)]*\))?")
_BULLET = re.compile(r"^\s*(?:[-*+•◦▢□☐‣·–—]\s+|\[[ xX]?\]\s*|\|\s*)+")


@dataclass(slots=True)
class Line:
    """A line taken apart: its amount, the words of the food, and the remarks of its brackets."""

    quantity: Quantity | None
    core: list[str]
    remarks: list[list[str]] = field(default_factory=list)
    vague: bool = False


def clean_line(text: str) -> str:
    """The line without bullet, tick box, table bars and Markdown emphasis."""
    text = _STAMP.sub("", _BULLET.sub("", text.strip()))
    text = _MARKUP.sub(lambda match: match[1] or "", text)
    return " ".join(text.replace("|", " ").split())


def read_line(text: str, number: int = 0) -> list[Ingredient]:
    """The ingredients that one line names, usually one; [] where it names no food.

    ``number`` is the 1-based line of the file that goes with each as its ``written`` place.
    """
    tokens = tokens_of(clean_line(text))
    first, others = _split_choices(tokens)
    line = take_apart(first)
    found = [_ingredient(line, named) for named in _foods(line)] or _unit_as_food(line)
    for other in others:
        names = [named.name for named in _foods(take_apart(other)) if named.name]
        if found and names:
            found[0].alternatives.extend(names)
    optional = any(token.lower() == "optional" for token in tokens)
    for ingredient in found:
        ingredient.optional = ingredient.optional or optional
        ingredient.written = Written(line=number, text=text.strip())
    return found


def _unit_as_food(line: Line) -> list[Ingredient]:
    """What is counted where a line names nothing else: "2 cloves" are the spice."""
    quantity = line.quantity
    if quantity is None or not quantity.unit or line.core or line.remarks:
        return []
    name = printed_unit(quantity.unit).many
    if not kinds_of(name):
        return []
    return [Ingredient(name=name, amount=amount_of(_with(quantity, unit="")))]


def _split_choices(tokens: list[str]) -> tuple[list[str], list[list[str]]]:
    """The line before each " or " that begins a new amount, and what stands after each."""
    parts: list[list[str]] = [[]]
    depth = 0
    for index, token in enumerate(tokens):
        depth += (token == "(") - (token == ")")
        after = index + 1
        choice = token.lower() == "or" and depth == 0 and _has_food(parts[-1])
        if choice and read_quantity(tokens, after) is not None and after < len(tokens):
            parts.append([])
        else:
            parts[-1].append(token)
    return parts[0], parts[1:]


def _has_food(tokens: Sequence[str]) -> bool:
    quantity = read_quantity(tokens)
    return any(token[0].isalpha() for token in tokens[quantity.end if quantity else 0 :])


def take_apart(tokens: list[str]) -> Line:
    """Amount first, or at the end of the line, or inside "juice of 1 lemon"; brackets set aside."""
    vague, start = _skip_vague(tokens)
    quantity = None if vague else read_quantity(tokens, start)
    rest = tokens[quantity.end if quantity else start :]
    core, remarks = _brackets(rest)
    if quantity is None and not vague:
        quantity, core = _late_quantity(core)
    for remark in remarks:
        quantity = _measured_by(quantity, remark)
    return Line(quantity, core, remarks, vague)


def _skip_vague(tokens: Sequence[str]) -> tuple[bool, int]:
    """Whether the line begins with "a few", "some", "a little", and the index after it."""
    lower = [token.lower() for token in tokens[:3]]
    if lower[:1] == ["some"]:
        return True, 1
    for at in (0, 1):
        if lower[at : at + 1] and lower[at] in words_of("vague") and (at == 0 or lower[0] in ("a", "an")):
            unit = read_unit(tokens, at + 1)
            return True, unit[1] if unit else at + 1
    return False, 0


def _brackets(tokens: Sequence[str]) -> tuple[list[str], list[list[str]]]:
    """The tokens outside brackets, and each bracket's own; a bracket never closed runs to the end."""
    core: list[str] = []
    remarks: list[list[str]] = []
    depth = 0
    for token in tokens:
        if token in "([{":
            depth += 1
            if depth == 1:
                remarks.append([])
                continue
        if token in ")]}":
            depth = max(0, depth - 1)
            if depth == 0:
                continue
        (remarks[-1] if depth and remarks else core).append(token)
    return core, remarks


def _late_quantity(core: list[str]) -> tuple[Quantity | None, list[str]]:
    """An amount behind the food ("Sugar, 200 g") or inside "juice of 1 lemon"."""
    for at, token in enumerate(core[1:], start=1):
        quantity = (
            read_quantity(core, at)
            if token.lower() not in ("a", "an") or core[at - 1].lower() == "of"
            else None
        )
        if quantity is None:
            continue
        if core[at - 1].lower() == "of":
            return quantity, core[:at] + core[quantity.end :]
        if quantity.end >= len(core) and (quantity.unit or core[at - 1] in ",:-x"):
            return quantity, core[: at - (core[at - 1] in ",:-x")]
    return None, core


def _measured_by(quantity: Quantity | None, remark: list[str]) -> Quantity | None:
    """The amount with what a bracket adds: a unit alone, a weight of the whole, the size of a piece."""
    unit = read_unit(remark, 0)
    if unit is not None and unit[1] >= len(remark):
        if quantity is not None and quantity.unit == "":
            return _with(quantity, unit=unit[0].name)
        return quantity
    measures, each = measures_within(remark)
    if not measures or quantity is None:
        return quantity
    if each or (quantity.unit == "package" and measures[0][2] in ("inch", "centimetre")):
        return _with(quantity, size=quantity.size or measures[0])
    return _with(quantity, others=(*quantity.others, *measures))


def _with(
    quantity: Quantity,
    *,
    unit: str | None = None,
    size: Sized | None = None,
    others: tuple[Sized, ...] | None = None,
) -> Quantity:
    return Quantity(
        quantity.low,
        quantity.high,
        quantity.unit if unit is None else unit,
        quantity.end,
        quantity.approximate,
        quantity.size if size is None else size,
        quantity.others if others is None else others,
        quantity.each,
        quantity.note,
    )


def _foods(line: Line) -> list[Named]:
    """The foods of a line: one, or several where it lists them with no amount or an amount each."""
    shared = line.quantity is None or line.quantity.each
    parts = split_foods(line.core) if shared else [line.core]
    count = line.quantity is not None and line.quantity.unit == ""
    named = [
        name_food(part, line.remarks if index == 0 else [], counted=count) for index, part in enumerate(parts)
    ]
    return [food for food in named if food.name]


def _ingredient(line: Line, named: Named) -> Ingredient:
    amount = None
    if line.quantity is not None:
        unit = named.unit or line.quantity.unit
        amount = amount_of(line.quantity, unit)
    notes = [line.quantity.note if line.quantity else "", *named.notes]
    return Ingredient(
        name=named.name,
        amount=amount,
        preparation=", ".join(named.preparations),
        optional=named.optional,
        alternatives=list(named.alternatives),
        note="; ".join(note for note in notes if note),
    )


def amount_of(quantity: Quantity, unit: str | None = None) -> Amount:
    """The quantity in the draft's form, as plain numbers."""
    size = quantity.size
    return Amount(
        low=float(quantity.low),
        high=float(quantity.high),
        unit=quantity.unit if unit is None else unit,
        approximate=quantity.approximate,
        size=Size(low=float(size[0]), high=float(size[1]), unit=size[2]) if size else None,
        equivalents=[_amount(other) for other in quantity.others],
    )


def _amount(sized: tuple[Fraction, Fraction, str]) -> Amount:
    return Amount(low=float(sized[0]), high=float(sized[1]), unit=sized[2])


__all__ = ["amount_of", "clean_line", "joined", "read_line", "take_apart"]
