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
from extract.segment.stretch import Stretch
from extract.spot.food_names import SEASONINGS
from extract.spot.spans import Food
from extract.spot.spotted import Spotted

LONGEST = 9
OPENING = 30
ENDING = 8
BARE_SENTENCES = 12
BARE = 3.0
TURNING = frozenset({"now", "right", "so", "okay", "ok", "and", "then", "well", "alright", "all", "next"})
PROMISING = 14
PROMISED = 1.5
NAMED_AGAIN = 0.5
SURELY = 1.5
COMES_BACK = 2
SEASONS = SEASONINGS | {"sauce", "flour"}
MADE = frozenset({"made", "dish", "bread"})
FINISHED = frozenset({"dish", "bread"})
JOINS = frozenset({"and", "with", "of", "in", "'s", "-", "n", "on"})
SKIPPED_TAGS = frozenset({"DT", "PRP$", "UH", "CD", "PDT"})


@dataclass(frozen=True, slots=True)
class Title:
    """A dish's name in the cook's words, with the tokens it was said in (``end`` exclusive).

    ``announced``: the cook called the dish so; otherwise it is only the food named most.
    """

    text: str
    start: int
    end: int
    announced: bool = True


@dataclass(frozen=True, slots=True)
class Offer:
    """A name offered for the dish: its token span and how much speaks for it."""

    start: int
    end: int
    weight: float


def name_dishes(
    spotted: Spotted, sentences: Sequence[Sentence], dishes: Sequence[Stretch]
) -> tuple[Title, ...]:
    """The title of each dish, no two alike.

    What the opening promises is weighed by how much more its words are used in one dish than in the others.
    Where no words announce a dish, the food named most often in it stands in.
    """
    counts = [_nouns(spotted, d) for d in dishes]
    promised = list(_promised(spotted, sentences, several=len(dishes) > 1))
    ranked = sorted(
        (
            (
                _worth(spotted, offer, counts[number]) + _affinity(spotted, counts, number, offer),
                -offer.start,
                number,
                offer,
            )
            for number, dish in enumerate(dishes)
            for offer in (*_offers(spotted, sentences, dish), *promised)
        ),
        key=lambda row: (-row[0], -row[1], row[2]),
    )
    titles: dict[int, Title] = {}
    for worth, _, number, offer in ranked:
        text = spotted.speech.doc[offer.start : offer.end].text
        if worth > 0 and number not in titles and not any(_alike(text, t.text) for t in titles.values()):
            titles[number] = Title(text, offer.start, offer.end)
    return tuple(titles.get(n) or _most_named(spotted, dish) for n, dish in enumerate(dishes))


def _alike(one: str, other: str) -> bool:
    first, second = ({_stem(w) for w in text.lower().split()} for text in (one, other))
    return first <= second or second <= first


def _nouns(spotted: Spotted, dish: Stretch) -> Counter[str]:
    doc = spotted.speech.doc
    return Counter(_stem(t.lower_) for t in doc[dish.start : dish.end] if t.pos_ in {"NOUN", "PROPN", "ADJ"})


def _stem(word: str) -> str:
    return word[:-1] if len(word) > 3 and word.endswith("s") else word


def _affinity(spotted: Spotted, counts: Sequence[Counter[str]], number: int, offer: Offer) -> float:
    """From -1 to 1.5: how much more this dish uses the words of a name than the other dishes do."""
    words = [_stem(t.lower_) for t in spotted.speech.doc[offer.start : offer.end] if t.is_alpha]
    content = [w for w in words if w not in JOINS]
    if not content:
        return -1.0
    here = sum(counts[number][w] > 0 for w in content) / len(content)
    elsewhere = max(
        (
            sum(c[w] > counts[number][w] for w in content) / len(content)
            for c in counts
            if c is not counts[number]
        ),
        default=0.0,
    )
    return 1.5 * here - 2.5 * elsewhere


def _promised(spotted: Spotted, sentences: Sequence[Sentence], *, several: bool) -> Iterator[Offer]:
    """The names of dishes in the opening of the show; where it holds several, of foods too."""
    if not sentences:
        return
    end = sentences[min(PROMISING, len(sentences)) - 1].end
    for food in spotted.foods:
        if food.start >= end:
            return
        span = _name_span(spotted, _name_start(spotted, food.start), end)
        if span is None:
            continue
        if span[1] - span[0] >= 2 and (several or food.kinds & FINISHED):
            yield Offer(*span, PROMISED)
        elif "dish" in food.kinds and sum(other.name == food.name for other in spotted.foods) >= COMES_BACK:
            yield Offer(*span, NAMED_AGAIN)


def _name_start(spotted: Spotted, at: int) -> int:
    """Where the name begins that leads up to the food at ``at``: describing words before it belong to it."""
    doc = spotted.speech.doc
    while at > 0 and (doc[at - 1].pos_ in {"ADJ", "NOUN", "PROPN"} or doc[at - 1].tag_ in {"VBN", "HYPH"}):
        at -= 1
    return at


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
        text, starts = _spelled(spotted, sentence)
        for pattern, weight in _announcing():
            for start in (sentence.start + place for place in _ends_of(text, starts, pattern)):
                span = _name_span(spotted, start, sentence.end)
                if span is not None:
                    yield Offer(*span, weight - 0.05 * min(number, OPENING))
        if number < BARE_SENTENCES:
            span = _bare_name(spotted, sentence)
            if span is not None:
                yield Offer(*span, BARE - 0.15 * number)


