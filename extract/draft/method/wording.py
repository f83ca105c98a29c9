"""The words of a step: imperative, plain, and no more than the cook said."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import TYPE_CHECKING

from extract.draft.method.grammar import listed, with_article
from extract.lexicon import read_lexicon
from extract.measure.kitchen import print_temperature
from extract.spot.actions_verbs import phrasal_verbs

if TYPE_CHECKING:
    from extract.language.speech import Speech
    from extract.model import Action, Duration, Heat
    from extract.spot.actions import ActionSpan

OVENS = frozenset({"oven", "preheated oven"})


@cache
def verb_wordings() -> dict[tuple[str, str], str]:
    """The trade's verb by the cook's verb and what must stand beside it; "" where it is left out."""
    rows = read_lexicon("verb_wording", columns=("verb", "when", "wording"))
    return {(row["verb"], row["when"]): "" if row["wording"] == "-" else row["wording"] for row in rows}


def trade_verb(action: Action) -> str:
    """The verb to write for an action."""
    in_oven = any(place in OVENS for place in action.place)
    timed = action.duration is not None or (action.heat is not None and action.heat.kind == "oven")
    cases = ["always"]
    if in_oven and timed:
        cases.append("oven")
    cases.append("place" if action.place else "alone")
    if action.objects:
        cases.append("food")
    for case in cases:
        if (action.verb, case) in verb_wordings():
            return verb_wordings()[action.verb, case]
    verb, _, particle = action.verb.partition(" ")
    return phrasal_verbs().get(verb, {}).get(particle) or action.verb


def step_text(speech: Speech, spoken: Sequence[ActionSpan], drafted: Sequence[Action]) -> str:
    """The sentences of one step, one for each action."""
    sentences = []
    for span, action in zip(spoken, drafted, strict=True):
        clause = clause_text(speech, span, action)
        if clause:
            sentences.append(clause[0].upper() + clause[1:] + ".")
    return " ".join(dict.fromkeys(sentences))


def clause_text(speech: Speech, span: ActionSpan, action: Action) -> str:
    """One action in words: "simmer the barley in the stock over a low heat for 25–30 minutes"."""
    verb = trade_verb(action)
    parts = [f"do not {verb}" if span.negated else verb]
    first, _, particle = verb.partition(" ")
    if particle and action.objects and particle in phrasal_verbs().get(first, {}):
        parts = [first, listed(action.objects), particle]
    elif action.objects:
        parts.append(listed(action.objects))
    leads = [phrase.lead for phrase in span.place]
    for number, place in enumerate(action.place):
        parts.append(f"{leads[number] if number < len(leads) else 'in'} {with_article(place)}")
    if action.with_:
        parts.append(f"with {listed(action.with_)}")
    if action.heat is not None:
        parts.append(heat_words(action.heat))
    if action.duration is not None:
        parts.append(duration_words(action.duration))
    text = " ".join(part for part in parts if part)
    return f"{text}, until {action.until}" if action.until else text


def heat_words(heat: Heat) -> str:
    """A heat setting in its place in a sentence."""
    words = print_temperature(heat)
    if heat.low is not None:
        return f"at {words}"
    words = words if words.endswith(("heat", "flame", "gas")) else f"{words} heat"
    return f"over a {words}" if not words.startswith(("a ", "the ")) else f"over {words}"


def duration_words(duration: Duration) -> str:
    """A time in its place in a sentence, ranges with an en dash: "for 25–30 minutes"."""
    if duration.low is None:
        return duration.text
    high = duration.high if duration.high is not None else duration.low
    low_text, high_text = f"{duration.low:g}", f"{high:g}"
    unit = duration.unit if high == 1 else f"{duration.unit}s"
    span = low_text if low_text == high_text else f"{low_text}–{high_text}"
    return f"for {span} {unit}"
