"""The lexicon's foods at their longest match."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cache
from typing import NamedTuple

from extract.lexicon import read_lexicon
from extract.spot.foods.words import TalkWords
from extract.spot.names.foods import Branch, FoodEntry, look_up, name_tree, not_foods, word_key

_COMPOUNDING = frozenset({"dish", "made"})


@dataclass(frozen=True, slots=True)
class Match:
    """A food of the lexicon at tokens ``start`` to ``end`` (exclusive), ``misheard`` or in its own words."""

    start: int
    end: int
    entry: FoodEntry
    plural: bool
    misheard: bool = False


class _Way(NamedTuple):
    """A way down the tree: the branch reached, the next word, the break jumped, words right and wrong."""

    branch: Branch
    position: int
    jumped: int = 0
    right: int = 0
    wrong: int = 0


@cache
def stand_ins(place: str) -> dict[str, tuple[str, ...]]:
    """For a word as heard, the words of food names that it may stand for inside a longer name.

    ``place`` is "name", or "name-amount" for words that need an amount before the name as well.
    """
    table: dict[str, tuple[str, ...]] = {}
    for row in read_lexicon("mishearings", columns=("heard", "meant", "place")):
        if row["place"] == place:
            table[row["heard"]] = (*table.get(row["heard"], ()), word_key(row["meant"]))
    return table


def match_foods(words: TalkWords) -> list[Match]:
    """The longest names from left to right, none lying wholly inside an amount ("clove", "stick", "can")."""
    matches: list[Match] = []
    position = 0
    while position < len(words.places):
        found = _longest(words, position)
        if found is None or _is_unit(words, found[0]) or _begins_with_unit(words, found[0], position):
            position += 1
            continue
        match, position = found
        while matches and _compounds(words, matches[-1], match):
            match = _compound(words, matches.pop(), match)
        matches.append(match)
    return matches


def _is_unit(words: TalkWords, match: Match) -> bool:
    return all(index in words.amount_at for index in range(match.start, match.end) if words.keys[index])


def _begins_with_unit(words: TalkWords, match: Match, position: int) -> bool:
    """Whether a name begins with the unit of an amount and its rest is a food: "500 grams flour"."""
    amount = words.amount_at.get(match.start)
    if amount is None or not amount.unit or amount.end >= match.end:
        return False
    while position < len(words.places) and words.places[position] < amount.end:
        position += 1
    return position < len(words.places) and _longest(words, position) is not None


def _compounds(words: TalkWords, first: Match, second: Match) -> bool:
    """Whether the second food is made of the first: "chicken soup", "beef and bean stew"."""
    if first.plural or first.entry.sense or second.entry.sense or first.entry.kinds & _COMPOUNDING:
        return False
    if not second.entry.kinds & _COMPOUNDING or (second.plural and "made" in second.entry.kinds):
        return False
    if words.doc[second.end - 1].pos_ not in ("NOUN", "PROPN"):
        return False
    following = words.after(first.end)
    if words.texts[following] == "and" and "dish" in second.entry.kinds and " " in second.entry.name:
        measured = words.before(first.start) in words.amount_at or words.follows_amount(first.start)
        return not measured and words.after(following + 1) == second.start
    return following == second.start and not words.broken[second.start]


def _compound(words: TalkWords, first: Match, second: Match) -> Match:
    joint = " and " if "and" in words.texts[first.end : second.start] else " "
    name = f"{first.entry.shown}{joint}{second.entry.shown}"
    entry = replace(second.entry, name=name, shown=name, sense="")
    return replace(second, start=first.start, entry=entry, misheard=first.misheard or second.misheard)


def _longest(words: TalkWords, position: int) -> tuple[Match, int] | None:
    best: tuple[tuple[int, int], Match, int] | None = None
    for way in _walk(words, _Way(name_tree(), position), position):
        last = words.places[way.position - 1]
        plural = words.plural(last)
        entry = way.branch.food(plural=plural)
        if entry is None or not _holds(words, position, way):
            continue
        rank = (way.position, -way.wrong)
        if best is None or rank > best[0]:
            match = Match(words.places[position], last + 1, entry, plural, way.wrong > 0)
            best = (rank, match, way.position)
    return best[1:] if best else None


def _walk(words: TalkWords, way: _Way, first: int) -> Iterator[_Way]:
    for step in _steps(words, way, first):
        if step.branch is not way.branch:
            yield step
        yield from _walk(words, step, first)


def _steps(words: TalkWords, way: _Way, first: int) -> Iterator[_Way]:
    """One word further down the tree, in every way that it may have been heard.

    A word may have been written as two ("corn starch") where the lexicon has one, its end as a letter
    ("sesame E oil"), or as another word that sounds the same ("corn flower").
    """
    branch, position, jumped, right, wrong = way
    if position >= len(words.places):
        return
    index = words.places[position]
    if position > first and words.broken[index]:
        if jumped or words.begins_sentence(index):
            return
        jumped = position
    key, branches = words.keys[index], branch.next
    if key in branches:
        yield _Way(branches[key], position + 1, jumped, right + 1, wrong)
    elif position > first and len(key) == 1 and key not in "ai":
        yield _Way(branch, position + 1, jumped, right, wrong + 1)
    if not wrong:
        for meant in _meant(words, index, first):
            if meant in branches and meant != key:
                yield _Way(branches[meant], position + 1, jumped, right, 1)
    joined = branches.get(words.joined(position))
    if joined is not None:
        yield _Way(joined, position + 2, jumped, right + 1, wrong)


def _meant(words: TalkWords, index: int, first: int) -> tuple[str, ...]:
    heard = words.texts[index]
    meant = stand_ins("name").get(heard, ())
    if heard in stand_ins("name-amount") and words.follows_amount(words.places[first]):
        meant = (*meant, *stand_ins("name-amount")[heard])
    return meant


def _holds(words: TalkWords, first: int, way: _Way) -> bool:
    """Whether the words are the name: one of them at least heard right, wrong punctuation only inside it.

    "red bell, pepper" is one name, "garlic, salt" is two foods; "baking paper" is no misheard powder.
    """
    if way.wrong:
        heard = " ".join(words.texts[index] for index in words.places[first : way.position])
        return way.right > 0 and not way.jumped and heard not in not_foods()
    if not way.jumped:
        return True
    if words.plural(words.places[way.jumped - 1]):  # "two lemons, zest and juice"
        return False
    left = [words.keys[index] for index in words.places[first : way.jumped]]
    right = [words.keys[index] for index in words.places[way.jumped : way.position]]
    first_food, whole = look_up(left), way.branch.food(plural=False)
    if first_food is None or look_up(right) is None:
        return True
    return whole is not None and whole.name == first_food.name  # "romaine, lettuce"
