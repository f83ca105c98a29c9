"""What goes in although no action names it, and what takes something out again."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from extract.spot.actions.span import ActionSpan
from extract.spot.verbs.forms import phrasal_verbs
from extract.spot.verbs.ground import Phrase
from extract.spot.verbs.words import words

if TYPE_CHECKING:
    from spacy.tokens import Doc

    from extract.reconcile.lines.uses import Use
    from extract.spot.spans import MadeName, Share

GOES_REACH = 3


def addition(utterance: tuple[int, int], uses: Sequence[Use]) -> ActionSpan:
    """Foods of one utterance as what they are in a passage of making: put in."""
    foods = sorted((use.mention.food for use in uses), key=lambda food: food.start)
    phrases = tuple(Phrase(food.start, food.end, "food", food) for food in foods)
    start = min(use.mention.start for use in uses)
    return ActionSpan("add", start, start, foods[-1].end, utterance, "add", objects=phrases, implied=True)


def shares_put_in(
    doc: Doc,
    shares: Sequence[Share],
    made_names: Sequence[MadeName],
    utterances: Sequence[tuple[int, int]],
    actions: Sequence[ActionSpan],
) -> list[ActionSpan]:
    """An addition for each of the shares of a made thing that "goes" somewhere where no action tells it.

    "Three quarters of the rub goes on it": a rub is no food, so that nothing was read as put in.
    """
    told = [phrase.start for a in actions for phrase in (*a.objects, *a.with_, *a.place)]
    near = [action.at for action in actions]
    found: list[ActionSpan] = []
    for share in shares:
        made = next((name for name in made_names if share.start <= name.start < share.end), None)
        if (
            made is None
            or share.kept
            or share.gone
            or share.fraction in ("some", "all")
            or any(share.start <= at < share.end for at in told)
        ):
            continue
        goes = any(
            token.lower_ in words("goes by itself") for token in doc[share.end : share.end + GOES_REACH]
        )
        if goes and near and min(near) <= share.start <= max(near):
            span = next((u for u in utterances if u[0] <= share.start < u[1]), (share.start, share.end))
            phrase = Phrase(made.start, made.end, "noun")
            at = share.start
            found.append(ActionSpan("add", at, at, share.end, span, "add", objects=(phrase,), implied=True))
    return found


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
