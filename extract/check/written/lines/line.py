"""Reading one ingredient line of a written recipe into the foods it asks for."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction

from extract.check.written.lines.amounts import Quantity, Sized, measures_within, read_quantity
from extract.check.written.lines.naming import Named, name_food, split_foods
from extract.check.written.lines.tokens import joined, tokens_of
from extract.check.written.lines.units import LENGTHS, MEASURED, read_unit
from extract.check.written.lines.words import words_of
from extract.model import Amount, Ingredient, Size, Written
from extract.spot.names.foods import kinds_of

_MARKUP = re.compile(r"\[([^\]]*)\]\([^)]*\)|\*\*|__|[*_`](?=\S)|(?<=\S)[*_`]")
_TAG = re.compile(r"</?[A-Za-z][^<>]*>")
_STAMP = re.compile(r"\s*\\?\[\d{1,2}:\d\d(?::\d\d)?\\?\](?:\(#[^)]*\))?")
_LOOSE = "-"  # the unit of what is no measure: a spoonful, a glass
_BULLET = re.compile(r"^\s*(?:[-*+•◦▢□☐‣·–—]\s+|\[[ xX]?\]\s*|\|\s*)+")


@dataclass(slots=True)
class Line:
    """A line taken apart: its amount, the words of the food, and the remarks of its brackets."""

    quantity: Quantity | None
    core: list[str]
    remarks: list[list[str]] = field(default_factory=list)
    vague: bool = False


def without_stamps(text: str) -> str:
    """The text without the moments of a recording that a page prints: "[3:42](#t=222)"."""
    return _STAMP.sub("", text)


def clean_line(text: str) -> str:
    """The line without bullet, tick box, table bars and Markdown emphasis."""
    text = _STAMP.sub("", _BULLET.sub("", text.strip()))
    text = _MARKUP.sub(lambda match: match[1] or "", _TAG.sub(" ", text))
    return " ".join(text.replace("|", " ").split())


def read_line(text: str, number: int = 0) -> list[Ingredient]:
    """The ingredients that one line names, usually one; [] where it names no food.

    ``number`` is the 1-based line of the file that goes with each as its ``written`` place.
    """
    tokens = _whole_fruit(tokens_of(clean_line(text)))
    first, others = _split_choices(tokens)
    first, further = _split_further(first)
    line = take_apart(first)
    found = [_ingredient(line, named) for named in _foods(line)] or _unit_alone(line, first)
    for part in further:
        found.extend(_further(part, found))
    for other in others:
        names = [named.name for named in _foods(take_apart(other)) if named.name]
        if found and names:
            found[0].alternatives.extend(names)
    optional = any(token.lower() == "optional" for token in tokens)
    for ingredient in found:
        ingredient.optional = ingredient.optional or optional
        ingredient.written = Written(line=number, text=text.strip())
    return found


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


def _whole_fruit(tokens: list[str]) -> list[str]:
    """ "Zest of 1 lemon and juice of 1/2" as "1 lemon": two parts of one fruit are the fruit."""
    lower = [token.lower() for token in tokens]
    places = [at for at, word in enumerate(lower) if word == "of"]
    if len(places) < 2 or "and" not in lower[places[0] : places[1]]:
        return tokens
    joint = lower.index("and", places[0])
    part = " ".join(lower[joint + 1 : places[1]]).removeprefix("the ")
    own = " ".join(lower[: places[0]]).removeprefix("the ").removeprefix("finely ")
    if part not in words_of("part") or own not in words_of("part"):
        return tokens
    return tokens[places[0] + 1 : joint]


def _split_further(tokens: list[str]) -> tuple[list[str], list[list[str]]]:
    """The line before each joint at which a further food begins with its own amount, and what begins there.

    "100 ml water mixed with 1 tsp flour", "1/2 cup soy sauce, plus 1 tbsp more": in brackets there is none.
    """
    parts: list[list[str]] = [[]]
    depth = 0
    for index, token in enumerate(tokens):
        depth += (token == "(") - (token == ")")
        joint = depth == 0 and token.lower() in words_of("further")
        if joint and _has_food(parts[-1]) and _begins_food(tokens[index + 1 :], remark="," in parts[-1]):
            parts.append([])
        else:
            parts[-1].append(token)
    return parts[0], parts[1:]


def _begins_food(tokens: list[str], *, remark: bool) -> bool:
    """Whether the words are a measured amount of a known food, or of more of the same; in no remark, a count too."""
    quantity = read_quantity(tokens)
    if quantity is None or quantity.unit in LENGTHS:
        return False
    if quantity.unit not in MEASURED:
        counted = tokens[0][0].isdigit() or quantity.unit != ""
        return counted and not remark and not _is_more(tokens[quantity.end :]) and _names_known(tokens)
    if _is_more(tokens[quantity.end :]):
        return True
    return _names_known(tokens)


def _names_known(tokens: list[str]) -> bool:
    named = _foods(take_apart(tokens))
    return bool(named) and bool(kinds_of(named[0].name))


def _is_more(tokens: Sequence[str]) -> bool:
    """Whether the words behind an amount name no further food: "1 tbsp more", "1 tbsp to finish", "1 tbsp"."""
    return not tokens or tokens[0].lower() in words_of("more") | {"to", "for"}


def _further(tokens: list[str], found: list[Ingredient]) -> list[Ingredient]:
    """A further food of a line; "1 tbsp more to finish" is one of the line's own."""
    line = take_apart(tokens)
    if _is_more(line.core) and found:
        line = replace(line, core=tokens_of(found[0].name))
    return [_ingredient(line, named) for named in _foods(line)]


