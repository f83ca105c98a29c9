"""Making the published recipe of a draft's dish: what the writers print, worded once."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby
from pathlib import PurePath
from typing import TYPE_CHECKING

from extract.draft.method.arrange import AHEAD
from extract.draft.method.phrases.grammar import proper_name
from extract.errors import CardwrightError
from extract.measure.kitchen import measure_notes, print_amount
from extract.measure.system import settle
from extract.publish.both_measures import other_measure, said_measure
from extract.publish.cleaning import clean
from extract.publish.notices import cautions_of, diets_of, notices_of, open_questions
from extract.publish.recipe import Line, Part, Recipe, Section, Share, Step, Time
from extract.publish.stages import COOKING, is_timed_exactly
from extract.publish.wording import is_kept_back, word
from extract.publish.words import PEOPLE, capital, iso_words, share_words, yield_count
from extract.safety.allergens import NOTE, allergen_lines

if TYPE_CHECKING:
    from extract import model
    from extract.model import Dish, Ingredient, Portion, RecipeDraft

_SIGNS = {"hour": "h", "minute": "min"}  # the symbols that the SI Brochure allows beside its own


def recipes_of(
    draft: RecipeDraft, dishes: Iterable[Dish] | None = None, *, changed: bool = False
) -> list[Recipe]:
    """The published recipes of a draft's dishes (of ``dishes``, where given), in the draft's order.

    ``changed``: the draft is no longer the one that was reviewed. Raises CardwrightError where an amount is none, a
    diet is unknown or a time is no ISO 8601 duration.
    """
    system = settle(draft).system
    found = draft.dishes if dishes is None else dishes
    return [_recipe(dish, draft, system, changed=changed) for dish in found]


def _recipe(dish: Dish, draft: RecipeDraft, system: str, *, changed: bool) -> Recipe:
    timed = draft.source.timed
    reviewed = None if changed else draft.reviewed
    parts = tuple(_parts(dish, system, timed))
    return Recipe(
        title=capital(clean(proper_name(dish.title))) or word("untitled"),
        show=clean(PurePath(draft.source.file).name.split(".")[0]),
        makes=_makes(dish),
        times=_times(dish),
        notices=tuple(map(clean, notices_of(dish, draft, changed=changed))),
        parts=parts,
        sections=tuple(_sections(dish, timed)),
        equipment=tuple(capital(clean(item)) for item in dish.equipment if clean(item)),
        notes=tuple(map(clean, _notes(dish, parts))),
        allergens=tuple(map(clean, allergen_lines(dish))),
        allergen_note=NOTE,
        cautions=tuple(capital(clean(text)) for text in cautions_of(dish, draft)),
        diets=diets_of(dish),
        questions=tuple(open_questions(dish, draft)),
        stretches=_stretches(dish) if timed else (),
        timed=timed,
        editor=clean(reviewed.by) if reviewed else "",
        reviewed=clean(reviewed.at) if reviewed else "",
    )


def _makes(dish: Dish) -> tuple[str, str] | None:
    """ "Serves" and "4–6", "Makes" and "24 pies"; None where nothing was said."""
    made = dish.yield_
    if made is None:
        return None
    return word("serves" if made.unit in PEOPLE else "makes"), clean(yield_count(made))


def _times(dish: Dish) -> dict[str, Time]:
    """The times that were told; that of cooking is no least one where every step that cooks says how long."""
    times = dish.times
    if times is None:
        return {}
    told = (("preparation", times.preparation), ("cooking", times.cooking), ("total", times.total))
    cooked = is_timed_exactly(dish, COOKING)
    return {
        kind: _time(kind, iso, times.at_least and not (kind == "cooking" and cooked))
        for kind, iso in told
        if iso and _has_length(iso)
    }


def _time(kind: str, iso: str, least: bool) -> Time:
    words = iso_words(iso)
    for unit, sign in _SIGNS.items():
        words = re.sub(rf"\b{unit}s?\b", sign, words)
    return Time(word(kind), iso, f"{word('at least')} {words}" if least else words, least)


def _has_length(iso: str) -> bool:
    """Whether a time is any; raises CardwrightError where it is no ISO 8601 duration."""
    import isodate

    try:
        isodate.parse_duration(iso)
    except (isodate.ISO8601Error, OverflowError, ValueError) as error:
        problem = f'times: "{iso}" is no ISO 8601 duration'
        raise CardwrightError(problem, remedy='as in "PT1H25M"') from error
    return any(char in "123456789" for char in iso)


def _parts(dish: Dish, system: str, timed: bool) -> Iterator[Part]:
    """The parts that have something to list; the dish's own lines, which need no heading, come first."""
    for component in sorted(dish.components, key=lambda component: bool(component.name)):
        lines = tuple(_line(line, system, timed) for line in component.ingredients if clean(line.name))
        shares = tuple(_share(portion) for portion in component.portions)
        shares += tuple(_share(portion, left=True) for portion in component.leftovers)
        if lines or shares:
            yield Part(clean(proper_name(component.name)), lines, shares)


