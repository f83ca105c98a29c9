"""Everything spotted in one talk, as one value that the later stages read."""

from __future__ import annotations

from bisect import bisect_left
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from extract.language import Speech
from extract.lexicon import read_lexicon
from extract.spot.pairing import Mention, pair
from extract.spot.spans import Amount, Count, Duration, Food, HeatSetting, Share

if TYPE_CHECKING:
    from extract.spot.actions import ActionSpan


@dataclass(frozen=True)
class Spotted:
    """The foods, amounts, heats and times of a talk, each a span of tokens, in order."""

    speech: Speech
    foods: tuple[Food, ...]
    amounts: tuple[Amount, ...]
    durations: tuple[Duration, ...]
    heats: tuple[HeatSetting, ...]
    actions: tuple[ActionSpan, ...]
    shares: tuple[Share, ...]
    yields: tuple[Count, ...]
    batches: tuple[Count, ...]

    @cached_property
    def mentions(self) -> tuple[Mention, ...]:
        """Each food with the amount that its words give it."""
        return pair(self.speech.doc, self.foods, self.amounts)

    def foods_within(self, start: int, end: int) -> tuple[Food, ...]:
        """The foods that begin in a token range."""
        first, last = (bisect_left(self.foods, at, key=lambda food: food.start) for at in (start, end))
        return self.foods[first:last]

    @cached_property
    def utterances(self) -> tuple[tuple[int, int], ...]:
        """The token spans of what was said in one go, in order."""
        from extract.spot.actions_mood import utterances

        return tuple(utterances(self.speech.doc))

    @cached_property
    def measured(self) -> tuple[Food, ...]:
        """Foods given an amount in figures."""
        return tuple(m.food for m in self.mentions if m.amount is not None and m.amount.low is not None)

    @cached_property
    def instructions(self) -> tuple[int, ...]:
        """The tokens at which a food is worked on in a sentence that instructs."""
        from extract.spot.actions_weight import is_instruction

        return tuple(a.at for a in self.actions if a.objects and is_instruction(a))

    @cached_property
    def kitchen_amounts(self) -> tuple[Amount, ...]:
        """Amounts in a spoon, a cup or another measure that only kitchens use."""
        kitchen = {r["unit"] for r in read_lexicon("kitchen_units", columns=("unit",))}
        return tuple(a for a in self.amounts if a.low is not None and a.unit in kitchen)


def spot(speech: Speech) -> Spotted:
    """Find every amount, food, heat, time and yield in the talk."""
    from extract.spot.actions import find_actions
    from extract.spot.amounts import find_amounts
    from extract.spot.counts import find_counts
    from extract.spot.durations import find_durations, is_cooking_time
    from extract.spot.durations_cooking import without_recaps
    from extract.spot.foods import find_foods
    from extract.spot.foods_verbs import foods_by_verb, is_likeness, is_other_verb
    from extract.spot.heat import find_heat
    from extract.spot.shares import find_shares
    from extract.spot.words import Words

    doc = speech.doc
    words = Words.of(doc)
    amounts = find_amounts(doc, words)
    yields, batches = find_counts(doc, words)
    lower = [token.lower_ for token in doc]
    starts = {amount.start for amount in amounts}
    foods = [
        food
        for food in find_foods(doc, amounts)
        if not (is_other_verb(lower, food, starts) or is_likeness(lower, food))
    ]
    foods = sorted([*foods, *foods_by_verb(doc, foods)], key=lambda food: food.start)
    durations = without_recaps(
        words, [d for d in find_durations(doc, words) if is_cooking_time(doc, d, words)]
    )
    heats = find_heat(doc, words)
    return Spotted(
        speech,
        foods=tuple(foods),
        amounts=tuple(amounts),
        durations=tuple(durations),
        heats=tuple(heats),
        actions=tuple(find_actions(speech, foods, durations, heats)),
        shares=tuple(find_shares(doc, amounts)),
        yields=tuple(yields),
        batches=tuple(batches),
    )
