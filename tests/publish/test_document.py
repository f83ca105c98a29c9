"""The word processor's document, opened again."""

from __future__ import annotations

import time
from io import BytesIO
from pathlib import Path
from zipfile import ZipFile

import docx
import pytest
from hypothesis import given
from recipes import draft, hostile, line, pie, recipe, said, texts

from extract.check.written.layout.documents import document_blocks, looks_like_document
from extract.errors import CardwrightError
from extract.publish.building import recipes_of
from extract.publish.phrases import line_text, typeset
from extract.publish.recipe import Edition, Recipe
from extract.publish.writers.document import write


def made(found: Recipe) -> bytes:
    return write(Edition((found,)))


def test_it_opens_with_headings_lists_and_numbers() -> None:
    opened = docx.Document(BytesIO(made(recipe())))
    styles = [(paragraph.style.name, paragraph.text) for paragraph in opened.paragraphs]
    assert styles[0] == ("Title", "Leek and barley pie")
    assert ("Heading 2", "Pastry") in styles
    assert next(text for style, text in styles if style == "List Number") == recipe().steps[0].text
    listed = [text for style, text in styles if style == "List Bullet"]
    assert listed[:2] == [typeset(line_text(line)) for line in recipe().lines[:2]]


def test_open_questions_worth_asking_are_comments_at_their_lines() -> None:
    asked = [
        {"kind": "which one", "about": "salt", "text": "How much salt?", "said": said(60)},
        {"kind": "never put in", "about": "the cream", "text": "When does it go in?", "said": said(70)},
        {"kind": "off camera", "about": "the filling", "text": "How was it made?", "said": said(80)},
        {
            "kind": "which one",
            "about": "stock",
            "text": "Which stock?",
            "answer": "chicken",
            "said": said(45),
        },
    ]
    opened = docx.Document(BytesIO(made(recipe(questions=asked))))
    told = {comment.text: comment.author for comment in opened.comments}
    assert "How much salt? [1:00]" in told
    assert "When does it go in? [1:10]" in told
    assert not any(text.startswith(("Which stock", "How was it made")) for text in told)
    (salt,) = [paragraph for paragraph in opened.paragraphs if paragraph.text == "salt"]
    assert "commentRangeStart" in salt._p.xml


def test_a_question_stands_at_its_step_its_part_or_the_first_of_its_foods() -> None:
    first = pie()["method"][0]
    asked = [
        {"kind": "never put in", "about": "the cream", "text": "When?", "said": first["said"]},
        {"kind": "two amounts", "about": "sesame seeds and salt", "text": "How much of both?"},
        {"kind": "two amounts", "about": "salt", "part": "pastry", "text": "How much in the pastry?"},
        {"kind": "never put in", "about": "the parsley", "text": "Where does it go?"},
    ]
    parts = pie()["components"]
    parts[1]["ingredients"].append(line("salt", start=98))
    opened = docx.Document(BytesIO(made(recipe(questions=asked, components=parts))))
    texts_of = {str(comment.comment_id): comment.text for comment in opened.comments}
    places = {
        texts_of[mark]: number
        for number, paragraph in enumerate(opened.paragraphs)
        for mark in paragraph._p.xpath("w:commentRangeStart/@w:id")
    }
    told = {text: opened.paragraphs[number].text for text, number in places.items()}
    assert told["When? [1:40]"] == first["text"]
    assert told["How much of both?"] == "salt"
    assert told["How much in the pastry?"] == "salt"
    assert places["How much in the pastry?"] > places["How much of both?"]
    assert told["Where does it go?"] == "Leek and barley pie"


def test_the_same_recipe_makes_the_same_document(monkeypatch: pytest.MonkeyPatch) -> None:
    """On any day and at any hour: neither its parts nor its comments hold the time of making."""
    asked = [{"kind": "which one", "about": "salt", "text": "How much salt?", "said": said(60)}]
    first = made(recipe(questions=asked))
    now = time.time()
    monkeypatch.setattr(time, "time", lambda: now + 100_000)
    assert made(recipe(questions=asked)) == first
    comments = ZipFile(BytesIO(first)).read("word/comments.xml")
    assert b"How much salt?" in comments
    assert b"w:date" not in comments


@given(texts)
def test_any_words_come_back_whole(text: str) -> None:
    found = recipes_of(hostile(text))[0]
    opened = docx.Document(BytesIO(made(found)))
    told = [paragraph.text for paragraph in opened.paragraphs]
    assert told[0] == found.title
    assert typeset(line_text(found.lines[0])) in told


def test_documents_are_read_by_their_styles() -> None:
    data = made(recipes_of(draft(pie()))[0])
    assert looks_like_document(data)
    roles = {block.role for block in document_blocks(data, Path("pie.docx"))}
    assert roles >= {"heading", "item", "step"}
    with pytest.raises(CardwrightError, match="word processor"):
        document_blocks(b"PK\x03\x04nothing", Path("pie.docx"))
