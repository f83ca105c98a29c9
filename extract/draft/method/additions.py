"""What goes in although no action names it, and what takes something out again."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from extract.spot.actions.span import ActionSpan
from extract.spot.verbs.forms import phrasal_verbs
from extract.spot.verbs.ground import Phrase

if TYPE_CHECKING:
    from extract.reconcile.lines.uses import Use


def addition(utterance: tuple[int, int], uses: Sequence[Use]) -> ActionSpan:
    """Foods of one utterance as what they are in a passage of making: put in."""
    foods = sorted((use.mention.food for use in uses), key=lambda food: food.start)
    phrases = tuple(Phrase(food.start, food.end, "food", food) for food in foods)
    start = min(use.mention.start for use in uses)
    return ActionSpan("add", start, start, foods[-1].end, utterance, "add", objects=phrases, implied=True)


def is_taken_up(following: Sequence[ActionSpan]) -> bool:
    """Whether the next action is on what was just named: "now the beets, and you peel them"."""
    return any(
        phrase.kind == "pronoun" for action in following for phrase in (*action.objects, *action.place)
    )


def throws_away(action: ActionSpan) -> bool:
    """Whether an action takes something out for good: it went in before."""
    verb, _, particle = action.verb.partition(" ")
    return "discard" in {verb, phrasal_verbs().get(verb, {}).get(particle)}


def is_fuller_named(phrase: Phrase, action: ActionSpan) -> bool:
    """Whether the same action names the same food by a fuller name."""
    assert phrase.food is not None
    own = set(phrase.food.name.split())
    others = (other.food.name.split() for other in action.objects if other.food is not None)
    return any(own < set(other) and other[-1] == phrase.food.name.split()[-1] for other in others)
