"""An edit in a few words, for the list of earlier states and for a screen reader."""

from __future__ import annotations

from typing import Any

from extract.model import Dish, Part, RecipeDraft
from extract.review.edits.forms import Form
from extract.review.keys import items_of, key_of

_TOLD = {
    "set line": "corrected",
    "add line": "new line",
    "remove line": "took out",
    "move line": "moved",
    "set part": "corrected the part",
    "add part": "new part",
    "remove part": "took out the part",
    "set share": "corrected the share of",
    "set step": "reworded",
    "split step": "split the step",
    "join step": "joined with the next step",
    "move step": "moved the step",
    "add step": "new step",
    "remove step": "took out the step",
    "confirm": "confirmed",
    "set dish": "corrected the dish",
    "join dish": "joined with the next dish",
    "cut dish": "cut in two",
    "leave out": "left out a stretch of",
    "drop dish": "left out the dish",
    "add dish": "new dish",
    "take in": "took in a stretch for",
    "name talk": "said why a stretch is left out",
    "answer": "answered about",
}
_TARGETS = ("item", "line", "step", "question", "share", "part", "dish")
_LONGEST = 48


def told(before: RecipeDraft, after: RecipeDraft, edit: Form) -> str:
    """What was done to what: "corrected cumin (amount)", "split the step Add the flour…"."""
    fields = edit.model_dump(exclude_none=True)
    way = str(fields["do"])
    old, new = _items(before), _items(after)
    if way.startswith("add "):
        fresh = next((item for key, item in new.items() if key not in old), None)
        return f"{_TOLD[way]} {_name_of(fresh)}" if fresh else _TOLD[way]
    key = next((fields[name] for name in _TARGETS if name in fields), "")
    item = old.get(key)
    changed = _changed(item, new.get(key)) if way.startswith("set ") else ""
    if not key:
        return _TOLD[way]
    name = _name_of(new.get(key) if way in {"set dish", "set part"} else item)
    return f"{_TOLD[way]} {name}{changed}".strip()


def _items(draft: RecipeDraft) -> dict[str, Part]:
    return {key_of(item): item for dish in draft.dishes for item in items_of(dish)}


def _changed(old: Part | None, new: Part | None) -> str:
    """The fields that differ, in brackets."""
    if old is None or new is None:
        return ""
    after = dict(new)
    passing = {"said", "actions", "times", "questions", "text"}
    names = [name for name, value in old if name not in passing and after.get(name) != value]
    return f" ({', '.join(name.strip('_') for name in names)})" if names else ""


def _name_of(item: Any) -> str:
    if isinstance(item, Dish):
        return _short(item.title)
    for field in ("about", "text", "of", "name"):
        if getattr(item, field, ""):
            return _short(str(getattr(item, field)))
    return "the dish itself"


def _short(text: str) -> str:
    return text if len(text) <= _LONGEST else f"{text[: _LONGEST - 1].rstrip()}…"
