"""The tables of lexicons in lexicons/README.md, made from the first sentence at the head of each file.

``python tests/lexicon_table.py`` writes it anew.
"""

from __future__ import annotations

import re
from itertools import takewhile
from pathlib import Path

from extract.lexicon import KINDS

ROOT = Path(__file__).parents[1]
GUIDE = ROOT / "lexicons" / "README.md"
HEAD = "| lexicon | holds |\n| --- | --- |\n"
FIRST = f"### `{KINDS[0]}/`\n"


def tables() -> str:
    """A table a kind, with a row a lexicon in order of name."""
    return "\n".join(f"### `{kind}/`\n\n{HEAD}{''.join(rows(kind))}" for kind in KINDS)


def rows(kind: str) -> list[str]:
    files = sorted((ROOT / "lexicons" / kind).glob("*.tsv"))
    return [f"| `{path.name}` | {first_sentence(path)} |\n" for path in files]


def first_sentence(path: Path) -> str:
    """What a lexicon says of itself, up to the first full stop, colon or semicolon."""
    lines = path.read_text(encoding="utf-8").splitlines()
    comment = " ".join(line[1:].strip() for line in takewhile(lambda line: line.startswith("#"), lines))
    return re.split(r"[.:;](?:\s|$)", comment, maxsplit=1)[0].replace("|", "\\|")


if __name__ == "__main__":
    guide = GUIDE.read_text(encoding="utf-8")
    GUIDE.write_text(guide.partition(FIRST)[0] + tables(), encoding="utf-8")
