"""Which item of one draft of a show is which item of another, and where a new one belongs."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from copy import deepcopy
from dataclasses import dataclass
from itertools import count
from typing import Any

from rapidfuzz import fuzz

from extract.review.keys import LAST

Json = dict[str, Any]
_ALIKE = 60.0
_KINDS = (("ingredients", "line"), ("portions", "share"), ("leftovers", "leftover"))
_MINUTE = 60.0
NEW = "new:"  # before the keys of a new draft, until its items are matched


@dataclass(frozen=True, slots=True)
class Item:
    """A dish, part, line, share, step or question of a draft: its own value, what holds it, its place there."""

    key: str
    kind: str
    value: Json
    dish: str
    part: str
    at: int


def items_of(draft: Json) -> Iterator[Item]:
    """Everything in a draft that has a key, a dish before what is in it."""
    for number, dish in enumerate(draft["dishes"]):
        home = dish["key"]
        yield Item(home, "dish", dish, home, "", number)
        for place, part in enumerate(dish.get("components") or ()):
            yield Item(part["key"], "part", part, home, part["key"], place)
            for field, kind in _KINDS:
                for at, value in enumerate(part.get(field) or ()):
                    yield Item(value["key"], kind, value, home, part["key"], at)
        for field, kind in (("method", "step"), ("questions", "question")):
            for at, value in enumerate(dish.get(field) or ()):
                yield Item(value["key"], kind, value, home, "", at)


def index_of(draft: Json) -> dict[str, Item]:
    """The items of a draft by their keys."""
    return {item.key: item for item in items_of(draft)}


def children_of(dish: Json) -> list[list[Json]]:
    """Every list of items in a dish, parts left out."""
    lists = [part[field] for part in dish.get("components") or () for field, _ in _KINDS if field in part]
    return [*lists, *(dish[field] for field in ("method", "questions") if field in dish)]


def match_items(old: Json, new: Json) -> dict[str, str]:
    """Keys of ``old`` and the key of the same item in ``new``: the likest pairs first, each item once."""
    pairs: dict[str, str] = {}
    left, right = list(items_of(old)), list(items_of(new))
    for kind in ("dish", "part", "line", "share", "leftover", "step", "question"):
        scored = [
            (score, one.key, other.key)
            for one in left
            if one.kind == kind
            for other in right
            if other.kind == kind and (score := _likeness(one, other, pairs)) >= _ALIKE
        ]
        taken: set[str] = set()
        for _, key, other_key in sorted(scored, key=lambda row: -row[0]):
            if key not in pairs and other_key not in taken:
                pairs[key] = other_key
                taken.add(other_key)
    return pairs


def _likeness(one: Item, other: Item, pairs: dict[str, str]) -> float:
    """From 0 to 100: by words, by what holds them, and by how near in time they were said."""
    if one.kind == "dish":
        return max(fuzz.token_set_ratio(*_lower(one, other, "title")), _overlap(one.value, other.value))
    if pairs.get(one.dish) != other.dish:
        return 0.0
    if one.kind == "part":
        return (
            fuzz.ratio(*_lower(one, other, "name"))
            if one.value["name"]
            else 100.0 * (not other.value["name"])
        )
    field = {"line": "name", "step": "text", "question": "text"}.get(one.kind, "of")
    if one.kind == "question" and one.value["kind"] != other.value["kind"]:
        return 0.0
    words = (
        fuzz.token_set_ratio(*_lower(one, other, field))
        if one.kind == "line"
        else fuzz.ratio(*_lower(one, other, field))
    )
    apart = abs(_start(one.value) - _start(other.value))
    same_part = not one.part or pairs.get(one.part) == other.part
    near = max(0.0, 1 - apart / _MINUTE)
    return 0.6 * words + 30 * near + 10 * same_part


def _lower(one: Item, other: Item, field: str) -> tuple[str, str]:
    return str(one.value.get(field, "")).lower(), str(other.value.get(field, "")).lower()


def _overlap(one: Json, other: Json) -> float:
    shared = min(one["end"], other["end"]) - max(one["start"], other["start"])
    length = max(one["end"] - one["start"], other["end"] - other["start"], 1.0)
    return float(100 * shared / length)


def _start(value: Json) -> float:
    return float(
        min((said["start"] for said in value.get("said") or () if said.get("by") != "reviewer"), default=0.0)
    )


def with_keys(draft: Json, renamed: Callable[[str], str]) -> Json:
    """A copy of ``draft`` with every key renamed."""
    copy = deepcopy(draft)
    for item in list(items_of(copy)):
        item.value["key"] = renamed(item.key)
    return copy


def place_new(
    result: Json, brought: list[Item], new: Json, back: dict[str, str], before: dict[str, Item]
) -> Iterator[Item]:
    """Put the items that only the new draft has where they belong in ``result``; yields those that were put.

    A line stands behind the one it follows in the new draft. What lies in a dish that the reviewer took out is
    not put; a new dish is put whole. ``back`` (keys of the new draft and those in ``result``) grows by them.
    """
    given = [int(key[1:]) for key in {*index_of(result), *before} if key[1:].isdecimal()]
    numbers = count(1 + max([*given, int(result.get(LAST) or 0)], default=0))
    for item in brought:
        if item.kind == "dish":
            result["dishes"] = sorted([*result["dishes"], item.value], key=lambda dish: float(dish["start"]))
            inside = list(items_of({"dishes": [item.value]}))
        elif item.dish in back and item.key not in back:
            inside = [item] if _put(result, item, new, back, before) else []
        else:
            inside = []
        for one in inside:
            back[one.key] = one.value["key"] = f"k{next(numbers)}"
        if inside:
            yield Item(item.value["key"], item.kind, item.value, item.dish, item.part, item.at)


def _put(result: Json, item: Item, new: Json, back: dict[str, str], before: dict[str, Item]) -> bool:
    dish = _home(result, back[item.dish], before)
    if dish is None:
        return False
    if item.kind == "part":
        if any(part["name"] == item.value["name"] for part in dish["components"]):
            return False
        dish["components"].append({**item.value, "ingredients": [], "portions": [], "leftovers": []})
        return False  # its lines come after it, one by one
    if item.kind in {"step", "question"}:
        field = "method" if item.kind == "step" else "questions"
        row = dish.setdefault(field, [])
        beside = next(one for one in new["dishes"] if one["key"] == item.dish)[field]
    else:
        field = next(field for field, kind in _KINDS if kind == item.kind)
        source = next(one.value for one in items_of(new) if one.key == item.part)
        parts = [one for one in dish["components"] if one["key"] == back.get(item.part)]
        parts += [one for one in dish["components"] if one["name"] == source["name"]]
        part = parts[0] if parts else None
        if part is None:
            part = {
                "name": source["name"],
                "key": f"{item.part}n",
                "ingredients": [],
                "portions": [],
                "leftovers": [],
            }
            dish["components"].append(part)
        row, beside = part.setdefault(field, []), source[field]
    row.insert(_behind(row, beside, item, back), item.value)
    return True


def _behind(row: list[Json], beside: list[Json], item: Item, back: dict[str, str]) -> int:
    """Behind the nearest item before it in the new draft that stands in ``row``; else first."""
    places = {value["key"]: at for at, value in enumerate(row)}
    for value in reversed(beside[: item.at]):
        at = places.get(back.get(value["key"], value["key"]))
        if at is not None:
            return at + 1
    return 0


def _home(result: Json, key: str, before: dict[str, Item]) -> Json | None:
    """The dish in which what was in the dish ``key`` of the base stands now; None where it was taken out."""
    dishes: list[Json] = result["dishes"]
    inside = {item.key for item in before.values() if item.dish == key}

    def held(dish: Json) -> int:
        return sum(item.key in inside for item in items_of({"dishes": [dish]}))

    same = next((dish for dish in dishes if dish["key"] == key), None)
    best = same or max(dishes, key=held, default=None)
    return best if best is not None and (same is not None or held(best)) else None
