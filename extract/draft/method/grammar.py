"""Number, articles and lists in plain English."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache


@cache
def plural(name: str) -> str:
    """The plural of a name, left as it is where it is one already.

    lemminflect loads in a tenth of a second; the better known libraries of the kind take seconds.
    """
    from lemminflect import getInflection, getLemma

    before, _, word = name.rpartition(" ")
    if not word or getLemma(word, "NOUN")[:1] not in ((word,), ()):
        return name
    forms = getInflection(word, "NNS")
    return f"{before} {forms[0]}".strip() if forms else name


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
