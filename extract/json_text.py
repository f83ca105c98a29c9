"""JSON that a person can read and edit: what fits on a line stands on one.

RFC 8259 leaves blanks between tokens free; any JSON reader takes this form as it takes any other.
"""

from __future__ import annotations

import json
from functools import cache
from typing import Any

WIDTH = 120
INDENT = 2
_quoted = json.JSONEncoder(ensure_ascii=False).encode


def json_text(value: Any) -> str:
    """``value`` as JSON with two spaces an indent and a newline at the end.

    An object or list stands on one line where it fits into 120 columns or is one thing without parts, so that a piece
    of evidence or an amount is one line; everything else is a line a member. Letters are written as they are.
    """
    return _written(value, 0, 0) + "\n"


def _written(value: Any, depth: int, used: int) -> str:
    """``value`` at an indent of ``depth`` levels, ``used`` columns being taken by its name and its indent."""
    if not isinstance(value, dict | list) or not value:
        return _quoted(value)
    start = INDENT * (depth + 1)
    opening, closing = "[]" if isinstance(value, list) else "{}"
    if isinstance(value, list):
        members = [_written(each, depth + 1, start) for each in value]
    else:
        names = [_name(key) for key in value]
        texts = zip(names, value.values(), strict=True)
        members = [name + _written(each, depth + 1, start + len(name)) for name, each in texts]
    # A member that fits into the line of the whole fits into its own line too, so nothing is written twice.
    line = opening + ", ".join(members) + closing
    if (used + len(line) <= WIDTH and "\n" not in line) or _is_flat(value):
        return line
    blank = "\n" + " " * start
    return opening + ",".join(blank + member for member in members) + "\n" + " " * (start - INDENT) + closing


@cache
def _name(key: str) -> str:
    return f"{_quoted(key)}: "


def _is_flat(value: Any) -> bool:
    """Whether a value is one thing: an object of plain members, or a list of one such object."""
    if isinstance(value, list):
        return len(value) == 1 and isinstance(value[0], dict) and _is_flat(value[0])
    return not isinstance(value, dict) or not any(isinstance(each, dict | list) for each in value.values())
