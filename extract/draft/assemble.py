"""Putting the draft together from what was spotted, cut and reconciled."""

from __future__ import annotations

from fractions import Fraction
from functools import partial

from extract.draft.counts import dish_batch, dish_yield, place_batch
from extract.draft.equipment import equipment_list
from extract.draft.ingredients import components_of
from extract.draft.method import build_method
from extract.draft.method.build import reference_words
from extract.draft.method.larder import Larder
from extract.draft.method.references import References
from extract.draft.method.shares import Taken
from extract.draft.questions.ledger import ledger_questions, title_question
from extract.draft.times import dish_times
from extract.draft.title import title_words
from extract.model import Dish, RecipeDraft, Source, Span, Talk
from extract.reconcile.kitchen import Kitchen, Reconciled
from extract.reconcile.lines.components import component_at
from extract.reconcile.lines.lines import same_thing
from extract.reconcile.references import Resolver
from extract.segment.dishes import Segments
from extract.segment.stretch import Stretch
from extract.segment.titles import Title
from extract.spot.names.foods import word_key
from extract.spot.spotted import Spotted
from extract.spot.verbs.things import equipment_at

MAKING = ("open", "need", "do", "ahead", "sign")
HALF = 0.5
TOOLS = frozenset({"tool", "appliance", "wrap", "server", "oven"})


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
    return spotted.speech.moment(stretch.start), spotted.speech.moment(stretch.end)


def _dish(spotted: Spotted, segments: Segments, kitchen: Kitchen) -> Dish:
    number = segments.dishes.index(kitchen.dish)
    start, end = _clock(spotted, kitchen.dish)
    speech = spotted.speech
    actions = [a for a in spotted.actions if kitchen.dish.holds(a.at)]
    own = [action for action in actions if action.mood != "other person"]
    larder = _larder(spotted, kitchen, segments.titles[number])
    likeliest = References(reference_words(speech, actions), own, larder.spoken_of(own))
    method = build_method(
        speech,
        actions,
        resolve=Resolver(kitchen.scene, likeliest),
        component_at=partial(component_at, kitchen.parts),
        volumes=_volumes(kitchen),
        larder=larder,
        taken=Taken(kitchen.portions, spotted.utterances),
    )
    dish = Dish(
        title=title_words(segments.titles[number].text),
        start=start,
        end=end,
        stretches=[Span(start=speech.moment(a), end=speech.moment(b)) for a, b in kitchen.dish.pieces()],
        yield_=dish_yield(spotted, segments, number),
        batch=dish_batch(spotted, segments, number),
        components=components_of(speech, kitchen),
        method=method,
        equipment=equipment_list(
            speech, actions, [u for u in spotted.utterances if kitchen.dish.holds(u[0])]
        ),
        times=dish_times(method),
        questions=[
            *title_question(segments.titles[number], speech),
            *ledger_questions(kitchen.doubts, speech),
        ],
    )
    place_batch(dish, spotted, segments, number)
    return dish


def _larder(spotted: Spotted, kitchen: Kitchen, title: Title) -> Larder:
    """What belongs to a dish."""
    scene = kitchen.scene
    doc = spotted.speech.doc
    spans = spotted.utterances
    tools = {
        (phrase.start, phrase.end)
        for action in spotted.actions
        for phrase in action.objects
        if phrase.kind == "thing" and (found := equipment_at(doc, phrase.start, phrase.end)) is not None
        if found[0].kind in TOOLS
    }
    named = {token.lemma_.lower() for token in doc[title.start : title.end] if token.is_alpha}
    titled = {
        span
        for span in spans
        if title.announced and kitchen.dish.holds(span[0])
        if named <= {token.lemma_.lower() for token in doc[slice(*span)]}
    }
    told = [
        food
        for food in spotted.foods
        if kitchen.dish.holds(food.start)
        if spotted.reading.role_of(food.start, food.end, *MAKING) > HALF
        if spotted.reading.is_thing(food.start, food.end, "food", "food+", "again") > HALF
        if any(same_thing(line.name, food.name) for line in kitchen.lines)
    ]
    return Larder(
        kitchen.lines,
        scene.names,
        spans,
        spotted.foods,
        scene.shares,
        frozenset(tools),
        frozenset(titled),
        frozenset(word_key(word) for word in title.text.split()),
        told,
    )


def _volumes(kitchen: Kitchen) -> dict[int, Fraction]:
    """Millilitres of each share that the ledger could work out, by the token at which it was said."""
    return {
        p.share.start: p.size.size.low
        for p in kitchen.portions
        if p.size is not None and p.size.kind == "volume" and p.size.size.exact
    }
