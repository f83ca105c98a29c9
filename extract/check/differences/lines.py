"""What differs between said and written ingredient lines."""

from __future__ import annotations

from collections.abc import Iterator

from extract.check.differences.telling import place_of, plain_name, texts_of
from extract.check.differences.unpaired import said_only, written_only
from extract.check.pairs.converted import is_by_feel
from extract.check.pairs.dishes import Sides
from extract.check.pairs.foods import Names, identity, is_narrower, is_wider
from extract.check.pairs.measures import compare, total
from extract.check.pairs.pairing import Line, Pair, Pairing, amounts_of_both, is_named_loosely
from extract.check.report import Finding, Kind, Weight
from extract.check.words import amount_text
from extract.check.written.lines.units import LENGTHS
from extract.model import Amount, Ingredient
from extract.spot.names.foods import name_keys
from extract.spot.names.identity import opposed, sameness


def line_findings(sides: Sides, pairing: Pairing) -> Iterator[Finding]:
    """Differences and agreements of all lines: amounts, units, what only one side has, choices, optionals."""
    for pair in pairing.pairs:
        yield from _foods(sides, pair)
        yield from _amounts(pair)
        yield from _choices(sides, pair)
        yield from _optional(pair)
    for line in pairing.said_only:
        yield said_only(sides, pairing, line)
    for line in pairing.written_only:
        yield written_only(sides, pairing, line)


def _sum_of(lines: list[Line]) -> Amount | None:
    amounts = [line.ingredient.amount for line in lines if line.ingredient.amount]
    return amounts[0] if len(amounts) == 1 else total(amounts)


def _foods(sides: Sides, pair: Pair) -> Iterator[Finding]:
    """Another food, or another sort of it, written in the place of the one said: missing here, extra there."""
    said, written = pair.said[0].names, pair.written[0].names
    found = identity(said, written)
    if found == "same" or is_named_loosely(pair.said[0], pair.written[0]):
        return
    if pair.summed and len(pair.said) > 1 and " and " in written.main:
        return  # "pork and beef", said one by one
    if found == "sort" and is_narrower(said, written) and sides.was_heard(written.main):
        return  # named so elsewhere in the dish
    place = place_of(pair.said[0], pair.written[0])
    weight: Weight = "worth a look" if found == "sort" or not _is_stated(pair) else "changes the dish"
    if found == "sort" and _is_one_said_fully(said, written) and not _is_measured(pair):
        weight = "wording"  # "rice" and "jasmine rice", to serve
    texts = texts_of(pair)
    if any(sameness(name, written.main) == "same" for name in said.instead):
        yield place.differ(
            "alternative", said.main, (f"{said.main} or {written.main}", texts[1]), "worth a look"
        )
        return
    kept = any(sameness(said.main, name) == "same" for name in written.instead)
    if not kept and not (found == "sort" and is_narrower(said, written)):
        yield place.differ("missing", said.main, (texts[0], ""), weight)
    if not (found == "sort" and is_wider(said, written)):
        yield place.differ("extra", written.main, ("", texts[1]), weight)


def _is_one_said_fully(said: Names, written: Names) -> bool:
    """Whether one side's name only has more words than the other's."""
    return is_narrower(said, written) or is_wider(said, written)


def _is_measured(pair: Pair) -> bool:
    return any(line.ingredient.amount for line in (*pair.said, *pair.written))


def _is_stated(pair: Pair) -> bool:
    """Whether either side gives an amount of a food that may not be left out."""
    lines = [line.ingredient for line in (*pair.said, *pair.written)]
    return any(line.amount for line in lines) and not all(line.optional for line in lines)


def _amounts(pair: Pair) -> Iterator[Finding]:
    about, place = plain_name(pair.said[0].names.main), place_of(pair.said[0], pair.written[0])
    one, other = _sum_of(pair.said), _sum_of(pair.written)
    if pair.summed:
        yield place.agree(about, texts_of(pair), "lines merged or split with the same sum")
    elif one is None and other is None:
        if identity(pair.said[0].names, pair.written[0].names) == "same":
            yield place.agree(about, texts_of(pair), "neither gives an amount")
    else:
        yield from _figures(pair, one, other)


