"""Foods by their place in the sentence: ambiguous names that need one, and foods the lexicon lacks."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cache

from extract.lexicon import read_lexicon
from extract.spot.food_names import food_words
from extract.spot.foods_known import Match
from extract.spot.spans import Food
from extract.spot.talk_words import TalkWords

_LISTING = frozenset({"and", "or", "plus", "with"})
_REACH = 6  # words between a verb and its object: "add in just a little bit of the"


@cache
def not_foods() -> frozenset[str]:
    """Nouns that no place makes a food: vessels, tools, times, people (lexicons/not_food.tsv)."""
    return frozenset(row["word"] for row in read_lexicon("not_food", columns=("word", "kind")))


def counts_here(words: TalkWords, match: Match, matches: Sequence[Match]) -> bool:
    """Whether an ambiguous name ("stock", "date") stands where a food belongs; sure names always do."""
    sense = match.entry.sense
    if not sense:
        return True
    place = place_of(words, match.start, {other.end: other for other in matches})
    if sense == "plural":
        return match.plural or place == "amount"
    if sense == "amount":
        return place == "amount"
    if sense == "clove":
        return place in ("list", "amount") and not _of_garlic(words, match)
    return place != ""


def _of_garlic(words: TalkWords, match: Match) -> bool:
    return (
        words.texts[words.before(match.start)] == "garlic"
        or "garlic" in words.texts[match.end : match.end + 3]
    )


def place_of(words: TalkWords, start: int, ends: dict[int, Match]) -> str:
    """What governs the words at ``start``: "amount", "verb", "list" (a food beside it), or ""."""
    index, bound = words.before(start), start
    for _ in range(_REACH):
        if index < 0:
            return ""
        if index in words.amount_at:
            return "amount"
        word = words.texts[index]
        if index + 1 in ends:
            return "list"
        if words.broken[bound] and word not in _LISTING:
            return ""
        if words.doc[index].lemma_.lower() in food_words("verb"):
            return "verb"
        if word not in food_words("lead") and word not in _LISTING and not _describes(word):
            return ""
        bound, index = index, words.before(index)
    return ""


def _describes(word: str) -> bool:
    return any(word in food_words(role) for role in ("part", "state", "size", "prep", "adverb", "praise"))


def foods_by_place(words: TalkWords, matches: Sequence[Match]) -> list[Food]:
    """Foods the lexicon lacks: what follows an amount with a unit, and what is put in."""
    taken = {index for match in matches for index in range(match.start, match.end)}
    found: dict[int, Food] = {}
    for start in _slots(words):
        span = _noun_phrase(words, start, taken)
        if span is None or any(index in found for index in range(*span)):
            continue
        first, end = span
        name = " ".join(words.texts[index] for index in range(first, end - 1) if words.keys[index])
        head = words.keys[end - 1]
        found[first] = Food(
            first, end, f"{name} {head}".strip(), head, known=False, plural=words.plural(end - 1)
        )
    return list(found.values())


def _slots(words: TalkWords) -> Iterator[int]:
    """Where the sentence calls for a food."""
    for amount in words.amounts:
        if amount.unit and amount.low is not None:
            yield amount.end
    adders = {verb for verb, value in food_words("verb").items() if value == "adds"}
    for token in words.doc:
        if token.lemma_.lower() in adders and token.pos_ == "VERB":
            yield token.i + 1


def _noun_phrase(words: TalkWords, start: int, taken: set[int]) -> tuple[int, int] | None:
    """The span of an unknown noun, with the words that narrow it, that begins near ``start``."""
    index = words.after(start)
    while index < len(words.keys) and not words.broken[index] and _leads_in(words, index):
        index = words.after(index + 1)
    first, end = index, index
    while index < len(words.keys) and index not in taken and index not in words.amount_at:
        if (words.broken[index] and index > first) or words.doc[index].pos_ not in ("NOUN", "PROPN", "ADJ"):
            break
        end = index + 1
        index = words.after(end)
    if end == first or (index in taken and not words.broken[index]):
        return None
    head = words.doc[end - 1]
    if head.pos_ == "ADJ" or words.keys[end - 1] in not_foods() or not head.is_alpha or len(head) < 3:
        return None
    return first, end


def _leads_in(words: TalkWords, index: int) -> bool:
    word = words.texts[index]
    return word in food_words("lead") or _describes(word)
