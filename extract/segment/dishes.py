"""Cutting a show into its dishes and the talk around them."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from extract.segment.announced import announced_count
from extract.segment.cues import Sentence, cue_sentences
from extract.segment.stretch import Stretch
from extract.segment.titles import Title, name_dishes
from extract.segment.valleys import Valley, find_valleys, survey
from extract.segment.visits import find_visits
from extract.spot.spotted import Spotted

# How much must speak for a further dish: less where the show announced several.
THRESHOLD = 6.6
ANNOUNCED_THRESHOLD = 4.5
LEAST_ANEW = 1.2
LEAST_END = 0.7
LEAST_OPENER = 2.0
SETTLING_OPENER = 5.0
MINIMUM_FOODS = 4
MINIMUM_MEASURED = 3
MOST_AWAY = 0.6
# A producer works on food too, so a food worked on says less for the kitchen than a kitchen measure does.
WORKED_WEIGHT = 0.3


@dataclass(frozen=True, slots=True)
class Segments:
    """A show in order: its dishes, and the talk that is no recipe."""

    dishes: tuple[Stretch, ...]
    talk: tuple[Stretch, ...]
    sentences: tuple[Sentence, ...]
    titles: tuple[Title, ...] = ()


def segment(spotted: Spotted) -> Segments:
    """Cut the talk into dishes; visits and sign-offs become ``talk`` with the reason.

    Greetings stay with the first dish: they announce it, and foods may be listed in them.
    """
    sentences = cue_sentences(spotted.speech.doc)
    if not sentences:
        return Segments((), (), ())
    kitchen = _kitchen_weights(spotted, sentences)
    visits = _without_the_whole(sentences, find_visits(sentences, kitchen))
    visiting = {i for a, b in visits for i in range(a, b + 1)}
    usable = [i for i in range(len(sentences)) if i not in visiting]
    gone = tuple((sentences[a].start, sentences[b].end) for a, b in visits)
    bounds = _boundaries(spotted, sentences, usable, gone)
    first, last = _kitchen_ends(sentences, kitchen, usable)
    edges = [first, *[b for b in bounds if first < b <= last], last + 1]
    spans = [(sentences[a].start, sentences[b - 1].end) for a, b in pairwise(edges)]
    dishes = tuple(d for a, b in spans if (d := _trim(Stretch(a, b), gone)).start < d.end)
    talk = [Stretch(a, b, "visit") for a, b in gone]
    off = max([sentences[last].end, *(b for _, b in gone)])
    if off < sentences[-1].end:
        talk.append(Stretch(off, sentences[-1].end, "sign-off"))
    titles = name_dishes(spotted, sentences, dishes)
    return Segments(dishes, tuple(sorted(talk, key=lambda t: t.start)), sentences, titles)


def _without_the_whole(sentences: Sequence[Sentence], visits: list[tuple[int, int]]) -> list[tuple[int, int]]:
    """Visits are a part of a show: where they would leave next to nothing, the words are taken for a dish."""
    gone = sum(sentences[b].end - sentences[a].start for a, b in visits)
    whole = sentences[-1].end - sentences[0].start
    return visits if gone <= MOST_AWAY * whole else []


def _trim(dish: Stretch, visits: Sequence[tuple[int, int]]) -> Stretch:
    """Visits at a dish's edge are cut off; those in the middle of it are holes in it."""
    start, end = dish.start, dish.end
    inner = []
    for a, b in visits:
        if a <= start < b:
            start = b
        elif a < end <= b:
            end = a
        elif start < a and b < end:
            inner.append((a, b))
    return Stretch(start, end, visits=tuple(inner))


def _kitchen_weights(spotted: Spotted, sentences: Sequence[Sentence]) -> list[float]:
    """For each sentence the kitchen measures and hob heats in it, and whether a food is worked on in it."""
    measures = sorted(
        [a.start for a in spotted.kitchen_amounts] + [h.start for h in spotted.heats if h.level]
    )
    worked = sorted(spotted.instructions)
    return [
        _count_within(measures, s) + (WORKED_WEIGHT if _count_within(worked, s) else 0.0) for s in sentences
    ]


def _count_within(places: Sequence[int], sentence: Sentence) -> int:
    """How many of the tokens ``places``, in order, lie in a sentence."""
    return bisect_left(places, sentence.end) - bisect_left(places, sentence.start)


def _kitchen_ends(
    sentences: Sequence[Sentence], kitchen: Sequence[float], usable: Sequence[int]
) -> tuple[int, int]:
    """The first and last sentence outside visits, the sign-off after the last cooking left out."""
    last = usable[-1] if usable else len(sentences) - 1
    tail = [i for i in usable if sentences[i].weight("sign-off") >= 1.5]
    busy = [i for i in usable if kitchen[i] or sentences[i].weight("cooking")]
    if tail and busy:
        after = [i for i in tail if i > busy[-1]]
        if after:
            last = max(after[0] - 1, busy[-1])
    return (usable[0] if usable else 0), last


def _boundaries(
    spotted: Spotted, sentences: Sequence[Sentence], usable: Sequence[int], gaps: Sequence[tuple[int, int]]
) -> list[int]:
    """The sentences at which a further dish begins: the valleys that argue for one, best first."""
    announced = announced_count(sentences)
    threshold = ANNOUNCED_THRESHOLD if announced > 1 else THRESHOLD
    valleys = sorted(find_valleys(survey(spotted, sentences, usable, gaps)), key=lambda v: -v.score)
    chosen: list[int] = []
    for valley in valleys:
        if valley.score < threshold or (announced > 1 and len(chosen) == announced - 1):
            break
        if _is_argued(valley) and _stands_alone(spotted, sentences, [*chosen, valley.sentence]):
            chosen.append(valley.sentence)
    return sorted(chosen)


def _is_argued(valley: Valley) -> bool:
    """Whether words end the dish before or settle that another begins ("Second dish."); where none do, foods must be
    measured anew and something must turn."""
    if valley.ends >= LEAST_END or valley.opens >= SETTLING_OPENER:
        return True
    return valley.anew >= LEAST_ANEW and (valley.opens >= LEAST_OPENER or valley.away)


def _stands_alone(spotted: Spotted, sentences: Sequence[Sentence], bounds: list[int]) -> bool:
    """Every dish so cut names at least a few foods and measures some of them."""
    cuts = [0, *(sentences[b].start for b in sorted(bounds)), len(spotted.speech.doc)]
    return all(
        len({f.name for f in spotted.foods_within(a, b)}) >= MINIMUM_FOODS
        and len({f.name for f in spotted.measured if a <= f.start < b}) >= MINIMUM_MEASURED
        for a, b in pairwise(cuts)
    )
