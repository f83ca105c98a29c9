"""Markdown and plain text, read again by others."""

from __future__ import annotations

from hypothesis import given
from markdown_it import MarkdownIt
from recipes import draft, hostile, pie, recipe, texts, written
from syrupy.assertion import SnapshotAssertion

from extract.publish.building import recipes_of
from extract.publish.phrases import line_text
from extract.publish.writers.text import WIDTH, wrapped


def paragraphs(markdown: str) -> list[str]:
    """The plain text of every heading, item and paragraph, as markdown-it-py (CommonMark) has it."""
    tokens = MarkdownIt("commonmark").parse(markdown)
    return [
        "".join(" " if child.type == "softbreak" else child.content for child in token.children or ())
        for token in tokens
        if token.type == "inline"
    ]


def test_markdown_says_everything_in_order() -> None:
    told = paragraphs(written("markdown", recipe()))
    found = recipe()
    assert told[0] == found.title
    lines = [told.index(line_text(line)) for line in found.lines]
    steps = [next(n for n, text in enumerate(told) if text.startswith(step.text)) for step in found.steps]
    assert lines + steps == sorted(lines + steps)


def test_markdown_steps_keep_their_numbers_across_sections() -> None:
    tokens = MarkdownIt("commonmark").parse(written("markdown", recipe()))
    lists = [token.attrs.get("start", 1) for token in tokens if token.type == "ordered_list_open"]
    assert lists == [1, 2, 3]


@given(texts)
def test_markdown_of_any_words_reads_as_those_words(text: str) -> None:
    found = recipes_of(hostile(text))[0]
    markdown = written("markdown", found)
    told = paragraphs(markdown)
    assert found.title in told
    assert [line_text(line) for line in found.lines] == [
        row for row in told if row in map(line_text, found.lines)
    ]
    kinds = {token.type for token in MarkdownIt("commonmark").parse(markdown)}
    assert not kinds & {"html_block", "code_block", "fence", "hr", "blockquote_open"}
    inline = [child for token in MarkdownIt("commonmark").parse(markdown) for child in token.children or ()]
    assert not {child.type for child in inline} & {"html_inline", "link_open", "image", "code_inline"}


@given(texts)
def test_text_is_never_wider_than_72_columns_and_loses_no_word(text: str) -> None:
    found = recipes_of(hostile(text))[0]
    rows = written("text", found).splitlines()
    assert all(len(row) <= WIDTH or len(row.split()) <= 2 for row in rows)
    flat = " ".join(" ".join(rows).split())
    assert found.title.upper() in flat
    for line in found.lines:
        assert line_text(line) in flat


def test_no_line_ends_between_a_figure_and_its_unit() -> None:
    for words in range(1, 20):
        rows = wrapped(f"{'word ' * words}bake at 200 °C (400 °F) for 40 min, then weigh out 25 g of it.")
        assert not any(row.endswith(("200", "400", "40", "25")) for row in rows)
        assert all(char.isascii() or char == "°" for row in rows for char in row)


def test_an_unreviewed_text_says_so_before_the_list() -> None:
    for kind in ("markdown", "text"):
        text = written(kind, draft(pie(), reviewed=None))
        assert 0 < text.index("Not reviewed") < text.lower().index("ingredients")


def test_the_text_of_a_recipe_is_as_reviewed(snapshot: SnapshotAssertion) -> None:
    """A change in wording shows here, to be read before it is taken: ``pytest --snapshot-update``."""
    assert written("text", recipe(batch={"factor": 2})) == snapshot


def test_the_markdown_of_a_recipe_is_as_reviewed(snapshot: SnapshotAssertion) -> None:
    assert written("markdown", recipe(batch={"factor": 2})) == snapshot
