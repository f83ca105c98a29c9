"""Whatever a reviewer does, in whatever order: nothing breaks, all of it can be undone, and a new draft keeps it."""

from __future__ import annotations

import copy
from datetime import UTC, datetime
from typing import Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from extract.errors import CardwrightError
from extract.model import RecipeDraft
from extract.review.edits import apply, read_edit
from extract.review.keeping.again import put_over
from extract.review.keeping.changes import applied, differences, inverse, same
from extract.review.keeping.matching import items_of
from extract.review.keeping.printing import Printer
from extract.review.keys import give_keys

NOW = datetime(2026, 5, 4, tzinfo=UTC)
TEXTS = st.sampled_from(
    [
        "2 cups",
        "½",
        "to taste",
        "",
        "leeks",
        "stir",
        "Bake at 180 C for 20 minutes.",
        "1:30",
        "<b>",
        "4-6",
        "no",
        "ok",
    ]
)
TIMES = st.sampled_from([0.0, 20.0, 45.0, 90.0, 130.0, 180.0, 240.0])


def said(at: float, text: str) -> list[dict[str, Any]]:
    return [{"cue": int(at), "start": at, "end": at + 2, "text": text}]


def small() -> RecipeDraft:
    """Two dishes with a few of everything."""

    def dish(title: str, start: float) -> dict[str, Any]:
        def food(name: str, at: float) -> dict[str, Any]:
            return {
                "name": name,
                "amount": {"low": 2, "high": 2, "unit": "cup"},
                "said": said(start + at, name),
            }

        sauce = {
            "name": "sauce",
            "ingredients": [food("cream", 60), food("salt", 70)],
            "portions": [{"fraction": 0.5, "of": "sauce", "said": said(start + 80, "half the sauce")}],
        }
        steps = [
            {
                "text": "Chop the leeks. Add the cream.",
                "component": "sauce",
                "said": said(start + 62, "chop them"),
            },
            {"text": "Serve.", "said": said(start + 90, "serve")},
        ]
        asked = {
            "kind": "no title",
            "about": title,
            "text": "What is it called?",
            "said": said(start, "this"),
        }
        parts = [{"name": "", "ingredients": [food("leeks", 10), food("butter", 30)]}, sauce]
        return {
            "title": title,
            "start": start,
            "end": start + 100,
            "components": parts,
            "method": steps,
            "questions": [asked],
        }

    source = {"file": "x.vtt", "sha256": "y", "start": 0, "end": 250}
    draft = RecipeDraft.model_validate(
        {
            "source": source,
            "dishes": [dish("soup", 0), dish("pie", 110)],
            "talk": [{"start": 210, "end": 250, "reason": "sign-off"}],
        }
    )
    give_keys(draft)
    return draft


KEYS = st.integers(0, 9)  # the first, second... line, step, dish of the draft as it then is
KINDS = ("line", "step", "part", "share", "dish", "question")
WORDS = st.fixed_dictionaries({"cue": st.integers(0, 200), "start": TIMES, "end": TIMES, "text": TEXTS})


def edit(do: str, **fields: st.SearchStrategy[Any]) -> st.SearchStrategy[dict[str, Any]]:
    return st.fixed_dictionaries({"do": st.just(do), **fields})


PLACE = st.integers(0, 4)
EDITS = st.one_of(
    edit("set line", line=KEYS, amount=TEXTS, name=TEXTS),
    edit("set line", line=KEYS, optional=st.booleans(), alternatives=TEXTS, note=TEXTS),
    edit("add line", part=KEYS, text=TEXTS),
    edit("add line", part=KEYS, said=WORDS),
    edit("remove line", line=KEYS),
    edit("move line", line=KEYS, part=KEYS, at=PLACE),
    edit("set part", part=KEYS, name=TEXTS),
    edit("set part", part=KEYS, batch=TEXTS),
    edit("add part", dish=KEYS, name=TEXTS),
    edit("remove part", part=KEYS),
    edit("set share", share=KEYS, fraction=TEXTS, remove=st.booleans()),
    edit("confirm", item=KEYS, fields=st.just(["name", "amount", "fraction", "text"])),
    edit("set step", step=KEYS, text=TEXTS, notes=TEXTS),
    edit("split step", step=KEYS, at=st.integers(0, 30)),
    edit("join step", step=KEYS),
    edit("move step", step=KEYS, at=PLACE),
    edit("add step", dish=KEYS, text=TEXTS),
    edit("remove step", step=KEYS),
    edit("set dish", dish=KEYS, title=TEXTS, makes=TEXTS),
    edit("set dish", dish=KEYS, start=TEXTS, end=TEXTS),
    edit("join dish", dish=KEYS),
    edit("cut dish", dish=KEYS, at=TIMES),
    edit("leave out", dish=KEYS, start=TIMES, end=TIMES),
    edit("drop dish", dish=KEYS),
    edit("add dish", start=TIMES, end=TIMES),
    edit("take in", dish=KEYS, start=TIMES, end=TIMES),
    edit("name talk", start=TIMES, end=TIMES, reason=st.sampled_from(["visit", "break"])),
    edit("answer", question=KEYS, text=TEXTS),
    edit("review", by=st.just("Ada")),
)
SLOW = settings(suppress_health_check=[HealthCheck.too_slow])