def _figures(pair: Pair, one: Amount | None, other: Amount | None) -> Iterator[Finding]:
    """Two amounts, one of which may be lacking."""
    about, place = plain_name(pair.said[0].names.main), place_of(pair.said[0], pair.written[0])
    amounts = (amount_text(one), amount_text(other))
    if one is None or other is None:
        told = any(amount is not None and _is_telling(amount) for amount in (one, other))
        yield place.differ("amount", about, amounts, "worth a look" if told else "wording")
        return
    alone = len(pair.said) == len(pair.written) == 1
    verdict = amounts_of_both(pair.said[0], pair.written[0], about) if alone else None
    verdict = verdict or compare(one, other, about)
    if verdict.answer == "unknown":
        yield place.differ("unit", about, amounts, "wording")
    elif not verdict.same:
        kind: Kind = "unit" if verdict.answer == "unit" else "amount"
        yield place.differ(kind, about, amounts, _weight_of_amount(one, other, pair.said[0].ingredient))
    elif identity(pair.said[0].names, pair.written[0].names) == "same":
        yield place.agree(about, texts_of(pair), verdict.why)


def _is_telling(amount: Amount) -> bool:
    """Whether an amount says how much to buy or measure: no pinch, and not how deep the oil stands in the pan."""
    return not is_by_feel(amount) and (amount.unit not in LENGTHS or amount.size is not None)


def _weight_of_amount(said: Amount, written: Amount, line: Ingredient) -> Weight:
    """A range written for a figure within it is wording; what no spoon measures is small."""
    if said.unit == written.unit and said.low == said.high and written.low <= said.low <= written.high:
        return "wording"
    if is_by_feel(said) and is_by_feel(written):
        return "wording"
    if is_by_feel(said) or is_by_feel(written) or line.optional:
        return "worth a look"
    return "changes the dish"


def _choices(sides: Sides, pair: Pair) -> Iterator[Finding]:
    """What may take a food's place, dropped or added."""
    about, place = pair.said[0].names.main, place_of(pair.said[0], pair.written[0])
    said = [name for line in pair.said for name in (line.names.main, *line.names.instead)]
    written = [
        name for line in pair.written for name in (line.names.main, *line.names.instead, *line.names.also)
    ]
    dropped = []
    for name in dict.fromkeys(said):
        if name in {line.names.main for line in pair.said}:
            continue
        excluded = _is_excluded(name, pair.written) and not sides.written_holds(name)
        if _is_kept(sides, name, written) and not excluded:
            yield place.agree(about, (f"or {name}", f"or {name}"), "the choice is kept")
        else:
            dropped.append(name)
    if dropped and identity(pair.said[0].names, pair.written[0].names) in ("same", "sort"):
        texts = (" or ".join((about, *dropped)), written[0])
        yield place.differ("alternative", ", ".join(dropped), texts, "worth a look")
    for line in pair.written:
        for name in line.names.instead:
            if not _is_among(name, said) and not sides.was_heard(name):
                texts = (about, f"{line.names.main} or {name}")
                yield place.differ("alternative", name, texts, "wording")


def _is_excluded(name: str, written: list[Line]) -> bool:
    """Whether the lines give no choice, and their only food says the opposite: "fresh yeast" where dry would do."""
    alone = not any(line.names.instead or line.names.also for line in written)
    return alone and any(opposed(name, line.names.beside) for line in written)


def _is_kept(sides: Sides, name: str, written: list[str]) -> bool:
    """Whether a food that may take another's place is written as a choice.

    Where the dish needs that food anyway, its being written elsewhere is no choice.
    """
    needed = any(sameness(name, line.name) == "same" for line in sides.said_lines)
    return _is_among(name, written) or (not needed and sides.written_holds(name))


def _is_among(name: str, others: list[str]) -> bool:
    """Whether a food is one of several, perhaps under a shorter name: "butterflied leg" of lamb."""
    keys = set(name_keys(name))
    return any(sameness(name, other) == "same" or set(name_keys(other)) < keys for other in others)


def _optional(pair: Pair) -> Iterator[Finding]:
    said = all(line.ingredient.optional for line in pair.said)
    written = all(line.ingredient.optional for line in pair.written)
    if said != written:
        texts = ("optional" if said else "not optional", "optional" if written else "not optional")
        place = place_of(pair.said[0], pair.written[0])
        yield place.differ("optional", pair.said[0].names.main, texts, "worth a look" if said else "wording")
