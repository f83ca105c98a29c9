"""The marks that a written draft carries, by which it is told whether a person has changed it since."""

from __future__ import annotations

import hashlib
import json
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from extract.errors import CardwrightError
from extract.json_text import json_text
from extract.model import FORMAT, RecipeDraft

MARK = "generated"
BY = "by"
FROM = "from"
WHOLE = "whole"
PAGES = ("page", "page_before")
LEDGERS = ("ledger", "ledger_before")
_KIND = FORMAT.partition("/")[0] + "/"


@dataclass(frozen=True, slots=True)
class Marked:
    """What stands in the place of a draft. ``content`` is None where there is nothing, {} where it is no draft."""

    content: dict[str, Any] | None
    marks: dict[str, Any] = field(default_factory=dict)

    @classmethod
    def at(cls, path: Path) -> Marked:
        """What stands at ``path``. Raises CardwrightError where it cannot be read."""
        try:
            content = json.loads(path.read_bytes())
        except FileNotFoundError:
            return cls(None)
        except OSError as error:
            problem = f"cannot be read or written over: {error.strerror or error}"
            raise CardwrightError(problem, path=path) from error
        except (ValueError, RecursionError):
            return cls({})
        if not isinstance(content, dict):
            return cls({})
        source = content.get("source")
        marks = source.get(MARK) if isinstance(source, dict) else None
        return cls(content, marks if isinstance(marks, dict) else {})

    @property
    def exists(self) -> bool:
        """Whether any file stands there."""
        return self.content is not None

    @property
    def is_draft(self) -> bool:
        """Whether it is a draft, of this format or another version of it."""
        return bool(self.content) and str((self.content or {}).get("format")).startswith(_KIND)

    @property
    def sha256(self) -> str:
        """The digest of the transcript it was made from, "" where none is given."""
        return self._of_source("sha256")

    @property
    def file(self) -> str:
        """The name of the transcript it was made from, "" where none is given."""
        return self._of_source("file")

    def _of_source(self, key: str) -> str:
        source = (self.content or {}).get("source")
        return str(source.get(key, "")) if isinstance(source, dict) else ""

    @property
    def is_unchanged(self) -> bool:
        """Whether it is as it was written, but for answers, which are carried over and need no protection."""
        return bool(self.content) and self.marks.get("draft") == digest_of(self.content or {})

    def is_whole_from(self, command: str) -> bool:
        """Whether it is as ``command`` wrote it, answers and all."""
        whole = digest_of(self.content or {}, answers=True)
        return self.marks.get(BY) == command and self.marks.get(WHOLE) == whole


def is_page_of_draft(path: Path) -> bool:
    """Whether ``path`` is the page of a draft beside it, not the transcript that it was made from."""
    if path.suffix != ".md":
        return False
    try:
        there = Marked.at(path.with_name(f"{path.stem}.draft.json"))
    except CardwrightError:
        return False
    return there.is_draft and there.file != path.name


def marked_json(draft: RecipeDraft, marks: dict[str, Any]) -> str:
    """The draft's JSON with its digest and further ``marks`` under ``source.generated``."""
    content = json.loads(draft.to_json())
    content["source"].pop(MARK, None)
    content["source"][MARK] = {BY: "draft", "draft": digest_of(content), **marks}
    return json_text(content)


def with_marks(draft: RecipeDraft, marks: dict[str, Any]) -> str:
    """The draft's JSON with the marks that it had, so that a change since then can be told."""
    content = json.loads(draft.to_json())
    content["source"][MARK] = marks
    return json_text(content)


def whole_json(draft: RecipeDraft, by: str) -> str:
    """The JSON of what the command ``by`` made of a draft, with a digest that takes in the answers."""
    content = json.loads(draft.to_json())
    content["source"].pop(MARK, None)
    return marked_json(draft, {BY: by, WHOLE: digest_of(content, answers=True)})


def told_apart(keys: tuple[str, str], new: str, old: bytes | None) -> dict[str, str | None]:
    """The digests by which a file is known as the new one or as the one that it replaces."""
    return dict(zip(keys, (digest(new.encode()), None if old is None else digest(old)), strict=True))


def digest_of(content: dict[str, Any], *, answers: bool = False) -> str:
    """Of the values, not of their spelling: spaces, the order of keys and 2.0 for 2 make no difference."""
    source = content.get("source")
    if isinstance(source, dict):
        content = {**content, "source": {key: value for key, value in source.items() if key != MARK}}
    if not answers:
        content = {key: value for key, value in content.items() if key != "unplaced"}
    if not answers and isinstance(content.get("dishes"), list):
        content = {**content, "dishes": [_without_answers(dish) for dish in content["dishes"]]}
    try:
        plain = json.dumps(_even(content), sort_keys=True, separators=(",", ":"))
    except RecursionError:
        return ""
    return digest(plain.encode())


def _even(value: Any) -> Any:
    """``value`` with whole numbers spelled as such: other programs write 2 for 2.0."""
    if isinstance(value, dict):
        return {key: _even(one) for key, one in value.items()}
    if isinstance(value, list):
        return [_even(one) for one in value]
    return int(value) if isinstance(value, float) and value.is_integer() else value


def _without_answers(dish: Any) -> Any:
    if not isinstance(dish, dict) or not isinstance(dish.get("questions"), list):
        return dish
    questions = [{**q, "answer": None} if isinstance(q, dict) else q for q in dish["questions"]]
    return {**dish, "questions": questions}


def digest(data: bytes) -> str:
    """The SHA-256 of ``data`` in hexadecimal."""
    return hashlib.sha256(data).hexdigest()