def whole(draft: RecipeDraft) -> None:
    """What holds of every draft: it can be written and read, and each item has a key of its own."""
    assert same(RecipeDraft.model_validate(draft.to_dict()).to_dict(), draft.to_dict())
    keys = [item.key for item in items_of(draft.to_dict())]
    assert len(keys) == len(set(keys))
    for dish in draft.dishes:
        assert dish.start <= dish.end
        assert dish.components
    assert all(part.start < part.end for part in draft.talk)


def aimed(draft: RecipeDraft, data: dict[str, Any]) -> dict[str, Any]:
    """An edit with the keys of items that the draft has, where it has any of the kind."""
    items = list(items_of(draft.to_dict()))
    keys = {kind: [item.key for item in items if item.kind == kind] or ["none"] for kind in KINDS}
    keys["item"] = [item.key for item in items] or ["none"]
    return {
        name: keys[name][value % len(keys[name])] if name in keys else value for name, value in data.items()
    }


def worked(draft: RecipeDraft, edits: list[dict[str, Any]]) -> tuple[RecipeDraft, list[list[dict[str, Any]]]]:
    """The draft after those edits that could be done, and the changes of each."""
    changes, printer = [], Printer()
    for data in edits:
        try:
            done = apply(draft, read_edit(aimed(draft, data)), now=NOW)
        except CardwrightError:
            continue
        whole(done.draft)
        assert printer.text(done.draft) == done.draft.to_json()
        changes.append(differences(draft.to_dict(), done.draft.to_dict()))
        draft = done.draft
    return draft, changes


@SLOW
@given(st.lists(EDITS, max_size=12))
def test_any_edits_leave_a_whole_draft_and_can_all_be_undone(edits: list[dict[str, Any]]) -> None:
    first = small()
    draft, changes = worked(first, edits)
    state = draft.to_dict()
    for one in reversed(changes):
        state = applied(state, inverse(one))
    assert same(state, first.to_dict())


@SLOW
@given(st.lists(EDITS, max_size=8), st.lists(EDITS, max_size=5))
def test_a_new_draft_under_any_edits_keeps_every_value_of_the_reviewer(
    edits: list[dict[str, Any]], others: list[dict[str, Any]]
) -> None:
    base = small()
    mine, _ = worked(base, edits)
    new, _ = worked(base, [one for one in others if one["do"] != "review"])
    given_to = (base.to_dict(), mine.to_dict(), new.to_dict())
    before = copy.deepcopy(given_to)
    merged, alone, _ = put_over(*given_to)
    assert same(list(given_to), list(before))
    assert len(alone["dishes"]) == len(new.dishes)
    draft = RecipeDraft.model_validate(merged)
    found = {item.key: item.value for item in items_of(draft.to_dict())}
    kept = {item.key: item for item in items_of(base.to_dict())}
    for item in items_of(mine.to_dict()):
        if item.kind == "question" and not item.value["answer"]:
            continue  # asked by the program, of what the draft then holds
        old = kept.get(item.key)
        for field in ("name", "text", "amount", "optional", "note", "title", "answer"):
            if (
                item.kind != "part"
                and field in item.value
                and (old is None or old.value[field] != item.value[field])
            ):
                assert found[item.key][field] == item.value[field]
