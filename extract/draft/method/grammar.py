"""Number, articles and lists in plain English."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import Any


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


def with_article(name: str) -> str:
    """A name with "the", which fits every noun; names that carry a determiner of their own are kept."""
    if name.split()[0] in {"a", "an", "the", "each", "every", "half", "all", "some", "both", "more"}:
        return name
    return f"the {name}"


def listed(names: Sequence[str]) -> str:
    """Names as an English list with one article: "the leeks, oil and salt"."""
    if not names:
        return ""
    head = ", ".join(names[:-1])
    return with_article(f"{head} and {names[-1]}" if head else names[-1])
