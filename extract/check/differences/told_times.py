"""The times that the words under a step of the draft tell, beside those that its actions have.

A step may print a time that no action has ("press it flat for ten seconds") or two times as one choice ("1 minute or
1 1/2 minutes"). Its evidence says whether somebody said so.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from extract.check.written.lines.tokens import tokens_of
from extract.check.written.method.plain_doc import as_doc
from extract.check.written.method.settings import duration_of
from extract.model import Dish, Duration, Step
from extract.spot.times.find import find_durations
from extract.spot.words import Words


def times_told(dish: Dish) -> dict[int, list[Duration]]:
    """The further times that were said in each step, counted from 0."""
    return {place: [*_heard(step), *_choices(step)] for place, step in enumerate(dish.method)}


def _heard(step: Step) -> Iterator[Duration]:
    """The times in the words that a step and its actions rest on."""
    evidence = [*step.said, *(said for action in step.actions for said in action.said)]
    for text in dict.fromkeys(said.text for said in evidence):
        doc = as_doc([*tokens_of(text), "."])  # a piece of speech ends where it ends
        yield from map(duration_of, find_durations(doc, Words.of(doc)))


def _choices(step: Step) -> Iterator[Duration]:
    """Two times told one after the other as the ends of one: "a minute, a minute and a half"."""
    told = [action.duration for action in step.actions if action.duration is not None]
    for first, last in pairwise(told):
        low, high = first.low, last.high
        if first.unit == last.unit and low is not None and high is not None and low < high:
            yield Duration(low=low, high=high, unit=first.unit, text=f"{first.text} to {last.text}")
