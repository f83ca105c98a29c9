"""Whether a food that is named goes into the dish, and how.

The words around a mention are read as features (cues, the verb before it, its amount, its kind), each with a
readable weight in ``lexicons/use_weights.tsv``; their sum is the log odds that a careful reader would write
the food down.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from extract.lexicon import read_lexicon
from extract.spot.actions_verbs import verb_forms
from extract.spot.actions_weight import VERBS_OF_NAMING, is_instruction
from extract.spot.food_names import food_words
from extract.spot.foods_verbs import is_verb_food
from extract.spot.links import link_phrases
from extract.spot.pairing import Mention

if TYPE_CHECKING:
    from spacy.tokens import Doc

    from extract.spot.actions import ActionSpan

BEFORE, AFTER = 14, 8
VERB_REACH = 10
NEARLY = -0.4  # the weight above which a sentence that only names foods, as a list does, tells what goes in
LONGEST_SENTENCE = 40
HABITS = (
    (0.3, "unmeasured where most is measured"),
    (0.15, "unmeasured where much is measured"),
    (0.0, "unmeasured where little is measured"),
)
MADE = frozenset({"made", "dish"})
WORKING = frozenset({"add", "mix", "cut", "coat", "heat", "season"})
PUTTING = frozenset({"add", "mix", "season", "coat"})
VERB_OPENERS = frozenset({"to", "you", "we", "i", "na", "and", "then", "just", ",", "."})
LISTING = frozenset({",", "and", "or", "then", "with", "plus", "."})
ROW = frozenset(
    {",", "and", "or", "plus", "then", "with", "the", "your", "our", "my", "that", "those", "all"}
)
STOPS = frozenset({".", "?", "!"})


@dataclass(frozen=True, slots=True)
class Use:
    """What the words say of one mention: its features, their weight, and the kind of kitchen verb before it."""

    mention: Mention
    score: float
    features: frozenset[str]
    verb_group: str = ""

    @property
    def put_in(self) -> bool:
        """Whether the words put it in, rather than naming it among what is needed."""
        return self.verb_group in PUTTING or bool(self.features & {"goes in", "in goes", "garnish"})


@cache
def _cues() -> tuple[tuple[str, str, re.Pattern[str]], ...]:
    rows = read_lexicon("use_cues", columns=("cue", "side", "pattern"))
    return tuple((r["cue"], r["side"], re.compile(r["pattern"])) for r in rows)


@cache
def use_weights() -> dict[str, float]:
    """The weight of each feature, by name."""
    rows = read_lexicon("use_weights", columns=("feature", "weight"))
    return {r["feature"]: float(r["weight"]) for r in rows}


def judge(doc: Doc, mentions: Sequence[Mention], actions: Sequence[ActionSpan]) -> list[Use]:
    """The use of each mention, in order; a mention in one list with an ingredient gains by its company."""
    lower = [t.lower_ for t in doc]
    weights = use_weights()
    roles = _roles(actions)
    habit, opening = _habit(mentions), _first_measured(mentions)
    uses: list[Use] = []
    for i, mention in enumerate(mentions):
        start, end = _sentence_bounds(lower, mention)
        group = _verb_group(lower, start, mention.start)
        features = {"always", *_features(lower, mention, start, end)}
        features.update(roles.get(mention.food.start, ("in no action",)))
        if mention.amount is None or mention.amount.low is None:
            features.add(habit)
            if mention.start < opening:
                features.add("before any amount")
        if mention.start >= opening:
            features.discard("promised")
        if i and _same_list(lower, mentions[i - 1], mention):
            features.add("list")
            group = group or uses[-1].verb_group
            if uses[-1].score > 0:
                features.add("list with an ingredient")
        if i and _in_a_row(lower, mentions[i - 1], mention):
            features.add("in a row")
        if group:
            features.update(("verb", f"verb {group}"))
        worked_on = "in instruction" in features and (group in WORKING or _is_yielding(mention))
        if "article" in features and worked_on:
            features.add("article worked on")
        score = math.fsum(weights.get(f, 0.0) for f in features)
        uses.append(Use(mention, score, frozenset(features), group))
    return uses


def _first_measured(mentions: Sequence[Mention]) -> int:
    """The token at which the first food is measured out: before it foods are promised rather than used."""
    measured = (m.start for m in mentions if m.amount and m.amount.low is not None and m.amount.unit)
    return next(measured, 0)


def _habit(mentions: Sequence[Mention]) -> str:
    """How this cook tells amounts: where most foods are measured, one without an amount is more often talk."""
    measured = sum(1 for m in mentions if m.amount is not None and m.amount.low is not None)
    share = measured / len(mentions) if mentions else 0.0
    return next(name for least, name in HABITS if share >= least)


def _roles(actions: Sequence[ActionSpan]) -> dict[int, tuple[str, ...]]:
    """For each token of an action's noun phrases, what the action makes of it."""
    roles: dict[int, tuple[str, ...]] = {}
    for action in actions:
        strength = "instruction" if goes_in(action) else "no instruction"
        for role, phrases in (("object", action.objects), ("place", action.place), ("with", action.with_)):
            found = (
                f"{role} of an action",
                f"in {strength}",
                *(("negated action",) if action.negated else ()),
            )
            for phrase in phrases:
                roles.update(dict.fromkeys(range(phrase.start, phrase.end), found))
    return roles


