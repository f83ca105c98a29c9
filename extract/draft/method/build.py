"""From spoken actions to numbered steps."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from extract.draft.method.actions import draft_action
from extract.draft.method.names import Resolve
from extract.draft.method.references import References
from extract.draft.method.steps import group
from extract.draft.method.wording import step_text
from extract.model import Step
from extract.spot.actions_weight import is_instruction

if TYPE_CHECKING:
    from extract.language.speech import Speech
    from extract.spot.actions import ActionSpan


ORDERING = frozenset({"order", "want", "let us"})


def build_method(
    speech: Speech,
    actions: Sequence[ActionSpan],
    resolve: Resolve | None = None,
    component_at: Callable[[int], str] | None = None,
) -> list[Step]:
    """The steps of one dish from its spoken actions, in the order in which a reader cooks.

    ``resolve`` names what a reference stands for (the likeliest thing named before it where left out);
    ``component_at`` tells which part of the dish is being made at a token ("" for the main one).
    """
    kept = [action for action in actions if belongs(action)]
    resolve = resolve or References(reference_words(speech, actions), actions)
    component_at = component_at or (lambda _: "")
    steps = []
    for part in group(speech, kept, component_at):
        drafted = [draft_action(speech, action, resolve) for action in part]
        said = [evidence for action in drafted for evidence in action.said]
        text = step_text(speech, part, drafted)
        steps.append(Step(text=text, component=component_at(part[0].at), actions=drafted, said=said))
    return steps


def reference_words(speech: Speech, actions: Sequence[ActionSpan]) -> dict[int, str]:
    """The pronouns of the actions by their token, lower case."""
    phrases = (phrase for action in actions for phrase in (*action.objects, *action.place, *action.with_))
    return {phrase.start: speech.doc[phrase.start].lower_ for phrase in phrases if phrase.kind == "pronoun"}


def belongs(action: ActionSpan) -> bool:
    """Whether an action is in the method: it is instructed, or it carries a time or a heat.

    What only might be done, what somebody else does and what simply is not done are left out; "don't rinse
    them" is an instruction.
    """
    if action.heat is not None or action.duration is not None:
        return True
    if action.supposed or action.mood == "other person" or (action.negated and action.mood not in ORDERING):
        return False
    return is_instruction(action) and not (action.mood == "can" and action.group == "naming")
