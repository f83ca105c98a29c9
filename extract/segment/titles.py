"""What a dish is called: the words the cook announces it by.

Every announcing phrase in the dish offers the name that follows it; the offers are weighed by how surely the
phrase announces, by whether the name holds a food, and by how often its last word comes back.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache

from extract.lexicon import read_lexicon
from extract.segment.cues import Sentence
from extract.segment.dishes import Stretch
from extract.spot.spans import Food
from extract.spot.spotted import Spotted

LONGEST = 9
OPENING = 30
ENDING = 8
BARE_SENTENCES = 12
BARE = 3.0
JOINS = frozenset({"and", "with", "of", "in", "'s", "-", "n", "on"})
SKIPPED_TAGS = frozenset({"DT", "PRP$", "UH", "CD", "PDT"})


@dataclass(frozen=True, slots=True)
class Offer:
    """A name offered for the dish: its token span and how much speaks for it."""

    start: int
    end: int
    weight: float


def dish_title(spotted: Spotted, sentences: Sequence[Sentence], dish: Stretch) -> tuple[str, int, int]:
    """(title, start, end): the dish's name in the cook's words with the tokens it was said in.

    Where no words announce it, the food named most often stands in.
    """
    doc = spotted.speech.doc
    foods = [f for f in spotted.foods if dish.holds(f.start)]
    counts = Counter(t.lower_ for t in doc[dish.start : dish.end] if t.pos_ in {"NOUN", "PROPN"})
    offers = list(_offers(spotted, sentences, dish))
    if not offers:
        return _most_named(foods, dish)
    best = max(offers, key=lambda o: (_worth(spotted, foods, counts, o), -o.start))
    if _worth(spotted, foods, counts, best) <= 0:
        return _most_named(foods, dish)
    return doc[best.start : best.end].text, best.start, best.end


@cache
def _announcing() -> tuple[tuple[re.Pattern[str], float], ...]:
    rows = read_lexicon("title_cues", columns=("pattern", "weight"))
    return tuple((re.compile(r["pattern"]), float(r["weight"])) for r in rows)


@cache
def _never_names() -> frozenset[str]:
    return _words("stop")


@cache
def _praise() -> frozenset[str]:
    return _words("praise")


def _words(kind: str) -> frozenset[str]:
    rows = read_lexicon("title_words", columns=("word", "kind"))
    return frozenset(r["word"] for r in rows if r["kind"] == kind)


def _offers(spotted: Spotted, sentences: Sequence[Sentence], dish: Stretch) -> Iterator[Offer]:
    own = [s for s in sentences if dish.holds(s.start)]
    for number, sentence in enumerate(own[:OPENING] + own[OPENING:][-ENDING:]):
        for pattern, weight in _announcing():
            for start in _ends_of(spotted, sentence, pattern):
                span = _name_span(spotted, start, sentence.end)
                if span is not None:
                    yield Offer(*span, weight - 0.05 * min(number, OPENING))
        if number < BARE_SENTENCES:
            span = _bare_name(spotted, sentence)
            if span is not None:
                yield Offer(*span, BARE - 0.15 * number)


def _ends_of(spotted: Spotted, sentence: Sentence, pattern: re.Pattern[str]) -> Iterator[int]:
    """The tokens at which a name may begin: just after each place where the pattern is found."""
    text, starts = "", []
    for token in spotted.speech.doc[sentence.start : sentence.end]:
        starts.append(len(text))
        text += token.lower_ + " "
    for found in pattern.finditer(text):
        first = next((i for i, at in enumerate(starts) if at >= found.end()), None)
        if first is not None:
            yield sentence.start + first


def _name_span(spotted: Spotted, start: int, limit: int) -> tuple[int, int] | None:
    """A name: adjectives and nouns, joined by "and", "with", "of", "in"; it ends in a noun or a food."""
    doc = spotted.speech.doc
    food_ends = {f.end for f in spotted.foods if start <= f.start < limit}
    limit = min([limit, *(a.start for a in spotted.amounts if a.unit and start <= a.start < limit)])
    while start < limit and (doc[start].tag_ in SKIPPED_TAGS or doc[start].lower_ in _praise()):
        start += 1
    end = name_end = start
    while end < limit and end - start < LONGEST:
        token = doc[end]
        if token.pos_ in {"NOUN", "PROPN"} or end + 1 in food_ends:
            name_end = end + 1
        elif token.pos_ != "ADJ" and token.tag_ not in {"VBN", "VBG", "HYPH"} and token.lower_ not in JOINS:
            break
        end += 1
    while name_end > start and doc[name_end - 1].lower_ in _never_names():
        name_end -= 1
    return (start, name_end) if name_end > start else None


def _bare_name(spotted: Spotted, sentence: Sentence) -> tuple[int, int] | None:
    """A sentence that is nothing but a name: "Smothered cabbage." """
    doc = spotted.speech.doc
    span = _name_span(spotted, sentence.start, sentence.end)
    if span is None or span[1] - span[0] < 2:
        return None
    rest = [t.lower_ for t in doc[span[1] : sentence.end] if t.is_alpha]
    return span if not rest or rest[0] in {"with", "and", "in", "on"} else None


def _worth(spotted: Spotted, foods: Sequence[Food], counts: Counter[str], offer: Offer) -> float:
    """What speaks for a name: its announcement, the foods in it, its length, how often its head comes back."""
    doc = spotted.speech.doc
    words = [t.lower_ for t in doc[offer.start : offer.end]]
    inside = [f for f in foods if f.start < offer.end and f.end > offer.start]
    worth = offer.weight + 0.25 * min(len(words), 5)
    worth += 1.5 if inside else -2.0
    worth += 1.5 if any("dish" in f.kinds for f in inside) else 0.0
    worth -= 3.0 * sum(w in _never_names() for w in words)
    return worth + min(1.0, 0.25 * counts.get(words[-1], 0))


def _most_named(foods: Sequence[Food], dish: Stretch) -> tuple[str, int, int]:
    """The food named most often, a finished dish before an ingredient."""
    if not foods:
        return "untitled dish", dish.start, min(dish.start + 1, dish.end)
    counts = Counter(f.name for f in foods)
    dishes = {f.name for f in foods if "dish" in f.kinds}
    name = max(counts, key=lambda n: (n in dishes, counts[n]))
    first = next(f for f in foods if f.name == name)
    return name, first.start, first.end
