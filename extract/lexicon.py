"""Finding and reading the lexicons: tab-separated tables of what the program knows.

A lexicon is a UTF-8 file of ``#`` comment lines (its source, its licence, what each column means), one header
row naming the columns, and one row an entry. The folder lies beside the package in a checkout and inside it
in an installed wheel; ``KINDS`` are its sub-folders, and no name stands in two of them. A user's own rows, in files
of the same names and columns, lie in the folder that the environment variable ``CARDWRIGHT_LEXICONS`` names, or in
sub-folders of it as here. What was learned takes no rows of a user's own: its figures were fitted together.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from functools import cache
from pathlib import Path

from extract.errors import CardwrightError

Row = dict[str, str]
OWN = "CARDWRIGHT_LEXICONS"
LEARNED = "learned"
KINDS = ("words", "tables", LEARNED)


@cache
def lexicon_folder() -> Path:
    """The folder that holds the lexicons, in a checkout or an installed wheel."""
    package = Path(__file__).resolve().parent
    for folder in (package / "lexicons", package.parent / "lexicons"):
        if folder.is_dir():
            return folder
    problem = "the lexicons folder is missing"
    raise CardwrightError(problem, path=package, remedy="install the package again")


@cache
def own_folder() -> Path | None:
    """The folder of the user's own rows, None where there is none.

    Raises CardwrightError where the environment names one that is not there.
    """
    named = os.environ.get(OWN, "").strip()
    if not named:
        return None
    if not Path(named).is_dir():
        problem = f"the folder that {OWN} names is not there"
        raise CardwrightError(problem, path=named, remedy=f"make it, or unset {OWN}")
    return Path(named)


def lexicon_file(name: str) -> Path:
    """The program's file of a lexicon, of whatever kind.

    Raises CardwrightError where there is none.
    """
    for kind in KINDS:
        path = lexicon_folder() / kind / f"{name}.tsv"
        if path.is_file():
            return path
    problem = f"the lexicon {name} is missing"
    raise CardwrightError(problem, path=lexicon_folder(), remedy="install the package again")


def own_files(name: str) -> list[Path]:
    """The files with a user's own rows for a lexicon: in the folder itself, then in its sub-folders.

    Raises CardwrightError for a lexicon that takes none.
    """
    own = own_folder()
    places = () if own is None else (own, *(own / kind for kind in KINDS))
    found = [place / f"{name}.tsv" for place in places if (place / f"{name}.tsv").is_file()]
    if found and lexicon_file(name).parent.name == LEARNED:
        problem = "this lexicon takes no rows of one's own: its figures were fitted together"
        raise CardwrightError(problem, path=found[0], remedy="take the file away, or train again")
    return found


@cache
def read_lexicon(name: str, *, columns: tuple[str, ...]) -> tuple[Row, ...]:
    """The rows of the lexicon ``name``, each a dict with exactly ``columns`` as keys; a user's own follow.

    Raises CardwrightError, with file and line, where the header differs from ``columns``, a row has another
    number of cells, or the first cell is empty.
    """
    return tuple(row for path in (lexicon_file(name), *own_files(name)) for row in read_table(path, columns))


def read_table(path: Path, columns: tuple[str, ...]) -> Iterator[Row]:
    """Rows of one tab-separated table; see ``read_lexicon`` for the form and the errors."""
    header_seen = False
    try:
        text = path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as error:
        problem = f"this lexicon cannot be read: {error}"
        raise CardwrightError(problem, path=path) from error
    for number, line in enumerate(text.splitlines(), start=1):
        if not line.strip() or line.startswith("#"):
            continue
        cells = tuple(cell.strip() for cell in line.split("\t"))
        if not header_seen:
            header_seen = True
            if cells != columns:
                problem = f"columns are {', '.join(cells)}"
                raise CardwrightError(
                    problem, path=path, line=number, remedy=f"expected {', '.join(columns)}"
                )
            continue
        if len(cells) != len(columns) or not cells[0]:
            problem = f"{len(cells)} cells where {len(columns)} belong, or an empty first cell"
            raise CardwrightError(problem, path=path, line=number)
        yield dict(zip(columns, cells, strict=True))
