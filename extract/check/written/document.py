"""A whole written recipe read into the draft's form."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Collection
from dataclasses import replace
from pathlib import Path

from extract.check.written.batch import read_batch
from extract.check.written.dish import Reading, leading_share
from extract.check.written.layout.blocks import Block, heading_words, is_known_food, text_blocks
from extract.check.written.layout.documents import document_blocks, looks_like_document
from extract.check.written.layout.json_ld import json_ld_blocks
from extract.check.written.layout.web import looks_like_page, page_blocks
from extract.check.written.lines.amounts import read_quantity
from extract.check.written.lines.apart import foods_apart, is_food_first
from extract.check.written.lines.clean import clean_line, without_stamps
from extract.check.written.lines.figures import read_figure
from extract.check.written.lines.tokens import tokens_of
from extract.check.written.lines.units import ends_in_unit
from extract.check.written.method.orders import find_orders
from extract.check.written.method.settings import read_measured_heat
from extract.check.written.sections import count_in, part_name, section_of
from extract.check.written.sentences import told_in_sentences
from extract.check.written.yields import is_bare_yield, is_yield, read_yield
from extract.errors import CardwrightError
from extract.model import Batch, RecipeDraft, Source, Written, Yield

_FRONT = "front"
_LONG = 14
_TITLES = 2  # the levels of heading that titles have
_APART = re.compile(r"\s{3,}|\t+")
_ARTICLES = ("a", "an")
_MARK = re.compile(r"^\W+(?=\w)")
_BEGINNING = re.compile(r"[:.]")
_CUE = re.compile(r"^(?:\d+:)?\d\d:\d\d[.,]\d{3} --> ", re.MULTILINE)
_NUMBERED = re.compile(
    r"^\d{1,2}\s+(?=[^\W\d_a-z])"
)  # a step's number without any mark: "3 Beat the butter."


def read_written(path: str | Path) -> RecipeDraft:
    """The written recipe in ``path`` (Markdown, text, web page, JSON-LD or .docx) in the draft's form.

    Raises CardwrightError where the file cannot be read or no ingredient and no step is found in it.
    """
    path = Path(path)
    try:
        data = path.read_bytes()
    except OSError as error:
        problem = f"cannot be read: {error.strerror or error}"
        raise CardwrightError(problem, path=path) from error
    blocks = document_blocks(data, path) if looks_like_document(data) else _blocks(_untimed(data, path))
    draft = _read(blocks, file=path.name, sha256=hashlib.sha256(data).hexdigest())
    if not any(dish.components or dish.method for dish in draft.dishes):
        problem = "no ingredient list and no method found"
        raise CardwrightError(problem, path=path, remedy="head them with 'Ingredients' and 'Method'")
    return draft


def _untimed(data: bytes, path: Path) -> str:
    """The file's text. Raises CardwrightError where it is captions, whose cues would be read as lines."""
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        text = data.decode("cp1252", errors="replace")
    if _CUE.search(text):
        problem = "these are captions, no written recipe"
        raise CardwrightError(problem, path=path, remedy="give the recipe as it is to be published")
    return text


def read_written_text(text: str, *, file: str = "", sha256: str = "") -> RecipeDraft:
    """The recipe in ``text``; a draft without dishes where there is none. Reads any text without failing."""
    return _read(_blocks(text), file=file, sha256=sha256)


def _read(blocks: list[Block], *, file: str, sha256: str) -> RecipeDraft:
    reader = _Reader({section_of(block.text) for block in blocks if block.role == "heading"})
    for block in blocks:
        reader.take(block)
    readings = [reading for reading in reader.readings if reading.lines or reading.steps]
    told = (
        None if any(reading.lines for reading in readings) else told_in_sentences(blocks, reader.readings[0])
    )
    readings = readings if told is None else [told]
    dishes = [reading.dish() for reading in readings if reading.lines or reading.steps]
    return RecipeDraft(source=Source(file=file, sha256=sha256, timed=False), dishes=dishes)


