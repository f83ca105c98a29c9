"""Ingredient lines and portions of the draft, each with the words it rests on."""

from __future__ import annotations

from typing import Any

from extract.draft.method.phrases.grammar import plural
from extract.language import Speech
from extract.model import Amount, Component, Evidence, Ingredient, Portion, Size
from extract.reconcile.hearing import hearing
from extract.reconcile.kitchen import Kitchen
from extract.reconcile.lines.lines import Line
from extract.spot import spans
from extract.spot.verbs.words import words

MASS = frozenset({"ounce", "pound", "gram", "kilogram"})
BY_THE_PIECE = frozenset({"vegetable", "fruit"})


def components_of(speech: Speech, kitchen: Kitchen) -> list[Component]:
    """The parts of a dish in order of use, each with its lines and the shares taken of it."""
    components: dict[str, Component] = {}
    for line in kitchen.lines:
        part = components.setdefault(line.component, Component(name=line.component))
        part.ingredients.append(ingredient(speech, line, divided=line in kitchen.divided))
    for portion in kitchen.portions:
        name = portion.component if portion.component in components else ""
        part = components.setdefault(name, Component(name=name))
        (part.leftovers if portion.gone else part.portions).append(draft_portion(speech, portion))
    return list(components.values())


def ingredient(speech: Speech, line: Line, *, divided: bool = False) -> Ingredient:
    """One line: its amount, its preparation as said, and every mention, the one that tells the amount first.

    ``divided``: one line that is put to several uses.
    """
    foods = [u.mention.food for u in line.uses]
    vessels = _vessels(speech, line.amount)
    heard = next((f.mended for f in foods if f.mended), "")
    return Ingredient(
        name=line.name if vessels else _print_name(line),
        amount=draft_amount(line.amount),
        preparation=", ".join(dict.fromkeys(f.preparation for f in foods if f.preparation)),
        optional=line.optional,
        alternatives=line.alternatives,
        note="; ".join(
            filter(
                None,
                (
                    "divided" if divided else "",
                    f"the cook said “{vessels}”" if vessels else "",
                    _slips(speech, line.amount),
                    _source(line),
                ),
            )
        ),
        divided=divided,
        said=_said(speech, line),
        heard=heard,
        known=any(f.known for f in foods),
        counted_in=vessels,
    )


def _print_name(line: Line) -> str:
    """The name in the number that the cook used, as far as the lines tell it: "2 limes", "a pound of carrots"."""
    amount = line.amount
    counted = amount is not None and amount.low is not None and amount.unit == ""
    many = counted and amount is not None and amount.high is not None and amount.high > 1
    if many or (not counted and any(u.mention.food.plural for u in line.uses)) or _is_several(line):
        return plural(line.name)
    return line.name


def _is_several(line: Line) -> bool:
    """Whether a weight comes to two pieces or more of what is sold by the piece: "1 1/2 pounds sweet potatoes"."""
    amount = line.amount
    if amount is None or amount.low is None or amount.unit not in MASS or not line.food.kinds & BY_THE_PIECE:
        return False
    from extract.measure.units import convert_figure
    from extract.measure.weights import Weight, piece

    one = piece(line.name, "")
    whole = convert_figure(amount.low, amount.unit, "gram", system="us")
    return isinstance(one, Weight) and whole >= 2 * one.grams


def _said(speech: Speech, line: Line) -> list[Evidence]:
    """The mentions as evidence, the amount's own first, and the slips that a correction replaced."""
    telling = [u for u in line.uses if u.mention.amount is line.amount and line.amount is not None]
    others = [u for u in line.uses if u not in telling]
    said = [speech.evidence(u.mention.start, u.mention.end) for u in (*telling, *others)]
    slips = line.amount.slips if line.amount is not None else ()
    return said + [speech.evidence(slip.start, slip.end) for slip in slips]


def _vessels(speech: Speech, amount: spans.Amount | None) -> str:
    """The words of a count that is no measure: "three spoons", which nobody can measure after; "" elsewhere."""
    if amount is None or amount.unit or amount.low is None:
        return ""
    last = speech.doc[amount.end - 1].lower_
    return speech.doc[amount.start : amount.end].text.lower() if last in words("vessel counted") else ""


def _slips(speech: Speech, amount: spans.Amount | None) -> str:
    if amount is None or not amount.slips:
        return ""
    first = ", then ".join(speech.doc[s.start : s.end].text.lower() for s in amount.slips)
    return f"corrected on camera; first said: {first}"


def _source(line: Line) -> str:
    """ "The juice of those lemons": what was put in came out of foods that were spoken of before."""
    for use in line.telling:
        if use.mention.food.out_of and use.definite:
            return f"from the {use.mention.food.out_of}"
    return ""


def draft_portion(speech: Speech, portion: hearing.Portion) -> Portion:
    """A share taken, with its volume or mass where what was put in adds up."""
    share, fraction = portion.share, portion.fraction
    return Portion(
        fraction=fraction if isinstance(fraction, str) else round(float(fraction), 6),
        of=portion.of,
        into=share.into,
        said=[speech.evidence(share.start, share.end)],
        **_size(portion),
    )


def _size(portion: hearing.Portion) -> dict[str, Any]:
    """The millilitres or grams of a share, exact ones to four places; weights from tables to a tenth of a gram."""
    size, unit, places = portion.size, "grams", 4
    if size is not None:
        unit = "millilitres" if size.kind == "volume" else "grams"
    figures = size.size if size is not None else None
    if portion.entries:
        from extract.draft.weighing import share_weight

        figures, places = share_weight(portion.entries, portion.out.asked), 1
    if figures is None:
        return {}
    high = None if figures.exact else round(float(figures.high), places)
    return {unit: round(float(figures.low), places), f"{unit}_high": high}


def draft_amount(amount: spans.Amount | None) -> Amount | None:
    """The amount as the draft holds it, None where no figures were said."""
    if amount is None or amount.low is None:
        return None
    high = amount.high if amount.high is not None else amount.low
    size = None
    if amount.size is not None:
        low, top, unit = amount.size
        size = Size(low=float(low), high=float(top), unit=unit)
    return Amount(
        low=float(amount.low), high=float(high), unit=amount.unit, approximate=amount.approximate, size=size
    )
