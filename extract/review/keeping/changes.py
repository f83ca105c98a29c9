"""What differs between two JSON values, as a list of changes that can be applied and taken back.

A change is one of two forms. ``{"at": PATH, "old": …, "new": …}`` puts a value in place of another; a side is
left out where the member is not there. ``{"at": PATH, "from": N, "out": […], "in": […]}`` replaces a run of a
list. PATH is a list of names and indices from the root.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import takewhile
from typing import Any

Json = Any
Change = dict[str, Json]


def differences(old: Json, new: Json) -> list[Change]:
    """The changes that make ``new`` of ``old``, in the order in which they are to be applied."""
    return list(_differences(old, new, []))


def applied(value: Json, changes: Sequence[Change]) -> Json:
    """``value`` with ``changes`` made; the value given is left as it was.

    Raises LookupError or TypeError where the changes were made for another value.
    """
    for change in changes:
        value = _with(value, change["at"], change)
    return value


def inverse(changes: Sequence[Change]) -> list[Change]:
    """The changes that take ``changes`` back."""
    return [_turned(change) for change in reversed(changes)]


def _turned(change: Change) -> Change:
    if "from" in change:
        return {"at": change["at"], "from": change["from"], "out": change["in"], "in": change["out"]}
    turned: Change = {"at": change["at"]}
    if "new" in change:
        turned["old"] = change["new"]
    if "old" in change:
        turned["new"] = change["old"]
    return turned


def _differences(old: Json, new: Json, path: list[Json]) -> Iterator[Change]:
    if same(old, new):
        return
    if isinstance(old, dict) and isinstance(new, dict):
        for name in [*old, *(name for name in new if name not in old)]:
            here = [*path, name]
            if name not in new:
                yield {"at": here, "old": old[name]}
            elif name not in old:
                yield {"at": here, "new": new[name]}
            else:
                yield from _differences(old[name], new[name], here)
    elif isinstance(old, list) and isinstance(new, list):
        yield from _in_list(old, new, path)
    else:
        yield {"at": path, "old": old, "new": new}


def same(old: Json, new: Json) -> bool:
    """Whether two values are written alike: 1 and true, or 1 and 1.0, are not."""
    if old is new:
        return True
    if isinstance(old, dict) and isinstance(new, dict):
        return old.keys() == new.keys() and all(same(old[name], new[name]) for name in old)
    if isinstance(old, list) and isinstance(new, list):
        return len(old) == len(new) and all(map(same, old, new))
    return type(old) is type(new) and bool(old == new)


def _in_list(old: list[Json], new: list[Json], path: list[Json]) -> Iterator[Change]:
    head = len(list(takewhile(lambda pair: same(*pair), zip(old, new, strict=False))))
    most = min(len(old), len(new)) - head
    behind = zip(reversed(old), reversed(new), strict=False)
    tail = min(most, len(list(takewhile(lambda pair: same(*pair), behind))))
    out, put = old[head : len(old) - tail], new[head : len(new) - tail]
    if len(out) == len(put):
        for index, (one, other) in enumerate(zip(out, put, strict=True), start=head):
            yield from _differences(one, other, [*path, index])
    else:
        yield {"at": path, "from": head, "out": out, "in": put}


def _with(value: Json, path: Sequence[Json], change: Change) -> Json:
    """A copy of ``value``, shared where nothing changes, with ``change`` made at ``path`` below it."""
    if not path:
        if "from" not in change:
            return change["new"]
        start = change["from"]
        return [*value[:start], *change["in"], *value[start + len(change["out"]) :]]
    name, rest = path[0], path[1:]
    copy = value.copy()
    if rest or "from" in change:
        copy[name] = _with(copy[name], rest, change)
    elif "new" in change:
        copy[name] = change["new"]
    else:
        del copy[name]
    return copy
