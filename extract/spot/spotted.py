"""Everything spotted in one talk, as one value that the later stages read."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from extract.language import Speech
from extract.reader.reading import Reading
from extract.spot.figures_tagged import cooking_times, counts, settings, shares
from extract.spot.mentions.find import own
from extract.spot.mentions.mention import Mention
from extract.spot.spans import Amount, Count, Duration, Food, HeatSetting, Share
from extract.spot.words import Words

if TYPE_CHECKING:
    from extract.spot.actions.span import ActionSpan


@dataclass(frozen=True)
class Spotted:
    """The foods, amounts, heats and times of a talk, each a span of tokens, in order."""

    speech: Speech
    reading: Reading
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
        return tuple(own(Words.of(self.speech.doc), self.reading, self.foods, self.amounts))

    @cached_property
    def utterances(self) -> tuple[tuple[int, int], ...]:
        """The token spans of what was said in one go, in order."""
        from extract.spot.verbs.mood import utterances

        return tuple(utterances(self.speech.doc))

    @cached_property
    def measured(self) -> tuple[Food, ...]:
        """Foods given an amount in figures."""
        return tuple(m.food for m in self.mentions if m.amount is not None and m.amount.low is not None)


def spot(speech: Speech, reading: Reading | None = None) -> Spotted:
    """Find every amount, food, heat, time and yield in the talk, as the reader takes its words.

    ``reading`` where the talk has been read already.
    """
    from extract.reader.read import read_words
    from extract.spot.actions.find import find_actions
    from extract.spot.amounts.find import find_amounts
    from extract.spot.counts.find import find_counts
    from extract.spot.foods.find import find_foods
    from extract.spot.foods.tagged import tagged_foods
    from extract.spot.heat.find import find_heat
    from extract.spot.shares.find import find_shares
    from extract.spot.times.find import find_durations

    doc = speech.doc
    reading = reading or read_words([token.text for token in doc])
    words = Words.of(doc)
    amounts = find_amounts(doc, words)
    yields, batches = find_counts(doc, words)
    foods = tagged_foods(doc, reading, find_foods(doc, amounts))
    durations = cooking_times(words, reading, find_durations(doc, words))
    heats = settings(words, reading, find_heat(doc, words))
    return Spotted(
        speech,
        reading,
        foods=tuple(foods),
        amounts=tuple(amounts),
        durations=tuple(durations),
        heats=tuple(heats),
        actions=tuple(find_actions(speech, reading, foods, durations, heats)),
        shares=tuple(shares(words, reading, find_shares(doc, amounts))),
        yields=tuple(counts(words, reading, yields)),
        batches=tuple(batches),
    )
