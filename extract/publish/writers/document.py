"""A word processor's document (Office Open XML), the open questions as comments where they belong."""

from __future__ import annotations

from datetime import UTC, datetime
from io import BytesIO
from typing import TYPE_CHECKING

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
    _fill(document, recipe)
    stream = BytesIO()
    document.save(stream)
    return stream.getvalue()


def _set_styles(document: Document) -> None:
    """A book face, small margins between lines, headings in one colour."""
    from docx.shared import Mm, Pt, RGBColor

    for style in document.styles:
        font = getattr(style, "font", None)
        if font is not None and style.name in ("Normal", "Title", "Heading 1", "Heading 2"):
            font.name = _BODY_FONT
            font.color.rgb = RGBColor(*_HEAD_COLOUR) if style.name.startswith("Heading") else None
    document.styles["Normal"].font.size = Pt(_BODY_POINTS)
    document.styles["Normal"].paragraph_format.space_after = Pt(4)
    section = document.sections[0]
    section.left_margin = section.right_margin = Mm(25)
    section.top_margin = section.bottom_margin = Mm(22)


def _fill(document: Document, recipe: Recipe) -> None:
    title = document.add_paragraph(recipe.title, style="Title")
    for notice in recipe.notices:
        document.add_paragraph().add_run(notice).italic = True
    for label, words in facts(recipe):
        paragraph = document.add_paragraph()
        paragraph.add_run(f"{label}: ").bold = True
        paragraph.add_run(words)
    listed = _ingredients(document, recipe)
    _list(document, "equipment", recipe.equipment)
    _method(document, recipe)
    _list(document, "notes", recipe.notes)
    _list(document, "allergens", (*recipe.allergens, *([recipe.allergen_note] if recipe.allergens else [])))
    _list(document, "cautions", recipe.cautions)
    for question in recipe.questions:
        _ask(document, listed.get(question.about.lower(), title), question)


def _ingredients(document: Document, recipe: Recipe) -> dict[str, Paragraph]:
    """The ingredient list; the paragraph of each food by its name, the first where it stands twice."""
    listed: dict[str, Paragraph] = {}
    document.add_paragraph(word("ingredients"), style="Heading 1")
    for part in recipe.parts:
        if part.name:
            document.add_paragraph(capital(part.name), style="Heading 2")
        for line in part.lines:
            paragraph = document.add_paragraph(style="List Bullet")
            measure = typeset(measure_text(line))
            paragraph.add_run(measure).bold = True
            paragraph.add_run(typeset(line_text(line))[len(measure) :])
            listed.setdefault(line.name.lower(), paragraph)
        for share in part.shares:
            document.add_paragraph(style="List Bullet").add_run(typeset(share_line(share))).italic = True
    return listed


def _method(document: Document, recipe: Recipe) -> None:
    document.add_paragraph(word("method"), style="Heading 1")
    for section in recipe.sections:
        if section.name:
            document.add_paragraph(section.name, style="Heading 2")
        for step in section.steps:
            paragraph = document.add_paragraph(typeset(step.text), style="List Number")
            for note in step.notes:
                paragraph.add_run(f" {word('note')}: {note}").italic = True


def _list(document: Document, key: str, items: tuple[str, ...]) -> None:
    if items:
        document.add_paragraph(word(key), style="Heading 1")
        for item in items:
            document.add_paragraph(item, style="List Bullet")


def _ask(document: Document, paragraph: Paragraph, question: Asked) -> None:
    """The question as a comment on the line it is about, the moment in the recording behind it."""
    moment = f" [{clock(question.start)}]" if question.start is not None else ""
    document.add_comment(paragraph.runs, f"{question.text}{moment}", author=_AUTHOR, initials=_INITIALS)


WRITER = Writer(".docx", write)
