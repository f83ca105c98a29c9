"""Cutting a show into its dishes and the talk around them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from extract.segment.announced import announced_count, called_back
from extract.segment.cues import Sentence, cue_sentences
from extract.segment.visits import find_visits
from extract.spot.spotted import Spotted

# A boundary must be argued for: an opener alone ("next thing is the sauce") opens no dish in a one-dish video.
THRESHOLD = 4.8
ANNOUNCED_THRESHOLD = 2.0
LOOK_BACK = 10
MINIMUM_FOODS = 4
BARE_TITLE = 1.5
AFTER_VISIT = 1.5
AFTER_YIELD = 1.5
# "The second thing", "next dish": words that settle the matter nearly alone.
ORDINAL = 3.0
# A producer works on food too, so a food worked on says less for the kitchen than a kitchen measure does.
WORKED_WEIGHT = 0.6
TITLE_WORDS = 5
TURNS = frozenset({"now", "right", "okay", "ok", "next", "so", "well then", "all right"})


@dataclass(frozen=True, slots=True)
class Stretch:
    """Tokens ``start`` to ``end`` (exclusive) of the talk: a dish, or what is left out and why."""

    start: int
    end: int
    reason: str = ""
    visits: tuple[tuple[int, int], ...] = ()

    def holds(self, token: int) -> bool:
        """Whether ``token`` belongs to the stretch and to no visit inside it."""
        return self.start <= token < self.end and not any(a <= token < b for a, b in self.visits)


@dataclass(frozen=True, slots=True)
class Segments:
    """A show in order: its dishes, and the talk that is no recipe."""

    dishes: tuple[Stretch, ...]
    talk: tuple[Stretch, ...]
    sentences: tuple[Sentence, ...]


def segment(spotted: Spotted) -> Segments:
    """Cut the talk into dishes; greetings, teasers, visits and sign-offs become ``talk`` with the reason."""
    sentences = cue_sentences(spotted.speech.doc)
    if not sentences:
        return Segments((), (), ())
    kitchen = [_kitchen_weight(spotted, s) for s in sentences]
    visits = find_visits(sentences, kitchen)
    visiting = {i for a, b in visits for i in range(a, b + 1)}
    usable = [i for i in range(len(sentences)) if i not in visiting]
    bounds = _boundaries(spotted, sentences, usable)
    first, last = _kitchen_ends(sentences, kitchen, usable)
    edges = [first, *[b for b in bounds if first < b <= last], last + 1]
    spans = [(sentences[a].start, sentences[b - 1].end) for a, b in zip(edges, edges[1:], strict=False)]
    gone = tuple((sentences[a].start, sentences[b].end) for a, b in visits)
    dishes = tuple(d for a, b in spans if (d := _trim(Stretch(a, b), gone)).start < d.end)
    talk = [Stretch(a, b, "visit") for a, b in gone]
    if first > 0:
        talk.append(Stretch(0, sentences[first].start, "opening"))
    if last + 1 < len(sentences):
        talk.append(Stretch(sentences[last + 1].start, sentences[-1].end, "sign-off"))
    return Segments(dishes, tuple(sorted(talk, key=lambda t: t.start)), sentences)


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


def _kitchen_weight(spotted: Spotted, sentence: Sentence) -> float:
    """The kitchen measures and hob heats in a sentence, and whether a food is worked on in it."""
    levels = [h for h in spotted.heats if h.level]
    spans = (*spotted.kitchen_amounts, *levels)
    measures = sum(1 for span in spans if sentence.start <= span.start < sentence.end)
    worked = any(sentence.start <= at < sentence.end for at in spotted.instructions)
    return measures + (WORKED_WEIGHT if worked else 0.0)


def _kitchen_ends(
    sentences: Sequence[Sentence], kitchen: Sequence[float], usable: Sequence[int]
) -> tuple[int, int]:
    """The first and last sentence of the cooking: greetings before it and the sign-off after it are talk."""
    last = usable[-1] if usable else len(sentences) - 1
    tail = [i for i in usable if sentences[i].weight("sign-off") >= 1.5]
    busy = [i for i in usable if kitchen[i] or sentences[i].weight("cooking")]
    if tail and busy:
        after = [i for i in tail if i > busy[-1]]
        if after:
            last = max(after[0] - 1, busy[-1])
    return (usable[0] if usable else 0), last


def _boundaries(spotted: Spotted, sentences: Sequence[Sentence], usable: Sequence[int]) -> list[int]:
    """The sentences at which a further dish begins."""
    announced = announced_count(sentences)
    scored = [
        (score, i)
        for place, i in enumerate(usable)
        if (score := _boundary_score(spotted, sentences, usable, place)) >= ANNOUNCED_THRESHOLD
    ]
    threshold = ANNOUNCED_THRESHOLD if announced > 1 else THRESHOLD
    limit = announced - 1 if announced > 1 else len(scored)
    chosen: list[int] = []
    for score, i in sorted(scored, key=lambda pair: (-pair[0], pair[1])):
        if score < threshold or len(chosen) >= limit:
            break
        if _stands_alone(spotted, sentences, [*chosen, i]):
            chosen.append(i)
    return sorted(chosen)


def _boundary_score(
    spotted: Spotted, sentences: Sequence[Sentence], usable: Sequence[int], place: int
) -> float:
    """How much speaks for a dish beginning at ``usable[place]``: an opener, and an end to what went before."""
    here = sentences[usable[place]]
    callback = called_back(spotted, sentences, usable, place)
    opener = here.weight("opener") + _bare_title(spotted, sentences, usable, place, called=callback > 0)
    if opener < 1:
        return 0.0
    if here.weight("opener") >= ORDINAL:
        opener += ORDINAL
    if place + 1 < len(usable):
        title = _bare_title(spotted, sentences, usable, place + 1, called=here.weight("opener") > 0)
        opener += max(0.3 * sentences[usable[place + 1]].weight("opener"), title)
    before = [sentences[i] for i in usable[max(0, place - LOOK_BACK) : place]]
    closer = max((s.weight("closer") for s in before), default=0.0)
    tasting = sum(min(1.0, s.weight("tasting")) for s in before)
    served = any(b.start <= y.start < b.end for b in before for y in spotted.yields)
    ends = closer + min(tasting, 2.5) + (AFTER_VISIT if _follows_gap(usable, place) else 0.0)
    ends += AFTER_YIELD if served else 0.0
    return opener + callback + ends + _fresh_start(spotted, here.start)


def _follows_gap(usable: Sequence[int], place: int) -> bool:
    """Whether a visit ended just before: shows often change dishes over one."""
    first = max(1, place - 2)
    return any(usable[i] - usable[i - 1] > 1 for i in range(first, place + 1))


def _bare_title(
    spotted: Spotted, sentences: Sequence[Sentence], usable: Sequence[int], place: int, *, called: bool
) -> float:
    """ "Now. Smothered cabbage.": a few words without a verb that name a food, after a word that turns."""
    here = sentences[usable[place]]
    words = here.words.split()
    turn = place > 0 and sentences[usable[place - 1]].words in TURNS
    if len(words) > TITLE_WORDS or not (turn or called or (words and words[0] in TURNS)):
        return 0.0
    doc = spotted.speech.doc
    verb = any(t.pos_ in {"VERB", "AUX"} and t.tag_ != "VBN" for t in doc[here.start : here.end])
    food = any(here.start <= f.start < here.end for f in spotted.foods)
    return BARE_TITLE if food and not verb else 0.0


def _fresh_start(spotted: Spotted, token: int) -> float:
    """From -1 to 2: foods measured anew just after ``token`` although they went in before, or not at all."""
    after = [s for s in spotted.measured if token <= s.start][:8]
    before = {s.name for s in spotted.measured if s.start < token}
    if len(after) < MINIMUM_FOODS or len(before) < MINIMUM_FOODS:
        return -1.0
    anew = sum(1 for s in after if s.name in before)
    return min(2.0, 0.7 * anew)


def _stands_alone(spotted: Spotted, sentences: Sequence[Sentence], bounds: list[int]) -> bool:
    """Every dish so cut names at least a few foods."""
    cuts = [0, *(sentences[b].start for b in sorted(bounds)), len(spotted.speech.doc)]
    return all(
        len({f.name for f in spotted.foods if a <= f.start < b}) >= MINIMUM_FOODS
        for a, b in zip(cuts, cuts[1:], strict=False)
    )
