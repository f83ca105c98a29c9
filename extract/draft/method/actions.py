"""Spoken actions as the draft holds them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from extract.draft.method.phrases.names import Resolve, phrase_names
from extract.model import Action, Duration, Heat

if TYPE_CHECKING:
    from fractions import Fraction

    from spacy.tokens import Doc

    from extract.language.speech import Speech
    from extract.spot import spans
    from extract.spot.actions.span import ActionSpan


def draft_action(speech: Speech, action: ActionSpan, resolve: Resolve) -> Action:
    """One spoken action with its references resolved and the words it rests on."""
    until = None if action.until is None else speech.doc[action.until[0] : action.until[1]].text
    return Action(
        verb=action.verb,
        objects=phrase_names(speech, action.objects, resolve),
        place=phrase_names(speech, action.place, resolve),
        **{"with": phrase_names(speech, action.with_, resolve)},
        heat=None if action.heat is None else draft_heat(action.heat),
        duration=None if action.duration is None else draft_duration(speech, action.duration),
        until=until,
        negated=action.negated,
        said=[speech.evidence(*span) for span in ((action.start, action.end), action.later) if span],
    )


def draft_heat(heat: spans.HeatSetting) -> Heat:
    """A heat setting as the draft holds it."""
    return Heat(
        kind=heat.kind,
        low=_number(heat.low),
        high=_number(heat.high),
        unit=heat.unit,
        fan=heat.fan,
        level=heat.level,
        text=heat.text,
        equivalents=[draft_heat(other) for other in heat.equivalents],
    )


def draft_duration(speech: Speech, duration: spans.Duration) -> Duration:
    """A time as the draft holds it."""
    return Duration(
        low=_number(duration.low),
        high=_number(duration.high),
        unit=duration.unit,
        text=duration.text,
        moment=is_moment(speech.doc, duration),
    )


def is_moment(doc: Doc, duration: spans.Duration) -> bool:
    """Whether a time tells when something is done, not how long: "after two hours I put the beans"."""
    return duration.start > 0 and doc[duration.start - 1].lower_ == "after"


def _number(value: Fraction | None) -> float | None:
    return None if value is None else float(value)