def _blocks(text: str) -> list[Block]:
    if text.lstrip()[:1] in ("{", "[") and (blocks := json_ld_blocks(text)):
        return blocks
    return page_blocks(text) if looks_like_page(text) else text_blocks(text)


class _Reader:
    """Walks the blocks, knowing in which section it is; ``headed``: the kinds of section that have headings."""

    def __init__(self, headed: Collection[str | None]) -> None:
        self.readings = [Reading()]
        self._section = _FRONT
        self._part = ""
        self._heading_before = ""
        self._headed = "ingredients" in headed
        self._method_headed = "method" in headed
        self._above: list[Block] = []  # the headings of the front, in order
        self._next_count: Yield | None = None  # said under the title of a dish whose list is still to come

    def take(self, block: Block) -> None:
        cells = _APART.split(block.text) if self._section == _FRONT else []
        if len(cells) > 1 and any(map(is_yield, cells)):  # a title and, far to its right, the yield
            for cell in cells:
                self.take(replace(block, text=cell, role="text" if is_yield(cell) else block.role))
            return
        self._batch(block)
        self._take(block)

    def _take(self, block: Block) -> None:
        if block.role == "heading":
            self._heading(block)
        elif block.role == "yield" or (
            (self._section == _FRONT or block.role == "text") and is_yield(block.text)
        ):
            self._count(block)
        elif (
            self._section == _FRONT and block.role == "text" and is_bare_yield(block.text, foods=self._headed)
        ):
            self._count(replace(block, role="yield"))
        elif (
            block.role == "text"
            and (self._section != "ingredients" or block.text.endswith("."))
            and self._tells_count(block)
        ):
            self._count(block)
            if self._section == "method":
                self._step(block)
            elif self._section == "ingredients" and len(block.text.split()) > _LONG:
                self._line(block)
            elif self._section == _FRONT:
                self._front(block)
        elif block.role == "text" and section_of(_BEGINNING.split(block.text, maxsplit=1)[0]) == "other":
            return  # a tip or a note in one paragraph
        elif self._section == "ingredients":
            self._line(block)
        elif self._section == "method":
            if not self._method_headed and _is_of_list(block):
                self._section = "ingredients"  # each part has its list and its steps
                self._line(block)
            else:
                self._step(block)
        elif self._section == _FRONT:
            self._front(block)

    def _tells_count(self, block: Block) -> bool:
        """Whether running text says how much is made: of a step only where nothing else does."""
        if self._section == "method" and block.text.lower().startswith(tuple(heading_words("order"))):
            return False
        return self.readings[-1].count is None and read_yield(block.text) is not None

    def _batch(self, block: Block) -> None:
        """A batch is spoken of in running text, in whatever section."""
        reading = self.readings[-1]
        factor = read_batch(block.text) if block.role in ("text", "step") else None
        if factor is not None and reading.batch is None:
            reading.batch = Batch(factor=factor, written=Written(line=block.line, text=block.text))

    def _heading(self, block: Block) -> None:
        section = section_of(block.text)
        if section == "ingredients" and self.readings[-1].steps and self.readings[-1].lines:
            self.readings.append(Reading(title=self._heading_before, count=self._next_count))
            self._next_count = None
        if section is None:
            self._heading_before = block.text if block.level <= 2 else self._heading_before
        if section == "ingredients":
            self._name_dish(block)
        if section is not None:
            if section == "ingredients" and self.readings[-1].count is None:
                self.readings[-1].count = count_in(block.text)
            self._section, self._part = section, ""
            self._above = []
        elif is_yield(block.text):
            self._count(block)
        elif self._section == _FRONT and (not self.readings[-1].title or self._stands_higher(block)):
            self.readings[-1].title = block.text
            self._above = [block]
        else:
            if self._section == "other" and block.level <= 2:
                self._section = _FRONT
            if self._section == _FRONT:
                self._above.append(block)
            self._part = part_name(block.text)

    def _stands_higher(self, block: Block) -> bool:
        """Whether a heading is larger than all above it, so that they were no titles: "SUPPERS" over "# Harira"."""
        larger = all(block.level < heading.level for heading in self._above)
        return bool(self._above) and block.level <= _TITLES and larger

    def _name_dish(self, block: Block) -> None:
        """Of several headings above a list the last that stands over it is the title: book, then dish."""
        reading = self.readings[-1]
        over = [heading.text for heading in self._above if heading.level < block.level]
        if over and not reading.lines and not reading.steps:
            reading.title = over[-1]

    def _count(self, block: Block) -> None:
        reading = self.readings[-1]
        found = read_yield(block.text, assume=block.role == "yield")
        if found is None:
            return
        found.written = Written(line=block.line, text=block.text)
        if reading.steps and self._is_next:
            self._next_count = self._next_count or found
        elif reading.count is None:
            reading.count = found

    @property
    def _is_next(self) -> bool:
        """Whether the last heading may be the title of a further dish."""
        return bool(self._heading_before) and self._heading_before != self.readings[-1].title

    def _front(self, block: Block) -> None:
        """Before any heading: a title, then lines that look like ingredients, then the method."""
        reading = self.readings[-1]
        listed = block.role == "item" or _is_of_list(block)
        if listed and not self._headed:
            self._section = "ingredients"
            self._line(block)
        elif block.role == "step" and self._begins_method(block):
            self._section = "method"
            self._step(block)
        elif block.role == "text" and not reading.title and len(block.text.split()) <= _LONG:
            reading.title = clean_line(block.text)
        elif len(block.text.split()) <= _LONG and read_measured_heat(block.text):
            reading.heats.append(("", block))

    def _begins_method(self, block: Block) -> bool:
        """Whether a numbered line above any heading of a section is the method's first, its list still to come."""
        return not self._headed or (not self._method_headed and bool(find_orders(tokens_of(block.text))))

    def _line(self, block: Block) -> None:
        for part in foods_apart(block.text) if block.role == "text" else [block.text]:
            self._one_line(replace(block, text=part))

    def _one_line(self, block: Block) -> None:
        tokens = tokens_of(block.text)
        ended = without_stamps(block.text).endswith((".", "!", ".)")) and not ends_in_unit(tokens)
        prose = ended and len(block.text.split()) > _LONG
        of_part = ended and not self._method_headed and bool(find_orders(tokens))
        if block.role == "step" and self._method_headed and not prose:
            self.readings[-1].lines.append((self._part, block))  # a list with numbers
        elif (
            block.role == "step"
            or (block.role == "text" and (prose or of_part))
            or (block.role == "item" and of_part and read_quantity(tokens) is None)
        ):
            self._section, self._part = "method", "" if prose and self._method_headed else self._part
            self._step(block)
        elif block.role == "text" and ended:
            if read_measured_heat(block.text):
                self.readings[-1].heats.append((self._part, block))
        elif leading_share(block.text) is not None:
            self.readings[-1].shares.append((self._part, block))
        else:
            self.readings[-1].lines.append((self._part, block))

    def _step(self, block: Block) -> None:
        text = _MARK.sub("", block.text) if block.role == "item" else block.text
        block = replace(block, text=_NUMBERED.sub("", text))
        if any(char.isalpha() for char in block.text):
            self.readings[-1].steps.append((self._part, block))


def _is_ingredient(text: str) -> bool:
    """Whether a line without a heading above it is one of a list: a figure first, or a food and a figure behind it."""
    tokens = tokens_of(text)
    if text.endswith((".", "!", "?")) and not ends_in_unit(tokens):
        return False
    counted = not tokens or tokens[0].lower() not in _ARTICLES or is_known_food(text)
    return (counted and read_figure(tokens, 0) is not None and len(tokens) <= _LONG) or is_food_first(tokens)


def _is_of_list(block: Block) -> bool:
    """Whether a block that no heading tells of is a line of a list, or foods parted by commas."""
    text = clean_line(block.text)
    if block.role not in ("item", "text"):
        return False
    if _is_ingredient(text):
        return True
    return len(foods_apart(text)) > 1
