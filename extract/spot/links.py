"""How dear it is to link an amount to a food, by the words between the two.

0 is nothing between, LIMIT breaks the link. The cost of each word stands in ``lexicons/link_words.tsv``; a
word that is not there costs by its part of speech.
"""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cache
from typing import TYPE_CHECKING

from extract.lexicon import read_lexicon
from extract.spot.spans import Amount, Food

if TYPE_CHECKING:
    from spacy.tokens import Doc

FORWARD_REACH = 9
BACKWARD_REACH = 9
COUNT_REACH = 4
LIMIT = 4.0
IMPOSSIBLE = 99.0
SUBJECT_COST = 0.5
PUT_COST = 0.9
SUBJECT_REACH = 7
VESSEL_REACH = 3


@cache
def link_words() -> dict[str, dict[str, float]]:
    """What each word costs between an amount and a food, by direction ("forward", "backward")."""
    table: dict[str, dict[str, float]] = {"forward": {}, "backward": {}}
    for row in read_lexicon("link_words", columns=("word", "direction", "cost")):
        table[row["direction"]][row["word"]] = float(row["cost"])
    return table


@cache
def link_phrases(role: str) -> re.Pattern[str]:
    """The phrases of one role (see lexicons/link_phrases.tsv) as one expression."""
    rows = read_lexicon("link_phrases", columns=("role", "pattern"))
    return re.compile("|".join(f"(?:{r['pattern']})" for r in rows if r["role"] == role))


@dataclass(frozen=True)
class Ground:
    """A talk as linking reads it: its words, and what was spotted in them, each list in order of start."""

    lower: list[str]
    shapes: list[tuple[str, str]]
    foods: Sequence[Food]
    amounts: Sequence[Amount]
    food_starts: list[int] = field(default_factory=list)
    figure_starts: list[int] = field(default_factory=list)

    @classmethod
    def of(cls, doc: Doc, foods: Sequence[Food], amounts: Sequence[Amount]) -> Ground:
        """The ground of a parsed talk."""
        return cls(
            [t.lower_ for t in doc],
            [(t.pos_, t.tag_) for t in doc],
            foods,
            amounts,
            [f.start for f in foods],
            [a.start for a in amounts if a.low is not None],
        )

    def text(self, start: int, end: int) -> str:
        """The words of a token range, separated by single spaces."""
        return " ".join(self.lower[max(start, 0) : end])


def link_cost(ground: Ground, amount: Amount, j: int) -> float:
    """The cost of linking ``amount`` to the food at ``j``, IMPOSSIBLE where the words forbid it."""
    food = ground.foods[j]
    if food.start >= amount.end:
        crossed = _crosses(ground, amount.end, food.start)
        return IMPOSSIBLE if crossed else _forward_cost(ground, amount, food)
    if food.start >= amount.start:
        return 0.0 if food.end > amount.end else IMPOSSIBLE
    if _is_subject(ground, amount, j):
        return SUBJECT_COST
    crossed = _crosses(ground, food.end, amount.start)
    return IMPOSSIBLE if crossed else _backward_cost(ground, amount, food)


def _crosses(ground: Ground, start: int, end: int) -> bool:
    """Whether another food or another figure begins between."""
    return any(
        bisect_left(starts, start) < bisect_left(starts, end)
        for starts in (ground.food_starts, ground.figure_starts)
    )


def _is_subject(ground: Ground, amount: Amount, j: int) -> bool:
    """ "The butter in the mussels was forty grams": a second food only tells where the measured one is."""
    if j + 1 >= len(ground.foods) or amount.low is None:
        return False
    food, other = ground.foods[j], ground.foods[j + 1]
    if not food.end < other.start < amount.start or amount.start - other.end > SUBJECT_REACH:
        return False
    inside = link_phrases("inside").fullmatch(ground.text(food.end, other.start))
    return bool(inside and link_phrases("told").search(ground.text(other.end, amount.start)))


def _forward_cost(ground: Ground, amount: Amount, food: Food) -> float:
    bare = amount.unit == ""
    if food.start - amount.end > (COUNT_REACH if bare else FORWARD_REACH):
        return IMPOSSIBLE
    if bare and _counts_the_last(ground, amount):
        return IMPOSSIBLE
    if bare and is_article(ground, amount) and "." in ground.lower[amount.end : food.start]:
        return IMPOSSIBLE
    costs = link_words()["forward"]
    total = 0.0
    for i in range(amount.end, food.start):
        cost = costs.get(ground.lower[i])
        total += _shape_cost(ground.shapes[i], bare=bare) if cost is None else cost
        if total >= LIMIT:
            return IMPOSSIBLE
    return total


