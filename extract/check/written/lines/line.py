"""Reading one ingredient line of a written recipe into the foods it asks for."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from extract.check.written.lines.amounts import Quantity, Sized, read_quantity
from extract.check.written.lines.apart import Line, take_apart
from extract.check.written.lines.clean import clean_line
from extract.check.written.lines.naming import Named, name_food, split_foods
from extract.check.written.lines.tokens import joined, tokens_of
from extract.check.written.lines.units import LENGTHS, MEASURED
from extract.check.written.lines.words import words_of
from extract.model import Amount, Ingredient, Size, Written
from extract.spot.names.foods import kinds_of, look_up, name_keys


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
        listed = depth == 0 and token in (",", ";") and _has_figure(parts[-1])
        if listed and tokens[index + 1 :] and _begins_count(tokens[index + 1 :]):
            parts.append([])
            continue
        joint = depth == 0 and token.lower() in words_of("further")
        if joint and _has_food(parts[-1]) and _begins_food(tokens[index + 1 :], remark="," in parts[-1]):
            parts.append([])
        else:
            parts[-1].append(token)
    if parts[1:] and "," not in parts[0] and parts[0][0].isalpha() and read_quantity(parts[0]) is None:
        start = next((at for at, token in enumerate(parts[0]) if token[0].isdigit()), 0)
        parts[0] = parts[0][start:]  # "whole spices 1 cinnamon stick, 4 cloves"
    return parts[0], parts[1:]


def _has_figure(tokens: Sequence[str]) -> bool:
    return any(token[0].isdigit() for token in tokens)


def _begins_count(tokens: list[str]) -> bool:
    """Whether words in a list are a figure and a known food, another than a part of one: "4 cloves"."""
    quantity = read_quantity(tokens)
    if quantity is None or not tokens[0][0].isdigit() or quantity.unit in LENGTHS:
        return False
    behind = tokens[quantity.end :]
    end = next((at for at, token in enumerate(behind) if token in (",", ";", "(")), len(behind))
    food = behind[:end] or [tokens[quantity.end - 1]]
    return food[-1].lower() not in words_of("part") and look_up(name_keys(joined(food))) is not None


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
    own = bool(named) and named[0].name.split()[0].lower() not in words_of("of that")
    return own and bool(kinds_of(named[0].name))


def _is_more(tokens: Sequence[str]) -> bool:
    """Whether the words behind an amount name no further food: "1 tbsp more", "1 tbsp to finish", "1 tbsp"."""
    return not tokens or tokens[0].lower() in words_of("more") | {"to", "for"}


def _further(tokens: list[str], found: list[Ingredient]) -> list[Ingredient]:
    """A further food of a line; "1 tbsp more to finish" is one of the line's own."""
    line = take_apart(tokens)
    if not line.core and (alone := _unit_alone(line, tokens)):
        return alone
    if _is_more(line.core) and found:
        line = replace(line, core=tokens_of(found[0].name))
    return [_ingredient(line, named) for named in _foods(line)]


def _unit_alone(line: Line, tokens: Sequence[str]) -> list[Ingredient]:
    """ "4 whole cloves": what reads as a unit is the food itself where nothing else is named."""
    if line.quantity is None or line.quantity.unit in MEASURED or not line.quantity.unit:
        return []
    name = tokens[line.quantity.end - 1]
    if not name.isalpha():
        return []
    return [Ingredient(name=name, amount=amount_of(line.quantity, ""))]


def _has_food(tokens: Sequence[str]) -> bool:
    quantity = read_quantity(tokens)
    return any(token[0].isalpha() for token in tokens[quantity.end if quantity else 0 :])


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


def _amount(sized: Sized) -> Amount:
    return Amount(low=float(sized[0]), high=float(sized[1]), unit=sized[2])
