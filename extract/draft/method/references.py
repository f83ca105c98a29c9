"""What "it", "them" and "everything" mean where no ledger says: the likeliest thing named before.

A newcomer's note. Each food named in an action is a candidate. It grows weaker with every word that passes
and stronger the oftener it is named; it is stronger as the object of its action than as its place; and a
seasoning is weaker than what it was put into. When several foods have gone in, the whole becomes a candidate
too, called by the made thing the cook named for it ("batter") or "mixture".
"""

from __future__ import annotations

import math
from bisect import bisect_left
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from extract.draft.method.phrases.names import food_name
from extract.spot.names.foods import SEASONINGS
from extract.spot.verbs.words import words

if TYPE_CHECKING:
    from extract.spot.actions.span import ActionSpan
    from extract.spot.spans import Food
    from extract.spot.verbs.ground import Phrase

# Strengths, by trial on labelled talk: what matters most is how often a thing is spoken of.
FADING = 80.0
OFTEN = 0.45
MISMATCH = 0.85
STANDING_MADE = 0.9
STANDING_MAIN = 1.4
STANDING_SEASONING = 0.45
STANDING_WHOLE = 0.5
STANDING_MENTIONED = 0.8
LOOK_BACK = 14
SAME_SENTENCE = 3.0
MAIN = frozenset({"meat", "poultry", "fish", "shellfish"})
MADE = frozenset({"made", "mixture", "sauce"})
WHOLES = frozenset({"made", "mixture"})  # a sauce is as often bought, and then only one food among others
MIXING = frozenset({"mix", "add", "season"})


@dataclass(frozen=True, slots=True)
class Candidate:
    """Something that a reference may mean, named at token ``at``; ``weight`` is its strength there."""

    name: str
    at: int
    weight: float
    plural: bool
    sentence_end: int = 0


class References:
    """Resolves the references of one dish; call it with the tokens of a reference."""

    def __init__(
        self, texts: dict[int, str], actions: Sequence[ActionSpan], spoken_of: Sequence[tuple[Food, int]] = ()
    ) -> None:
        """``texts`` are the references by token; ``spoken_of`` foods in no action, each with its sentence's end."""
        self._texts = texts
        named = candidates(actions) + [mentioned(food, end) for food, end in spoken_of]
        self._candidates = sorted(named, key=lambda candidate: candidate.at)
        self._places = [candidate.at for candidate in self._candidates]

    def __call__(self, start: int, end: int) -> str | None:
        """The name of the likeliest thing named before token ``start``, None where nothing was."""
        ranked = self._ranked(start)
        return ranked[0][1] if ranked else None

    def _ranked(self, start: int) -> list[tuple[float, str]]:
        """The strengths and names of what a reference at a token can mean, the likeliest first."""
        word = self._texts.get(start, "it")
        before = bisect_left(self._places, start)
        best: dict[str, float] = {}
        for candidate in self._candidates[max(0, before - LOOK_BACK) : before]:
            best[candidate.name] = max(best.get(candidate.name, 0.0), strength(candidate, start, word))
        return sorted(((value, name) for name, value in best.items()), reverse=True)


def strength(candidate: Candidate, at: int, word: str) -> float:
    """How likely a reference at a token means a candidate."""
    plural = word in words("plural reference")
    fits = 1.0 if plural == candidate.plural or word in words("either reference") else MISMATCH
    near = SAME_SENTENCE if at < candidate.sentence_end else 1.0
    return candidate.weight * fits * near * math.exp((candidate.at - at) / FADING)


def candidates(actions: Sequence[ActionSpan]) -> list[Candidate]:
    """Everything that references may mean, from the actions of a dish in order."""
    found: list[Candidate] = []
    counts: Counter[str] = Counter()
    going_in: list[str] = []
    whole = "mixture"
    for action in actions:
        named = [(phrase, 1.0) for phrase in action.objects]
        named += [(phrase, 0.7) for phrase in (*action.place, *action.with_)]
        foods = [(phrase, phrase.food, weight) for phrase, weight in named if phrase.food is not None]
        for phrase, food, weight in foods:
            counts[food.name] += 1
            often = 1 + OFTEN * math.log(counts[food.name])
            strong = often * weight * standing(food)
            found.append(Candidate(food_name(food), phrase.start, strong, food.plural, action.utterance[1]))
            if food.kinds & WHOLES:
                whole = food.name
        if action.verb.split()[0] in words("makes a dough"):
            whole = "dough"
        going_in = mixed(going_in, action)
        if len(going_in) > 1:
            found.append(Candidate(whole, last_token(action), STANDING_WHOLE, plural=False))
    return found


def mentioned(food: Food, sentence_end: int) -> Candidate:
    """A food of the dish that is only spoken of: "the potatoes are on already, and they've had 20 minutes"."""
    strong = STANDING_MENTIONED * standing(food)
    return Candidate(food_name(food), food.start, strong, food.plural, sentence_end)


def standing(food: Food) -> float:
    """How far a food stands by itself: a seasoning put into a thing is seldom what is spoken of next."""
    if food.kinds & MADE:
        return STANDING_MADE
    if food.kinds & MAIN:
        return STANDING_MAIN
    return STANDING_SEASONING if food.kinds & SEASONINGS or food.name == "salt" else 1.0


def mixed(before: list[str], action: ActionSpan) -> list[str]:
    """The foods in the thing being put together after an action; work of another kind begins a new one."""
    foods = [phrase.food.name for phrase in action.objects if phrase.food is not None]
    if action.group in MIXING or action.implied:
        return list(dict.fromkeys([*before, *foods]))
    return foods if foods else before


def last_token(action: ActionSpan) -> int:
    """The last token of what an action names, after which the whole is a candidate."""
    phrases: tuple[Phrase, ...] = (*action.objects, *action.place, *action.with_)
    return max((phrase.end for phrase in phrases), default=action.at + 1)
