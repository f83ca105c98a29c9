"""When, how long and how hot: what the words around a time or a heat tell of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from extract.draft.method.phrases.figures import span_words
from extract.spot.verbs.words import words

if TYPE_CHECKING:
    from spacy.tokens import Doc

    from extract.model import Action
    from extract.spot.actions.span import ActionSpan

PROBE_REACH = 9


def moment_words(action: Action) -> str:
    """When an action is done, where its time is one of the cooking before: "after 2 hours"; "" elsewhere."""
    time = action.duration
    if time is None or time.low is None or not time.moment:
        return ""
    return f"after {span_words(time)}"


def is_bare_time(span: ActionSpan) -> bool:
    """Whether an action is a time and nothing else: no verb, no food, no place, no heat, no until."""
    bare = (
        span.implied and span.verb == "cook" and span.heat is None and span.until is None and not span.place
    )
    known = span.duration is not None and span.duration.low is not None
    return bare and known and all(phrase.kind == "pronoun" for phrase in span.objects)


def is_given(doc: Doc, span: ActionSpan, action: Action) -> bool:
    """Whether a time is only given to something: "give it ten minutes", cooking or resting."""
    time = span.duration
    if time is None or time.low is None or not span.implied or span.place or span.heat is not None:
        return False
    if moment_words(action) or any(phrase.kind != "pronoun" for phrase in span.objects):
        return False
    led = [token.lower_ for token in doc[max(0, time.start - 3) : time.start]]
    return any(word in words("gives") and led[n + 1 :] for n, word in enumerate(led))


def part_probed(doc: Doc, span: ActionSpan) -> str:
    """Where the thermometer goes, as the cook said beside the figure: "175 in the thigh"; "" where unsaid."""
    if span.heat is None:
        return ""
    at = span.heat.end
    while at < span.utterance[1] and doc[at].lower_ in words("leads to a part"):
        at += 1
    before = reversed(range(max(span.utterance[0], span.heat.start - PROBE_REACH), span.heat.start))
    near = [*([at] if at < span.utterance[1] else []), *before]
    return next((doc[place].lower_ for place in near if doc[place].lower_ in words("part probed")), "")


def each_side(doc: Doc, at: int) -> bool:
    """Whether a time is told for each side: "four minutes a side", "on both sides"."""
    near = [token.lower_ for token in doc[at : at + 4]]
    sides = [place for place, word in enumerate(near) if word in words("after a side")]
    return bool(sides) and any(word in words("each of two") for word in near[: sides[0]])
