"""The recipe in a schema.org JSON-LD text (vocabulary release 30.0: Recipe, HowToSection, HowToStep)."""

from __future__ import annotations

import html
import json
import re
from collections.abc import Iterator
from typing import Any

from extract.check.written.layout.blocks import MINOR, Block


def json_ld_blocks(text: str, *, first_line: int = 1) -> list[Block]:
    """The first schema.org Recipe in a JSON-LD text as blocks; [] where there is none or it is broken."""
    try:
        data = json.loads(text, strict=False)
    except (ValueError, RecursionError):
        return []
    recipe = next(_recipes(data, 0), None)
    return [] if recipe is None else _Located(text, first_line).blocks(recipe)


def _recipes(data: Any, depth: int) -> Iterator[dict[str, Any]]:
    """Every object whose @type is Recipe, however deep in lists and graphs."""
    if depth > 20:
        return
    if isinstance(data, dict):
        kinds = data.get("@type", "")
        if "Recipe" in (kinds if isinstance(kinds, list) else [kinds]):
            yield data
        for value in data.values():
            yield from _recipes(value, depth + 1)
    elif isinstance(data, list):
        for value in data:
            yield from _recipes(value, depth + 1)


class _Located:
    """Turns a Recipe object into blocks, finding the line of each text in the source as it goes."""

    def __init__(self, source: str, first_line: int) -> None:
        self._source, self._first, self._from = source, first_line, 0

    def blocks(self, recipe: dict[str, Any]) -> list[Block]:
        found = [
            Block(self._line(title), title, "heading", 1) for title in self._texts(recipe.get("name"))[:1]
        ]
        found += [
            Block(self._line(text), text, "text") for text in self._texts(recipe.get("description"))[:1]
        ]
        found += [
            Block(self._line(text), text, "yield") for text in self._texts(recipe.get("recipeYield"))[-1:]
        ]
        found.append(Block(self._first, "Ingredients", "heading", 2))
        lines = recipe.get("recipeIngredient", recipe.get("ingredients"))
        found += [Block(self._line(text), text, "item") for text in self._texts(lines)]
        found.append(Block(self._first, "Method", "heading", 2))
        found.extend(self._steps(recipe.get("recipeInstructions"), 0))
        return found

    def _line(self, text: str) -> int:
        """The line on which ``text`` stands, searched from the last one found; else the first line."""
        for form in (json.dumps(text)[1:-1], json.dumps(text, ensure_ascii=False)[1:-1], text[:40]):
            at = self._source.find(form, self._from)
            at = self._source.find(form) if at < 0 else at
            if at >= 0:
                self._from = at
                return self._first + self._source.count("\n", 0, at)
        return self._first

    def _texts(self, value: Any, depth: int = 0) -> list[str]:
        """Plain texts of a property that may be text, a number, a list, or an object with a name or value."""
        if value is None or depth > 20:
            return []
        if isinstance(value, list):
            return [text for item in _in_order(value) for text in self._texts(item, depth + 1)]
        if isinstance(value, dict):
            if "itemListElement" in value:
                return self._texts(value["itemListElement"], depth + 1)
            parts = [value.get(key) for key in ("value", "unitText", "text", "item", "name")]
            texts = [text for part in parts for text in self._texts(part, depth + 1)]
            return [" ".join(texts)] if texts else []
        text = " ".join(html.unescape(re.sub(r"<[^>]+>", " ", str(value))).split())
        return [text] if text and not isinstance(value, bool) else []

    def _steps(self, value: Any, depth: int) -> list[Block]:
        if depth > 20 or value is None:
            return []
        if isinstance(value, list):
            return [block for item in _in_order(value) for block in self._steps(item, depth + 1)]
        if isinstance(value, dict):
            inner = value.get("itemListElement", value.get("steps"))
            if inner is not None:
                names = (
                    self._texts(value.get("name"))[:1] if "HowToSection" in str(value.get("@type")) else []
                )
                heads = [Block(self._line(name), name, "heading", MINOR) for name in names]
                return [*heads, *self._steps(inner, depth + 1)]
            value = value.get("text", value.get("description", value.get("name")))
        texts = str(value or "").split("\n") if not isinstance(value, (dict, list)) else self._texts(value)
        cleaned = [text for part in texts for text in self._texts(part)]
        return [
            Block(self._line(text), re.sub(r"^(step\s*)?\d{1,2}[.):]\s+", "", text, flags=re.I), "step")
            for text in cleaned
        ]


def _in_order(items: list[Any]) -> list[Any]:
    """By ``position`` where every sibling has one, otherwise as they stand (schema.org, itemListElement)."""
    try:
        return sorted(items, key=lambda item: float(item["position"]))
    except (TypeError, KeyError, ValueError):
        return items