def _unit_alone(line: Line, tokens: Sequence[str]) -> list[Ingredient]:
    """ "4 whole cloves": what reads as a unit is the food itself where nothing else is named."""
    if line.quantity is None or line.quantity.unit in MEASURED or not line.quantity.unit:
        return []
    name = tokens[line.quantity.end - 1]
    if not name.isalpha() or not kinds_of(name):
        return []
    return [Ingredient(name=name, amount=amount_of(line.quantity, ""))]


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
    if quantity is not None and quantity.unit == _LOOSE:
        quantity = _firm(quantity)
        vague = quantity is None
        remarks = [tokens[start : start + 2], *remarks]
    return Line(quantity, core, remarks, vague)


def _firm(quantity: Quantity) -> Quantity | None:
    """The measure beside a spoonful or a glass, None where there is none: "1 glass (200 ml)"."""
    told = (*filter(None, (quantity.size,)), *quantity.others)
    if not told:
        return None
    low, high, unit = told[0]
    return replace(quantity, low=low, high=high, unit=unit, size=None, others=told[1:])


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
            if token.lower() not in ("a", "an")
            or (core[at - 1].lower() == "of" and not _skip_vague(core[at:])[0])
            else None
        )
        if quantity is None:
            continue
        if core[at - 1].lower() == "of" or [token.lower() for token in core[at - 2 : at]] == ["of", "the"]:
            return quantity, core[:at] + core[quantity.end :]
        if (taken := _taken_from(core, at)) is not None:
            return quantity, taken
        if core[at - 1].lower() in words_of("into"):
            continue
        if quantity.end >= len(core) and (quantity.unit or core[at - 1] in ",:-x"):
            return quantity, core[: at - (core[at - 1] in ",:-x")]
        if core[at - 1] == "," and quantity.unit in MEASURED - LENGTHS and core[quantity.end] == ",":
            return quantity, core[: at - 1] + core[quantity.end :]  # "feta, 100 g, crumbled"
    return None, core


def _taken_from(core: Sequence[str], at: int) -> list[str] | None:
    """The part of a fruit before the count of fruits it is taken from: "lemon zest, from the other 1/2 lemon"."""
    start = at
    while start > 1 and core[start - 1].lower() in words_of("filler") | {"other", "remaining"}:
        start -= 1
    before = [token for token in core[: start - 1] if token != ","]
    told = core[start - 1].lower() == "from" and bool(before) and before[-1].lower() in words_of("part")
    return before if told else None


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
