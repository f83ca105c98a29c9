"""Misheard foods: what sounds like a food, and is none, where the sentence calls for one.

Two witnesses are asked: the table of common mishearings, and the sound of the words against the sound of
every food. A false mending is worse than none, so the less the place calls for a food, the nearer the sound
must be.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache

from extract.lexicon import read_lexicon
from extract.spot.foods.known import Match
from extract.spot.foods.place import place_of, slots
from extract.spot.foods.words import TalkWords
from extract.spot.names.foods import (
    FoodEntry,
    food_words,
    look_up,
    name_keys,
    not_foods,
    split_name,
    word_key,
)
from extract.spot.names.sounds import apart, spoken

LONGEST = 3  # words that one food may have been heard as
NEAREST = {"amount": 0.17, "list": 0.1, "verb": 0.06}  # how far apart, as a share of the food's phonemes
NEAREST_SHORT, SHORT = 0.06, 5  # the same for foods of fewer phonemes than SHORT, such as "thyme"
FEWEST = {"amount": 3, "list": 5, "verb": 5}  # phonemes that a food must have to be told by its sound


@dataclass(frozen=True, slots=True)
class Mishearing:
    """One row of the table: the words as heard, the food meant, the place they need."""

    heard: tuple[str, ...]
    meant: str
    place: str


def mend(words: TalkWords, matches: Sequence[Match]) -> list[Match]:
    """``matches`` with the misheard foods added, in order; one that swallows a match takes its place."""
    found = [*_by_table(words, matches)]
    taken = {index for match in found for index in range(match.start, match.end)}
    found += [m for m in _by_sound(words, matches) if taken.isdisjoint(range(m.start, m.end))]
    covered = {index for match in found for index in range(match.start, match.end)}
    kept = [match for match in matches if covered.isdisjoint(range(match.start, match.end))]
    return sorted((*kept, *found), key=lambda match: match.start)


@cache
def mishearings() -> dict[str, tuple[Mishearing, ...]]:
    """Whole foods as they are misheard, by the first word heard."""
    table: dict[str, tuple[Mishearing, ...]] = {}
    for row in read_lexicon("mishearings", columns=("heard", "meant", "place")):
        if not row["place"].startswith("name"):
            heard = tuple(row["heard"].split())
            table[heard[0]] = (*table.get(heard[0], ()), Mishearing(heard, row["meant"], row["place"]))
    return table


def _by_table(words: TalkWords, matches: Sequence[Match]) -> Iterator[Match]:
    ends = {match.end: match for match in matches}
    starts = {match.start for match in matches}
    named = {index for match in matches for index in range(match.start, match.end)}
    for position, index in enumerate(words.places):
        for row in mishearings().get(words.texts[index], ()):
            span = words.places[position : position + len(row.heard)]
            if tuple(words.texts[i] for i in span) != row.heard or any(words.broken[i] for i in span[1:]):
                continue
            if named.issuperset(span) or not _placed(words, span, row.place, ends, starts):
                continue
            match = _match(words, span, row.meant)
            if match is not None:
                yield match
                break


def _placed(words: TalkWords, span: list[int], wanted: str, ends: dict[int, Match], starts: set[int]) -> bool:
    if wanted == "always":
        return True
    place = place_of(words, span[0], ends)
    if wanted == "loose":
        return place != "" or _list_goes_on(words, span[-1] + 1, starts)
    if wanted == "slot":
        return place not in ("", "light") or _list_goes_on(words, span[-1] + 1, starts)
    if place == "amount":
        return words.follows_amount(span[0])
    if wanted == "amount" and _measured_afterwards(words, span):
        return True
    direct = words.before(span[0])
    joined = place == "list" and (words.broken[span[0]] or words.texts[direct] in ("and", "or"))
    return wanted == "list" and (
        joined or (direct + 1 in ends and _list_goes_on(words, span[-1] + 1, starts))
    )


def _measured_afterwards(words: TalkWords, span: list[int]) -> bool:
    """Whether the words stand alone before their amount: "Time, a few sprigs." """
    following = words.after(span[-1] + 1)
    amount = words.amount_at.get(following)
    if amount is None or not amount.unit or not (words.ended[span[0]] and words.broken[following]):
        return False
    end = words.after(amount.end)
    return end >= len(words.keys) or words.texts[end] != "of"


def _list_goes_on(words: TalkWords, end: int, starts: set[int]) -> bool:
    """Whether a food follows as the next of a list: "time and rosemary", "flower, sugar"."""
    index = words.after(end)
    if index >= len(words.keys):
        return False
    if words.broken[index] and index in starts:
        return True
    return words.texts[index] in ("and", "or") and words.after(index + 1) in starts


def _match(words: TalkWords, span: Sequence[int], meant: str) -> Match | None:
    heard = split_name(meant)
    keys = name_keys(meant)
    entry = look_up(keys, plural=heard[-1] != keys[-1])
    if entry is None:
        return None
    plural = words.plural(span[-1]) and heard[-1] != keys[-1]
    return Match(span[0], span[-1] + 1, entry, plural, misheard=True)


@cache
def _sounds_of_foods() -> dict[str, FoodEntry]:
    """Every way a common food's name sounds; finished dishes and words that need a place are left out."""
    table: dict[str, FoodEntry] = {}
    for row in read_lexicon("foods", columns=("name", "aliases", "forms", "kinds", "sense", "source")):
        if row["source"].startswith("wordnet") or row["sense"] or "dish" in row["kinds"]:
            continue
        for name in (row["name"], *filter(None, row["aliases"].split("; "))):
            entry = look_up(name_keys(name))
            if entry is not None:
                table.update((sound, entry) for sound in spoken(name_keys(name)) if sound not in table)
    return table


