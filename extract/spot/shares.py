"""Shares of what has been made: "half of that goes on the pork", "the rest of the glaze", "the other half"."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING, Literal

from extract.lexicon import read_lexicon
from extract.spot.spans import Amount, Share

if TYPE_CHECKING:
    from spacy.tokens import Doc

CLAUSE_REACH = 14
WhichShare = Fraction | Literal["rest", "some", "all"]


@cache
def _words(kind: str) -> dict[tuple[str, ...], str]:
    rows = read_lexicon("share_words", columns=("kind", "words", "value"))
    return {tuple(r["words"].split()): r["value"] for r in rows if r["kind"] == kind}


def find_shares(doc: Doc, amounts: Sequence[Amount]) -> list[Share]:
    """Every share said of a definite thing, in order; "half a cup of" and "half an hour" are none."""
    lower = [t.lower_ for t in doc]
    taken = {i for a in amounts if a.unit for i in range(a.start, a.end)}
    shares, i = [], 0
    while i < len(lower):
        share = None if i in taken else _share_at(doc, lower, i)
        if share is not None:
            shares.append(share)
            i = share.end
        else:
            i += 1
    return shares


def _longest(lower: Sequence[str], at: int, table: dict[tuple[str, ...], str]) -> tuple[int, str] | None:
    """(end, value) of the longest entry of the table that stands at ``at``."""
    best = None
    for words, value in table.items():
        if tuple(lower[at : at + len(words)]) == words and (best is None or at + len(words) > best[0]):
            best = (at + len(words), value)
    return best


def _share_at(doc: Doc, lower: Sequence[str], at: int) -> Share | None:
    fraction = _longest(lower, at, _words("fraction"))
    whole = None if fraction else _longest(lower, at, _words("whole"))
    found = fraction or whole
    if found is None:
        return None
    end, value = found
    if _longest(lower, end, _words("never")) is not None:
        return None
    which: WhichShare = Fraction(value) if fraction else _as_whole(value)
    thing = _thing(doc, lower, end)
    if thing is None and not _stands_alone(lower, at, end, which):
        return None
    if which in ("some", "all") and (thing is None or lower[end] != "of"):
        return None
    of, stop = thing if thing is not None else ("", end)
    kept, gone = _fate(lower, at, stop)
    words = lower[at:end]
    return Share(at, stop, which, of, kept, gone, "other" in words or "second" in words)


def _as_whole(value: str) -> Literal["rest", "some", "all"]:
    return "rest" if value == "rest" else "some" if value == "some" else "all"


def _thing(doc: Doc, lower: Sequence[str], at: int) -> tuple[str, int] | None:
    """(head noun or "", end) of the definite thing shared: "of that dressing", "the glaze", "of it"."""
    i = at + 1 if at < len(lower) and lower[at] == "of" else at
    if i >= len(lower):
        return None
    remaining = at > 0 and lower[at - 1] in {"remaining", "last"}
    if (lower[i],) not in _words("determiner"):
        if not remaining:
            return None
    elif lower[i] in {"it", "them"} or (lower[i] in {"that", "this", "those", "these"} and not _nominal(doc, i + 1)):
        return ("", i + 1) if lower[at] == "of" else None
    else:
        i += 1
    end = i
    while end < len(doc) and end - i < 4 and _nominal(doc, end):
        end += 1
    return (doc[i:end].text.lower(), end) if end > i else None


def _nominal(doc: Doc, i: int) -> bool:
    return i < len(doc) and (doc[i].pos_ in {"NOUN", "PROPN", "ADJ"} or doc[i].tag_ in {"VBN", "VBG"})


def _stands_alone(lower: Sequence[str], at: int, end: int, which: WhichShare) -> bool:
    """ "Half." and "the rest goes in the pan": a share of what was spoken of last."""
    after = lower[end] if end < len(lower) else "."
    before = lower[at - 1] if at else "."
    if which == "rest":
        return lower[at] in {"the", "what", "whatever"} and after not in {"day", "time", "world"}
    if "other" in lower[at:end] or "second" in lower[at:end]:
        return True
    return before in {".", "?", "!", ":"} and after in {".", ",", "!", "goes", "is", "in"}


def _fate(lower: Sequence[str], at: int, end: int) -> tuple[bool, bool]:
    """(kept, gone): whether the clause puts the share by, or sends it out of the dish."""
    before = _clause(lower, at, -1)
    after = _until_next_share(_clause(lower, end, 1))
    kept = _holds(before[-5:], "kept") or _holds(after[:8], "kept")
    return kept, _holds(after, "gone")


def _clause(lower: Sequence[str], at: int, direction: int) -> list[str]:
    """The words from ``at`` to the end (or back to the start) of its clause."""
    out: list[str] = []
    i = at if direction > 0 else at - 1
    while 0 <= i < len(lower) and len(out) < CLAUSE_REACH and lower[i] not in {".", "?", "!", ";"}:
        out.append(lower[i])
        i += direction
    return out if direction > 0 else out[::-1]


def _until_next_share(clause: list[str]) -> list[str]:
    """The clause up to the next share in it, whose fate is another."""
    for i in range(1, len(clause)):
        if clause[i - 1] in {"and", ","} and clause[i : i + 2] in (["the", "rest"], ["the", "other"], ["the", "remainder"]):
            return clause[:i]
    return clause


def _holds(words: Sequence[str], kind: str) -> bool:
    table = _words(kind)
    return any(_longest(words, i, table) is not None for i in range(len(words)))
