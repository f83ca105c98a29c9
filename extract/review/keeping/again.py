"""A show drafted again: the reviewer's values put into the new draft, and what changed under them told.

Three drafts, as plain values: ``base`` that the reviewer began from, ``mine`` as the reviewer left it, and ``new``.
A value that the reviewer changed stays; one that they left takes the new draft's. What they added stays, what
they took out stays out. A note tells every place where the new draft says something else than before under a
value of theirs, and what it brings or no longer has.
"""

from __future__ import annotations

from copy import deepcopy
from typing import Any

from extract.review.keeping.matching import (
    NEW,
    Item,
    children_of,
    index_of,
    match_items,
    place_new,
    with_keys,
)
from extract.review.keys import HELD, KEY, LAST

Json = dict[str, Any]
Notes = list[dict[str, str]]
_KEPT_APART = HELD | {KEY, "said"}


def put_over(base: Json, mine: Json, new: Json) -> tuple[Json, Json, Notes]:
    """The new draft with the reviewer's values; the new draft alone, under the same keys; and the notes.

    The drafts given are left as they were. A note is ``{"key", "about", "text"}``.
    """
    mine, new = deepcopy(mine), with_keys(new, lambda key: f"{NEW}{key}")
    alone = deepcopy(new)
    pairs = match_items(base, new)
    back = {other: key for key, other in pairs.items()}
    before, ours, after = index_of(base), index_of(mine), index_of(new)
    notes: Notes = []
    gone: set[str] = set()
    for key, item in ours.items():
        old = before.get(key)
        if old is None:
            continue  # the reviewer's own
        fresh = after.get(pairs.get(key, ""))
        if fresh is not None:
            _merge_item(old.value, item.value, fresh.value, key, notes)
        elif not _changed(old.value, item.value):
            gone.add(key)
        elif item.kind not in {"dish", "part"}:
            notes.append(_note(key, item, "is no longer in the new draft; yours is kept"))
    result = _without(mine, gone)
    brought = [after[key] for key in after if key not in set(pairs.values())]
    for item in place_new(result, brought, new, back, before):
        notes.append(_note(item.key, item, "is new in this draft"))
    for name in [*mine, *new]:
        if name not in {"dishes", "reviewed", LAST}:
            result[name] = _three_way(base.get(name), mine.get(name), new.get(name))
    result["source"] = {**new["source"]}
    return result, with_keys(alone, lambda key: back.get(key, key)), notes


def _merge_item(old: Json, mine: Json, new: Json, key: str, notes: Notes) -> None:
    """Bring one item of the reviewer's up to the new draft, field by field, in place."""
    theirs = [said for said in mine.get("said") or [] if said.get("by") == "reviewer"]
    if "said" in mine:
        mine["said"] = [*(new.get("said") or []), *theirs]
    for name in dict.fromkeys([*mine, *new]):
        if name in _KEPT_APART or (name == "answered_by" and name not in new):
            continue
        was, is_now, would = old.get(name), mine.get(name), new.get(name)
        if is_now == was:
            mine[name] = would
        elif would not in (was, is_now) and name not in {"end", "start", "actions"}:
            told = (
                f"{_words(name)}: the new draft has {_shown(would)}, before it had {_shown(was)}; yours stays"
            )
            notes.append({"key": key, "about": _name_of(mine), "text": told})


def _three_way(old: Any, mine: Any, new: Any) -> Any:
    return new if mine == old else mine


def _changed(old: Json, mine: Json) -> bool:
    """Whether the reviewer changed anything of an item itself."""
    return any(old.get(name) != mine.get(name) for name in {*old, *mine} - _KEPT_APART)


def _without(mine: Json, gone: set[str]) -> Json:
    """The reviewer's draft less what the new draft no longer has; a part or dish goes only with all that it held."""
    result = {**mine, "dishes": [dict(dish) for dish in mine["dishes"]]}
    for dish in result["dishes"]:
        for items in children_of(dish):
            items[:] = [item for item in items if item["key"] not in gone]
        parts = dish.get("components", ())
        dish["components"] = [part for part in parts if part["key"] not in gone or _holds(part)]
    result["dishes"] = [dish for dish in result["dishes"] if dish["key"] not in gone or _holds_any(dish)]
    return result


def _holds_any(dish: Json) -> bool:
    answered = any(question.get("answer") for question in dish.get("questions", ()))
    return answered or bool(dish.get("method")) or any(map(_holds, dish["components"]))


def _holds(part: Json) -> bool:
    return any(part.get(field) for field in ("ingredients", "portions", "leftovers"))


def _note(key: str, item: Item, what: str) -> dict[str, str]:
    return {"key": key, "about": _name_of(item.value), "text": what}


def _name_of(value: Json) -> str:
    found = (
        value.get("title")
        or value.get("name")
        or value.get("about")
        or value.get("text")
        or value.get("of")
        or ""
    )
    return str(found)[:80]


def _words(field: str) -> str:
    return field.replace("_", " ")


def _shown(value: Any) -> str:
    """A value of the draft in a few words."""
    if value in (None, "", []):
        return "nothing"
    if isinstance(value, dict) and {"low", "high"} <= value.keys():
        low, high = value["low"], value["high"]
        count = f"{low:g}" if low == high else f"{low:g}-{high:g}"
        return f"{count} {str(value.get('unit', '')).replace('_', ' ')}".strip()
    if isinstance(value, list):
        return "; ".join(str(one) for one in value)[:120]
    return f'"{str(value)[:120]}"'
