"""What is wrong in a draft file, told with its line, the dish, the field, and what would be right there."""

from __future__ import annotations

import json
import math
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any, TypeGuard

from pydantic import ValidationError

from extract.lexicon import read_lexicon

Step = str | int
MOST = 1e15  # larger than any amount, heat or second of a recording, and still exact
DEEPEST = 60  # lists and objects within one another
_LONGEST = 30  # characters of a value that are shown
_HALF_PAIR = re.compile("[\ud800-\udfff]")
_DURATION = re.compile(r"P(?=.)(?:\d{1,5}D)?(?:T(?=.)(?:\d{1,6}H)?(?:\d{1,7}M)?(?:\d{1,8}(?:\.\d{1,3})?S)?)?")
_FRACTION = re.compile(r"[1-9]\d{0,8}(?:/[1-9]\d{0,8})?")
# Fields that are never empty, by the list in which they stand.
_NAMED = {"ingredients": "name", "actions": "verb", "questions": "text", "portions": "of", "leftovers": "of"}
_TIMES = ("active", "waiting", "preparation", "cooking", "total")
_NO_UNITS = frozenset({"yield"})
# What belongs in a field, as README.md has it.
_RIGHT = {
    "amount": '{"low": 2, "high": 2, "unit": "teaspoon"}, or null where none was said',
    "size": '{"low": 14, "high": 14, "unit": "ounce"}',
    "yield": '{"low": 4, "high": 6, "unit": "servings"}, or null',
    "batch": '{"factor": 2}, or null',
    "said": 'a list of {"cue": 12, "start": 48.0, "end": 53.5, "text": "the words"}',
    "heat": '{"kind": "oven", "low": 180, "high": 180, "unit": "degC"}, or null',
    "duration": '{"low": 25, "high": 30, "unit": "minute"}, or null',
    "fraction": 'a number such as 0.5, or "rest", "some" or "all"',
}
_KINDS = {
    "finite": "a number such as 2 or 0.5",
    "float": "a number such as 2 or 0.5",
    "int": "a whole number",
    "string": "words in quotation marks",
    "bool": "true or false",
    "list": "a list in square brackets",
    "model": "an object in curly brackets",
    "dict": "an object in curly brackets",
    "dataclass": "an object in curly brackets",
}


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing that is wrong: the way to it through the file, what it is, and what to do."""

    way: tuple[Step, ...]
    problem: str
    remedy: str


def depth_fault(data: Any) -> bool:
    """Whether lists and objects lie deeper within one another than any draft has them."""
    level = [data]
    for _ in range(DEEPEST):
        level = [
            inner
            for outer in level
            if isinstance(outer, dict | list)
            for inner in (outer.values() if isinstance(outer, dict) else outer)
        ]
    return bool(level)


def value_faults(value: Any, way: tuple[Step, ...] = ()) -> Iterator[Fault]:
    """What is wrong with the values of a draft that has the right form."""
    if isinstance(value, dict):
        yield from _object_faults(value, way)
        for key, inner in value.items():
            yield from value_faults(inner, (*way, key))
    elif isinstance(value, list):
        for at, inner in enumerate(value):
            yield from value_faults(inner, (*way, at))
    elif isinstance(value, str):
        if _HALF_PAIR.search(value):
            yield Fault(way, "half of a character stands here", "type the word again")
    elif isinstance(value, int | float) and not (math.isfinite(value) and abs(value) <= MOST):
        yield Fault(way, f"{_shown(value)} is no figure of a recipe", f"write a number up to {MOST:.0e}")


def _object_faults(value: dict[str, Any], way: tuple[Step, ...]) -> Iterator[Fault]:
    low, high = value.get("low"), value.get("high")
    if _is_number(low) and _is_number(high) and low > high:
        problem = f'"low" is {_shown(low)} and "high" is {_shown(high)}'
        yield Fault(
            (*way, "low"),
            problem,
            "write the smaller figure into low, or the same into both for a single one",
        )
    if _is_number(low) and low < 0 and way and way[-1] in {"amount", "size", "yield", "duration"}:
        yield Fault((*way, "low"), f"{_shown(low)} is less than nothing", "write a number of 0 or more")
    owner = way[-2] if len(way) > 1 and isinstance(way[-1], int) else ""
    named = _NAMED.get(str(owner), "")
    if named and isinstance(value.get(named), str) and not value[named].strip():
        yield Fault((*way, named), f'"{named}" is empty', "write what it is, or take the whole entry out")
    if way and way[-1] == "times":
        yield from (
            Fault((*way, key), f"{_shown(value[key])} is no duration", 'write it as ISO 8601 does: "PT1H40M"')
            for key in _TIMES
            if isinstance(value.get(key), str) and not _DURATION.fullmatch(value[key])
        )
    if way and way[-1] == "scaling" and not _FRACTION.fullmatch(str(value.get("by"))):
        yield Fault((*way, "by"), f"{_shown(value.get('by'))} is no factor", 'write a fraction: "2" or "3/2"')
    if way and way[-1] == "batch" and _is_number(value.get("factor")) and value["factor"] <= 0:
        yield Fault(
            (*way, "factor"), "a batch is more than nothing", "write 2 for a double batch, 0.5 for a half"
        )
    meant = _units().get(str(value.get("unit")))
    if meant and _is_number(low) and way and way[-1] not in _NO_UNITS:
        yield Fault((*way, "unit"), f"{_shown(value['unit'])} is not written so here", f'write "{meant}"')


@cache
def _units() -> dict[str, str]:
    """The unit that another spelling stands for: "gram" for "g"."""
    rows = read_lexicon("units", columns=("form", "unit", "kind", "times", "note"))
    names = {row["unit"] for row in rows}
    return {row["form"]: row["unit"] for row in rows if row["form"] not in names and row["unit"] != "-"}


def form_fault(error: ValidationError, data: Any) -> Fault:
    """The first thing that is wrong with the form of a draft."""
    first = error.errors(include_url=False, include_context=False)[0]
    way = _way_through(data, first["loc"])
    field = str(next((step for step in reversed(way) if isinstance(step, str)), "the draft"))
    if first["type"] == "missing":
        wanted = str(first["loc"][-1])
        right = _RIGHT.get(wanted, "")
        return Fault(way, f'"{wanted}" is missing', f"write {right}" if right else f'add "{wanted}"')
    kind = first["type"].partition("_")[0]
    special = (
        _RIGHT.get(field) if kind in {"model", "list", "literal", "dict"} or field == "fraction" else None
    )
    right = special or _KINDS.get(kind) or first["msg"][:1].lower() + first["msg"][1:]
    found = _at(data, way)
    return Fault(way, f'"{field}" holds {_shown(found)}', f"write {right}")


def _way_through(data: Any, loc: Sequence[Step]) -> tuple[Step, ...]:
    """The part of a way that the file has; names of alternatives that the checker adds are left out."""
    way: list[Step] = []
    for step in loc:
        keyed = isinstance(data, dict) and step in data
        if keyed or (isinstance(data, list) and isinstance(step, int) and step < len(data)):
            data = data[step]
        else:
            break
        way.append(step)
    return tuple(way)


def _at(data: Any, way: Sequence[Step]) -> Any:
    for step in way:
        data = data[step]
    return data


def _shown(value: Any) -> str:
    text = json.dumps(value, ensure_ascii=True)
    return text if len(text) <= _LONGEST else f"{text[: _LONGEST - 3]}..."


def _is_number(value: Any) -> TypeGuard[float]:
    return isinstance(value, int | float) and not isinstance(value, bool)


def place_words(data: Any, way: Sequence[Step]) -> str:
    """Where a fault lies, in words and as the way to it: 'dish "Fish Pie", cumin, dishes[0]...amount.low'."""
    told = []
    for at, step in enumerate(way):
        here = _at(data, way[: at + 1])
        if isinstance(step, int) and isinstance(here, dict):
            told += _entry_words(str(way[at - 1]) if at else "", here, step)
    return ", ".join([*told, path_words(way)])


def _entry_words(owner: str, entry: dict[str, Any], number: int) -> list[str]:
    """The words for one entry of a list: a dish by its title, a line by its food, the rest by their number."""
    name = entry.get("title") if owner == "dishes" else entry.get("name")
    if isinstance(name, str) and name.strip():
        shown = _HALF_PAIR.sub("\ufffd", name)
        return [f'dish "{shown}"' if owner == "dishes" else shown]
    kinds = {"dishes": "dish", "method": "step", "questions": "question", "ingredients": "ingredient line"}
    return [f"{kinds[owner]} {number + 1}"] if owner in kinds else []


def path_words(way: Sequence[Step]) -> str:
    """The way to a field as programs write it: ``dishes[0].components[1].ingredients[4].amount.low``."""
    place = ""
    for step in way:
        place += f"[{step}]" if isinstance(step, int) else f".{step}" if place else step
    return place or "the draft"


def line_of(text: str, way: Sequence[Step]) -> int | None:
    """The 1-based line of ``text``, whole JSON, on which the value at the end of a way begins."""
    decoder = json.JSONDecoder()
    at = _past_blanks(text, 0)
    try:
        for step in way:
            at = _into(text, at, step, decoder)
    except (ValueError, IndexError, RecursionError):
        return None
    return text.count("\n", 0, at) + 1


def _into(text: str, at: int, step: Step, decoder: json.JSONDecoder) -> int:
    """Where the value under a key, or at a place of a list, begins. Of a key given twice the last counts."""
    at = _past_blanks(text, at + 1)
    found, number = None, 0
    while text[at] not in "]}":
        key: Step = number
        if isinstance(step, str):
            key, at = decoder.raw_decode(text, at)
            at = _past_blanks(text, text.index(":", at) + 1)
        if key == step:
            found = at
            if isinstance(step, int):
                break
        at = _past_blanks(text, decoder.raw_decode(text, at)[1])
        at = _past_blanks(text, at + 1) if text[at] == "," else at
        number += 1
    if found is None:
        raise IndexError(step)
    return found


def _past_blanks(text: str, at: int) -> int:
    while at < len(text) and text[at] in " \t\r\n":
        at += 1
    return at
