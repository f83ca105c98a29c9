"""Foods that are only words in the name of a dish still to be made: "there's a lemon and poppy seed loaf later"."""

from __future__ import annotations

from collections.abc import Sequence

from extract.reconcile.uses import Use
from extract.spot.food_names import name_keys, word_key

JOINS = frozenset({"and", "with", "of", "in", "on", "-", "n", "&", "'s"})
# The share of a name's words by which it is known again: "the lemon loaf" for "lemon and poppy seed loaf".
KNOWN_BY = 2 / 3


def without_later_dishes(words: Sequence[str], uses: Sequence[Use], titles: Sequence[str]) -> tuple[Use, ...]:
    """The uses without those that lie in the name of a dish of ``titles``, none of which is made yet.

    ``words`` are the talk's tokens in lower case. A measured food is used whatever it stands beside, and a name of
    a single word is no name to be sure of: "chicken" may be what goes in. Where the name ends in the food itself
    ("braised red cabbage") it only promises as long as nothing has been measured out.
    """
    names = [keys for title in titles if len(keys := _content(title)) > 1]
    measured = (use.mention.start for use in uses if "measured" in use.features)
    opening = next(measured, len(words))
    return tuple(use for use in uses if not any(_is_in_name(words, use, keys, opening) for keys in names))


def _content(title: str) -> tuple[str, ...]:
    return tuple(key for key in name_keys(title) if key not in JOINS)


def _is_in_name(words: Sequence[str], use: Use, keys: tuple[str, ...], opening: int) -> bool:
    """Whether the words around a mention are the name: its last word, and enough of the others."""
    own = _keys(words, use)
    if use.features & {"measured", "counted"} or (keys[-1] in own and use.mention.start >= opening):
        return False
    if not any(key in keys for key in own):
        return False
    start, end = use.mention.food.start, use.mention.food.end
    while start > 0 and _belongs(words[start - 1], keys):
        start -= 1
    while end < len(words) and _belongs(words[end], keys):
        end += 1
    found = {word_key(word) for word in words[start:end]}
    return keys[-1] in found and sum(key in found for key in keys) >= KNOWN_BY * len(keys)


def _keys(words: Sequence[str], use: Use) -> list[str]:
    return [word_key(word) for word in words[use.mention.food.start : use.mention.food.end]]


def _belongs(word: str, keys: tuple[str, ...]) -> bool:
    return word in JOINS or word_key(word) in keys
