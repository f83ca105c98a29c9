"""Putting the draft together from what was spotted, cut and reconciled."""

from __future__ import annotations

from extract.draft.method import build_method
from extract.model import Amount, Component, Dish, Evidence, Ingredient, Portion, RecipeDraft, Size, Source, Talk
from extract.reconcile import hearing
from extract.reconcile.kitchen import Kitchen, Reconciled
from extract.reconcile.lines import Line
from extract.segment.dishes import Segments, Stretch
from extract.segment.titles import dish_title
from extract.spot import spans
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
        components=_components(spotted, kitchen),
        method=build_method(speech, actions),
    )


def _components(spotted: Spotted, kitchen: Kitchen) -> list[Component]:
    """The parts of the dish in order of use, each with its lines and the shares taken of it."""
    components: dict[str, Component] = {}
    for line in kitchen.lines:
        part = components.setdefault(line.component, Component(name=line.component))
        part.ingredients.append(_ingredient(spotted, line))
    for portion in kitchen.portions:
        name = portion.component if portion.component in components else ""
        part = components.setdefault(name, Component(name=name))
        (part.leftovers if portion.share.gone else part.portions).append(_portion(spotted, portion))
    return list(components.values())


def _portion(spotted: Spotted, portion: hearing.Portion) -> Portion:
    share = portion.share
    volume = portion.millilitres
    single = volume is not None and volume.low == volume.high
    fraction = share.fraction if isinstance(share.fraction, str) else round(float(share.fraction), 6)
    return Portion(
        fraction=fraction,
        of=portion.of,
        into=share.into,
        millilitres=round(float(volume.low), 4) if volume is not None and single else None,
        said=[_evidence(spotted, share.start, share.end)],
    )


def _ingredient(spotted: Spotted, line: Line) -> Ingredient:
    said = [_evidence(spotted, u.mention.start, u.mention.end) for u in line.uses]
    return Ingredient(
        name=line.name,
        amount=draft_amount(line.amount),
        optional=line.optional,
        alternatives=line.alternatives,
        said=said,
    )


def _evidence(spotted: Spotted, start: int, end: int) -> Evidence:
    return spotted.speech.evidence(start, end)


def draft_amount(amount: spans.Amount | None) -> Amount | None:
    """The amount as the draft holds it, None where no figures were said."""
    if amount is None or amount.low is None:
        return None
    high = amount.high if amount.high is not None else amount.low
    size = None
    if amount.size is not None:
        low, top, unit = amount.size
        size = Size(low=float(low), high=float(top), unit=unit)
    return Amount(low=float(amount.low), high=float(high), unit=amount.unit, approximate=amount.approximate, size=size)
