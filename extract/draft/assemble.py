"""Putting the draft together from what was spotted, cut and reconciled."""

from __future__ import annotations

from extract.draft.method import build_method
from extract.draft.ingredients import components_of
from extract.model import Dish, RecipeDraft, Source, Talk
from extract.reconcile.kitchen import Kitchen, Reconciled
from extract.segment.dishes import Segments, Stretch
from extract.segment.titles import dish_title
from extract.spot.spotted import Spotted


def assemble(spotted: Spotted, segments: Segments, reconciled: Reconciled) -> RecipeDraft:
    """The draft of the whole recording."""
    speech = spotted.speech
    transcript = speech.transcript
    source = Source(
        file=transcript.file,
        sha256=transcript.sha256,
        start=min((c.start for c in transcript.cues), default=0) / 1000,
        end=max((c.end for c in transcript.cues), default=0) / 1000,
        cues=len(transcript.cues),
        timed=transcript.timed,
    )
    dishes = [_dish(spotted, segments, kitchen) for kitchen in reconciled.kitchens]
    talk = [Talk(start=a, end=b, reason=t.reason) for t in segments.talk for a, b in [_clock(spotted, t)]]
    return RecipeDraft(source=source, dishes=dishes, talk=talk)


def _clock(spotted: Spotted, stretch: Stretch) -> tuple[float, float]:
    said = spotted.speech.evidence(stretch.start, stretch.end)
    return said.start, said.end


def _dish(spotted: Spotted, segments: Segments, kitchen: Kitchen) -> Dish:
    title, _, _ = dish_title(spotted, segments.sentences, kitchen.dish)
    start, end = _clock(spotted, kitchen.dish)
    speech = spotted.speech
    actions = [a for a in spotted.actions if kitchen.dish.holds(a.at)]
    return Dish(
        title=title,
        start=start,
        end=end,
        components=components_of(speech, kitchen),
        method=build_method(speech, actions),
    )