def _spelled(spotted: Spotted, sentence: Sentence) -> tuple[str, list[int]]:
    """A sentence as the patterns read it, each token with a blank behind, and where each token begins in it."""
    text, starts = "", []
    for token in spotted.speech.doc[sentence.start : sentence.end]:
        starts.append(len(text))
        text += token.lower_ + " "
    return text, starts


def _ends_of(text: str, starts: Sequence[int], pattern: re.Pattern[str]) -> Iterator[int]:
    """The tokens of a sentence at which a name may begin: just after each place where the pattern is found."""
    for found in pattern.finditer(text):
        first = next((i for i, at in enumerate(starts) if at >= found.end()), None)
        if first is not None:
            yield first


def _name_span(spotted: Spotted, start: int, limit: int) -> tuple[int, int] | None:
    """A name: adjectives and nouns, joined by "and", "with", "of", "in"; it ends in a noun or a food."""
    doc = spotted.speech.doc
    food_ends = {f.end for f in spotted.foods if start <= f.start < limit}
    made = [f for f in spotted.foods if start <= f.start < limit and f.kinds & MADE]
    named = [f for f in made if doc[f.end - 1].pos_ in {"NOUN", "PROPN"}]
    in_food = {at for f in named for at in range(f.start, f.end) if not doc[at].is_punct}
    limit = min([limit, *(a.start for a in spotted.amounts if a.unit and start <= a.start < limit)])
    while start < limit and (doc[start].tag_ in SKIPPED_TAGS or doc[start].lower_ in _praise()):
        start += 1
    end = name_end = start
    while end < limit and end - start < LONGEST:
        token = doc[end]
        if token.pos_ in {"NOUN", "PROPN"} or end + 1 in food_ends:
            name_end = end + 1
        elif (
            token.pos_ != "ADJ"
            and token.tag_ not in {"VBN", "VBG", "HYPH"}
            and token.lower_ not in JOINS
            and end not in in_food
        ):
            break
        end += 1
    while name_end > start and doc[name_end - 1].lower_ in _never_names():
        name_end -= 1
    return (start, name_end) if name_end > start else None


def _bare_name(spotted: Spotted, sentence: Sentence) -> tuple[int, int] | None:
    """A sentence that is nothing but a name: "Smothered cabbage." """
    doc = spotted.speech.doc
    start = sentence.start
    while start < sentence.end and (doc[start].lower_ in TURNING or doc[start].is_punct):
        start += 1
    span = _name_span(spotted, start, sentence.end)
    if span is None:
        return None
    finished = any(span[0] <= f.start < span[1] and f.kinds & FINISHED for f in spotted.foods)
    if span[1] - span[0] < 2 and not finished:
        return None
    rest = [t.lower_ for t in doc[span[1] : sentence.end] if t.is_alpha]
    return span if not rest or rest[0] in {"with", "and", "in", "on"} else None


def _worth(spotted: Spotted, offer: Offer, nouns: Counter[str]) -> float:
    """What speaks for a name in itself: its announcement, the foods in it, its length.

    A name without a food that anybody knows is believed where it is clearly announced and comes back
    (``nouns`` counts the dish's): "we're making fattoush".
    """
    doc = spotted.speech.doc
    words = [t.lower_ for t in doc[offer.start : offer.end]]
    inside = [f for f in spotted.foods if f.start < offer.end and f.end > offer.start]
    measured = {f.name for f in spotted.measured}
    worth = offer.weight + 0.25 * min(len(words), 5)
    comes_back = offer.weight >= SURELY and nouns[_stem(words[-1])] >= COMES_BACK
    worth += 1.5 if inside else 0.5 if comes_back else -3.0
    if any(f.kinds & FINISHED for f in inside):
        worth += 1.5
    elif any(f.name in measured for f in inside):
        worth -= 1.0
    return worth - 3.0 * sum(w in _never_names() for w in words)


def _standing(food: Food) -> int:
    """How likely a dish goes by a food's name: a finished dish first, what only seasons last."""
    if "dish" in food.kinds:
        return 2
    return 0 if food.kinds & SEASONS or food.name in {"salt", "water"} else 1


def _most_named(spotted: Spotted, dish: Stretch) -> Title:
    """The food named most often, a finished dish before an ingredient."""
    foods = [f for f in spotted.foods if dish.holds(f.start)]
    if not foods:
        return Title("untitled dish", dish.start, min(dish.start + 1, dish.end), announced=False)
    counts = Counter(f.name for f in foods)
    standing = {f.name: _standing(f) for f in foods}
    name = max(counts, key=lambda n: (standing[n], counts[n]))
    first = next(f for f in foods if f.name == name)
    return Title(name, first.start, first.end, announced=False)
