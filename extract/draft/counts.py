"""How many a dish makes, and whether it was made as a double or a half batch."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import pairwise

from extract.language import Speech
from extract.model import Batch, Dish, Evidence, Yield
from extract.segment.dishes import Segments
from extract.spot.counts.batches import STOPS
from extract.spot.counts.passing import passing_yields
from extract.spot.names.foods import name_keys, word_key
from extract.spot.spans import Count
from extract.spot.spotted import Spotted
from extract.spot.words import Words

SIDE = re.compile(r" (?:with|in|on|from|under|over|for) ")

# What is said in passing counts from here on: before, it may be of an ingredient ("Eight slices, thick").
LATE = 0.5
# Words between two counts of one statement: "20 skewers, which is ten people".
CHAIN = 5
# Tokens at the end of a dish that may already speak of the next.
OPENER = 40
NORMAL = 1
# Tokens before a count that may belong to its evidence, and behind a batch in which what was multiplied is named.
LEAN = 3
# Tokens before a batch of which the sentence may say what it is for.
REACH = 12


def dish_yield(spotted: Spotted, segments: Segments, number: int) -> Yield | None:
    """What the cook said dish ``number`` makes: the last plain word on it.

    Counts of pieces or people stand above "cut it in six"; a meal for a whole table is no yield of one of
    its several dishes. None where nothing was said.
    """
    own = sorted(_yields_of(spotted, segments, number), key=lambda y: y.start)
    if not own:
        return None
    best = _first_of_statement(own, max(own, key=lambda y: (y.form != "cut", y.start)))
    same = [y for y in own if (y.low, y.high, y.unit) == (best.low, best.high, best.unit)]
    said = [_evidence(spotted.speech, y) for y in same]
    return Yield(low=float(best.low), high=float(best.high), unit=best.unit, said=said)


def _yields_of(spotted: Spotted, segments: Segments, number: int) -> Iterator[Count]:
    dish = segments.dishes[number]
    last, alone = dish is segments.dishes[-1], len(segments.dishes) == 1
    for made in spotted.yields:
        here = dish.holds(made.start) or (last and _signs_off(made, segments))
        if here and (alone or made.form != "table"):
            yield made
    late = dish.start + int(LATE * (dish.end - dish.start))
    names = _names(segments.titles[number].text)
    for made in passing_yields(Words.of(spotted.speech.doc), late, dish.end, names):
        if dish.holds(made.start):
            yield made


def _signs_off(made: Count, segments: Segments) -> bool:
    return any(t.reason == "sign-off" and t.start <= made.start < t.end for t in segments.talk)


def _names(title: str) -> frozenset[str]:
    """The word that names the dish, as counts are compared with it: "knots" of "cardamom knots with icing"."""
    head = SIDE.split(title, maxsplit=1)[0].split()
    return frozenset({word_key(head[-1].lower())} if head else ())


def _first_of_statement(own: Sequence[Count], best: Count) -> Count:
    """The count that ``best`` is worked out from in the same breath: "20 skewers, so ten people" is 20.

    "Six wedges, so six people" is one each, and six people.
    """
    for before, after in reversed(list(pairwise(own))):
        if after is best and after.start - before.end <= CHAIN and before.form != "cut":
            best = best if before.low == best.low else before
    return best


def _evidence(speech: Speech, count: Count) -> Evidence:
    """The words of a count with what they lean on: "that'll feed six", not "feed six"."""
    doc, start = speech.doc, count.start
    while count.start - start < LEAN and start > 0:
        leans = doc[start].text[0] in "'’" or doc[start].lower_ == "n't"
        if not leans and doc[start - 1].pos_ not in ("AUX", "PART"):
            break
        start -= 1
    if start > 0 and doc[start].pos_ in ("AUX", "VERB") and doc[start - 1].pos_ == "PRON":
        start -= 1
    return speech.evidence(start, count.end)


def dish_batch(spotted: Spotted, segments: Segments, number: int) -> Batch | None:
    """What was made on camera as a multiple of the normal batch, None where it was the normal one.

    A word on the whole show, before anything is cooked, holds for every dish that says nothing else.
    """
    near = segments.dishes[max(0, number - 1) : number + 1]
    nearby = (b for b in spotted.batches if any(dish.holds(b.start) for dish in near))
    own = [b for b in nearby if _dish_of(b, spotted, segments) == number]
    if not own:
        own = list(_of_the_show(spotted))
    other = [b for b in own if b.low != NORMAL]
    if not other:
        return None
    factor = Counter(b.low for b in other).most_common(1)[0][0]
    said = [_evidence(spotted.speech, b) for b in other if b.low == factor]
    return Batch(factor=float(factor), said=said)


def place_batch(dish: Dish, spotted: Spotted, segments: Segments, number: int) -> None:
    """Put the batch of dish ``number`` to the component that alone was multiplied, where its words name one.

    "I'm doubling the dough" is of the dough, "everything I tell you for the dough is twice" too; of several
    parts it is the whole dish's.
    """
    if dish.batch is None:
        return
    parts = {name_keys(part.name)[-1]: part for part in dish.components if part.name}
    own = [
        b for b in spotted.batches if b.low == dish.batch.factor and _dish_of(b, spotted, segments) == number
    ]
    named = [part for batch in own for part in _parts_named(batch, Words.of(spotted.speech.doc), set(parts))]
    if named and len(set(named)) == 1:
        parts[named[0]].batch, dish.batch = dish.batch, None


def _parts_named(batch: Count, words: Words, parts: set[str]) -> Iterator[str]:
    """The parts that a batch is said of: its object, or what "for the" names before it in the sentence."""
    lower = words.low
    for at in range(batch.end, min(batch.end + LEAN, len(lower))):
        if lower[at] in STOPS:
            break
        if word_key(lower[at]) in parts:
            yield word_key(lower[at])
    for at in range(batch.start - 1, max(0, batch.start - REACH), -1):
        if lower[at] in STOPS:
            break
        if word_key(lower[at]) in parts and lower[at - 2 : at] in (["for", "the"], ["for", "this"]):
            yield word_key(lower[at])


def _dish_of(batch: Count, spotted: Spotted, segments: Segments) -> int | None:
    """The dish a batch is said of: the next one where all is done in the dish that its words still stand in."""
    for number, dish in enumerate(segments.dishes):
        if dish.holds(batch.start):
            ahead = (*(food.start for food in spotted.measured), *(made.start for made in spotted.yields))
            rest = any(batch.end <= start < dish.end for start in ahead)
            last = number + 1 == len(segments.dishes)
            return number if last or rest or dish.end - batch.end > OPENER else number + 1
    return None


def _of_the_show(spotted: Spotted) -> Iterator[Count]:
    """The batches said of all dishes before the first food of the show is measured."""
    amounts = (m.start for m in spotted.mentions if m.amount is not None and m.amount.unit)
    first = min(amounts, default=0)
    yield from (b for b in spotted.batches if b.form == "everywhere" and b.start < first)
