"""The files that a draft is written to, and how a person's changes to them are told and kept.

What the program writes carries its own digests under ``source.generated``. A file that no longer matches has
been changed by hand (a line corrected, the page edited) and is never written over unasked. Answers given to
questions are carried over to every later draft.
"""

from __future__ import annotations

import hashlib
import json
from pathlib import Path
from typing import Any

from extract.drafts import load_draft, save_draft, write_atomic
from extract.errors import CardwrightError
from extract.json_text import json_text
from extract.model import RecipeDraft

MARK = "generated"


class Outputs:
    """``NAME.draft.json``, ``NAME.md`` and ``NAME.ledger.txt`` of one transcript in ``folder``."""

    def __init__(self, folder: Path, name: str, source: Path | None = None) -> None:
        self.folder = folder
        self.draft = folder / f"{name}.draft.json"
        self.page = folder / f"{name}.md"
        self.ledger = folder / f"{name}.ledger.txt"
        if source is not None and self.page.exists() and self.page.samefile(source):
            self.page = folder / f"{name}.draft.md"  # the transcript itself is called NAME.md

    def changed_by_hand(self) -> Path | None:
        """The file that holds what the program did not write there, None where all may be written over."""
        marks = _marks(self.draft)
        if self.draft.exists() and marks.get("draft") != _digest_of_draft(self.draft):
            return self.draft
        if self.page.exists() and marks.get("page") != _digest(self.page.read_bytes()):
            return self.page
        return None

    def with_answers(self, draft: RecipeDraft) -> RecipeDraft:
        """The draft with the answers that people gave in the one it replaces."""
        from extract.answers import write_in_answers
        from extract.draft.questions import carry_answers

        try:
            if not self.draft.exists():
                return draft
            return write_in_answers(carry_answers(load_draft(self.draft), draft))
        except CardwrightError:
            return draft  # what stands there is no draft, and was asked to be replaced

    def write(self, draft: RecipeDraft, page: str, ledger: str | None) -> None:
        """Write draft, page and ledger, each whole or not at all.

        Raises CardwrightError where the folder cannot be made or written to.
        """
        try:
            self.folder.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            problem = f"this folder cannot be made: {error.strerror}"
            raise CardwrightError(problem, path=self.folder) from error
        write_atomic(self.page, page)
        write_atomic(self.draft, marked_json(draft, page))
        if ledger is not None:
            write_atomic(self.ledger, ledger)


def write_answered(path: Path, draft: RecipeDraft) -> list[str]:
    """Write an answered draft to ``path``, and its page anew where that is as the program wrote it; what to say of it.

    The draft then counts as changed by hand, so that no later run writes over its answers unasked.
    """
    from extract.publish.markdown import page

    kept = (draft.source.model_extra or {}).get(MARK)
    marks: dict[str, Any] = kept if isinstance(kept, dict) else {}
    beside = [path.with_name(path.name.removesuffix(".draft.json") + end) for end in (".md", ".draft.md")]
    pages = [each for each in beside if each.exists() and marks]
    ours = next((each for each in pages if marks.get("page") == _digest(each.read_bytes())), None)
    if ours is None:
        save_draft(path, draft)
        return [f"kept {each}: changed since it was written" for each in pages if is_page(each)]
    text = page(draft)
    marks["page"] = _digest(text.encode())
    save_draft(path, draft)
    write_atomic(ours, text)
    return [f"wrote {path} and {ours.name}"]


def is_page(path: Path) -> bool:
    """Whether ``path`` is the page of a draft beside it, not the transcript that it was made from."""
    if path.suffix != ".md":
        return False
    content = _load(path.with_name(f"{path.stem}.draft.json"))
    source = content.get("source") if isinstance(content, dict) else None
    return isinstance(source, dict) and source.get("file") != path.name


def marked_json(draft: RecipeDraft, page: str) -> str:
    """The draft's JSON with the digests of its content and of its page under ``source.generated``."""
    content = json.loads(draft.to_json())
    content["source"].pop(MARK, None)
    content["source"][MARK] = {"draft": _digest_of_content(content), "page": _digest(page.encode())}
    return json_text(content)


def _marks(path: Path) -> dict[str, Any]:
    content = _load(path)
    source = content.get("source") if isinstance(content, dict) else None
    marks = source.get(MARK) if isinstance(source, dict) else None
    return marks if isinstance(marks, dict) else {}


def _digest_of_draft(path: Path) -> str:
    """The digest of the draft in ``path``, "" where it is no draft."""
    content = _load(path)
    return _digest_of_content(content) if isinstance(content, dict) else ""


def _load(path: Path) -> Any:
    try:
        return json.loads(path.read_bytes())
    except (OSError, ValueError, RecursionError):
        return None


def _digest_of_content(content: dict[str, Any]) -> str:
    """Of the values, not of the spelling: spaces and the order of keys make no difference.

    Answers are left out: they are carried over to the next draft, so that they need no protection.
    """
    source = content.get("source")
    if isinstance(source, dict):
        content = {**content, "source": {key: value for key, value in source.items() if key != MARK}}
    if isinstance(content.get("dishes"), list):
        content = {**content, "dishes": [_without_answers(dish) for dish in content["dishes"]]}
    return _digest(json.dumps(content, sort_keys=True, separators=(",", ":")).encode())


def _without_answers(dish: Any) -> Any:
    if not isinstance(dish, dict) or not isinstance(dish.get("questions"), list):
        return dish
    questions = [{**q, "answer": None} if isinstance(q, dict) else q for q in dish["questions"]]
    return {**dish, "questions": questions}


def _digest(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()
