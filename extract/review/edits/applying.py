"""One door for every edit: read and checked, applied, and what hangs on it brought up to date."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from pydantic import TypeAdapter, ValidationError

from extract.errors import CardwrightError
from extract.model import Component, Question, RecipeDraft
from extract.review.edits import answers, confirming, dishes, forms, lines, parts, steps
from extract.review.edits.telling import told
from extract.review.keys import HELD, give_keys, items_of, key_of, set_extra
from extract.review.mark import set_reviewed

_ADAPTER: TypeAdapter[Any] = TypeAdapter(forms.AnyEdit)
_WAYS: dict[str, Callable[[RecipeDraft, Any], RecipeDraft]] = {
    "set line": lines.set_line,
    "add line": lines.add_line,
    "remove line": lines.remove_line,
    "move line": lines.move_line,
    "set part": parts.set_part,
    "add part": parts.add_part,
    "remove part": parts.remove_part,
    "set share": parts.set_share,
    "set step": steps.set_step,
    "split step": steps.split_step,
    "join step": steps.join_step,
    "move step": steps.move_step,
    "add step": steps.add_step,
    "remove step": steps.remove_step,
    "confirm": confirming.confirm,
    "set dish": dishes.set_dish,
    "join dish": dishes.join_dish,
    "cut dish": dishes.cut_dish,
    "leave out": dishes.leave_out,
    "drop dish": dishes.drop_dish,
    "add dish": dishes.add_dish,
    "take in": dishes.take_in,
    "name talk": dishes.name_talk,
    "answer": answers.answer,
}


@dataclass(frozen=True, slots=True)
class Done:
    """A draft after an edit: what was done in words, and the keys of the items that are not as they were."""

    draft: RecipeDraft
    words: str
    touched: frozenset[str]


def read_edit(data: object) -> forms.Form:
    """The edit in ``data``. Raises CardwrightError, with the field, where it is none."""
    try:
        edit = _ADAPTER.validate_python(data, strict=False)
    except ValidationError as error:
        fault = error.errors(include_url=False, include_context=False, include_input=False)[0]
        place = ".".join(str(step) for step in fault["loc"]) or "the edit"
        problem = f"this is no edit: {place}: {fault['msg']}"
        raise CardwrightError(problem) from None
    assert isinstance(edit, forms.Form)
    return edit


def apply(draft: RecipeDraft, edit: forms.Form, *, now: datetime) -> Done:
    """``draft`` after ``edit``; the draft given is left as it was. Raises CardwrightError, Gone among them."""
    if isinstance(edit, forms.Review):
        after = set_reviewed(draft, edit.by, now, clear=edit.clear)
        return Done(
            after, "mark taken off" if edit.clear else f"reviewed by {edit.by}", frozenset({"review"})
        )
    way = str(edit.model_dump(include={"do"})["do"])
    after = _WAYS[way](draft, edit)
    if after.dishes == draft.dishes and after.talk == draft.talk:
        return Done(draft, "nothing changed", frozenset())
    after = brought_up(draft, after)
    return Done(after, told(draft, after, edit), touched(draft, after))


def brought_up(before: RecipeDraft, after: RecipeDraft) -> RecipeDraft:
    """``after`` with new items given keys, and times and questions of every dish that changed made anew."""
    from extract.draft.questions import find_questions
    from extract.draft.times import dish_times

    known = {id(dish) for dish in before.dishes}
    for dish in after.dishes:
        if id(dish) not in known:
            dish.components = dish.components or [Component()]
            dish.times = dish_times(dish.method)
            dish.questions = _with_extras(find_questions(dish, after), dish.questions)
            answers.close_settled(dish)
    give_keys(after)
    return after


def _with_extras(questions: list[Question], before: list[Question]) -> list[Question]:
    """``questions`` with the keys, and whatever else a program or person added, of the same ones before."""
    from extract.draft.questions.ranking import key_of as subject_of

    known = {subject_of(question): question for question in before}
    for question in questions:
        old = known.pop(subject_of(question), None)
        for name, value in ((old.model_extra if old else None) or {}).items():
            set_extra(question, name, value)
    return questions


def touched(before: RecipeDraft, after: RecipeDraft) -> frozenset[str]:
    """The keys of items that an edit changed, brought in or took out; order and place do not count."""
    shared = {id(dish) for dish in before.dishes} & {id(dish) for dish in after.dishes}
    old, new = _own_values(before, shared), _own_values(after, shared)
    return frozenset(key for key in old.keys() | new.keys() if old.get(key) != new.get(key))


def _own_values(draft: RecipeDraft, shared: set[int]) -> dict[str, object]:
    """The fields of every item but those that hold other items or follow from them, ``shared`` dishes left out."""
    values: dict[str, object] = {}
    for dish in [dish for dish in draft.dishes if id(dish) not in shared]:
        for item in items_of(dish):
            values[key_of(item)] = {name: value for name, value in item if name not in HELD} | (
                item.model_extra or {}
            )
    return values
