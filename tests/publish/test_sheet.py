"""The sheet for the next shoot."""

from __future__ import annotations

import csv
import io

from hypothesis import given
from recipes import draft, hostile, pie, step, texts

from extract.model import RecipeDraft
from extract.publish.building import recipes_of
from extract.publish.recipe import Edition
from extract.publish.writers.sheet import HEAD, write


def rows(found: RecipeDraft) -> list[dict[str, str]]:
    text = write(Edition(tuple(recipes_of(found))))
    assert "\r\n" in text  # RFC 4180, section 2.1
    return list(csv.DictReader(io.StringIO(text)))


def test_food_equipment_and_what_is_made_ahead_have_a_row_each() -> None:
    ahead = step("Ahead of time, bake the case for 20 minutes.", 300, "pastry")
    found = rows(draft(pie(method=[ahead, step("Serve.", 350, "")])))
    told = [(row["what"], row["part"], row["item"], row["amount"]) for row in found]
    assert ("ingredient", "Pastry", "flour", "225 g") in told
    assert ("ingredient", "", "salt", "") in told
    assert ("equipment", "", "Rolling pin", "") in told
    assert ("made ahead", "Pastry", "Ahead of time, bake the case for 20 minutes.", "") in told
    assert not any("Serve" in item for _, _, item, _ in told)


def test_an_unreviewed_sheet_says_so() -> None:
    assert any("Not reviewed" in row["item"] for row in rows(draft(reviewed=None)))


@given(texts)
def test_every_row_has_every_column_and_no_formula(text: str) -> None:
    found = rows(hostile(text))
    assert all(set(row) == set(HEAD) and None not in row.values() for row in found)
    assert not any(cell.startswith(("=", "+", "-", "@")) for row in found for cell in row.values())
