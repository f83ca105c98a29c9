"""Foods by their place in the sentence: ambiguous names that need one, and foods the lexicon lacks."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from extract.spot.foods.known import Match
from extract.spot.foods.words import TalkWords
from extract.spot.names.foods import FoodEntry, food_words, not_foods
from extract.spot.verbs.forms import verb_forms

_LIGHT = frozenset({"light", "naming"})  # verb groups that do nothing to a food
_PUT_ON = frozenset({"spice", "fat", "oil", "flour", "sugar"})  # foods whose verb puts them on
_LISTING = frozenset({"and", "or", "plus", "with"})
_REACH = 6  # words between a verb and its object: "add in just a little bit of the"


def counts_here(words: TalkWords, match: Match, matches: Sequence[Match]) -> bool:
    """Whether an ambiguous name ("stock", "date") stands where a food belongs; sure names always do."""
    sense = match.entry.sense
    if _names_a_thing(words, match) or _only_yields(words, match):
        return False
    if _is_verb(words, match):
        return False
    if not sense:
        return True
    place = place_of(words, match.start, {other.end: other for other in matches})
    if sense == "plural":
        return True
    if sense == "plural-slot":
        return place != ""
    if sense == "amount":
        return place in ("amount", "count")
    if sense == "clove":
        return place in ("list", "amount") and not _of_garlic(words, match)
    return place != ""


def _names_a_thing(words: TalkWords, match: Match) -> bool:
    """Whether the food only tells which tool is meant: "salad bowl", "rice cooker", "ice bath"."""
    following = words.after(match.end)
    if following >= len(words.keys) or words.broken[following] or match.plural:
        return False
    return not_foods().get(words.keys[following]) in ("vessel", "tool") and _is_noun(words, following)


def _is_verb(words: TalkWords, match: Match) -> bool:
    """Whether the word is what is done ("squash it"); "salt it" puts on the food all the same."""
    if match.end - match.start > 1 or words.doc[match.start].pos_ != "VERB":
        return False
    if match.entry.sense == "slot" or "generic" in match.entry.kinds:
        return True
    following = words.texts[match.end] if match.end < len(words.texts) else ""
    return not match.entry.kinds & _PUT_ON and following in food_words("object")


def _only_yields(words: TalkWords, match: Match) -> bool:
    """Whether the word only says what is got out of the food that follows: "the juice of a lemon"."""
    following = words.after(match.end)
    if words.texts[match.start] not in food_words("yields") or following >= len(words.keys):
        return False
    return words.texts[following] in ("of", "from")


def _is_noun(words: TalkWords, index: int) -> bool:
    return words.doc[index].pos_ in ("NOUN", "PROPN")


def _of_garlic(words: TalkWords, match: Match) -> bool:
    return (
        words.texts[words.before(match.start)] == "garlic"
        or "garlic" in words.texts[match.end : match.end + 3]
    )


def place_of(words: TalkWords, start: int, ends: dict[int, Match]) -> str:
    """What governs the words at ``start``, or "" where nothing does.

    "amount" (a measured one), "count" (figures without a unit), "some" (an amount without figures), "list" (a
    food before it and a comma or "and" between), "verb" (a kitchen verb), "light" (one that says little:
    "get", "have").
    """
    index, bound, listed = words.before(start), start, False
    for _ in range(_REACH):
        listed = listed or words.broken[bound]
        if index < 0:
            return ""
        if index in words.amount_at and not _is_article(words, index):
            amount = words.amount_at[index]
            return "some" if amount.low is None else "amount" if amount.unit else "count"
        word = words.texts[index]
        if index + 1 in ends:
            return "list" if listed else ""
        verb = _kitchen_verb(words, index)
        if verb:
            return "" if listed else verb
        listed = listed or word in _LISTING
        if words.ended[bound] or (
            word not in food_words("lead") and word not in _LISTING and not _describes(word)
        ):
            return ""
        bound, index = index, words.before(index)
    return ""


def _is_article(words: TalkWords, index: int) -> bool:
    """Whether the amount here is no more than "a"."""
    amount = words.amount_at[index]
    return not amount.unit and words.texts[amount.start] in ("a", "an")


def _kitchen_verb(words: TalkWords, index: int) -> str:
    """ "verb" or "light" where the word is one, "" where it is none or is a noun here."""
    known = verb_forms().get(words.texts[index])
    if known is None or (known[0].also and words.doc[index].pos_ in ("NOUN", "ADJ")):
        return ""
    return "light" if known[0].group in _LIGHT else "verb"


def _describes(word: str) -> bool:
    return any(word in food_words(role) for role in ("part", "state", "size", "prep", "adverb", "praise"))


def foods_by_place(words: TalkWords, matches: Sequence[Match]) -> list[Match]:
    """Foods the lexicon lacks, without kinds: what follows an amount with a unit, and what is put in."""
    taken = {index for match in matches for index in range(match.start, match.end)}
    found: dict[int, Match] = {}
    for first, _ in slots(words):
        end = _noun_end(words, first, taken)
        if end == first or any(index in found for index in range(first, end)):
            continue
        before = [words.texts[index] for index in range(first, end - 1) if words.keys[index]]
        name = " ".join((*before, words.keys[end - 1]))
        entry = FoodEntry(name, name, frozenset(), "")
        found[first] = Match(first, end, entry, words.plural(end - 1))
    return list(found.values())


def slots(words: TalkWords) -> Iterator[tuple[int, str]]:
    """Where the sentence calls for a food, past the small words before it, and what calls: amount or verb."""
    for start, place in _calls(words):
        index = words.after(start)
        while index < len(words.keys) and not words.broken[index] and _leads_in(words, index):
            index = words.after(index + 1)
        if index < len(words.keys):
            yield index, place


def _calls(words: TalkWords) -> Iterator[tuple[int, str]]:
    for amount in words.amounts:
        if amount.unit and amount.low is not None:
            yield amount.end, "amount"
    for token in words.doc:
        if token.pos_ == "VERB" and token.lemma_.lower() in food_words("adds"):
            yield token.i + 1, "verb"


def _noun_end(words: TalkWords, first: int, taken: set[int]) -> int:
    """The end of an unknown noun with the words that narrow it, begun at ``first``; ``first`` if none."""
    index, end = first, first
    while index < len(words.keys) and index not in taken and index not in words.amount_at:
        if (words.broken[index] and index > first) or words.doc[index].pos_ not in ("NOUN", "PROPN", "ADJ"):
            break
        end = index + 1
        index = words.after(end)
    runs_on = index < len(words.keys) and not words.broken[index]
    if end == first or (runs_on and (index in taken or words.keys[index] in not_foods())):
        return first
    return end if _may_be_food(words, end - 1) else first


def _may_be_food(words: TalkWords, index: int) -> bool:
    """Whether the last word of an unknown noun may name a food at all."""
    token, text = words.doc[index], words.texts[index]
    if token.pos_ == "ADJ" or not token.is_alpha or len(text) < 3:
        return False
    return words.keys[index] not in not_foods() and not _describes(text)


def _leads_in(words: TalkWords, index: int) -> bool:
    word = words.texts[index]
    return word in food_words("lead") or _describes(word)
