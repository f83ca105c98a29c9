"""What the opening of a show promises: the names of its dishes, in the order in which they are made."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from extract.segment.cues import Sentence
from extract.segment.names import FINISHED, heads, name_span, name_start
from extract.spot.spans import Food
from extract.spot.spotted import Spotted

PROMISING = 14
LEAST_OPENING = 40  # tokens
PROMISED = 1.5
NAMED_AGAIN = 0.5
COMES_BACK = 2
NEVER = float("-inf")
LEAST_FIT = -1.0
BESIDE = frozenset({"with", "without"})


@dataclass(frozen=True, slots=True)
class Offer:
    """A name offered for a dish: its token span and how much speaks for it."""

    start: int
    end: int
    weight: float


def promised(spotted: Spotted, sentences: Sequence[Sentence], *, several: bool) -> Iterator[Offer]:
    """The names of dishes in the opening of the show; where it holds several, of foods too.

    What only goes with a dish is none: "lamb skewers with a tahini sauce".
    """
    if not sentences:
        return
    end = opening_end(spotted, sentences)
    doc = spotted.speech.doc
    foods = {food.start: food for food in spotted.foods if food.start < end}
    named = {at for at in range(end) if doc[at].lemma_.lower() in heads()}
    for at in sorted({*foods, *named}):
        span = name_span(spotted, name_start(spotted, at), end)
        if span is None or goes_with(spotted, span[0]):
            continue
        food = foods.get(at)
        finished = (at in named and span[1] == at + 1) or (food is not None and bool(food.kinds & FINISHED))
        if food is None and not finished:
            continue
        if span[1] - span[0] >= 2 and (several or finished):
            yield Offer(*span, PROMISED)
        elif finished and (several or is_named_again(spotted, food)):
            yield Offer(*span, NAMED_AGAIN)


def opening_end(spotted: Spotted, sentences: Sequence[Sentence]) -> int:
    """The token at which the opening ends: after some sentences, or where the first food is measured out."""
    return min(sentences[min(PROMISING, len(sentences)) - 1].end, measuring(spotted))


def is_named_again(spotted: Spotted, food: Food | None) -> bool:
    """Whether a finished dish is spoken of more than once."""
    if food is None or "dish" not in food.kinds:
        return False
    return sum(other.name == food.name for other in spotted.foods) >= COMES_BACK


def measuring(spotted: Spotted) -> int:
    """The token at which the first food is measured out, from where on foods are used, no longer promised."""
    measured = (m.start for m in spotted.mentions if m.amount and m.amount.low is not None and m.amount.unit)
    return max(min(measured, default=len(spotted.speech.doc)), LEAST_OPENING)


def goes_with(spotted: Spotted, start: int) -> bool:
    """Whether a name is that of what a dish is served with: "with a peanut sauce"."""
    doc = spotted.speech.doc
    if start < 2:
        return False
    article = doc[start - 1].pos_ == "DET"
    return doc[start - 1 - article].lower_ in BESIDE


def in_order(offers: Sequence[Offer], dishes: int, own: Callable[[int, Offer], float]) -> dict[int, Offer]:
    """The offer for each dish where the cook promises them in the order in which they are made.

    ``own`` tells how much more a dish uses the words of an offer than the others do; much below 0 it is not its name.
    Empty where there are fewer names than dishes.
    """
    ordered = sorted({(offer.start, offer.end): offer for offer in offers}.values(), key=lambda o: o.start)
    best: list[tuple[float, tuple[Offer, ...]]] = [(0.0, ()), *((NEVER, ()) for _ in range(dishes))]
    for offer in ordered:
        for number in range(dishes, 0, -1):
            before, chosen = best[number - 1]
            fits = own(number - 1, offer)
            if fits < LEAST_FIT or before == NEVER or (chosen and offer.start < chosen[-1].end):
                continue
            total = before + fits
            if total > best[number][0]:
                best[number] = (total, (*chosen, offer))
    return dict(enumerate(best[dishes][1])) if best[dishes][0] != NEVER else {}
