"""The recipe in a web page: schema.org JSON-LD where it is there, the visible text where it is not."""

from __future__ import annotations

import re
from html.parser import HTMLParser

from extract.check.written.layout.blocks import LABEL, MINOR, Block, Role, heading_words, is_label
from extract.check.written.layout.json_ld import json_ld_blocks
from extract.check.written.layout.tables import amount_first, listed_rows

_VOID = frozenset(("br", "hr", "img", "input", "meta", "link", "wbr"))
_UNSEEN = frozenset(("script", "style", "nav", "footer", "head", "noscript", "template", "button", "form"))
_BLOCKS = frozenset(
    (
        "p",
        "div",
        "section",
        "article",
        "tr",
        "dt",
        "dd",
        "blockquote",
        "main",
        "body",
        "header",
        "ul",
        "ol",
        "table",
    )
)

_CELLS, _CELL = frozenset(("td", "th")), "\x1f"


def looks_like_page(text: str) -> bool:
    """Whether a file's text is a web page rather than Markdown with a stray tag."""
    start = text[:2000].lower()
    return (
        "<!doctype html" in start or "<html" in start or bool(re.search(r"<(body|div|ul|script|h1)\b", start))
    )


class _Page(HTMLParser):
    """Collects visible blocks and the JSON-LD scripts, each with its line."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.blocks: list[Block] = []
        self.scripts: list[tuple[int, str]] = []
        self._text: list[str] = []
        self._line = 1
        self._role: Role = "text"
        self._level = 0
        self._lists: list[str] = []
        self._rows: list[tuple[int, list[str]]] = []  # of the table that is open
        self._unseen = 0
        self._script: list[str] | None = None

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag == "script":
            kind = (dict(attrs).get("type") or "").lower()
            self._script = [] if "ld+json" in kind else None
        if tag in _UNSEEN:
            self._unseen += 1
        elif tag in ("ul", "ol"):
            self._flush()
            self._lists.append(tag)
        elif tag == "li":
            self._begin("step" if self._lists[-1:] == ["ol"] else "item")
        elif re.fullmatch(r"h[1-6]", tag):
            self._begin("heading", int(tag[1]))
        elif tag == "br" or tag in _BLOCKS | _CELLS:
            self._break(tag)

    def _break(self, tag: str) -> None:
        inside_item = self._role in ("item", "step") and tag in ("p", "div", "br")
        if tag in _CELLS:
            self._text.append(_CELL)
        elif inside_item or tag == "dd":
            self._text.append(" ")
        else:
            self._begin("text")

    def handle_endtag(self, tag: str) -> None:
        if tag == "script" and self._script is not None:
            self.scripts.append((self._script_line, "".join(self._script)))
            self._script = None
        if tag in _UNSEEN:
            self._unseen = max(0, self._unseen - 1)
        elif tag in ("ul", "ol"):
            self._flush()
            self._lists = self._lists[:-1]
        elif self._ends(tag):
            self._flush()
        elif tag == "table":
            self._flush()
            self._end_table()

    def _ends(self, tag: str) -> bool:
        if tag == "p":
            return self._role not in ("item", "step")
        return tag in ("li", "tr", "dt") or bool(re.fullmatch(r"h[1-6]", tag))

    def handle_data(self, data: str) -> None:
        if self._script is not None:
            if not self._script:
                self._script_line = self.getpos()[0]
            self._script.append(data)
        elif not self._unseen:
            if data.strip() and not "".join(self._text).strip():
                self._line = self.getpos()[0] + len(data[: len(data) - len(data.lstrip())].splitlines()[1:])
            self._text.append(data)

    _script_line = 1

    def _begin(self, role: Role, level: int = 0) -> None:
        self._flush()
        self._role, self._level = role, level

    def _flush(self) -> None:
        pieces, text = self._text, "".join(self._text)
        self._text = []
        if text.startswith(_CELL) and self._role == "text":
            cells = [" ".join(cell.split()) for cell in text.split(_CELL)[1:]]
            self._rows.append((self._line, cells))
        elif text.strip(f"{_CELL} \n\t"):
            self._add(self._line, amount_first(pieces) if self._role == "item" else text)
        self._role, self._level = "text", 0

    def _add(self, line: int, text: str) -> None:
        text = " ".join(text.replace(_CELL, " ").split())
        role, level = self._role, self._level
        if role == "text" and is_label(text):
            role, level = "heading", LABEL
        self.blocks.append(Block(line, text, role, level))

    def _end_table(self) -> None:
        """The rows of a table as lines of a list, where it is one; else as running text."""
        rows, self._rows = self._rows, []
        listed = listed_rows([cells for _, cells in rows], heading_words("yield") - heading_words("order"))
        if listed is None:
            for line, cells in rows:
                if any(cells):
                    self._add(line, " ".join(cells))
            return
        for (line, _), row in zip(rows, listed, strict=True):
            if row.text:
                heading = Block(line, row.text, "heading", MINOR)
                self.blocks.append(heading if row.heads else Block(line, row.text, "item"))

    def close(self) -> None:
        super().close()
        self._flush()
        self._end_table()


def page_blocks(text: str) -> list[Block]:
    """The recipe's blocks: of the JSON-LD where it lists ingredients, of the visible text otherwise."""
    page = _Page()
    page.feed(text)
    page.close()
    for line, script in page.scripts:
        blocks = json_ld_blocks(script, first_line=line)
        if any(block.role == "item" for block in blocks):
            return blocks
    return page.blocks