def _counts_the_last(ground: Ground, amount: Amount) -> bool:
    """ "Limes, three, juice and all": a figure between commas behind a plural food is that food's."""
    last = bisect_left(ground.food_starts, amount.start) - 1
    if last < 0 or not ground.foods[last].plural or ground.foods[last].end != amount.start - 1:
        return False
    return ground.lower[amount.start - 1] == "," and ground.text(amount.end, amount.end + 1) in {",", "."}


def _shape_cost(shape: tuple[str, str], *, bare: bool) -> float:
    """What a word outside the lexicon costs before the food it may describe, by its part of speech."""
    pos, tag = shape
    if pos in {"ADJ", "ADV"} or tag in {"VBN", "VBG", "VBD"}:
        return 0.4
    if pos in {"NOUN", "PROPN"}:
        return 1.2 if bare else 0.8
    if pos in {"PUNCT", "SYM"}:
        return 2.0 if bare else 1.2
    return IMPOSSIBLE


def _backward_cost(ground: Ground, amount: Amount, food: Food) -> float:
    if (amount.low is None and not amount.again) or amount.start - food.end > BACKWARD_REACH:
        return IMPOSSIBLE
    if is_article(ground, amount) and not amount.again:
        return IMPOSSIBLE
    between = ground.text(food.end, amount.start)
    if food.plural and _ends_clause(ground, amount) and link_phrases("put").fullmatch(between):
        return PUT_COST
    costs = link_words()["backward"]
    total = 0.6 if amount.unit or amount.again else 1.8
    if (
        amount.unit == ""
        and not amount.again
        and not counts_them(ground, amount)
        and not _ends_clause(ground, amount)
    ):
        total += 1.2
    for i in range(food.end, amount.start):
        total += costs.get(ground.lower[i], 2.5 if ground.shapes[i][0] == "VERB" else 1.5)
        if total >= LIMIT:
            return IMPOSSIBLE
    return total + 2.5 if takes_own_food(ground, amount) else total


def _ends_clause(ground: Ground, amount: Amount) -> bool:
    """ "Eggs in there, four.": a bare figure that closes what was said counts what was named in it."""
    return ground.text(amount.end, amount.end + 1) in {".", ",", "!", ";", ""}


def counts_them(ground: Ground, amount: Amount) -> bool:
    """ "Eggs. Three of them": the figure counts what was just named."""
    return bool(link_phrases("them").fullmatch(ground.text(amount.end, amount.end + 2)))


def takes_own_food(ground: Ground, amount: Amount) -> bool:
    """An amount followed by "of" (not "of them") calls for a food of its own."""
    after = ground.text(amount.end, amount.end + 2)
    ends_in_of = ground.lower[amount.end - 1] == "of"
    return (ends_in_of or after.startswith("of ")) and not link_phrases("it").fullmatch(after)


def corrects(ground: Ground, first: Amount, second: Amount) -> bool:
    """Whether the words between or just after say that ``second`` is what ``first`` should have been."""
    between = ground.text(first.end, second.start)
    after = ground.text(second.end, second.end + 2)
    return bool(link_phrases("corrects").search(between) or link_phrases("settles").match(after))


def tells_a_total(ground: Ground, amount: Amount) -> bool:
    """ "You get about ten cups": how much of a thing there is, not how much of a food goes in."""
    return bool(link_phrases("total").search(ground.text(amount.start - 5, amount.start)))


@cache
def _vessels() -> frozenset[str]:
    rows = read_lexicon("equipment", columns=("name", "kind", "also", "list"))
    return frozenset(r["name"].split()[-1] for r in rows if r["kind"] in {"pan", "tin", "dish", "bowl"})


def sizes_a_vessel(ground: Ground, amount: Amount) -> bool:
    """ "A two pound loaf tin": the size of a thing that food goes into, unless it is a tin of something."""
    for i in range(amount.end, min(amount.end + VESSEL_REACH, len(ground.lower))):
        if ground.lower[i] in _vessels():
            return ground.text(i + 1, i + 2) != "of"
        if ground.shapes[i][0] not in {"NOUN", "PROPN", "ADJ", "NUM"} and ground.lower[i] != "-":
            return False
    return False


def is_article(ground: Ground, amount: Amount) -> bool:
    """Whether the amount is no more than an "a" or "an", or has no figures."""
    return amount.low is None or (
        amount.end - amount.start == 1 and ground.lower[amount.start] in {"a", "an"}
    )
