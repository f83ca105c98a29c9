"""The recipe in a web page: schema.org JSON-LD where it is there, the visible text where it is not."""

from __future__ import annotations

import re
from html.parser import HTMLParser

from extract.check.written.layout.blocks import LABEL, Block, Role, is_label
from extract.check.written.layout.json_ld import json_ld_blocks

_VOID = frozenset(("br", "hr", "img", "input", "meta", "link", "wbr"))
_UNSEEN = frozenset(("script", "style", "nav", "footer", "head", "noscript", "template", "button", "form"))
_BLOCKS = frozenset(
    (
        "p",
        "div",
        "section",
        "article",
        "tr",
        "td",
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
        elif tag == "br" or tag in _BLOCKS:
            self._break(tag)

    def _break(self, tag: str) -> None:
        inside_item = self._role in ("item", "step") and tag in ("p", "div", "br")
        if inside_item or tag in ("td", "dd"):
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
        text = " ".join("".join(self._text).split())
        self._text = []
        if text:
            role, level = self._role, self._level
            if role == "text" and is_label(text):
                role, level = "heading", LABEL
            self.blocks.append(Block(self._line, text, role, level))
        self._role, self._level = "text", 0

    def close(self) -> None:
        super().close()
        self._flush()


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
