"""What a written version took over from the draft word for word, and what print says in words of its own."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path
from typing import Any

import docx
import pytest

from extract.check.checking import check
from extract.check.differences.heats import equal_heats
from extract.check.pairs.verbatim import word_for_word
from extract.check.written import read_written
from extract.check.written.batch import read_batch
from extract.check.written.document import read_written_text
from extract.check.written.lines.line import read_line
from extract.errors import CardwrightError
from extract.model import Dish, Heat, RecipeDraft


def dish(*texts: str, notes: tuple[str, ...] = ()) -> Dish:
    return Dish.model_validate(
        {"title": "Pie", "method": [{"text": text, "notes": list(notes)} for text in texts]}
    )


@pytest.mark.parametrize(
    ("said", "written", "same"),
    [
        ("Fry the leek for 1 1/2 minutes.", "Fry the leek for 1½ minutes", True),
        ("Fry the leek.", "FRY THE LEEK!", True),
        ("Fry the leek.", "Fry the leek. Note: It spits.", True),
        ("Fry the leek.", "Fry the leeks.", False),
        ("Fry it for 5 minutes.", "Fry it for 50 minutes.", False),
        ("Fry the leek.", "Fry the leek. Note: It burns.", False),
        ("", "", False),
    ],
)
def test_a_step_is_the_drafts_own_only_word_for_word(said: str, written: str, same: bool) -> None:
    assert word_for_word(dish(said, notes=("It spits.",)), dish(written)) == ({0: 0} if same else {})


def test_steps_that_stand_twice_are_taken_in_order() -> None:
    assert word_for_word(dish("Stir.", "Wait.", "Stir."), dish("Stir.", "Stir.", "Stir.")) == {0: 0, 1: 2}


def draft_of(*lines: dict[str, Any], **more: Any) -> RecipeDraft:
    part = {"name": "glaze", "ingredients": list(lines), **more}
    source = {"file": "x.vtt", "sha256": ""}
    return RecipeDraft.model_validate({"source": source, "dishes": [{"title": "Pie", "components": [part]}]})


@pytest.mark.parametrize(
    ("listed", "method", "kinds"),
    [
        ("- Half of the glaze: for the ribs", "Brush the ribs.", []),
        ("- Half of the glaze: for the ribs", "Brush the ribs with two thirds of the glaze.", ["portion"]),
        ("- A third of the glaze: for the ribs", "Brush the ribs.", ["portion"]),
        ("", "Brush the ribs.", ["portion"]),
    ],
)
def test_shares_of_the_list_count_unless_the_method_contradicts_them(
    listed: str, method: str, kinds: list[str]
) -> None:
    honey = {"name": "honey", "amount": {"low": 1, "high": 1, "unit": "cup"}}
    share = {"fraction": 0.5, "of": "glaze", "into": "for the ribs"}
    text = f"# Pie\n\n## Ingredients\n\n### Glaze\n\n- 1 cup honey\n{listed}\n\n## Method\n\n1. {method}\n"
    (report,) = check(draft_of(honey, portions=[share]), read_written_text(text, file="pie.md"))
    assert [each.kind for each in report.differences] == kinds


@pytest.mark.parametrize(
    ("text", "factor"),
    [
        ("The amounts make 3 times the normal batch, as on camera.", 3.0),
        ("The amounts make 1 1/2 times the normal batch.", 1.5),
        ("The amounts make 1/4 times the normal batch.", 0.25),
        ("The amounts make a double batch, as on camera.", 2.0),
        ("Bake it 3 times.", None),
    ],
)
def test_batches_of_every_size_are_read(text: str, factor: float | None) -> None:
    assert read_batch(text) == factor


@pytest.mark.parametrize(
    ("line", "name", "low"),
    [
        ("half and half", "half and half", None),
        ("2 cups half and half", "half and half", 2.0),
        ("half an onion", "onion", 0.5),
    ],
)
def test_a_food_that_begins_like_an_amount_is_a_food(line: str, name: str, low: float | None) -> None:
    (found,) = read_line(line)
    assert found.name == name
    assert (found.amount.low if found.amount else None) == low


def test_what_is_counted_alone_is_the_food() -> None:
    (found,) = read_line("2 cloves")
    assert (found.name, found.amount.low if found.amount else None) == ("cloves", 2)
    assert read_line("2 cups") == []


@pytest.mark.parametrize("text", ["Keep it at 32–33 °F.", "Keep it at 35 to 40 °C."])
def test_low_ranges_are_degrees_where_print_says_so(text: str) -> None:
    recipe = f"# Pie\n\n## Ingredients\n\n- 1 egg\n\n## Method\n\n1. {text}\n"
    heats = [action.heat for step in read_written_text(recipe).dishes[0].method for action in step.actions]
    assert [(heat.low, heat.high) for heat in heats if heat] in ([(32, 33)], [(35, 40)])


def test_a_level_between_two_has_one_meaning() -> None:
    from extract.check.differences.heats import _same_level

    assert _same_level(Heat(level="low to medium"), Heat(level="medium low"))
    assert not _same_level(Heat(level="medium low"), Heat(level="medium high"))
    assert not equal_heats(Heat(low=180, unit="degC"), Heat(low=220, unit="degC"))


def document(path: Path, *, styles: bool) -> Path:
    """The same recipe as a writer who uses list styles and one who does not would leave it."""
    made = docx.Document()
    rows = [
        ("Title", "Leek pie"),
        ("Heading 1", "Ingredients"),
        ("List Bullet", "2 leeks"),
        ("List Bullet", "1 cup milk"),
        ("Heading 1", "Method"),
        ("List Number", "Slice the leeks."),
        ("List Number", "Add the milk."),
    ]
    numbers = iter(("1. ", "2. "))
    for style, text in rows:
        lead = {"List Bullet": "- ", "List Number": ""}.get(style, "")
        lead = next(numbers) if style == "List Number" and not styles else lead
        made.add_paragraph(text, style=style) if styles else made.add_paragraph(lead + text)
    stream = BytesIO()
    made.save(stream)
    path.write_bytes(stream.getvalue())
    return path


@pytest.mark.parametrize("styles", [True, False])
def test_a_document_is_read_with_styles_and_without(tmp_path: Path, styles: bool) -> None:
    (found,) = read_written(document(tmp_path / "pie.docx", styles=styles)).dishes
    assert found.title == "Leek pie"
    assert [line.name for part in found.components for line in part.ingredients] == ["leeks", "milk"]
    assert [step.text for step in found.method] == ["Slice the leeks.", "Add the milk."]


def test_rows_of_a_table_are_lines(tmp_path: Path) -> None:
    made = docx.Document()
    made.add_heading("Ingredients", 1)
    table = made.add_table(rows=1, cols=2)
    table.rows[0].cells[0].text, table.rows[0].cells[1].text = "2 cups", "flour"
    made.add_heading("Method", 1)
    made.add_paragraph("Sift the flour.", style="List Number")
    made.save(str(tmp_path / "t.docx"))
    (found,) = read_written(tmp_path / "t.docx").dishes
    (line,) = found.components[0].ingredients
    assert (line.name, line.amount.low if line.amount else None) == ("flour", 2)


def test_a_file_that_is_packed_but_no_document_is_told(tmp_path: Path) -> None:
    (tmp_path / "x.docx").write_bytes(b"PK\x03\x04 and nothing")
    with pytest.raises(CardwrightError, match="no word processor"):
        read_written(tmp_path / "x.docx")
