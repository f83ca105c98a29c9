"""Taking an ingredient line apart: its amount, wherever it stands, the words of the food, the brackets."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from extract.check.written.lines.amounts import Quantity, Sized, measures_within, read_quantity
from extract.check.written.lines.tokens import joined, tokens_of
from extract.check.written.lines.units import LENGTHS, MEASURED, read_unit
from extract.check.written.lines.words import words_of
from extract.spot.names.foods import look_up, name_keys

_COMMA = re.compile(r",\s+(?![^(]*\))")  # outside brackets
_FEWEST = 3  # foods of a list in one line
_MARKS = ("-", ":")
_LOOSE = "-"  # the unit of what is no measure: a spoonful, a glass


@dataclass(slots=True)
class Line:
    """A line taken apart: its amount, the words of the food, and the remarks of its brackets."""

    quantity: Quantity | None
    core: list[str]
    remarks: list[list[str]] = field(default_factory=list)
    vague: bool = False


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
        remarks = [tokens[start : start + 2], *remarks]
    return Line(quantity, core, remarks, vague)


def _firm(quantity: Quantity) -> Quantity:
    """The measure beside a spoonful or a glass ("1 glass (200 ml)"), or how many there are of them."""
    told = (*filter(None, (quantity.size,)), *quantity.others)
    if not told:
        return replace(quantity, unit="")
    low, high, unit = told[0]
    return replace(quantity, low=low, high=high, unit=unit, size=None, others=told[1:])


def _skip_vague(tokens: Sequence[str]) -> tuple[bool, int]:
    """Whether the line begins with "a few", "some", "a little", and the index after it."""
    lower = [token.lower() for token in tokens[:3]]
    if lower[:1] == ["some"]:
        return True, 1
    for at, length in ((0, 1), (1, 1), (1, 2)):
        end = at + length
        vague = " ".join(lower[at:end]) in words_of("vague") and (at == 0 or lower[0] in ("a", "an"))
        if vague and len(lower) >= end:
            unit = read_unit(tokens, end)
            return True, unit[1] if unit else end
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


def foods_apart(text: str) -> list[str]:
    """The foods of a list told in one line ("250 g lentils, washed, 1 onion, salt"), else the line whole."""
    parts = _COMMA.split(text)
    begins = [_begins_line(part) for part in parts]
    if sum(begins) < _FEWEST or 2 * sum(begins) < len(parts) or text.endswith((".", "!", "?")):
        return [text]
    found: list[str] = []
    for part, begins_line in zip(parts, begins, strict=True):
        if begins_line or not found:
            found.append(part)
        else:
            found[-1] = f"{found[-1]}, {part}"
    return found


def _begins_line(part: str) -> bool:
    """Whether a part of a list is a food of its own: it begins with a figure, or is a food and nothing else."""
    tokens = tokens_of(part)
    quantity = read_quantity(tokens) if tokens else None
    if quantity is not None and tokens[0][0].isdigit():
        return quantity.unit not in LENGTHS
    return look_up(name_keys(part)) is not None


def is_food_first(tokens: Sequence[str]) -> bool:
    """Whether a line is a food and, behind a dash or a colon, how much of it: "soy - 1 T"."""
    at = next((at for at, token in enumerate(tokens) if token in _MARKS), 0)
    quantity = _behind_mark(tokens, at) if at > 0 else None
    known = quantity is not None and look_up(name_keys(joined(tokens[:at]))) is not None
    return known or (quantity is not None and quantity.unit in MEASURED - LENGTHS)


def _behind_mark(tokens: Sequence[str], at: int) -> Quantity | None:
    """The amount that stands behind the mark at ``at``, None where there is none; an article is no figure."""
    articled = tokens[at + 1 : at + 2] and tokens[at + 1].lower() in ("a", "an")
    return None if articled else read_quantity(tokens, at + 1)


def _set_apart(core: Sequence[str]) -> tuple[Quantity, list[str]] | None:
    """The amount behind a food and a dash or colon, and the line without them: "cukes - 5 small, in coins"."""
    at = next((at for at, token in enumerate(core) if token in _MARKS), 0)
    quantity = _behind_mark(core, at) if at > 0 else None
    if quantity is None or (core[at - 1][-1:].isdigit() and core[at] == "-"):
        return None
    end = next((end for end in range(quantity.end, len(core)) if core[end] in (",", ";", "(")), len(core))
    if core[end - 1] == "." and end == quantity.end + 1:
        end -= 1
    return quantity, [*core[quantity.end : end], *core[:at], *core[end:]]


def _late_quantity(core: list[str]) -> tuple[Quantity | None, list[str]]:
    """An amount behind the food ("Sugar, 200 g") or inside "juice of 1 lemon"."""
    if (apart := _set_apart(core)) is not None:
        return apart
    for at, token in enumerate(core[1:], start=1):
        article = token.lower() in ("a", "an")
        quantity = read_quantity(core, at)
        if quantity is not None and (food := _food_before(core, at, quantity)) is not None:
            return quantity, food
        if quantity is None or (article and (core[at - 1].lower() != "of" or _skip_vague(core[at:])[0])):
            continue
        if _is_part_of(core[:at]):
            return quantity, core[:at] + core[quantity.end :]
        if (taken := _taken_from(core, at)) is not None:
            return quantity, taken
        if (filled := _filled(core, at, quantity)) is not None:
            return quantity, filled
        if core[at - 1].lower() in words_of("into"):
            continue
        if quantity.end >= len(core) and (quantity.unit or core[at - 1] in ",:-x"):
            return quantity, core[: at - (core[at - 1] in ",:-x")]
        if core[at - 1] == "," and quantity.unit in MEASURED - LENGTHS and core[quantity.end] == ",":
            return quantity, core[: at - 1] + core[quantity.end :]  # "feta, 100 g, crumbled"
    return None, core


def _filled(core: Sequence[str], at: int, quantity: Quantity) -> list[str] | None:
    """The food of a line that tells how much it comes to with what is added: "the milk, made up to 375 ml"."""
    lower = [token.lower() for token in core[:at]]
    for words in map(str.split, words_of("filled to")):
        if lower[-len(words) :] == words and quantity.unit in MEASURED - LENGTHS:
            start = at - len(words)
            return [*core[: start - (core[start - 1] == ",")], *core[quantity.end :]]
    return None


def _is_part_of(before: Sequence[str]) -> bool:
    """Whether the words before an amount say that a part of it is taken: "juice of", "zest of the other"."""
    words = [token.lower() for token in before]
    while words and words[-1] in ("the", "other", "remaining"):
        words.pop()
    return words[-1:] == ["of"]


def _food_before(core: Sequence[str], at: int, quantity: Quantity) -> list[str] | None:
    """The line without an amount that stands right behind a known food: "onions 2, sliced", "mint a handful"."""
    food, end = core[:at], quantity.end
    while end < len(core) and core[end].lower() in words_of("size"):
        end += 1
    counted = core[at][0].isdigit() or quantity.unit in words_of("by feel") or quantity.each
    known = [look_up(name_keys(joined(part))) for part in _split_joined(food)]
    if not counted or None in known or (end < len(core) and core[end] != ","):
        return None
    return [*core[quantity.end : end], *food, *core[end:]]


def _split_joined(food: Sequence[str]) -> list[list[str]]:
    """The foods on either side of a joiner: "ginger and garlic"."""
    places = [at for at, token in enumerate(food) if token.lower() in words_of("joiner")]
    at = places[0] if places else len(food)
    return [part for part in (list(food[:at]), list(food[at + 1 :])) if part]


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
