"""The words around a food's name: what belongs to the name, its state, its preparation."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field

from extract.spot.foods.known import Match
from extract.spot.foods.words import TalkWords
from extract.spot.names.foods import food_words, names_kind

_JOINS = frozenset({"and", "then"})
_FULL = {"'s": "is", "'ve": "have", "'re": "are", "'d": "had"}
_RELATIVES = re.compile(r"(that|which) (is|are|has|have|i|we|was|were)( (have|been|had))?( all| just)?")


@dataclass(slots=True)
class Around:
    """What stands around one name, with the span of the whole mention."""

    start: int
    end: int
    name: list[str] = field(default_factory=list)
    state: list[str] = field(default_factory=list)
    preparation: list[str] = field(default_factory=list)


def words_around(words: TalkWords, match: Match, matches: Sequence[Match]) -> Around:
    """Read left and right of ``match`` as far as words go that can only belong to it."""
    around = Around(match.start, match.end)
    taken = {index for other in matches if other is not match for index in range(other.start, other.end)}
    _read_left(words, match, around, taken)
    _read_pieces(words, around, taken)
    _read_right(words, around, taken)
    return around


def _read_left(words: TalkWords, match: Match, around: Around, taken: set[int]) -> None:
    parts: list[tuple[str, str]] = []
    index, bound = words.before(match.start), match.start
    while index >= 0 and index not in taken and index not in words.amount_at and not words.broken[bound]:
        role = _role(words.texts[index], match.entry.kinds)
        if not role:
            break
        parts.insert(0, (role, words.texts[index]))
        bound, index = index, words.before(index)
    while parts and parts[0][0] == "adverb" and (len(parts) == 1 or parts[1][0] != "prep"):
        parts.pop(0)
        bound = words.after(bound + 1)
    around.start = min(around.start, bound)
    around.name = [word for role, word in parts if role == "part"]
    around.state = [word for role, word in parts if role in ("state", "size")]
    preparation = " ".join(word for role, word in parts if role in ("prep", "adverb"))
    if preparation:
        around.preparation.append(preparation)
    if index >= 0 and not words.broken[bound]:
        _read_yield(words, index, around)


def _read_yield(words: TalkWords, index: int, around: Around) -> None:
    """ "the juice of half a lemon", "of those lemons": what is got out of the food says how it is prepared."""
    while index >= 0 and (index in words.amount_at or words.texts[index] in food_words("pointing")):
        index = words.before(index)
    part = words.before(index)
    if index >= 0 and words.texts[index] in ("of", "from") and part >= 0:
        preparation = food_words("yields").get(words.texts[part])
        if preparation and not words.broken[index]:
            around.preparation.append(preparation)


def _role(word: str, kinds: frozenset[str]) -> str:
    """The part that ``word`` plays before a food of these kinds; "" where it does not belong to it."""
    if word in food_words("state") and names_kind(word, kinds):
        return "part"
    for role in ("prep", "state", "part", "size", "adverb", "praise"):
        if word in food_words(role):
            return role
    return ""


def _read_pieces(words: TalkWords, around: Around, taken: set[int]) -> None:
    """ "celery stalks", "broccoli florets": the part named after the food is no part of its name."""
    index = words.after(around.end)
    if index >= len(words.keys) or index in taken or words.broken[index]:
        return
    key = words.keys[index]
    if key in food_words("piece"):
        around.end = index + 1
        if food_words("piece")[key] == "shape":
            around.preparation.append(f"in {words.texts[index]}")


def _read_right(words: TalkWords, around: Around, taken: set[int]) -> None:
    """ "onions, peeled and finely chopped", "chicken that I've cut into cubes"."""
    index, end = _skip_relative(words, around.end), around.end
    found: list[str] = []
    while index < len(words.keys) and index not in taken and index not in words.amount_at:
        word = words.texts[index]
        if words.ended[index] and (found or index != words.after(around.end)):
            break
        if word in food_words("prep"):
            found.append(word)
            end = index + 1
            shape = _shape_end(words, end, taken)
            if shape > end:
                found += [words.texts[i] for i in range(end, shape) if words.keys[i]]
                end = shape
        elif word in food_words("adverb"):
            found.append(word)
            end = index + 1 if len(found) > 1 and food_words("adverb")[word] else end
        elif found and word in _JOINS:
            found.append(word)
        else:
            break
        index = words.after(max(index + 1, end))
    if end == around.end or _belongs_to_next(words, end, taken):
        return
    while found and found[-1] != words.texts[words.before(end)]:
        found.pop()
    around.preparation.append(" ".join(found))
    around.end = end


def _skip_relative(words: TalkWords, end: int) -> int:
    """Past "that's been" or "which I have just", where it stands right after the food."""
    index = words.after(end)
    following = [i for i in range(index, min(index + 9, len(words.texts))) if words.texts[i][0] not in ",-"]
    plain = [_FULL.get(words.texts[i], words.texts[i]) for i in following]
    phrase = _RELATIVES.match(" ".join(plain))
    if phrase is None or words.ended[index]:
        return index
    return following[min(len(phrase.group().split()), len(following) - 1)]


def _shape_end(words: TalkWords, start: int, taken: set[int]) -> int:
    """The end of "into half-inch cubes" or "in thin slices" beginning at ``start``, or ``start``."""
    index = words.after(start)
    if index >= len(words.keys) or words.texts[index] not in ("in", "into"):
        return start
    for _ in range(7):
        index = words.after(index + 1)
        if index >= len(words.keys) or index in taken:
            return start
        if words.keys[index] in food_words("shape"):
            following = words.after(index + 1)
            more = following < len(words.keys) and words.keys[following] in food_words("shape")
            if not more:
                return index + 1
    return start


def _belongs_to_next(words: TalkWords, end: int, taken: set[int]) -> bool:
    """Whether a food follows at once, so that "chicken, shredded cheese" shreds the cheese."""
    index = words.after(end)
    while index < len(words.keys) and index not in taken and not words.broken[index]:
        word = words.texts[index]
        if not any(word in food_words(role) for role in ("part", "state", "size", "prep")):
            return False
        index = words.after(index + 1)
    return index in taken and not words.broken[index]
