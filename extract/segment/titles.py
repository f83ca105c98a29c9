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
from extract.segment.names import FINISHED, bare_name, heads, name_span, never_names, stem, title_kind
from extract.segment.promised import Offer, in_order, opening_end, promised
from extract.segment.stretch import Stretch
from extract.spot.food_names import SEASONINGS
from extract.spot.spans import Food
from extract.spot.spotted import Spotted

OPENING = 30
ENDING = 8
BARE_SENTENCES = 12
BARE = 3.0
SURELY = 1.5
COMES_BACK = 2
IN_TURN = 1.0
SEASONS = SEASONINGS | {"sauce", "flour"}


@dataclass(frozen=True, slots=True)
class Title:
    """A dish's name in the cook's words, with the tokens it was said in (``end`` exclusive).

    ``announced``: the cook called the dish so; otherwise it is only the food named most.
    """

    text: str
    start: int
    end: int
    announced: bool = True


def name_dishes(
    spotted: Spotted, sentences: Sequence[Sentence], dishes: Sequence[Stretch]
) -> tuple[Title, ...]:
    """The title of each dish, no two alike.

    What the opening promises is weighed by how much more its words are used in one dish than in the others.
    Where no words announce a dish, the food named most often in it stands in.
    """
    opening = opening_end(spotted, sentences) if len(dishes) > 1 and sentences else 0
    counts = [_nouns(spotted, max(d.start, opening), d.end) for d in dishes]
    said = list(promised(spotted, sentences, several=len(dishes) > 1))

    def worth(number: int, offer: Offer) -> float:
        return _worth(spotted, offer, counts[number]) + _affinity(spotted, counts, number, offer)

    def own(number: int, offer: Offer) -> float:
        return _affinity(spotted, counts, number, offer)

    turn = in_order(said, len(dishes), own) if len(dishes) > 1 else {}
    ranked = sorted(
        (
            (
                worth(number, offer) + (IN_TURN if turn.get(number) == offer else 0.0),
                -offer.start,
                number,
                offer,
            )
            for number, dish in enumerate(dishes)
            for offer in (*_offers(spotted, sentences, dish), *said)
        ),
        key=lambda row: (-row[0], -row[1], row[2]),
    )
    titles: dict[int, Title] = {}
    for total, _, number, offer in ranked:
        text = spotted.speech.doc[offer.start : offer.end].text
        if total > 0 and number not in titles and not any(_alike(text, t.text) for t in titles.values()):
            titles[number] = Title(text, offer.start, offer.end)
    return tuple(titles.get(n) or _most_named(spotted, dish) for n, dish in enumerate(dishes))


def _alike(one: str, other: str) -> bool:
    first, second = ({stem(w) for w in text.lower().split()} for text in (one, other))
    return first <= second or second <= first


def _nouns(spotted: Spotted, start: int, end: int) -> Counter[str]:
    doc = spotted.speech.doc
    return Counter(stem(t.lower_) for t in doc[start:end] if t.pos_ in {"NOUN", "PROPN", "ADJ"})


def _affinity(spotted: Spotted, counts: Sequence[Counter[str]], number: int, offer: Offer) -> float:
    """From -1 to 1.5: how much more this dish uses the words of a name than the other dishes do."""
    words = [stem(t.lower_) for t in spotted.speech.doc[offer.start : offer.end] if t.is_alpha]
    content = [w for w in words if w not in title_kind("join")]
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


@cache
def _announcing() -> tuple[tuple[re.Pattern[str], float], ...]:
    rows = read_lexicon("title_cues", columns=("pattern", "weight"))
    return tuple((re.compile(r["pattern"]), float(r["weight"])) for r in rows)


def _offers(spotted: Spotted, sentences: Sequence[Sentence], dish: Stretch) -> Iterator[Offer]:
    own = [s for s in sentences if dish.holds(s.start)]
    for number, sentence in enumerate(own[:OPENING] + own[OPENING:][-ENDING:]):
        text, starts = _spelled(spotted, sentence)
        for pattern, weight in _announcing():
            for start in (sentence.start + place for place in _ends_of(text, starts, pattern)):
                span = name_span(spotted, start, sentence.end)
                if span is not None:
                    yield Offer(*span, weight - 0.05 * min(number, OPENING))
        if number < BARE_SENTENCES:
            span = bare_name(spotted, sentence)
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
    comes_back = offer.weight >= SURELY and nouns[stem(words[-1])] >= COMES_BACK
    named = stem(words[-1]) in heads() or words[-1] in heads()
    worth += 1.5 if inside or named else 0.5 if comes_back else -3.0
    if named or any(f.kinds & FINISHED for f in inside):
        worth += 1.5
    elif any(f.name in measured for f in inside):
        worth -= 1.0
    return worth - 3.0 * sum(w in never_names() for w in words)


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