def goes_in(action: ActionSpan) -> bool:
    """Whether an action is instruction, or names foods in a sentence that comes near to being it."""
    names = action.implied or action.group in VERBS_OF_NAMING
    return is_instruction(action) or (names and action.weight > NEARLY)


def _features(lower: Sequence[str], mention: Mention, start: int, end: int) -> Iterator[str]:
    """The names of everything the words say of one mention."""
    before = " ".join(lower[max(start, mention.start - BEFORE) : mention.start]) + " "
    after = " ".join(lower[mention.end : min(end, mention.end + AFTER)])
    texts = {"before": before, "after": after, "sentence": " ".join(lower[start:end])}
    yield from (cue for cue, side, pattern in _cues() if pattern.search(texts[side]))
    yield _amount_feature(lower, mention)
    yield _determiner(lower, mention)
    yield from (f"kind {kind}" for kind in mention.food.kinds)
    if is_verb_food(lower, mention.food.start):
        yield "made verb"
    if _is_part(lower, mention):
        yield "part of it"
    if mention.food.kinds & MADE and _is_total(lower, mention):
        yield "total"
    if not mention.food.known:
        yield "unknown food"
    if mention.food.mended:
        yield "mended"
    if mention.food.name.endswith("water") and (mention.amount is None or mention.amount.low is None):
        yield "water without an amount"


def _amount_feature(lower: Sequence[str], mention: Mention) -> str:
    amount = mention.amount
    if amount is None:
        return "no amount"
    if amount.low is None:
        return "vague amount"
    if amount.unit:
        return "measured"
    return "article" if lower[amount.start] in {"a", "an"} else "counted"


def _is_part(lower: Sequence[str], mention: Mention) -> bool:
    """ "A slice of the pork": a piece of something that is there already."""
    amount = mention.amount
    if amount is None or amount.low is None or amount.more or amount.end > mention.food.start:
        return False
    link = lower[amount.end - 1 : mention.food.start]
    return "of" in link and any(word in {"the", "that", "this", "these", "those"} for word in link)


def _is_yielding(mention: Mention) -> bool:
    """ "The zest of a lemon": a food out of which something is got."""
    return any(part in food_words("yields").values() for part in mention.food.preparation.split(", "))


def _is_total(lower: Sequence[str], mention: Mention) -> bool:
    """ "You end up with about three cups of gravy": how much was made, not how much goes in."""
    amount = mention.amount
    if amount is None or amount.low is None:
        return False
    return bool(link_phrases("total").search(" ".join(lower[max(0, amount.start - 5) : amount.start])))


def _determiner(lower: Sequence[str], mention: Mention) -> str:
    word = lower[mention.start - 1] if mention.start else "."
    if word in {"the", "that", "this", "these", "those"}:
        return "definite"
    if word in {"your", "our", "my"}:
        return "possessed"
    return "bare"


def _sentence_bounds(lower: Sequence[str], mention: Mention) -> tuple[int, int]:
    """The nearest full stops around a mention, no further than the longest sentence."""
    start = mention.start
    while start > 0 and mention.start - start < LONGEST_SENTENCE and lower[start - 1] not in STOPS:
        start -= 1
    end = mention.end
    while end < len(lower) and end - mention.end < LONGEST_SENTENCE and lower[end] not in STOPS:
        end += 1
    return start, min(end + 1, len(lower))


def _verb_group(lower: Sequence[str], start: int, at: int) -> str:
    """The group of the nearest kitchen verb before ``at``, "" where there is none."""
    forms = verb_forms()
    for i in range(at - 1, max(start, at - VERB_REACH) - 1, -1):
        found = forms.get(lower[i])
        if found is not None and (not found[0].also or i == start or lower[i - 1] in VERB_OPENERS):
            return found[0].group
    return ""


def _same_list(lower: Sequence[str], first: Mention, second: Mention) -> bool:
    """Whether two neighbours stand in one list: only joining words and a few describing ones between."""
    gap = lower[first.end : second.start]
    return len(gap) <= 4 and any(w in LISTING for w in gap)


def _in_a_row(lower: Sequence[str], first: Mention, second: Mention) -> bool:
    """Whether nothing but joining words stand between two neighbours: "the salt and the pepper"."""
    gap = lower[first.end : second.start]
    return 0 < len(gap) <= 4 and all(word in ROW for word in gap)
