"""Reading and writing draft files: the one door through which every command passes.

A draft is read whole and checked before anything is done with it, and written whole or not at all, so that a
command that fails leaves the file as it was.
"""

from __future__ import annotations

import json
import math
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn

from pydantic import ValidationError

from extract.errors import CardwrightError
from extract.model import FORMAT, RecipeDraft
from extract.writing import write_together

if TYPE_CHECKING:
    from extract.draft_faults import Fault


def load_draft(path: str | Path) -> RecipeDraft:
    """The draft in ``path``, checked.

    Raises CardwrightError, one line with the file and the place in it, where the file cannot be read, is no
    JSON, is no recipe draft, or is a draft of a later format than this program knows.
    """
    path = Path(path)
    text = _read_text(path)
    data = _parsed(text, path)
    if not isinstance(data, dict):
        problem = "this is no recipe draft: a JSON object was expected"
        raise CardwrightError(problem, path=path)
    check_format(data.get("format"), path)
    from extract.draft_faults import depth_fault, form_fault, value_faults

    if depth_fault(data):
        problem = "lists and objects lie too deep within one another for a recipe draft"
        raise CardwrightError(problem, path=path)
    try:
        draft = RecipeDraft.model_validate(data)
    except ValidationError as error:
        raise _told(form_fault(error, data), error.error_count() - 1, text, data, path) from error
    faults = list(value_faults(data))
    if faults:
        raise _told(faults[0], len(faults) - 1, text, data, path)
    return draft


def _told(fault: Fault, more: int, text: str, data: Any, path: Path) -> CardwrightError:
    """A fault as the user is told it: file, line, dish, field, what is wrong and what would be right."""
    from extract.draft_faults import line_of, place_words

    remedy = fault.remedy + (f"; and {more} more of the kind" if more else "")
    problem = f"{place_words(data, fault.way)}: {fault.problem}"
    return CardwrightError(problem, path=path, line=line_of(text, fault.way), remedy=remedy)


def save_draft(path: str | Path, draft: RecipeDraft) -> None:
    """Write ``draft`` to ``path`` in one move: a reader sees the old file or the new one, never a half.

    Raises CardwrightError where the draft is of another format or the place cannot be written to.
    """
    path = Path(path)
    check_format(draft.format, path)
    write_atomic(path, draft.to_json())


def write_atomic(path: Path, content: str | bytes) -> None:
    """Put ``content`` (text as UTF-8) in place of ``path`` in one move, keeping the old file's permissions.

    Raises CardwrightError where that fails; the old file then stands as it was.
    """
    write_together([(path, content)])


def check_format(found: object, path: str | Path | None) -> None:
    """Raise CardwrightError unless ``found`` is the draft format that this program reads."""
    if found == FORMAT:
        return
    name, _, known = FORMAT.partition("/")
    start, _, number = found.partition("/") if isinstance(found, str) else ("", "", "")
    if (
        start == name
        and number.isascii()
        and number.isdigit()
        and len(number) < 9
        and int(number) > int(known)
    ):
        problem = f"this draft is of a later format, {found}"
        raise CardwrightError(problem, path=path, remedy=f"this program reads {FORMAT}; bring it up to date")
    problem = f'this is no recipe draft: "format" is {json.dumps(found)[:60]}'
    raise CardwrightError(problem, path=path, remedy=f'expected "{FORMAT}"')


def _read_text(path: Path) -> str:
    try:
        return path.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError as error:
        problem = "this is no recipe draft: not UTF-8 text"
        raise CardwrightError(problem, path=path) from error
    except (OSError, RuntimeError, ValueError) as error:
        problem = getattr(error, "strerror", None) or f"cannot be read: {error}"
        raise CardwrightError(problem, path=path) from error


def _parsed(text: str, path: Path) -> Any:
    try:
        return json.loads(text, parse_constant=_refuse, parse_float=_finite)
    except json.JSONDecodeError as error:
        problem = f"this is no JSON: {error.msg}"
        raise CardwrightError(problem, path=path, line=error.lineno) from error
    except (ValueError, RecursionError) as error:
        problem = f"this is no JSON: {error}"
        raise CardwrightError(problem, path=path) from error


def _refuse(word: str) -> NoReturn:
    problem = f"{word} is no number"
    raise ValueError(problem)


def _finite(figures: str) -> float:
    number = float(figures)
    if not math.isfinite(number):
        _refuse(figures)
    return number
