"""Reading the answers of a production sheet: the one ``cardwright questions --format csv`` prints, filled in."""

from __future__ import annotations

import csv
import io
from pathlib import Path

from extract.answers.taking import Reply
from extract.errors import CardwrightError

NEEDED = ("id", "answer")


def read_sheet(path: str | Path, draft: str | Path | None = None) -> list[Reply]:
    """The answers in ``path`` (CSV, RFC 4180, UTF-8), rows without one or of another file than ``draft`` left out.

    Columns may stand in any order and others may be there. Raises CardwrightError, with file and line, where the
    sheet cannot be read or lacks a column.
    """
    text = _text(Path(path))
    rows = csv.DictReader(io.StringIO(text, newline=""), delimiter=_delimiter(text))
    missing = [name for name in NEEDED if name not in (rows.fieldnames or ())]
    if missing:
        problem = f"the sheet has no column {' and no column '.join(missing)}"
        raise CardwrightError(problem, path=path, line=1, remedy="it needs id and answer")
    replies = []
    try:
        for row in rows:
            if _is_of(row.get("draft") or "", draft) and (row["answer"] or "").strip():
                words = _unquoted(row.get("question") or "")
                replies.append(Reply(row["id"] or "", _unquoted(row["answer"]), words, rows.line_num))
    except csv.Error as error:
        problem = f"the sheet cannot be read: {error}"
        raise CardwrightError(problem, path=path, line=rows.line_num) from error
    return replies


def _text(path: Path) -> str:
    try:
        return path.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError as error:
        problem = "the sheet is not UTF-8 text"
        raise CardwrightError(problem, path=path, remedy="save it as CSV UTF-8") from error
    except OSError as error:
        raise CardwrightError(error.strerror or "cannot be read", path=path) from error


def _delimiter(text: str) -> str:
    """The mark between cells: spreadsheets of some countries write a semicolon."""
    head = text.partition("\n")[0]
    return max(",;\t", key=head.count)


def _is_of(named: str, draft: str | Path | None) -> bool:
    """Whether a row is of this draft: it names none, or a file of the same name."""
    return not named or draft is None or Path(_unquoted(named)).name == Path(draft).name


def _unquoted(cell: str) -> str:
    """A cell without the mark that kept a spreadsheet from running it."""
    return cell[1:] if cell[:1] == "'" and cell[1:2] in ("=", "+", "-", "@") else cell
