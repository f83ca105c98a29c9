"""The quiet stretches of a show in which one dish may end and another begin.

While a dish is being made, foods with their amounts come one after another. Between two dishes there is a
valley without any: the first is finished, served and tasted, the second is announced, and then the amounts
start again. Every valley is weighed by what is said in it.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from extract.lexicon import read_lexicon
from extract.segment.announced import called_back, promised_heads
from extract.segment.bare_titles import bare_title
from extract.segment.cues import Sentence
from extract.spot.pairing import Mention
from extract.spot.spotted import Spotted

FINISHED = frozenset({"dish", "bread"})
LEAST_GAP = 40
AFTER = 220
BEFORE_GAP = 60
LEAST_FOODS = 4
ORDINAL = 3.0
TALLIES = {"tasting": 2.5, "serving": 2.5}


@dataclass(frozen=True, slots=True)
class Valley:
    """A stretch between two measured foods, the sentences in it, and what speaks for a new dish there.

    ``score`` is the weighed sum of ``evidence``; ``ends`` what says that a dish is done, ``opens`` what says that
    one begins; ``sentence`` the index of the sentence with which it would begin.
    """

    score: float
    evidence: dict[str, float]
    sentence: int

    @property
    def ends(self) -> float:
        """How much says that the dish before is done."""
        return sum(self.evidence.get(k, 0.0) for k in ("yield", "tasting", "serving", "closer"))

    @property
    def away(self) -> bool:
        """Whether a visit lies in it."""
        return bool(self.evidence.get("visit"))

    @property
    def anew(self) -> float:
        """How much is made of foods that are measured both before and after it."""
        return self.evidence.get("measured anew", 0.0)

    @property
    def opens(self) -> float:
        """How much says in so many words that another begins."""
        return self.evidence.get("opener", 0.0)


@dataclass(frozen=True, slots=True)
class Ground:
    """What the valleys of one show are read from. ``usable`` are the sentences outside visits, in order."""

    spotted: Spotted
    sentences: Sequence[Sentence]
    usable: Sequence[int]
    gaps: Sequence[tuple[int, int]]
    measured: Sequence[Mention]
    starts: Sequence[int]

    def sentences_between(self, start: int, end: int) -> list[int]:
        """Places in ``usable`` of the sentences that begin in a token range, the one before it included."""
        first = bisect_right(self.usable, start, key=lambda i: self.sentences[i].start) - 1
        last = bisect_right(self.usable, end, key=lambda i: self.sentences[i].start)
        return list(range(max(first, 0), last))


def survey(
    spotted: Spotted, sentences: Sequence[Sentence], usable: Sequence[int], gaps: Sequence[tuple[int, int]]
) -> Ground:
    """The ground of one show; ``gaps`` are the token spans of its visits."""
    measured = [
        m
        for m in spotted.mentions
        if m.amount is not None and m.amount.low is not None and not any(a <= m.start < b for a, b in gaps)
    ]
    return Ground(spotted, sentences, usable, gaps, measured, [m.start for m in measured])


def find_valleys(ground: Ground) -> Iterator[Valley]:
    """Every valley long enough, with enough foods on both sides, in order."""
    names: set[str] = set()
    for number, (mention, after) in enumerate(zip(ground.measured, ground.measured[1:], strict=False)):
        names.add(mention.food.name)
        start, end = mention.end, after.start
        hole = sum(max(0, min(b, end) - max(a, start)) for a, b in ground.gaps)
        if end - start - hole < LEAST_GAP or len(names) < LEAST_FOODS:
            continue
        last = bisect_left(ground.starts, end + AFTER)
        coming = {m.food.name for m in ground.measured[number + 1 : last]}
        if len(coming) >= LEAST_FOODS:
            yield _valley(ground, start, end, hole, names, coming)


def _valley(ground: Ground, start: int, end: int, hole: int, names: set[str], coming: set[str]) -> Valley:
    inside = ground.sentences_between(start, end)
    around = ground.sentences_between(start - BEFORE_GAP, end)
    opener, at = _best_opener(ground, inside)
    foods = _foods_between(ground, start, end + 15)
    promised = promised_heads(ground.spotted, ground.sentences)
    used = {m.food.head for m in ground.measured if m.start < start}
    evidence = {
        "length": (end - start - hole) / 80,
        "yield": float(_holds(ground, around, [y.start for y in ground.spotted.yields])),
        **{cue: _tally(ground, around, cue, most) for cue, most in TALLIES.items()},
        "closer": max((_sentence(ground, p).weight("closer") for p in around), default=0.0),
        "opener": opener,
        "visit": float(hole > 0),
        "batch": float(any(start <= b.start < end + BEFORE_GAP for b in ground.spotted.batches)),
        "promised": float(bool({m.food.head for m in foods} & promised - used)),
        "new dish": float(_new_dish(ground, foods, start)),
        "measured anew": float(len(coming & names)),
        "burst": float(len(coming) - LEAST_FOODS),
    }
    weights = {r["evidence"]: (float(r["weight"]), float(r["most"])) for r in _weight_rows()}
    weighed = {k: min(most, v * w) for k, v in evidence.items() for w, most in [weights[k]]}
    sentence = ground.usable[at if at is not None else _after_the_end(ground, inside)]
    return Valley(sum(weighed.values()), weighed, sentence)


def _weight_rows() -> Sequence[dict[str, str]]:
    return read_lexicon("boundary_weights", columns=("evidence", "weight", "most"))


def _sentence(ground: Ground, place: int) -> Sentence:
    return ground.sentences[ground.usable[place]]


def _tally(ground: Ground, places: Sequence[int], cue: str, most: float) -> float:
    return min(most, sum(min(1.5, _sentence(ground, p).weight(cue)) for p in places))


def _holds(ground: Ground, places: Sequence[int], tokens: Sequence[int]) -> bool:
    return any(_sentence(ground, p).start <= t < _sentence(ground, p).end for p in places for t in tokens)


def _best_opener(ground: Ground, places: Sequence[int]) -> tuple[float, int | None]:
    """(weight, place) of the sentence that says most clearly that a dish begins."""
    best: tuple[float, int | None] = (0.0, None)
    for place in places:
        said = _sentence(ground, place).weight("opener")
        said += 2.0 if said >= ORDINAL else 0.0
        called = called_back(ground.spotted, ground.sentences, ground.usable, place)
        said += bare_title(ground.spotted, ground.sentences, ground.usable, place, called=called > 0)
        weight = said + called * (1.0 if said >= 1 else 0.7)
        if weight > best[0]:
            best = (weight, place)
    return best


def _after_the_end(ground: Ground, places: Sequence[int]) -> int:
    """Where no words open the dish: the sentence after the last that ends the one before."""
    cues = ("closer", "tasting", "serving")
    done = [p for p in places if any(_sentence(ground, p).weight(c) for c in cues)]
    return min(done[-1] + 1, places[-1]) if done else places[-1]


def _foods_between(ground: Ground, start: int, end: int) -> list[Mention]:
    mentions = ground.spotted.mentions
    first = bisect_left(mentions, start, key=lambda m: m.food.start)
    last = bisect_left(mentions, end, key=lambda m: m.food.start)
    return [m for m in mentions[first:last] if not any(a <= m.start < b for a, b in ground.gaps)]


def _new_dish(ground: Ground, foods: Sequence[Mention], start: int) -> bool:
    """Whether a finished dish is named that was not spoken of since the opening."""
    named = {m.food.head for m in foods if m.food.kinds & FINISHED}
    if not named:
        return False
    since = {m.food.head for m in ground.spotted.mentions if m.food.start < start} - promised_heads(
        ground.spotted, ground.sentences
    )
    return bool(named - since)
