"""A word processor's document (Office Open XML), the open questions as comments where they belong."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from datetime import UTC, datetime
from io import BytesIO
from typing import TYPE_CHECKING, Any
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

from extract.publish.phrases import facts, line_text, measure_text, share_line, typeset
from extract.publish.recipe import Asked, Edition, Recipe
from extract.publish.wording import word
from extract.publish.words import capital, clock
from extract.publish.writers.writer import Writer

if TYPE_CHECKING:
    from docx.document import Document
    from docx.text.paragraph import Paragraph

_AUTHOR, _INITIALS = "Cardwright", "C"
_BODY_FONT, _BODY_POINTS = "Georgia", 10.5
_STYLES = ("Title", "Heading 1", "Heading 2", "List Bullet", "List Number")
_HEAD_COLOUR = (0x6E, 0x1F, 0x12)
_UNDATED = datetime(2000, 1, 1, tzinfo=UTC)  # the same draft makes the same document on any day


def write(edition: Edition) -> bytes:
    """The document of one recipe."""
    import docx

    (recipe,) = edition.recipes
    document = docx.Document()
    _set_styles(document)
    properties = document.core_properties
    properties.title, properties.author, properties.last_modified_by = (
        recipe.title[:255],
        "",
        recipe.editor[:255],
    )
    properties.comments, properties.created, properties.modified = "", _UNDATED, _UNDATED
    _fill(_Sheet(document), recipe)
    stream = BytesIO()
    document.save(stream)
    return _repacked(stream)


def _repacked(stream: BytesIO) -> bytes:
    """The package with no time of day on its parts, which the library puts there."""
    bare = BytesIO()
    with ZipFile(stream) as dated, ZipFile(bare, "w", ZIP_DEFLATED) as package:
        for name in dated.namelist():
            part = ZipInfo(name, _UNDATED.timetuple()[:6])
            package.writestr(part, dated.read(name), ZIP_DEFLATED)
    return bare.getvalue()


def _set_styles(document: Document) -> None:
    """A book face, small margins between lines, headings in one colour."""
    from docx.shared import Mm, Pt, RGBColor

    for style in document.styles:
        font = getattr(style, "font", None)
        if font is not None and style.name in ("Normal", "Title", "Heading 1", "Heading 2"):
            font.name = _BODY_FONT
            font.color.rgb = RGBColor(*_HEAD_COLOUR) if style.name.startswith("Heading") else None
            _without_theme(style.element)
    document.styles["Normal"].font.size = Pt(_BODY_POINTS)
    document.styles["Normal"].paragraph_format.space_after = Pt(4)
    section = document.sections[0]
    section.left_margin = section.right_margin = Mm(25)
    section.top_margin = section.bottom_margin = Mm(22)


def _without_theme(style: Any) -> None:
    """Take off what the library's template sets over a style: the faces of its theme and the rule under titles."""
    for fonts in style.xpath("w:rPr/w:rFonts"):
        for name in [name for name in fonts.attrib if name.endswith("Theme")]:
            del fonts.attrib[name]
    for rule in style.xpath("w:pPr/w:pBdr"):
        rule.getparent().remove(rule)


class _Sheet:
    """A document that is being filled, paragraph by paragraph.

    Each style is looked up once: to name it at every paragraph has the library look through all of them.
    """

    def __init__(self, document: Document) -> None:
        self._document = document
        self._styles = {name: document.styles[name].style_id for name in _STYLES}

    def add(self, style: str, *runs: tuple[str, str]) -> Paragraph:
        """A paragraph in ``style`` ("" for running text) of runs, each "bold", "italic" or "" with its text."""
        paragraph = self._document.add_paragraph()
        if style:
            paragraph._p.style = self._styles[style]
        for kind, text in runs:
            if text:
                run = paragraph.add_run(text)
                if kind:
                    setattr(run, kind, True)
        return paragraph

    def listed(self, key: str, items: tuple[str, ...]) -> None:
        """A headed list, nothing where there is nothing to list."""
        if items:
            self.add("Heading 1", ("", word(key)))
            for item in items:
                self.add("List Bullet", ("", item))

    def ask(self, paragraph: Paragraph, question: Asked) -> None:
        """The question as a comment on the line it is about, the moment in the recording behind it."""
        moment = f" [{clock(question.start)}]" if question.start is not None else ""
        words = f"{question.text}{moment}"
        comment = self._document.add_comment(paragraph.runs, words, author=_AUTHOR, initials=_INITIALS)
        comment._comment_elm.date = None


@dataclass(slots=True)
class _Places:
    """The paragraphs that a comment can stand at."""

    title: Paragraph
    lines: dict[tuple[str, str], Paragraph] = field(default_factory=dict)  # by part and food, in lower case
    steps: dict[int, Paragraph] = field(default_factory=dict)  # by number

    def of(self, question: Asked) -> Paragraph:
        """Where a question stands: at its step, at its food (the first of several), else at the title."""
        if question.step in self.steps:
            return self.steps[question.step]
        part, about = question.part.lower(), question.about.lower()
        told = (
            self.lines.get((part, about)),
            *(line for (_, food), line in self.lines.items() if food == about),
            *(line for (_, food), line in self.lines.items() if _names(about, food)),
        )
        return next((line for line in told if line is not None), self.title)


def _names(about: str, food: str) -> bool:
    """Whether a question about several foods ("thyme and parsley") is about this one."""
    return bool(food) and re.search(rf"(?<!\w){re.escape(food)}(?!\w)", about) is not None


def _fill(sheet: _Sheet, recipe: Recipe) -> None:
    places = _Places(sheet.add("Title", ("", recipe.title)))
    for notice in recipe.notices:
        sheet.add("", ("italic", notice))
    for label, words in facts(recipe):
        sheet.add("", ("bold", f"{label}: "), ("", words))
    _ingredients(sheet, recipe, places)
    sheet.listed("equipment", recipe.equipment)
    _method(sheet, recipe, places)
    sheet.listed("notes", recipe.notes)
    sheet.listed("allergens", (*recipe.allergens, *([recipe.allergen_note] if recipe.allergens else [])))
    sheet.listed("cautions", recipe.cautions)
    for question in recipe.questions:
        sheet.ask(places.of(question), question)


def _ingredients(sheet: _Sheet, recipe: Recipe, places: _Places) -> None:
    sheet.add("Heading 1", ("", word("ingredients")))
    for part in recipe.parts:
        if part.name:
            sheet.add("Heading 2", ("", capital(part.name)))
        for line in part.lines:
            measure = typeset(measure_text(line))
            rest = typeset(line_text(line))[len(measure) :]
            paragraph = sheet.add("List Bullet", ("bold", measure), ("", rest))
            places.lines.setdefault((part.name.lower(), line.name.lower()), paragraph)
        for share in part.shares:
            sheet.add("List Bullet", ("italic", typeset(share_line(share))))


def _method(sheet: _Sheet, recipe: Recipe, places: _Places) -> None:
    sheet.add("Heading 1", ("", word("method")))
    for section in recipe.sections:
        if section.name:
            sheet.add("Heading 2", ("", section.name))
        for step in section.steps:
            notes = "".join(f" {word('note')}: {note}" for note in step.notes)
            places.steps[step.number] = sheet.add("List Number", ("", typeset(step.text)), ("italic", notes))


WRITER = Writer(".docx", write)
