"""Writing the steps of one dish: what was heard of each action, and the words for it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property
from typing import TYPE_CHECKING

from extract.draft.method.actions import draft_action
from extract.draft.method.arrange import is_ahead
from extract.draft.method.larder import Larder
from extract.draft.method.names import Resolve, phrase_name, plain_pronoun, shared_name
from extract.draft.method.notes import Asides
from extract.draft.method.wording import step_sentences
from extract.draft.times import MEANWHILE
from extract.model import Action, Step
from extract.spot.actions_words import words

if TYPE_CHECKING:
    from extract.language.speech import Speech
    from extract.spot.actions import ActionSpan


@dataclass
class Writer:
    """Writes steps from the actions of one dish; ``actions`` are all of them, in the order said."""

    speech: Speech
    actions: Sequence[ActionSpan]
    resolve: Resolve
    volumes: Mapping[int, Fraction]
    larder: Larder
    _drafted: dict[int, Action] = field(default_factory=dict)

    @cached_property
    def worded(self) -> dict[int, ActionSpan | None]:
        """Each action as it is worded, None where it is left unsaid, by its place in memory."""
        found = self.larder.worded(self.actions)
        return {id(action): own for action, own in zip(self.actions, found, strict=True)}

    @cached_property
    def asides(self) -> Asides:
        """The notes of the dish."""
        return Asides(self.speech, self.actions)

    def drafted(self, action: ActionSpan) -> Action:
        """An action as the draft holds it."""
        if id(action) not in self._drafted:
            self._drafted[id(action)] = draft_action(self.speech, action, self.resolve)
        return self._drafted[id(action)]

    def sentences(self, part: Sequence[ActionSpan]) -> list[str]:
        """The sentences of a step of some actions."""
        spoken = [self.worded[id(action)] for action in part]
        return step_sentences(self.speech.doc, spoken, [self.drafted(action) for action in part], self.names)

    def count(self, part: Sequence[ActionSpan]) -> int:
        """How many sentences a step of some actions comes to."""
        return len(self.sentences(part))

    def step(self, part: Sequence[ActionSpan], component: str) -> Step:
        """The step of some actions."""
        drafted = [self.drafted(action) for action in part]
        said = [evidence for action in drafted for evidence in action.said]
        text = opened(self.speech, part[0], " ".join(self.sentences(part)))
        notes = self.asides.between(part[0].utterance[0], part[-1].utterance[1])
        return Step(text=text, component=component, actions=drafted, notes=notes, said=said)

    def names(self, action: ActionSpan, opens: bool) -> dict[int, str]:
        """The names of an action's phrases, with their shares, by the first token of each.

        Within a step a pronoun stays the pronoun that the cook said: what it means has just been named, and a
        wrong name would say more than the cook did.
        """
        named = {}
        for phrase in (*action.objects, *action.place, *action.with_):
            name = phrase_name(self.speech, phrase, self.resolve)
            if phrase.kind == "pronoun" and not opens:
                name = plain_pronoun(self.speech.doc[phrase.start].lower_)
            if name:
                named[phrase.start] = shared_name(self.speech, phrase, name, self.volumes)
        return named


def opened(speech: Speech, action: ActionSpan, text: str) -> str:
    """A step's text with what ties it to the one before: "Meanwhile, …", "Ahead of time, …"."""
    if not text:
        return text
    tie = "Ahead of time" if is_ahead(speech, action) else ""
    start = action.utterance[0]
    if any(token.lower_ in words("meanwhile") for token in speech.doc[start : min(start + 4, action.at)]):
        tie = MEANWHILE
    return f"{tie}, {text[0].lower()}{text[1:]}" if tie else text
