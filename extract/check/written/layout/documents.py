"""The recipe in a word processor's document (.docx): paragraphs by their styles, tables by their rows."""

from __future__ import annotations

import re
import zipfile
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING

from extract.check.written.layout.blocks import Block, text_blocks
from extract.errors import CardwrightError

if TYPE_CHECKING:
    from docx.table import Table
    from docx.text.paragraph import Paragraph

_MARK = b"PK\x03\x04"
_MOST = 50_000_000  # bytes unpacked, as of any other file that is read


def looks_like_document(data: bytes) -> bool:
    """Whether a file's bytes are a packed document rather than text."""
    return data.startswith(_MARK)


def document_blocks(data: bytes, path: Path) -> list[Block]:
    """The document's blocks; ``line`` counts its paragraphs and table rows from 1.

    Raises CardwrightError where it is no such document.
    """
    import docx

    try:
        with zipfile.ZipFile(BytesIO(data)) as packed:
            if sum(entry.file_size for entry in packed.infolist()) > _MOST:
                problem = "too large to be a recipe"
                raise CardwrightError(problem, path=path)
        content = list(docx.Document(BytesIO(data)).iter_inner_content())
    except CardwrightError:
        raise
    except Exception as error:
        problem = "this is no word processor's document (.docx) that can be read"
        raise CardwrightError(
            problem, path=path, remedy="save it as .docx, Markdown or plain text"
        ) from error
    found: list[Block] = []
    line = 0
    for item in content:
        for text, style in _texts(item):
            line += 1
            found.extend(_blocks(text, style, line))
    return found


def _texts(item: Paragraph | Table) -> Iterator[tuple[str, str]]:
    """The text and the style's name of a paragraph, or of each row of a table."""
    rows = getattr(item, "rows", None)
    if rows is None:
        yield " ".join(getattr(item, "text", "").split()), str(getattr(item.style, "name", "") or "")
        return
    for row in rows:
        cells = dict.fromkeys(" ".join(cell.text.split()) for cell in row.cells)
        yield " ".join(filter(None, cells)), "List Bullet"


def _blocks(text: str, style: str, line: int) -> Iterator[Block]:
    if not text:
        return
    heading = re.fullmatch(r"Heading (\d)", style)
    if heading or style == "Title":
        yield Block(line, text, "heading", int(heading[1]) + 1 if heading else 1)
    elif style.startswith("List Number"):
        yield Block(line, text, "step")
    elif style.startswith("List"):
        yield Block(line, text, "item")
    else:
        yield from (Block(line, block.text, block.role, block.level) for block in text_blocks(text))
