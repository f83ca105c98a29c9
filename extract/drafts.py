"""Reading and writing draft files: the one door through which every command passes.

A draft is read whole and checked before anything is done with it, and written whole or not at all, so that a
command that fails leaves the file as it was.
"""

from __future__ import annotations

import json
import math
import os
import tempfile
from pathlib import Path
from typing import Any, NoReturn

from pydantic import ValidationError

from extract.errors import CardwrightError
from extract.model import FORMAT, RecipeDraft


def load_draft(path: str | Path) -> RecipeDraft:
    """The draft in ``path``, checked.

    Raises CardwrightError, one line with the file and the place in it, where the file cannot be read, is no
    JSON, is no recipe draft, or is a draft of a later format than this program knows.
    """
    path = Path(path)
    data = _read_json(path)
    if not isinstance(data, dict):
        problem = "this is no recipe draft: a JSON object was expected"
        raise CardwrightError(problem, path=path)
    check_format(data.get("format"), path)
    try:
        return RecipeDraft.model_validate(data)
    except ValidationError as error:
        problem, place = _first_fault(error)
        more = error.error_count() - 1
        remedy = f"and {more} more of the kind" if more else ""
        fault = f"{place}: {problem}"
        raise CardwrightError(fault, path=path, remedy=remedy) from error


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
    target = path.resolve()  # through a link, so that the link itself stays
    temporary = ""
    try:
        descriptor, temporary = tempfile.mkstemp(dir=target.parent, prefix=f".{target.name}.", suffix=".tmp")
        with os.fdopen(descriptor, "wb") as stream:
            stream.write(content.encode() if isinstance(content, str) else content)
            stream.flush()
            os.fsync(stream.fileno())
        Path(temporary).chmod(_mode_for(target))
        Path(temporary).replace(target)
    except (OSError, UnicodeEncodeError) as error:
        if temporary:
            Path(temporary).unlink(missing_ok=True)
        problem = f"cannot be written: {getattr(error, 'strerror', None) or error}"
        raise CardwrightError(problem, path=path) from error


def check_format(found: object, path: str | Path | None) -> None:
    """Raise CardwrightError unless ``found`` is the draft format that this program reads."""
    if found == FORMAT:
        return
    name, _, known = FORMAT.partition("/")
    start, _, number = found.partition("/") if isinstance(found, str) else ("", "", "")
    if start == name and number.isascii() and number.isdigit() and int(number) > int(known):
        problem = f"this draft is of a later format, {found}"
        raise CardwrightError(problem, path=path, remedy=f"this program reads {FORMAT}; bring it up to date")
    problem = f'this is no recipe draft: "format" is {json.dumps(found)}'
    raise CardwrightError(problem, path=path, remedy=f'expected "{FORMAT}"')


def _mode_for(target: Path) -> int:
    """The permissions of the file to be replaced, or those a new file would get."""
    try:
        return target.stat().st_mode & 0o7777
    except FileNotFoundError:
        mask = os.umask(0)
        os.umask(mask)
        return 0o666 & ~mask


def _read_json(path: Path) -> Any:
    try:
        text = path.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError as error:
        problem = "this is no recipe draft: not UTF-8 text"
        raise CardwrightError(problem, path=path) from error
    except OSError as error:
        raise CardwrightError(error.strerror or "cannot be read", path=path) from error
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


def _first_fault(error: ValidationError) -> tuple[str, str]:
    """What is wrong first, and where: ``dishes[0].components[1].ingredients[4].amount.low``."""
    fault = error.errors(include_url=False, include_context=False)[0]
    place = ""
    for step in fault["loc"]:
        place += f"[{step}]" if isinstance(step, int) else f".{step}" if place else step
    message = fault["msg"]
    return message[:1].lower() + message[1:], place or "the draft"
