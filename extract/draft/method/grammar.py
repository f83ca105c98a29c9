"""Number, articles and lists in plain English."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import Any

from extract.spot.actions_words import words


@cache
def _engine() -> Any:
    import inflect

    return inflect.engine()


@cache
def plural(name: str) -> str:
    """The plural of a name, left as it is where it is one already."""
    if _engine().singular_noun(name):
        return name
    return str(_engine().plural_noun(name))


@cache
def is_plural(name: str) -> bool:
    """Whether a name is in the plural."""
    return bool(_engine().singular_noun(name.split()[-1])) if name else False


def with_article(name: str) -> str:
    """A name with "the", which fits every noun; names that carry a determiner of their own are kept."""
    if name.split()[0] in words("own determiner"):
        return name
    return f"the {name}"


def listed(names: Sequence[str]) -> str:
    """Names as an English list with one article: "the leeks, oil and salt".

    Pronouns and names with a determiner of their own stand as they are: "half of the glaze and the onions".
    """
    if not names:
        return ""
    plain = all(name.split()[0] not in words("own determiner") for name in names)
    said = list(names) if plain else [with_article(name) for name in names]
    head = ", ".join(said[:-1])
    joined = f"{head} and {said[-1]}" if head else said[-1]
    return with_article(joined) if plain else joined


def joined_verbs(verbs: Sequence[str]) -> str:
    """Verbs on one object: "drain and rinse", "peel, halve and slice"."""
    head = ", ".join(verbs[:-1])
    return f"{head} and {verbs[-1]}" if head else verbs[-1]
