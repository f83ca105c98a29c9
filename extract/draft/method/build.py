"""From spoken actions to numbered steps."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import partial
from itertools import pairwise
from typing import TYPE_CHECKING

from extract.draft.method.actions import draft_action
from extract.draft.method.arrange import ahead_first, is_ahead, with_oven_heated
from extract.draft.method.names import Resolve, phrase_name, plain_pronoun, shared_name
from extract.draft.method.notes import Asides, note_text
from extract.draft.method.references import References
from extract.draft.method.steps import group
from extract.draft.method.wording import step_text
from extract.draft.times import MEANWHILE
from extract.model import Step
from extract.spot.actions_weight import is_instruction
from extract.spot.actions_words import words

if TYPE_CHECKING:
    from fractions import Fraction

    from extract.language.speech import Speech
    from extract.spot.actions import ActionSpan


ORDERING = frozenset({"order", "want", "let us"})


def build_method(
    speech: Speech,
    actions: Sequence[ActionSpan],
    resolve: Resolve | None = None,
    component_at: Callable[[int], str] | None = None,
    volumes: Mapping[int, Fraction] | None = None,
) -> list[Step]:
    """The steps of one dish from its spoken actions, in the order in which a reader cooks.

    ``resolve`` names what a reference stands for (the likeliest thing named before it where left out);
    ``component_at`` tells which part of the dish is being made at a token ("" for the main one); ``volumes``
    are the millilitres of the shares that were taken, by the token each share begins at.
    """
    kept = [action for action in actions if belongs(action) and not is_aside(speech, action)]
    resolve = resolve or References(reference_words(speech, actions), actions)
    component_at = component_at or (lambda _: "")
    steps = []
    asides = Asides(speech, kept)
    for part in group(speech, ahead_first(speech, kept), component_at):
        drafted = [draft_action(speech, action, resolve) for action in part]
        said = [evidence for action in drafted for evidence in action.said]
        text = step_text(speech.doc, part, drafted, partial(names_of, speech, resolve, volumes or {}))
        text = opened(speech, part[0], text)
        notes = asides.between(part[0].utterance[0], part[-1].utterance[1])
        step = Step(text=text, component=component_at(part[0].at), actions=drafted, notes=notes, said=said)
        steps.append(step)
    return with_oven_heated(each_note_once(steps))


def opened(speech: Speech, action: ActionSpan, text: str) -> str:
    """A step's text with what ties it to the one before: "Meanwhile, …", "Ahead of time, …"."""
    if not text:
        return text
    tie = "Ahead of time" if is_ahead(speech, action) else ""
    start = action.utterance[0]
    if any(token.lower_ in words("meanwhile") for token in speech.doc[start : min(start + 4, action.at)]):
        tie = MEANWHILE
    return f"{tie}, {text[0].lower()}{text[1:]}" if tie else text


def each_note_once(steps: list[Step]) -> list[Step]:
    """The steps without the notes that the step before already has."""
    for before, step in pairwise(steps):
        step.notes = [note for note in step.notes if note not in before.notes]
    return steps


def names_of(
    speech: Speech, resolve: Resolve, volumes: Mapping[int, Fraction], action: ActionSpan, opens: bool
) -> dict[int, str]:
    """The names of an action's phrases, with their shares, by the first token of each.

    Within a step a pronoun stays the pronoun that the cook said: what it means has just been named, and a
    wrong name would say more than the cook did.
    """
    named = {}
    for phrase in (*action.objects, *action.place, *action.with_):
        name = phrase_name(speech, phrase, resolve)
        if phrase.kind == "pronoun" and not opens:
            name = plain_pronoun(speech.doc[phrase.start].lower_)
        if name:
            named[phrase.start] = shared_name(speech, phrase, name, volumes)
    return named


def reference_words(speech: Speech, actions: Sequence[ActionSpan]) -> dict[int, str]:
    """The pronouns of the actions by their token, lower case."""
    phrases = (phrase for action in actions for phrase in (*action.objects, *action.place, *action.with_))
    return {phrase.start: speech.doc[phrase.start].lower_ for phrase in phrases if phrase.kind == "pronoun"}


def is_aside(speech: Speech, action: ActionSpan) -> bool:
    """Whether a food is only named in a warning or another note: "be careful, the oil will spit"."""
    plain = action.implied and action.heat is None and action.duration is None
    return plain and bool(note_text(speech, *action.utterance))


def belongs(action: ActionSpan) -> bool:
    """Whether an action is in the method: it is instructed, or it carries a time or a heat.

    What only might be done, what somebody else does and what simply is not done are left out; "don't rinse
    them" is an instruction.
    """
    if action.mood == "other person":
        return False
    if action.heat is not None or action.duration is not None:
        return True
    if action.supposed or (action.negated and action.mood not in ORDERING):
        return False
    return is_instruction(action) and not (action.mood == "can" and action.group == "naming")
