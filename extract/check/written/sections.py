"""What the headings of a written recipe begin: its list, its method, what is left unread, a part of the dish."""

from __future__ import annotations

import re

from extract.check.written.layout.blocks import heading_words
from extract.check.written.yields import read_yield
from extract.model import Yield

_ORDINAL = re.compile(r"^\W*\d{1,2}[.)]\s+")


def count_in(heading: str) -> Yield | None:
    """The yield that a heading of the list gives: "Ingredients for 4 people"."""
    told = heading.rstrip(" :").lower().partition(" for ")[2]
    return read_yield(told, assume=True) if told[:1].isdigit() else None


def section_of(heading: str) -> str | None:
    """ "ingredients", "method" or "other" for a heading that begins such a section, None for any other."""
    text = re.sub(r"\(.*?\)|,.*", "", heading.lower().replace("’", "'")).strip(" :.*#")
    if text.partition(" for ")[0] in heading_words("ingredients") and count_in(heading):
        return "ingredients"  # "Ingredients for 12 arepas"
    for kind in ("ingredients", "method", "other"):
        if text in heading_words(kind):
            return kind
    return None


def part_name(heading: str) -> str:
    """The component that a heading names: "For the dip (makes extra):" is "dip"."""
    name = _ORDINAL.sub("", re.sub(r"\(.*?\)", "", heading)).strip(" :*#.")
    for lead in sorted(heading_words("lead"), key=len, reverse=True):
        if name.lower().startswith(f"{lead} "):
            name = name[len(lead) :].strip()
            break
    return name[:1].lower() + name[1:] if not name[1:2].isupper() else name
