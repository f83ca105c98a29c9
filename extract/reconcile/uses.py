"""Whether a food that is named goes into the dish, and how.

The words around a mention vote, each with a readable weight from ``lexicons/use_cues.tsv``; what the weights
say is a score in log odds that a careful reader would write the food down.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from extract.lexicon import read_lexicon
from extract.spot.actions_verbs import verb_forms
from extract.spot.pairing import Mention

if TYPE_CHECKING:
    from spacy.tokens import Doc

BEFORE, AFTER = 14, 8
FIGURE_WEIGHT = 3.5
VAGUE_WEIGHT = 1.2
VERB_WEIGHT = 1.6
LIST_WEIGHT = 0.8
PUTTING = frozenset({"add", "mix", "season", "coat"})
STOPS = frozenset({".", "?", "!"})


@dataclass(frozen=True, slots=True)
class Use:
    """What the words say of one mention: the score, the cues found, and the kind of kitchen verb before it."""

    mention: Mention
    score: float
    cues: frozenset[str]
    verb_group: str = ""

    @property
    def put_in(self) -> bool:
        """Whether the words put it in, rather than naming it among what is needed."""
        return self.verb_group in PUTTING or bool(self.cues & {"goes in", "in goes", "garnish"})


@cache
def _cues() -> tuple[tuple[str, str, re.Pattern[str], float], ...]:
    rows = read_lexicon("use_cues", columns=("cue", "side", "pattern", "weight"))
    return tuple((r["cue"], r["side"], re.compile(r["pattern"]), float(r["weight"])) for r in rows)


def judge(doc: Doc, mentions: Sequence[Mention]) -> list[Use]:
    """The use of each mention, in order; a mention in one list with an ingredient gains by its company."""
    lower = [t.lower_ for t in doc]
    uses: list[Use] = []
    for i, mention in enumerate(mentions):
        use = _judge_one(lower, mention)
        if i and _same_list(lower, mentions[i - 1], mention) and uses[-1].score > 1:
            bonus = min(LIST_WEIGHT + 0.5 * uses[-1].score, 2.5)
            use = Use(mention, use.score + bonus, use.cues | {"list"}, use.verb_group or uses[-1].verb_group)
        uses.append(use)
    return uses


def _judge_one(lower: Sequence[str], mention: Mention) -> Use:
    start, end = _sentence_bounds(lower, mention)
    before = " ".join(lower[max(start, mention.start - BEFORE) : mention.start]) + " "
    after = " ".join(lower[mention.end : min(end, mention.end + AFTER)])
    texts = {"before": before, "after": after, "sentence": " ".join(lower[start:end])}
    score, cues = 0.0, set()
    for cue, side, pattern, weight in _cues():
        if pattern.search(texts[side]):
            score += weight
            cues.add(cue)
    group = _verb_group(lower, start, mention.start)
    if group:
        score += VERB_WEIGHT
    amount = mention.amount
    if amount is not None:
        score += VAGUE_WEIGHT if amount.low is None else FIGURE_WEIGHT
    return Use(mention, score, frozenset(cues), group)


def _sentence_bounds(lower: Sequence[str], mention: Mention) -> tuple[int, int]:
    """The nearest full stops around a mention, no more than forty words away."""
    start = mention.start
    while start > 0 and mention.start - start < 40 and lower[start - 1] not in STOPS:
        start -= 1
    end = mention.end
    while end < len(lower) and end - mention.end < 40 and lower[end] not in STOPS:
        end += 1
    return start, min(end + 1, len(lower))


def _verb_group(lower: Sequence[str], start: int, at: int) -> str:
    """The group of the nearest kitchen verb in the ten words before, "" where there is none."""
    forms = verb_forms()
    for i in range(at - 1, max(start, at - 10) - 1, -1):
        found = forms.get(lower[i])
        if found is not None and not found[0].also:
            return found[0].group
        if found is not None and (i == start or lower[i - 1] in {"to", "you", "we", "i", "na", "and", "then", "just", ","}):
            return found[0].group
    return ""


def _same_list(lower: Sequence[str], first: Mention, second: Mention) -> bool:
    """Whether two neighbours stand in one list: only joining words and a few describing ones between."""
    gap = lower[first.end : second.start]
    return len(gap) <= 4 and any(w in {",", "and", "or", "then", "with", "plus", "."} for w in gap)
