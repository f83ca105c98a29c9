"""An amount that begins with a number or an article: measures, sized packages, counts."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from extract.spot.amounts_context import (
    TABLE,
    counts_something,
    is_amount_figure,
    is_container,
    is_length_of_food,
    is_many,
    is_share,
    is_tool,
    is_year,
)
from extract.spot.numbers import ARTICLES, is_pronoun, read_number, read_value
from extract.spot.spans import Amount, Number
from extract.spot.units import Unit, glued_unit, read_unit
from extract.spot.words import Words, phrases

MEASURES = frozenset({"volume", "mass"})
PIECES = frozenset({"package", "part"})
AFTER_FOOD = frozenset({"clove", "stalk", "stick", "sprig", "slice", "rib", "cube"})
SIZES = frozenset({"size", "sized"})
AFTER_REACH = 5
ONE = Fraction(1)
Size = tuple[Fraction, Fraction, str]


@dataclass(frozen=True, slots=True)
class Lead:
    """What stands before the unit: figures, the place after them and the marks they carry."""

    start: int
    end: int
    low: Fraction
    high: Fraction
    approximate: bool = False
    more: bool = False
    article: bool = False

    def amount(self, end: int, unit: str = "", *, times: int = 1, size: Size | None = None) -> Amount:
        """The amount of these figures in ``unit``, ending before token ``end``."""
        low, high = self.low * times, self.high * times
        return Amount(self.start, end, low, high, unit, self.approximate, size, more=self.more)


def read_measure(words: Words, place: int) -> Amount | None:
    """The amount whose number or article stands at ``place``, or None."""
    number = read_number(words, place)
    if number is not None:
        return _from_number(words, number)
    if words.at(place) in ARTICLES:
        lead = Lead(place, place + 1, ONE, ONE, approximate=_is_about(words, place), article=True)
        return _from_article(words, lead)
    if words.at(place) == "another":
        return _another(words, place)
    return None


def _is_about(words: Words, place: int) -> bool:
    return phrases(TABLE, "about").ends_at(words, place) < place


def _from_number(words: Words, number: Number) -> Amount | None:
    if not is_amount_figure(words, number):
        return None
    lead = Lead(number.start, number.end, number.low, number.high, number.approximate)
    if (unit := glued_unit(words, number.end - 1)) is not None:
        return _measured(words, replace(lead, end=unit.end), unit)
    found = _with_unit(words, lead)
    if found is not None:
        return found
    if is_share(words, number) or is_pronoun(words, number) or is_year(number):
        return None
    if not is_many(words, number, number.end):
        return None
    return _counted(words, lead)


def _another(words: Words, place: int) -> Amount | None:
    """ "another tablespoon", "another two cups", "another egg"."""
    number = read_number(words, place + 1)
    if number is not None:
        found = _with_unit(words, Lead(place, number.end, number.low, number.high, number.approximate))
    else:
        found = _with_unit(words, Lead(place, place + 1, ONE, ONE, _is_about(words, place)))
    if found is None and number is None:
        found = _counted(words, Lead(place, place + 1, ONE, ONE))
    return replace(found, more=True) if found is not None else None


def _from_article(words: Words, lead: Lead) -> Amount | None:
    number = read_number(words, words.skip_dash(lead.end))
    if number is not None:
        if read_number(words, lead.start) is None and (sized := _sized(words, lead, number)) is not None:
            return sized
        return None
    found = _with_unit(words, lead)
    if found is not None:
        return found
    if read_unit(words, lead.end) is not None or _is_comparison(words, lead.start):
        return None
    if phrases(TABLE, "vague").match(words, lead.start):
        return None
    return _counted(words, lead)


def _is_comparison(words: Words, place: int) -> bool:
    """ "such a", "looks like an", "as a": the thing named is no food put in."""
    before = words.at(place - 1)
    if before == "like":
        return (
            words.doc[place - 2].lemma_ in ("look", "taste", "smell", "feel", "sound", "be")
            if place > 1
            else True
        )
    return before in ("such", "what", "quite", "as", "than", "per")


def _with_unit(words: Words, lead: Lead) -> Amount | None:
    """The lead with its unit: "two heaped tablespoons", "half a cup", "two 400-gram tins"."""
    place, more = _skip_more(words, lead.end)
    lead = replace(lead, more=more)
    number = read_number(words, words.skip_dash(place))
    if number is not None and lead.low == lead.high and (sized := _sized(words, lead, number)) is not None:
        return sized
    place = _skip_of(words, lead, place)
    digits = words.at(place - 1)[-1:].isdigit()
    place = words.skip_dash(place)
    unit = read_unit(words, place, after_figures=digits)
    if unit is None:
        place = skip_sizes(words, place)
        unit = read_unit(words, place) or _unit_after_praise(words, place)
    if unit is None or unit.kind in ("time", "temperature") or _is_modal(words, lead, unit):
        return None
    if (unit.kind == "loose" and words.at(unit.end) != "of") or words.at(words.skip_dash(unit.end)) in SIZES:
        return None
    if lead.article and is_container(words, lead.start, unit):
        return None
    if is_tool(words, lead.start, unit) and (lead.article or lead.low == ONE):
        return None
    return _measured(words, lead, unit)


def _unit_after_praise(words: Words, place: int) -> Unit | None:
    """The unit of "a beautiful knob of butter": after one or two words that no list foresees."""
    for after in (place + 1, place + 2):
        if not counts_something(words, after - 1) or words.doc[after - 1].pos_ not in ("ADJ", "ADV", "VERB"):
            return None
        unit = read_unit(words, after)
        if unit is not None and words.at(unit.end) == "of":
            return unit
    return None


def _is_modal(words: Words, lead: Lead, unit: Unit) -> bool:
    """ "one can see": the verb, not the tin."""
    after = words.at(unit.end)
    if (
        words.at(unit.end - 1) != "can"
        or lead.article
        or after in ("of", ",")
        or read_number(words, unit.end)
    ):
        return False
    if after in phrases(TABLE, "about"):
        return False
    return words.doc[unit.end - 1].tag_ == "MD"


def _skip_more(words: Words, place: int) -> tuple[int, bool]:
    place += phrases(TABLE, "or so").match(words, place)
    length = phrases(TABLE, "more").match(words, place)
    return place + length, length > 0


def _skip_of(words: Words, lead: Lead, place: int) -> int:
    """Past the "of a" of "three quarters of a cup", the "a" of "half a cup", the "of" of "a couple of"."""
    if words.at(place) == "of" and (lead.high < 1 or words.at(place - 1) in ("couple", "dozen")):
        if words.at(place + 1) in ARTICLES:
            return place + 2
        return place + 1 if lead.high >= 1 or read_unit(words, place + 1) else place
    if lead.high < 2 and words.at(place) in ARTICLES and words.at(place - 1) not in ARTICLES:
        return place + 1
    if lead.high < 1 and words.at(words.skip_dash(place)) in ARTICLES:
        return words.skip_dash(place) + 1
    if lead.high < 1 and words.at(place) == "the" and words.at(place + 1) == "force":
        return place + 1
    return place


def skip_sizes(words: Words, place: int) -> int:
    """The place after any size words ("two large eggs") and the commas that split them."""
    sizes = phrases(TABLE, "size")
    while length := sizes.match(words, place):
        place = words.skip_dash(place + length)
    return place


def _sized(words: Words, lead: Lead, number: Number) -> Amount | None:
    """ "two 400-gram tins", "a 14 ounce can", "a two-inch piece"."""
    after = words.skip_dash(number.end)
    inner = glued_unit(words, number.end - 1) or read_unit(words, after, after_figures=True)
    if inner is None or inner.kind not in (*MEASURES, "length"):
        return None
    outer_at = skip_sizes(words, words.skip_dash(inner.end))
    outer = read_unit(words, outer_at)
    if outer is None or outer.kind not in PIECES:
        return None
    if inner.kind == "length":
        if outer.kind == "part" and (words.at(outer.end) == "of" or outer.singular):
            return Amount(lead.start, outer.end, number.low, number.high, inner.name, lead.approximate)
        return None
    size = (number.low * inner.times, number.high * inner.times, inner.name)
    return lead.amount(outer.end, outer.name, size=size)


def _measured(words: Words, lead: Lead, unit: Unit) -> Amount | None:
    if unit.kind == "length":
        return _length(words, lead, unit)
    if unit.kind in MEASURES and (sized := _size_alone(words, lead, unit)) is not None:
        return sized
    lead, end = _half_after(words, lead, unit)
    lead, end = _range_after(words, lead, unit, end)
    approximate = lead.approximate or _is_or_so(words, end)
    found = replace(lead.amount(end, unit.name, times=unit.times), approximate=approximate)
    found = _shared(words, found)
    return _sized_after(words, found) if unit.kind == "package" else found


def _sized_after(words: Words, found: Amount) -> Amount:
    """ "one can, about 15 ounces, of beans": the size directly after the package."""
    place = words.skip_break(found.end)
    while length := phrases(TABLE, "about").match(words, place):
        place += length
    number = read_number(words, place)
    if number is None:
        return found
    unit = glued_unit(words, number.end - 1) or read_unit(
        words, words.skip_dash(number.end), after_figures=True
    )
    if unit is None or unit.kind not in MEASURES:
        return found
    size = (number.low * unit.times, number.high * unit.times, unit.name)
    return replace(found, end=unit.end, size=size)


def _length(words: Words, lead: Lead, unit: Unit) -> Amount | None:
    """A length of a food: "two inches of", "three inch piece of"."""
    if unit.name not in ("inch", "centimetre", "millimetre"):
        return None
    piece = read_unit(words, skip_sizes(words, words.skip_dash(unit.end)))
    if piece is not None and piece.name in ("piece", "stick", "knob") and piece.singular:
        if words.at(lead.start - 1) in ("into", "in"):
            return None
        return lead.amount(piece.end, unit.name)
    return lead.amount(unit.end, unit.name) if is_length_of_food(words, unit) else None


def _size_alone(words: Words, lead: Lead, unit: Unit) -> Amount | None:
    """ "14 ounce can of": one package, its size before it."""
    outer = read_unit(words, words.skip_dash(unit.end))
    if outer is None or outer.kind != "package" or lead.article or not unit.singular:
        return None
    size = (lead.low * unit.times, lead.high * unit.times, unit.name)
    return Amount(lead.start, outer.end, ONE, ONE, outer.name, lead.approximate, size)


def _half_after(words: Words, lead: Lead, unit: Unit) -> tuple[Lead, int]:
    """ "a cup and a half", "a pound and a quarter"."""
    end = unit.end
    if words.at(end) not in ("and", "&", "an") or lead.low.denominator > 1:
        return lead, end
    part = read_value(words, end + 1)
    if part is None or part[0] >= 1 or words.at(part[1]) in ARTICLES or words.at(part[1]) == "of":
        after_of = (
            part is not None
            and part[0] < 1
            and words.at(part[1]) == "of"
            and words.at(part[1] + 1) not in ARTICLES
        )
        if not after_of:
            return lead, end
    assert part is not None
    if read_unit(words, words.skip_dash(part[1])) is not None:
        return lead, end
    return replace(lead, low=lead.low + part[0], high=lead.high + part[0]), part[1]


def _range_after(words: Words, lead: Lead, unit: Unit, end: int) -> tuple[Lead, int]:
    """ "a teaspoon or two", "half a cup to a cup", "a tablespoon to a tablespoon and a half"."""
    if lead.low != lead.high or words.at(end) not in ("to", "or"):
        return lead, end
    number = read_number(words, end + 1)
    if number is not None:
        low, after = number.high, number.end
        if words.at(end) == "or" and read_unit(words, words.skip_dash(after)) is None:
            return (replace(lead, high=low), after) if low > lead.low else (lead, end)
    else:
        low, after = ONE, end + 1 + (words.at(end + 1) in ARTICLES)
    after = _skip_of(words, Lead(end, after, low, low), after)
    second = read_unit(words, words.skip_dash(after))
    if second is None or second.name != unit.name:
        return lead, end
    upper, last = _half_after(words, Lead(end, after, low, low), second)
    return (replace(lead, high=upper.high), last) if upper.high > lead.low else (lead, end)


def _is_or_so(words: Words, end: int) -> bool:
    return phrases(TABLE, "or so").match(words, words.skip_break(end)) > 0


def _shared(words: Words, found: Amount) -> Amount:
    """ "a teaspoon each of", "half a teaspoon of both", "a tablespoon of each"."""
    shared = phrases(TABLE, "shared")
    place = words.skip_break(found.end)
    if words.at(place) in shared:
        return replace(found, end=place + 1, each=True)
    if words.at(found.end) == "of" and words.at(found.end + 1) in shared:
        return replace(found, end=found.end + 2, each=True)
    return found


def _counted(words: Words, lead: Lead) -> Amount | None:
    """A number before a thing: "two large eggs", "half an onion", "three of them"."""
    place, more = _skip_more(words, lead.end)
    lead = replace(lead, more=more)
    if words.at(place) == "of":
        if words.at(place + 1) in ("them", "those", "these") and lead.low > ONE:
            return lead.amount(place)
        if words.at(place - 1) not in ("couple", "dozen", "pair") and lead.high >= 1:
            return None
    place = _skip_of(words, lead, place)
    place += words.at(place) == "of" and words.at(place - 1) in ("couple", "dozen", "pair")
    end = skip_sizes(words, place)
    if not counts_something(words, end):
        return None
    return _shared(words, lead.amount(end, _unit_after_food(words, end)))


def _unit_after_food(words: Words, place: int) -> str:
    """The unit of "two celery stalks", "three garlic cloves"; "" where the thing itself is counted."""
    for after in range(place + 1, place + AFTER_REACH):
        if not words.at(after)[:1].isalpha() or words.at(after) in phrases(TABLE, "uncounted"):
            return ""
        unit = read_unit(words, after)
        if unit is not None:
            return unit.name if unit.name in AFTER_FOOD and words.at(after - 1) != "non" else ""
    return ""
