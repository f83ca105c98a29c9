"""What of a cook's words is no order: a condition, a warning, a look, how long ago, a time of other work."""

from __future__ import annotations

from typing import TYPE_CHECKING

from extract.draft.method.phrases.clause import PRONOUNS, Clause
from extract.spot.verbs.words import words

if TYPE_CHECKING:
    from spacy.tokens import Doc

    from extract.spot.actions.span import ActionSpan

AHEAD_LIKELY = 0.4
DONE = 0.5  # how likely what is printed has to be something done, no look and no tale
LIKELY_TIME = 0.3  # the same for a bare time


def is_no_order(doc: Doc, span: ActionSpan, clause: Clause | None) -> bool:
    """Whether nothing of an action is to be printed, whatever its words."""
    figure = span.heat is not None or span.duration is not None
    told = is_just_now(doc, span) or is_in_condition(doc, span, clause)
    told = told or is_warned(doc, span) or is_of_itself(doc, span)
    return told or ((span.implied or not figure) and not is_done(span))


def is_in_condition(doc: Doc, span: ActionSpan, clause: Clause | None) -> bool:
    """Whether the verb of an action belongs to its condition: "if it wants to stick, a splash of water"."""
    conditional = clause is not None and bool(clause.condition)
    return conditional and span.at > 0 and doc[span.at - 1].lower_ == "to"


def is_warned(doc: Doc, span: ActionSpan) -> bool:
    """Whether an action tells what happens otherwise: "one half stays in the bag, or it dries"."""
    led = [token.lower_ for token in doc[max(span.utterance[0], span.at - 3) : span.at]]
    if led[:1] == ["or"] and led[-1] in words("will"):
        return True  # "or you'll take the roof of your mouth off"
    return span.mood == "present" and led[-2:-1] == ["or"] and led[-1] in PRONOUNS


def is_done(span: ActionSpan) -> bool:
    """Whether an action without a figure is told as something done, on something where its verb says little."""
    if span.implied:
        return span.duration is None or span.heat is not None or span.doing > LIKELY_TIME
    behind = any(phrase.start > span.at for phrase in span.objects)
    return span.doing > DONE and (span.group != "light" or behind)


def is_anothers_time(doc: Doc, span: ActionSpan) -> bool:
    """Whether a time is told before the verb, of work before it: "five minutes of kneading, then you put it"."""
    time = span.duration
    if time is None or time.end > span.at:
        return False
    return any(token.lower_ == "then" for token in doc[time.end : span.at])


def is_elsewhere(doc: Doc, span: ActionSpan) -> bool:
    """Whether a time was given a place that its own sentence does not name, and that is no oven."""
    start, end = span.utterance
    return (
        span.implied
        and span.duration is not None
        and not any(phrase.food for phrase in span.objects)
        and any(not start <= p.start < end and doc[p.end - 1].lower_ != "oven" for p in span.place)
    )


def is_led(doc: Doc, span: ActionSpan) -> bool:
    """Whether a time is led in by a "for", so that it is of the work before it."""
    time = span.duration
    return time is not None and time.start > 0 and doc[time.start - 1].lower_ in words("leads to a time")


def is_just_now(doc: Doc, span: ActionSpan) -> bool:
    """Whether a time tells how long ago something was done, of no matter: "I pulled these 5 minutes ago"."""
    time = span.duration
    ago = time is not None and time.end < len(doc) and doc[time.end].lower_ == "ago"
    return ago and span.ahead < AHEAD_LIKELY


def is_of_itself(doc: Doc, span: ActionSpan) -> bool:
    """Whether an action is what a thing does, or does not do, of itself: "what doesn't stick to the sides"."""
    if span.verb.split()[0] in words("done by itself") and not span.implied:
        return True  # "they come out of the oven"
    near = {token.lower_ for token in doc[max(span.utterance[0], span.at - 3) : span.at]}
    left = bool(near & words("denies by leaving"))
    return span.negated and (left or bool(near & words("denies of a thing")))