def _by_sound(words: TalkWords, matches: Sequence[Match]) -> Iterator[Match]:
    starts = {match.start: match for match in matches}
    ends = {match.end: match for match in matches}
    done = {index for match in matches for index in range(match.start, match.end)}
    for index, place in _open_places(words, ends):
        if index in done:
            continue
        best = min(_readings(words, index, place, starts), default=None, key=lambda found: found[0])
        if best is not None:
            _, end, entry = best
            done.update(range(index, end))
            yield Match(index, end, entry, words.plural(end - 1), misheard=True)


def _open_places(words: TalkWords, ends: dict[int, Match]) -> Iterator[tuple[int, str]]:
    """Where a food belongs and the lexicon found none, with what calls for it."""
    yield from slots(words)
    for end in ends:
        index = words.after(end)
        if index < len(words.keys) and words.texts[index] in ("and", "or"):
            index = words.after(index + 1)
        elif index >= len(words.keys) or not words.broken[index] or words.ended[index]:
            continue
        if index < len(words.keys):
            yield index, "list"


def _readings(
    words: TalkWords, start: int, place: str, starts: dict[int, Match]
) -> Iterator[tuple[float, int, FoodEntry]]:
    """What the one to three words at ``start`` may sound like: (distance, end, food)."""
    span: list[int] = []
    index = words.after(start)
    while len(span) < LONGEST and index < len(words.keys) and index not in words.amount_at:
        if (span and words.broken[index]) or (index in starts and not span):
            break
        span.append(index)
        swallowed = starts.get(index)
        if swallowed is not None and swallowed.end - 1 > index:
            break
        nearest = None if _is_heard_right(words, span, swallowed) else _nearest(words, span, place, swallowed)
        if nearest is not None and (swallowed is None or nearest[1].name != swallowed.entry.name):
            yield nearest[0] - 0.01 * len(span), index + 1, nearest[1]
        if swallowed is not None:
            break
        index = words.after(index + 1)


def _is_heard_right(words: TalkWords, span: Sequence[int], swallowed: Match | None) -> bool:
    """Whether the words mean what they say: small words alone, no noun, or a noun that is no food."""
    strange = [i for i in span if swallowed is None or i < swallowed.start]
    if all(words.doc[i].is_stop for i in strange):
        return True
    if len(span) > 1:
        return " ".join(words.texts[i] for i in span) in not_foods()
    word, roles = words.texts[span[0]], ("lead", "part", "state", "size", "praise", "adverb", "prep", "adds")
    if words.doc[span[0]].pos_ not in ("NOUN", "PROPN", "ADJ"):
        return True
    return words.keys[span[0]] in not_foods() or any(word in food_words(role) for role in roles)


def _nearest(
    words: TalkWords, span: Sequence[int], place: str, swallowed: Match | None
) -> tuple[float, FoodEntry] | None:
    heard = [words.texts[i] for i in span]
    return _nearest_sound(heard, place, same_end=swallowed is not None)


def _nearest_sound(heard: Sequence[str], place: str, *, same_end: bool) -> tuple[float, FoodEntry] | None:
    from rapidfuzz.distance import Levenshtein
    from rapidfuzz.process import extract

    best: tuple[float, FoodEntry] | None = None
    table = _sounds_of_foods()
    for sound in dict.fromkeys((*spoken(heard), *spoken([*heard[:-1], word_key(heard[-1])]))):
        if len(sound) < FEWEST[place]:
            continue
        near = extract(sound, table.keys(), scorer=Levenshtein.distance, score_cutoff=2, limit=6)
        for other, _, _ in near:
            share = _share(sound, other, same_end=same_end)
            limit = NEAREST[place] if len(other) >= SHORT else min(NEAREST_SHORT, NEAREST[place])
            if len(other) >= FEWEST[place] and share <= limit and (best is None or share < best[0]):
                best = (share, table[other])
    return best


def meant_by(heard: Sequence[str]) -> FoodEntry | None:
    """The food that words which can only be one, and name none, were misheard for: by the table or by sound."""
    row = next((row for row in mishearings().get(heard[0], ()) if row.heard == tuple(heard)), None)
    if row is not None:
        return look_up(name_keys(row.meant))
    if " ".join(heard) in not_foods():
        return None
    found = _nearest_sound(heard, "amount", same_end=False)
    return found[1] if found else None


def _share(sound: str, food: str, *, same_end: bool) -> float:
    """How far ``sound`` is from the food's, for each phoneme; an end that was heard right proves nothing."""
    if same_end:
        while sound and food and sound[-1] == food[-1]:
            sound, food = sound[:-1], food[:-1]
    return apart(sound, food) / len(food) if food else 1.0
