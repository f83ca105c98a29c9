"""Foods named only as standing in for another: "or maple syrup", "you could use ghee instead"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache
from itertools import takewhile
from typing import TYPE_CHECKING

from extract.lexicon import read_lexicon
from extract.reconcile.general_words import covers
from extract.reconcile.uses import Use
from extract.spot.food_names import same_food

if TYPE_CHECKING:
    from spacy.tokens import Doc

    from extract.spot.pairing import Mention

REACH = 45
ROW_REACH = 6
# No mention that ends within REACH begins further back, even where its amount is told after other words.
LONGEST_MENTION = 3 * REACH
BEFORE, AFTER = 14, 8
CONDITION = 24  # tokens within which the condition and what it leaves out stand before what is put in


@cache
def _cues(side: str) -> tuple[re.Pattern[str], ...]:
    rows = read_lexicon("alternative_cues", columns=("side", "pattern"))
    return tuple(re.compile(r["pattern"]) for r in rows if r["side"] == side)


def find_alternatives(doc: Doc, uses: Sequence[Use], words: Sequence[str] = ()) -> dict[int, int]:
    """For each use that only offers an alternative, the use whose food it can stand in for, both by index.

    A use that could stand in for none of the dish, though the words offer it, stands in for itself. ``words`` are the
    talk's tokens in lower case, where they are at hand.
    """
    lower = words or [t.lower_ for t in doc]
    found: dict[int, int] = {}
    for i in range(1, len(uses)):
        row = _names_before(lower, uses, i) if _any_of_them(lower, uses[i]) else {}
        if row:
            found.update(row)
        elif _joined_by_or(lower, uses, i):
            found[i] = found.get(i - 1, i - 1)
        elif (left_out := _replacing(lower, uses, i, found)) is not None:
            found[i] = left_out
        elif _offered(lower, uses[i]):
            target = _stood_in_for(uses, i, found)
            if target is not None or _is_more(uses[i]):
                found[i] = i if target is None else target
    return found


def _joined_by_or(lower: Sequence[str], uses: Sequence[Use], i: int) -> bool:
    first, second = uses[i - 1].mention, uses[i].mention
    if second.start <= first.end:
        return False
    gap = " ".join(lower[first.end : second.start]) + " "
    if any(p.search(gap) for p in _cues("between")):
        return True
    return _unmeasured(second) and any(p.search(gap) for p in _cues("apart"))


def _unmeasured(mention: Mention) -> bool:
    return mention.amount is None or mention.amount.low is None


def _any_of_them(lower: Sequence[str], use: Use) -> bool:
    """ "Dark beer, stout, porter, whatever's open": the last of several names that all will do."""
    after = " ".join(lower[use.mention.end : use.mention.end + AFTER])
    return _unmeasured(use.mention) and any(p.search(after) for p in _cues("any"))


def _names_before(lower: Sequence[str], uses: Sequence[Use], i: int) -> dict[int, int]:
    """Every bare name in the row that ends with ``i``, each standing in for the first, measured one."""
    row = [i]
    while row[-1] > 0 and _unmeasured(uses[row[-1]].mention):
        before, here = uses[row[-1] - 1].mention, uses[row[-1]].mention
        if here.start - before.end > ROW_REACH or "." in lower[before.end : here.start]:
            break
        row.append(row[-1] - 1)
    first = row[-1]
    if len(row) == 1 or _unmeasured(uses[first].mention):
        return {}
    return dict.fromkeys(row[:-1], first)


def _offered(lower: Sequence[str], use: Use) -> bool:
    mention = use.mention
    before = " ".join(lower[max(0, mention.start - BEFORE) : mention.start]) + " "
    after = " ".join(_clause(lower[mention.end : mention.end + AFTER]))
    return any(p.search(before) for p in _cues("before")) or any(p.search(after) for p in _cues("after"))


def _is_more(use: Use) -> bool:
    """ "If you've no cream, use another cup of milk": more of a food of the dish, for one that may be wanting."""
    return use.mention.amount is not None and use.mention.amount.more


def _replacing(lower: Sequence[str], uses: Sequence[Use], i: int, found: dict[int, int]) -> int | None:
    """What a food makes up for that is left out on a condition, None where the words leave none out.

    "If there's an allergy about, leave them out and put in another 50 of flour": the food that the condition or the
    leaving out names, by its kind too, else the last one used. A food that makes up for none of the dish stands in
    for itself, and so makes no line. "Leave the seeds out" leaves out no food.
    """
    start = uses[i].mention.start
    before = " ".join(lower[max(0, start - CONDITION) : start]) + " "
    cue = next((m for p in _cues("left out") if (m := p.search(before))), None)
    if cue is None:
        return None
    named = cue["what"] or cue["which"] or ""
    condition = start - before.count(" ", cue.start())
    spoken = [u.mention.food.name for u in uses[:i] if u.mention.start >= condition]
    known = [
        j for j in _used_before(uses, i, found) if any(_names(n, uses[j]) for n in (named, *spoken) if n)
    ]
    if named:
        return next((j for j in known if _names(named, uses[j])), None)
    return next(iter(known or _used_before(uses, i, found)), i)


def _used_before(uses: Sequence[Use], i: int, found: dict[int, int]) -> list[int]:
    """The foods used shortly before another, the nearest first, without that same food."""
    own, start = uses[i].mention.food.name, uses[i].mention.start
    near = takewhile(lambda j: start - uses[j].mention.start <= LONGEST_MENTION, range(i - 1, -1, -1))
    return [
        j
        for j in near
        if j not in found and uses[j].score > 0 and not same_food(uses[j].mention.food.name, own)
    ]


def _names(name: str, use: Use) -> bool:
    return same_food(name, use.mention.food.name) or covers(name, use.mention.food)


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
