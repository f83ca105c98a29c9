"""Number, articles and lists in plain English."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from extract.language.capitals import proper_words
from extract.spot.verbs.words import words

IRREGULAR = {
    "leaf": "leaves",
    "loaf": "loaves",
    "half": "halves",
    "knife": "knives",
    "foot": "feet",
    "goose": "geese",
}


@cache
def plural(name: str) -> str:
    """The plural of a food's name by the rules of English spelling, left as it is where it is one already.

    An inflection library would cost more than the reading of the whole talk; the tests hold these rules
    against one over every food of the lexicon.
    """
    head, joint, rest = split_at_joint(name)
    first, _, last = head.rpartition(" ")
    return f"{first} {plural_word(last)}{joint}{rest}".strip()


def split_at_joint(name: str) -> tuple[str, str, str]:
    """A name in two at the word that joins what it is with what it is of: "leg" of "leg of lamb"."""
    for joint in (" of ", " in ", " on ", " de "):
        if joint in name:
            head, rest = name.split(joint, 1)
            return head, joint, rest
    return name, "", ""


def plural_word(word: str) -> str:
    """The plural of one word."""
    if is_plural(word) or word in words("same in the plural") or word in words("singular in s"):
        return word
    for singular, ending in IRREGULAR.items():
        if word.endswith(singular):
            return word[: -len(singular)] + ending
    if word.endswith("y") and word[-2:-1] not in "aeiou":
        return word[:-1] + "ies"
    if word.endswith(("s", "x", "z", "ch", "sh")) or word in words("plural in es"):
        return word + "es"
    return word + "s"


@cache
def is_plural(name: str) -> bool:
    """Whether a name is in the plural."""
    last = split_at_joint(name)[0].rpartition(" ")[2]
    return last.endswith("s") and not last.endswith(("ss", "us", "is")) and last not in words("singular in s")


def proper_name(name: str) -> str:
    """A food's name with the capitals that its proper words have: "Worcestershire sauce", "English mustard"."""
    return " ".join(proper_words().get(word, word) for word in name.split())


def with_article(name: str) -> str:
    """A name with "the", which fits every noun; names that carry a determiner of their own are kept."""
    if name.split()[0] in words("own determiner"):
        return name
    return f"the {name}"


def listed(names: Sequence[str]) -> str:
    """Names as an English list with one article: "the leeks, oil and salt".

    Pronouns and names with a determiner of their own stand as they are: "half of the glaze and the onions". A name that
    also stands there with its amount is said once.
    """
    if not names:
        return ""
    names = [name for name in names if not any(other.startswith(f"{name} (") for other in names)]
    plain = all(name.split()[0] not in words("own determiner") for name in names)
    said = list(names) if plain else [with_article(name) for name in names]
    head = ", ".join(said[:-1])
    joined = f"{head} and {said[-1]}" if head else said[-1]
    return with_article(joined) if plain else joined


def joined_verbs(verbs: Sequence[str]) -> str:
    """Verbs on one object: "drain and rinse", "peel, halve and slice"."""
    head = ", ".join(verbs[:-1])
    return f"{head} and {verbs[-1]}" if head else verbs[-1]
