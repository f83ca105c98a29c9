"""An amount that begins with a number or an article: measures, sized packages, counts."""

from __future__ import annotations

from dataclasses import replace

from extract.spot.amounts.context import (
    TABLE,
    counts_something,
    is_amount_figure,
    is_container,
    is_many,
    is_share,
    is_tool,
    is_year,
)
from extract.spot.amounts.lead import ONE, Lead, skip_more, skip_of, skip_sizes
from extract.spot.amounts.ranges import half_after, is_or_so, range_after, shared_by
from extract.spot.amounts.sizes import (
    MEASURES,
    length_of_food,
    piece_by_length,
    size_alone,
    sized,
    sized_after,
)
from extract.spot.numbers.find import is_pronoun, read_number
from extract.spot.numbers.units import Unit, glued_unit, read_unit
from extract.spot.numbers.values import ARTICLES
from extract.spot.spans import Amount, Number
from extract.spot.words import Words, phrases

AFTER_FOOD = frozenset({"clove", "stalk", "stick", "sprig", "slice", "rib", "cube"})
SIZES = frozenset({"size", "sized"})
AFTER_REACH = 5


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
        if read_number(words, lead.start) is None and (package := sized(words, lead, number)) is not None:
            return package
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
    """The lead with its unit: "two heaped tablespoons", "half a cup", "three 300-gram tins"."""
    place, more = skip_more(words, lead.end)
    lead = replace(lead, more=more)
    number = read_number(words, words.skip_dash(place))
    if number is not None and lead.low == lead.high and (package := sized(words, lead, number)) is not None:
        return package
    place = skip_of(words, lead, place)
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


def _measured(words: Words, lead: Lead, unit: Unit) -> Amount | None:
    if unit.kind == "length":
        return length_of_food(words, lead, unit)
    if unit.kind in MEASURES and (package := size_alone(words, lead, unit)) is not None:
        return package
    lead, end = half_after(words, lead, unit)
    lead, end = range_after(words, lead, unit, end)
    approximate = lead.approximate or is_or_so(words, end)
    found = replace(lead.amount(end, unit.name, times=unit.times), approximate=approximate)
    found = shared_by(words, found)
    if unit.name == "piece" and found.low == ONE == found.high and words.at(found.end) == "of":
        return piece_by_length(words, found)
    return sized_after(words, found) if unit.kind == "package" else found


def _counted(words: Words, lead: Lead) -> Amount | None:
    """A number before a thing: "two large eggs", "half an onion", "three of them"."""
    place, more = skip_more(words, lead.end)
    lead = replace(lead, more=more)
    if words.at(place) == "of":
        if words.at(place + 1) in ("them", "those", "these") and lead.low > ONE:
            return lead.amount(place)
        if words.at(place - 1) not in ("couple", "dozen", "pair") and lead.high >= 1:
            return None
    place = skip_of(words, lead, place)
    place += words.at(place) == "of" and words.at(place - 1) in ("couple", "dozen", "pair")
    end = skip_sizes(words, place)
    if not counts_something(words, end):
        return None
    return shared_by(words, lead.amount(end, _unit_after_food(words, end)))


def _unit_after_food(words: Words, place: int) -> str:
    """The unit of "two celery stalks", "three garlic cloves"; "" where the thing itself is counted."""
    for after in range(place + 1, place + AFTER_REACH):
        if not words.at(after)[:1].isalpha() or words.at(after) in phrases(TABLE, "uncounted"):
            return ""
        unit = read_unit(words, after)
        if unit is not None:
            return unit.name if unit.name in AFTER_FOOD and words.at(after - 1) != "non" else ""
    return ""
