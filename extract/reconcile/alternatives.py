"""Foods named only as standing in for another: "or maple syrup", "you could use ghee instead"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache
from itertools import takewhile
from typing import TYPE_CHECKING

from extract.lexicon import read_lexicon
from extract.reconcile.uses import Use

if TYPE_CHECKING:
    from spacy.tokens import Doc

REACH = 45
# No mention that ends within REACH begins further back, even where its amount is told after other words.
LONGEST_MENTION = 3 * REACH
BEFORE, AFTER = 14, 8


@cache
def _cues(side: str) -> tuple[re.Pattern[str], ...]:
    rows = read_lexicon("alternative_cues", columns=("side", "pattern"))
    return tuple(re.compile(r["pattern"]) for r in rows if r["side"] == side)


def find_alternatives(doc: Doc, uses: Sequence[Use]) -> dict[int, int]:
    """For each use that only offers an alternative, the use whose food it can stand in for, both by index."""
    lower = [t.lower_ for t in doc]
    found: dict[int, int] = {}
    for i in range(1, len(uses)):
        if _joined_by_or(lower, uses, i):
            found[i] = found.get(i - 1, i - 1)
        elif _offered(lower, uses[i]):
            target = _stood_in_for(uses, i, found)
            if target is not None:
                found[i] = target
    return found


def _joined_by_or(lower: Sequence[str], uses: Sequence[Use], i: int) -> bool:
    first, second = uses[i - 1].mention, uses[i].mention
    gap = " ".join(lower[first.end : second.start]) + " "
    return second.start > first.end and any(p.search(gap) for p in _cues("between"))


def _offered(lower: Sequence[str], use: Use) -> bool:
    mention = use.mention
    before = " ".join(lower[max(0, mention.start - BEFORE) : mention.start]) + " "
    after = " ".join(_clause(lower[mention.end : mention.end + AFTER]))
    return any(p.search(before) for p in _cues("before")) or any(p.search(after) for p in _cues("after"))


def _clause(words: Sequence[str]) -> list[str]:
    out = []
    for word in words:
        if word in {".", "?", "!"}:
            break
        out.append(word)
    return out


def _stood_in_for(uses: Sequence[Use], i: int, found: dict[int, int]) -> int | None:
    """The food before, of the same kind if there is one, that another may stand in for."""
    mention = uses[i].mention
    within = takewhile(
        lambda j: mention.start - uses[j].mention.start <= LONGEST_MENTION, range(i - 1, -1, -1)
    )
    near = [
        j
        for j in within
        if mention.start - uses[j].mention.end <= REACH and j not in found and uses[j].score > 0
    ]
    if any(uses[j].mention.food.name == mention.food.name for j in near):
        return None
    alike = [j for j in near if uses[j].mention.food.kinds & mention.food.kinds]
    return next(iter(alike or near), None)
