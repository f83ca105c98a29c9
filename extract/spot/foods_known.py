"""The lexicon's foods at their longest match."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from extract.spot.food_names import Branch, FoodEntry, look_up, name_tree
from extract.spot.talk_words import TalkWords


@dataclass(frozen=True, slots=True)
class Match:
    """A food of the lexicon at tokens ``start`` to ``end`` (exclusive)."""

    start: int
    end: int
    entry: FoodEntry
    plural: bool


def match_foods(words: TalkWords) -> list[Match]:
    """The longest names from left to right, none lying wholly inside an amount ("clove", "stick", "can")."""
    matches, position, root = [], 0, name_tree()
    while position < len(words.places):
        found = _longest(words, position, root)
        if found is None or _is_unit(words, found[0]):
            position += 1
            continue
        match, position = found
        matches.append(match)
    return matches


def _is_unit(words: TalkWords, match: Match) -> bool:
    return all(index in words.amount_at for index in range(match.start, match.end) if words.keys[index])


def _longest(words: TalkWords, position: int, root: Branch) -> tuple[Match, int] | None:
    best = None
    for branch, following, breaks in _walk(words, root, position, position, ()):
        last = words.places[following - 1]
        plural = words.plural(last)
        entry = branch.food(plural=plural)
        if entry is None or not _holds(words, position, following, breaks):
            continue
        if best is None or following > best[1]:
            best = (Match(words.places[position], last + 1, entry, plural), following)
    return best


def _walk(
    words: TalkWords, branch: Branch, first: int, position: int, breaks: tuple[int, ...]
) -> Iterator[tuple[Branch, int, tuple[int, ...]]]:
    """Every way down the tree from ``position``, with the place reached and the breaks jumped.

    A word may have been written as two ("corn starch") where the lexicon has one.
    """
    if position >= len(words.places):
        return
    index = words.places[position]
    if words.broken[index] and position > first:
        breaks = (*breaks, position)
    following = branch.next.get(words.keys[index])
    if following is not None:
        yield following, position + 1, breaks
        yield from _walk(words, following, first, position + 1, breaks)
    if position + 1 < len(words.places) and not words.broken[words.places[position + 1]]:
        joined = branch.next.get(words.keys[index] + words.keys[words.places[position + 1]])
        if joined is not None:
            yield joined, position + 2, breaks
            yield from _walk(words, joined, first, position + 2, breaks)


def _holds(words: TalkWords, first: int, end: int, breaks: tuple[int, ...]) -> bool:
    """Whether a name written over wrong punctuation is one: "red bell, pepper" but not "garlic, salt"."""
    if not breaks:
        return True
    if len(breaks) > 1:
        return False
    cut = breaks[0]
    left = [words.keys[index] for index in words.places[first:cut]]
    right = [words.keys[index] for index in words.places[cut:end]]
    return look_up(left) is None or look_up(right) is None