def _line(line: Ingredient, system: str, timed: bool) -> Line:
    amount, name, aside = said_measure(line, system)
    notes = [aside, *(note for note in line.note.split(";") if not is_kept_back(note))]
    return Line(
        name=clean(proper_name(name)),
        amount=clean(amount),
        other=clean(other_measure(line, system)),
        preparation=clean(line.preparation),
        choices=tuple(clean(proper_name(other)) for other in line.alternatives if clean(other)),
        optional=line.optional,
        divided=line.divided,
        note="; ".join(filter(None, map(clean, notes))),
        start=_first(line.said) if timed else None,
    )


def _share(portion: Portion, *, left: bool = False) -> Share:
    """A share of what was made; ``left``: it leaves the show, for another day."""
    size = ""
    if portion.millilitres is not None:
        size = _about(portion.millilitres, portion.millilitres_high, "millilitre")
    elif portion.grams is not None:
        size = _about(portion.grams, portion.grams_high, "gram")
    fraction = "all" if portion.fraction == 1 else portion.fraction
    text = f"{share_words(fraction)} the {clean(proper_name(portion.of))}"
    into = [clean(portion.into), word("left over") if left else ""]
    return Share(text, size, ", ".join(filter(None, into)))


def _about(low: float, high: float | None, unit: str) -> str:
    """A worked-out volume or mass, rounded as kitchens round; "" where it comes to nothing."""
    top = low if high is None else high
    if not 0 <= low <= top < float("inf") or not round(top):
        return ""
    return f"{word('about')} {print_amount(low, top, unit, worked_out=True)}"


def _sections(dish: Dish, timed: bool) -> Iterator[Section]:
    """The steps in runs of one part; a run on the dish itself after one on a part is headed too."""
    told = [(step, clean(step.text)) for step in dish.method]
    kept = [(step, text) for step, text in told if text]
    runs = [list(run) for _, run in groupby(kept, key=lambda entry: clean(entry[0].component))]
    number = 0
    for place, run in enumerate(runs):
        part = clean(proper_name(run[0][0].component))
        name = capital(part)
        if not part and place:
            name = word("finish" if place == len(runs) - 1 else "next")
        steps = tuple(_step(step, text, number + i, timed) for i, (step, text) in enumerate(run, start=1))
        number += len(steps)
        yield Section(name, steps, part)


def _step(step: model.Step, text: str, number: int, timed: bool) -> Step:
    start = _first(step.said) if timed else None
    end = max((said.end for said in step.said), default=None) if timed else None
    notes = tuple(clean(note) for note in step.notes if clean(note) and not is_kept_back(note))
    ahead = text.startswith(AHEAD) or text.endswith(" ahead.")
    return Step(number, text, notes, start, end, ahead)


def _notes(dish: Dish, parts: Sequence[Part]) -> Iterator[str]:
    """What scaling and conversion ask a cook to think of, and what the brackets of the list hold."""
    yield from measure_notes(dish)
    if any(line.other for part in parts for line in part.lines):
        yield word("measures")


def _first(said: Iterable[model.Evidence]) -> float | None:
    """When it is first spoken of: an amount that is told or mended later belongs to that moment too."""
    return min((evidence.start for evidence in said), default=None)


def _stretches(dish: Dish) -> tuple[tuple[float, float], ...]:
    """The parts of the recording in which the dish is cooked, in order, those that have no length left out."""
    sound = [(span.start, span.end) for span in dish.stretches if 0 <= span.start < span.end]
    whole = ((dish.start, dish.end),) if 0 <= dish.start < dish.end else ()
    return tuple(sorted(sound)) or whole
