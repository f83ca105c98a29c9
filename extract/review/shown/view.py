"""What the page is told of a draft: every value as it stands in its field, and what is open."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from extract.model import Component, Dish, Evidence, Ingredient, Portion, Question, Step
from extract.publish.words import share_words
from extract.review.edits.evidence import fields_by_reviewer, is_reviewers
from extract.review.edits.parts import share_text
from extract.review.edits.stretches import stretches_of
from extract.review.keeping.desk import Desk
from extract.review.keys import key_of
from extract.review.mark import mark_of
from extract.review.typed import amount_text, batch_text, clock_text, made_text

Json = dict[str, Any]
_SHOWN = 200  # earlier states in the list; all are kept


def view(desk: Desk, since: int = -1) -> Json:
    """The draft for the page, and where the review stands.

    Of a dish that has not changed since entry ``since`` only the key is given.
    """
    with desk.lock:
        draft = desk.draft
        return {
            **standing(desk),
            "file": draft.source.file,
            "timed": draft.source.timed,
            "end": max([draft.source.end, *(dish.end for dish in draft.dishes)]),
            "dishes": [
                dish_view(dish) if desk.changed.get(key_of(dish), 0) > since else {"key": key_of(dish)}
                for dish in draft.dishes
            ],
            "talk": [{"start": part.start, "end": part.end, "reason": part.reason} for part in draft.talk],
        }


def standing(desk: Desk) -> Json:
    """Where the review stands: the last entry, what can be undone, the mark, what changed when drafted again."""
    entries = desk.journal.entries
    undoable, redoable = desk.journal.undoable, desk.journal.redoable
    again = next((entry for entry in reversed(entries) if entry.kind == "again"), None)
    return {
        "number": desk.number,
        "saved": entries[-1].at if entries else "",
        "undo": entries[undoable[-1] - 1].words if undoable else "",
        "redo": entries[redoable[-1] - 1].words if redoable else "",
        "open": sum(is_open_question(question) for dish in desk.draft.dishes for question in dish.questions),
        "reviewed": mark_of(desk.state),
        "notes": again.notes if again else [],
        "notes_at": again.at if again else "",
    }


def is_open_question(question: Question) -> bool:
    """Whether nobody has answered it."""
    return not (question.answer or "").strip()


def dish_view(dish: Dish) -> Json:
    """One dish as the page shows it."""
    return {
        "key": key_of(dish),
        "title": dish.title,
        "start": dish.start,
        "end": dish.end,
        "from": clock_text(dish.start),
        "to": clock_text(dish.end),
        "stretches": [{"start": start, "end": end} for start, end in stretches_of(dish)],
        "makes": made_text(dish.yield_),
        "makes_said": _said(dish.yield_.said if dish.yield_ else ()),
        "batch": batch_text(dish.batch),
        "batch_said": _said(dish.batch.said if dish.batch else ()),
        "parts": [_part(part) for part in dish.components],
        "steps": [_step(step) for step in dish.method],
        "questions": [_question(question) for question in dish.questions],
    }


def _part(part: Component) -> Json:
    return {
        "key": key_of(part),
        "name": part.name,
        "batch": batch_text(part.batch),
        "batch_said": _said(part.batch.said if part.batch else ()),
        "lines": [_line(line) for line in part.ingredients],
        "shares": [
            *(_share(share, leftover=False) for share in part.portions),
            *(_share(share, leftover=True) for share in part.leftovers),
        ],
    }


def _line(line: Ingredient) -> Json:
    return {
        "key": key_of(line),
        "amount": amount_text(line.amount),
        "name": line.name,
        "preparation": line.preparation,
        "alternatives": "; ".join(line.alternatives),
        "optional": line.optional,
        "note": line.note,
        "heard": line.heard,
        "known": line.known,
        "by_reviewer": fields_by_reviewer(line.said),
        "said": _said(line.said),
    }


def _share(share: Portion, *, leftover: bool) -> Json:
    return {
        "key": key_of(share),
        "fraction": share_text(share),
        "of": share.of,
        "into": share.into,
        "words": share_words(share.fraction),
        "leftover": leftover,
        "by_reviewer": fields_by_reviewer(share.said),
        "said": _said(share.said),
    }


def _step(step: Step) -> Json:
    said = [*step.said, *(one for action in step.actions for one in action.said)]
    return {
        "key": key_of(step),
        "text": step.text,
        "component": step.component,
        "notes": "\n".join(step.notes),
        "by_reviewer": fields_by_reviewer(step.said),
        "said": _said(said),
    }


def _question(question: Question) -> Json:
    from extract.draft.questions import must_answer
    from extract.draft.questions.ranking import weight_of

    extra = question.model_extra or {}
    return {
        "key": key_of(question),
        "kind": question.kind,
        "about": question.about,
        "text": question.text,
        "answer": question.answer or "",
        "weight": weight_of(question),
        "must": must_answer(question),
        "only_words": extra.get("value") is False,
        "said": _said(question.said),
    }


def _said(said: Sequence[Evidence]) -> list[Json]:
    """The words of the talk behind a value, each once, in the order in which the draft has them."""
    found: dict[tuple[int, str], Json] = {}
    for one in said:
        if not is_reviewers(one):
            row = {"cue": one.cue, "start": one.start, "end": one.end, "text": one.text}
            found.setdefault((one.cue, one.text), row)
    return list(found.values())


def earlier(desk: Desk) -> list[Json]:
    """The last entries of the journal, the newest first."""
    with desk.lock:
        entries = list(enumerate(desk.journal.entries, start=1))[-_SHOWN:]
        first = {"number": 0, "kind": "first", "words": "as it was first opened", "by": "", "at": ""}
        rows = [
            {"number": at, "kind": one.kind, "words": one.words, "by": one.by, "at": one.at}
            for at, one in reversed(entries)
        ]
        return [*rows, first]
