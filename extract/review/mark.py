"""The mark that a person has reviewed a draft, and whether the draft is still the one they reviewed.

``reviewed: {"by": …, "at": …, "draft": …}`` at the top of the draft: the name, the time (ISO 8601), and the
digest of everything else, so that any later change, by whatever program, shows.
"""

from __future__ import annotations

import hashlib
import json
from datetime import datetime
from typing import Any

from extract.errors import CardwrightError
from extract.model import RecipeDraft, Reviewed

FIELD = "reviewed"


def set_reviewed(draft: RecipeDraft, by: str, now: datetime, *, clear: bool = False) -> RecipeDraft:
    """A copy of ``draft`` with the mark, or (``clear``) without it. Raises CardwrightError without a name."""
    if clear:
        return draft.model_copy(update={FIELD: None})
    if not by.strip():
        problem = "the mark needs a name"
        raise CardwrightError(problem, remedy="say who reviewed it")
    at = now.isoformat(timespec="seconds")
    bare = draft.to_dict()
    mark = Reviewed(by=" ".join(by.split()), at=at, draft=digest_without_mark(bare))
    return draft.model_copy(update={FIELD: mark})


def digest_without_mark(data: dict[str, Any]) -> str:
    """The digest of a draft's values, the mark and the program's own digests left out."""
    source = {name: value for name, value in data.get("source", {}).items() if name != "generated"}
    content = {**{name: value for name, value in data.items() if name != FIELD}, "source": source}
    return digest(content)


def digest(value: Any) -> str:
    """The SHA-256 of a JSON value, whatever the order of its names."""
    text = json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return hashlib.sha256(text.encode()).hexdigest()


def mark_of(data: dict[str, Any]) -> dict[str, Any] | None:
    """The mark with ``current`` (whether nothing has changed since), None where there is none."""
    mark = data.get(FIELD)
    if not isinstance(mark, dict) or not mark.get("by"):
        return None
    current = mark.get("draft") == digest_without_mark(data)
    return {"by": str(mark["by"]), "at": str(mark.get("at", "")), "current": current}
