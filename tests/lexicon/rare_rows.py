"""Rows of the lexicons of sayings that can fire in fewer than three talks of the project.

A row whose words do not stand in a talk cannot fire in it. More rows than these may be rare, since the words alone do
not yet make a row fire. Counted are the talks of ``tests/talks`` that the reader learned from,
``tests/shows`` and ``samples``. ``python tests/lexicon/rare_rows.py`` prints the count of each lexicon,
``python tests/lexicon/rare_rows.py NAME`` the rows of one.
"""

from __future__ import annotations

import re
import sys
from functools import cache
from pathlib import Path

TESTS = Path(__file__).parents[1]
LEXICONS = TESTS.parent / "lexicons" / "words"
LEARNED = ("", "one_dish")  # the folders of tests/talks
FEW = 3
# The lexicons of sayings, each with the column of its words; "pattern" is a regular expression over tokens.
SAYINGS = {
    "action_words": "words",
    "amount_words": "words",
    "count_words": "words",
    "doubt_cues": "pattern",
    "heat_levels": "words",
    "heat_words": "words",
    "ledger_cues": "pattern",
    "mishearings": "heard",
    "share_words": "words",
    "step_notes": "pattern",
    "time_words": "words",
    "title_words": "word",
    "verb_mishearings": "heard",
}
TOKENS = re.compile(r"n't\b|'\w+|\w+?(?=n't\b)|\w+|[^\w\s]")


@cache
def talks() -> dict[str, str]:
    """Each talk as lower-case tokens, every one followed by a space; notes, times and stamps of talks left out."""
    found = {}
    for path in sorted(path for folder in LEARNED for path in (TESTS / "talks" / folder).glob("*.talk")):
        lines = path.read_text(encoding="utf-8").partition("\n---\n")[2].splitlines()
        found[path.stem] = tokens(
            "\n".join(line.split(" ", 2)[-1] for line in lines if not line.startswith("  "))
        )
    for folder in (TESTS / "shows", TESTS.parent / "samples"):
        for path in sorted([*folder.glob("*.vtt"), *folder.glob("*.txt")]):
            found[path.stem] = tokens(
                re.sub(r"(?m)^.*-->.*$|\[[\d:]+\]", "", path.read_text(encoding="utf-8"))
            )
    return found


def tokens(text: str) -> str:
    return " " + "".join(f"{word} " for word in TOKENS.findall(text.lower().replace("’", "'")))


def rows(name: str) -> list[tuple[int, dict[str, str]]]:
    """The rows of a lexicon, each with its line in the file."""
    lines = enumerate((LEXICONS / f"{name}.tsv").read_text(encoding="utf-8").splitlines(), start=1)
    cells = [
        (number, line.split("\t")) for number, line in lines if line.strip() and not line.startswith("#")
    ]
    head = cells[0][1]
    return [(number, dict(zip(head, row, strict=True))) for number, row in cells[1:]]


def talks_with(name: str, row: dict[str, str]) -> int:
    """In how many talks the words of a row stand; of a class of words, any of them."""
    words = row[SAYINGS[name]]
    if SAYINGS[name] == "pattern":
        # A pattern that is held against the beginning or end of a part of the talk may stand anywhere in the whole.
        pattern = re.compile(words.removeprefix("^").removesuffix("$"))
        return sum(pattern.search(text) is not None for text in talks().values())
    # The words of a pair are joined by "_".
    phrases = [each.replace("_", " ") for each in words.split()] if name == "action_words" else [words]
    return sum(any(tokens(phrase) in text for phrase in phrases) for text in talks().values())


@cache
def rare(name: str) -> tuple[tuple[int, str], ...]:
    """The rare rows of a lexicon: their line in the file, and the row."""
    return tuple((line, "\t".join(row.values())) for line, row in rows(name) if talks_with(name, row) < FEW)


if __name__ == "__main__":
    listed = [f"{name}.tsv:{line}\t{text}" for name in sys.argv[1:] for line, text in rare(name)]
    counted = [f"{name}: {len(rare(name))} of {len(rows(name))}" for name in SAYINGS]
    sys.stdout.write("\n".join([*(listed if sys.argv[1:] else counted), ""]))
