"""Edits of the method: steps corrected, split, joined, moved, added, taken out."""

from __future__ import annotations

import re

from extract.errors import CardwrightError
from extract.model import Action, Dish, Evidence, RecipeDraft, Step
from extract.review.edits import forms
from extract.review.edits.evidence import by_reviewer, from_words
from extract.review.keys import find_dish, find_step, key_of, opened


def set_step(draft: RecipeDraft, edit: forms.SetStep) -> RecipeDraft:
    """Correct a step's words, its part or its notes; what is done in it is read anew from new words."""
    index, at = find_step(draft, edit.step)
    draft, dish = opened(draft, index)
    step = dish.method[at]
    text = None if edit.text is None else " ".join(edit.text.split())
    if text == "":
        problem = "a step needs words"
        raise CardwrightError(problem, remedy="write what is done, or remove the step")
    if text is not None and text != step.text:
        reword(dish, step, text)
    if edit.component is not None and edit.component.strip() != step.component:
        step.component = " ".join(edit.component.split())
        step.said = by_reviewer(step.said, "component", step.component, dish.start)
    if edit.notes is not None:
        notes = [" ".join(note.split()) for note in edit.notes.splitlines() if note.strip()]
        if notes != step.notes:
            step.notes = notes
            step.said = by_reviewer(step.said, "notes", "; ".join(notes), dish.start)
    return draft


def reword(dish: Dish, step: Step, text: str) -> None:
    """Give ``step`` other words, and the actions, heats and times that they now tell."""
    step.text = text
    before = step.actions
    step.actions = _read_actions(dish, text, step.component)
    for action in step.actions:
        action.said = _said_for(action, before, step)
    step.said = by_reviewer(step.said, "text", text, dish.start)


def _read_actions(dish: Dish, text: str, component: str) -> list[Action]:
    from extract.check.written.method.mentions import Larder
    from extract.check.written.method.method import read_step

    lines = [line for part in dish.components for line in part.ingredients]
    foods = [line.name for line in lines] + [name for line in lines for name in line.alternatives]
    larder = Larder(foods, [part.name for part in dish.components if part.name])
    return read_step(text, 0, component, larder)[0].actions


def _said_for(action: Action, before: list[Action], step: Step) -> list[Evidence]:
    """The words on which the same action rested before, else those of the step with the reviewer's own."""
    same = next((old for old in before if old.verb == action.verb), None)
    return list(same.said) if same else by_reviewer(step.said[:1], "text", step.text)


def split_step(draft: RecipeDraft, edit: forms.SplitStep) -> RecipeDraft:
    """Two steps of one: each keeps the actions and the words of the talk that its own words tell."""
    index, at = find_step(draft, edit.step)
    draft, dish = opened(draft, index)
    step = dish.method[at]
    whole = step.text if edit.text is None else edit.text
    first, second = (" ".join(part.split()) for part in (whole[: edit.at], whole[edit.at :]))
    if not first or not second:
        problem = "there are words on one side only"
        raise CardwrightError(problem, remedy="put the cursor between two sentences")
    if edit.text is not None and " ".join(whole.split()) != step.text:
        reword(dish, step, " ".join(whole.split()))
    second = second[:1].upper() + second[1:]
    here, there = _shared_out(step.actions, first)
    new = Step(text=second, component=step.component, actions=there, said=_of_actions(there, step.said))
    step.text, step.actions = first, here
    step.said = by_reviewer(_of_actions(here, step.said), "text", first, dish.start)
    new.said = by_reviewer(new.said, "text", second, dish.start)
    dish.method.insert(at + 1, new)
    return draft


def _shared_out(actions: list[Action], first: str) -> tuple[list[Action], list[Action]]:
    """The actions of the first words and those of the rest: in order, while each one's verb stands there."""
    from extract.spot.verbs.forms import verb_forms

    known = verb_forms()
    spelt = re.findall(r"[a-z']+", first.lower())
    words = [known[word][0].lemma.split()[0] if word in known else word for word in spelt]
    count = reach = 0
    for number, action in enumerate(actions, start=1):
        verb = action.verb.split()[0] if action.verb else ""
        if verb in words[reach:]:
            reach = words.index(verb, reach) + 1
            count = number
    return actions[:count], actions[count:]


def _of_actions(actions: list[Action], whole: list[Evidence]) -> list[Evidence]:
    found = {(one.cue, one.text): one for action in actions for one in action.said}
    return list(found.values()) or list(whole)


def join_step(draft: RecipeDraft, edit: forms.JoinStep) -> RecipeDraft:
    """A step and the one behind it as one."""
    index, at = find_step(draft, edit.step)
    draft, dish = opened(draft, index)
    if at + 1 >= len(dish.method):
        problem = "no step stands behind this one"
        raise CardwrightError(problem)
    step, other = dish.method[at], dish.method.pop(at + 1)
    step.text = f"{step.text} {other.text}"
    step.actions += other.actions
    step.notes += other.notes
    step.said += [one for one in other.said if one not in step.said]
    step.said = by_reviewer(step.said, "text", step.text, dish.start)
    return draft


def move_step(draft: RecipeDraft, edit: forms.MoveStep) -> RecipeDraft:
    """Put a step at another place of its method."""
    index, at = find_step(draft, edit.step)
    draft, dish = opened(draft, index)
    step = dish.method.pop(at)
    dish.method.insert(min(edit.at, len(dish.method)), step)
    return draft


def add_step(draft: RecipeDraft, edit: forms.AddStep) -> RecipeDraft:
    """A new step, from what was typed or chosen."""
    draft, dish = opened(draft, find_dish(draft, edit.dish))
    text = " ".join((edit.text.strip() or (edit.said.text if edit.said else "")).split())
    if not text:
        problem = "a new step has no words"
        raise CardwrightError(problem, remedy="write what is done")
    text = text[:1].upper() + text[1:]
    text += "" if text[-1] in ".!?" else "."
    said = [from_words(edit.said)] if edit.said else by_reviewer([], "step", text, dish.start)
    places = [at for at, step in enumerate(dish.method) if key_of(step) == edit.after]
    at = places[0] if places else len(dish.method) - 1
    component = dish.method[at].component if dish.method else ""
    step = Step(text=text, component=component, actions=_read_actions(dish, text, component), said=said)
    for action in step.actions:
        action.said = list(said)
    dish.method.insert(at + 1, step)
    return draft


def remove_step(draft: RecipeDraft, edit: forms.RemoveStep) -> RecipeDraft:
    """Take a step out."""
    index, at = find_step(draft, edit.step)
    draft, dish = opened(draft, index)
    del dish.method[at]
    return draft
