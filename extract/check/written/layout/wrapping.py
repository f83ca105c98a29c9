"""Plain text as mail and typewriters leave it: paragraphs broken at a width, cards drawn in a box."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import groupby, pairwise

from extract.check.written.layout.columns import Numbered

_BOXED = re.compile(r"^\s*[|│║](?P<inside>[^|│║]*)[|│║]\s*$")
_EDGE = re.compile(r"^\s*[+┌├└╔╚][-=─═+]+[+┐┤┘╗╝]?\s*$")
_MARK = re.compile(r"^\s*(?:[-*+•◦▢□☐‣·–—#>|]|\d{1,2}[.)])")
_NARROWEST, _WIDEST = 45, 110  # characters of a line that was broken at a width
_SLACK = 6  # characters by which a line broken by hand falls short
_FEWEST = 3  # lines of a paragraph, below which chance breaks as well


def unboxed(lines: Sequence[str]) -> list[str]:
    """The lines without a box drawn around them; those of a table, with bars between cells, as they are."""
    found = []
    for line in lines:
        boxed = _BOXED.match(line)
        found.append("" if _EDGE.match(line) else boxed["inside"].rstrip() if boxed else line)
    return found


def unwrapped(lines: Sequence[Numbered]) -> list[Numbered]:
    """The lines, those of a paragraph broken at the text's width put together again under the first's number."""
    width = max((len(line.rstrip()) for _, line in lines), default=0)
    if not _NARROWEST <= width <= _WIDEST:
        return list(lines)
    found: list[Numbered] = []
    for empty, group in groupby(lines, lambda numbered: not numbered[1].strip()):
        paragraph = list(group)
        found += paragraph if empty else _joined(paragraph, width)
    return found


def _joined(paragraph: list[Numbered], width: int) -> Iterator[Numbered]:
    texts = [line for _, line in paragraph]
    enough = len(texts) >= _FEWEST or (len(texts) > 1 and texts[1].lstrip()[0].islower())
    if not enough or any(map(_MARK.match, texts)) or not _is_broken(texts, width):
        yield from paragraph
    else:
        yield paragraph[0][0], " ".join(text.strip() for text in texts)


def _is_broken(texts: Sequence[str], width: int) -> bool:
    """Whether each line ends where the first word of the next would hardly have fitted."""
    return all(
        len(one.rstrip()) + 1 + len(other.split(maxsplit=1)[0]) > width - _SLACK
        for one, other in pairwise(texts)
    )
