"""What a dish is called: the words of it that a fitted score finds likeliest to stand in its name, in the cook's order.

The weights of the features are in ``lexicons/learned/title_weights.tsv``, written by their fit alone
(``extract/reader/training/titles.py``).
"""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

import numpy as np

from extract.lexicon import read_lexicon
from extract.reader.labels import ROLES
from extract.segment.stretch import Stretch
from extract.spot.names.foods import kinds_of, word_key
from extract.spot.spotted import Spotted

NAMING = tuple(ROLES.index(role) for role in ("hi", "tease", "open", "bye", "break"))
DONE = tuple(ROLES.index(role) for role in ("need", "do", "ahead"))
OPEN = ROLES.index("open")
WORDS = frozenset({"NOUN", "PROPN", "ADJ"})
NO_NAME = frozenset({"stop", "praise"})
MOST, LIKELY, ANNOUNCED = 3, 0.3, 0.4
NAMED = 0.4
MADE = frozenset({"made", "bread", "pastry", "condiment"})


@dataclass(frozen=True, slots=True)
class Title:
    """A dish's name in the cook's words, with the tokens it was said in (``end`` exclusive).

    ``announced``: words of the talk give the dish this name; otherwise it is only the food named most.
    """

    text: str
    start: int
    end: int
    announced: bool = True


@cache
def title_weights() -> dict[str, float]:
    """The weight of each feature, in log odds, by its name."""
    return {
        row["feature"]: float(row["weight"])
        for row in read_lexicon("title_weights", columns=("feature", "weight"))
    }


@cache
def _kinds() -> dict[str, str]:
    return {row["word"]: row["kind"] for row in read_lexicon("title_words", columns=("word", "kind"))}


class Names:
    """Where the words of each dish are said, in it and outside every dish."""

    def __init__(self, spotted: Spotted, dishes: Sequence[Stretch]) -> None:
        self.doc, self.reading, self.dishes = spotted.speech.doc, spotted.reading, dishes
        self.sure = self.reading.title[:, 1:].sum(1)
        self.run = self.reading.title[:, 1:3].sum(1)
        self.line = self.reading.things[:, 1:3].sum(1)
        naming = self.reading.role[:, NAMING].sum(1)
        inside = {i for dish in dishes for a, b in dish.pieces() for i in range(a, b)}
        self.used = [self._places(i for a, b in dish.pieces() for i in range(a, b)) for dish in dishes]
        self.outside = self._places(i for i in range(len(self.doc)) if i not in inside and naming[i] > NAMED)

    def _places(self, tokens: object) -> dict[str, list[int]]:
        found: dict[str, list[int]] = defaultdict(list)
        for i in tokens:  # type: ignore[attr-defined]
            token = self.doc[i]
            if token.is_alpha and token.pos_ in WORDS and _kinds().get(token.lower_) not in NO_NAME:
                found[word_key(token.lower_)].append(i)
        return found

    def features(self, number: int, key: str) -> dict[str, float]:
        """What is known of a word as one of a dish's name."""
        own, out = self.used[number][key], self.outside.get(key, [])
        places = [*own, *out]
        others = max((len(words.get(key, ())) for k, words in enumerate(self.used) if k != number), default=0)
        kinds, start = kinds_of(key), self.dishes[number].start
        top = np.sort(self.sure[places])[::-1]
        return {
            "always": 1.0,
            "surely": math.log(float(top[0]) + 0.01),
            "on the whole": float(top[:3].mean()),
            "in a run": math.log(float(self.run[places].max()) + 0.01),
            "often": math.log(len(own)),
            "share": (len(own) + 0.3) / (len(own) + others + 0.6),
            "outside": float(min(len(out), 2)),
            "opening": float(self.reading.role[own, OPEN].max()),
            "is dish": float("dish" in kinds or _kinds().get(key) == "head"),
            "is made": float(bool(kinds & MADE)),
            "is food": float(bool(kinds)),
            "is line": float(self.line[places].max()),
            "early": math.exp(-(own[0] - start) / 60),
            "quality": float(np.mean([self.doc[i].pos_ == "ADJ" for i in own])),
            "proper": float(np.mean([self.doc[i].pos_ == "PROPN" for i in own])),
            "at work": float(self.reading.role[own][:, DONE].sum(1).mean()),
        }

    def likely(self, number: int) -> list[tuple[float, str]]:
        """The words of a dish with the likelihood of each to stand in its name, the likeliest first."""
        weights = title_weights()
        found = []
        for key in self.used[number]:
            odds = sum(value * weights.get(name, 0.0) for name, value in self.features(number, key).items())
            found.append((1 / (1 + math.exp(-odds)), key))
        return sorted(found, reverse=True)

    def in_order(self, number: int, keys: Sequence[str]) -> list[str]:
        """The words as they follow one another in the talk; a word for a finished dish comes last."""
        before: Counter[tuple[str, str]] = Counter()
        for key in keys:
            for i in [*self.used[number][key], *self.outside.get(key, [])]:
                after = {word_key(t.lower_) for t in self.doc[i + 1 : i + 4] if t.is_alpha}
                before.update((key, other) for other in keys if other != key and other in after)
        return sorted(
            keys, key=lambda k: (self._is_noun_of(k), -sum(before[k, o] - before[o, k] for o in keys))
        )

    @staticmethod
    def _is_noun_of(key: str) -> int:
        kinds = kinds_of(key)
        return 2 if "dish" in kinds or _kinds().get(key) == "head" else 1 if kinds & MADE else 0


def name_dishes(spotted: Spotted, dishes: Sequence[Stretch]) -> tuple[Title, ...]:
    """The title of each dish, no two alike; where no words name a dish the food named most in it stands in."""
    names = Names(spotted, dishes)
    return tuple(_title(names, spotted, number, dish) for number, dish in enumerate(dishes))


def _title(names: Names, spotted: Spotted, number: int, dish: Stretch) -> Title:
    likely = names.likely(number)
    if not likely:
        return _most_named(spotted, dish)
    chosen = [key for score, key in likely[:MOST] if score >= LIKELY] or [likely[0][1]]
    if len(chosen) == 1:
        chosen += [key for _, key in likely[1:2]]
    ordered = names.in_order(number, chosen)
    surest = {key: max(names.used[number][key], key=lambda i: float(names.sure[i])) for key in ordered}
    text = " ".join(names.doc[surest[key]].text for key in ordered)
    at = surest[likely[0][1]]
    return Title(text, at, at + 1, announced=likely[0][0] >= ANNOUNCED)


def _most_named(spotted: Spotted, dish: Stretch) -> Title:
    """The food named most in a dish that nothing names."""
    foods = [food for food in spotted.foods if dish.holds(food.start)]
    if not foods:
        return Title("untitled dish", dish.start, min(dish.start + 1, dish.end), announced=False)
    counts = Counter(food.name for food in foods)
    most = max(foods, key=lambda food: (counts[food.name], -food.start))
    return Title(most.name, most.start, most.end, announced=False)
