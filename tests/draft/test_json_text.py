"""Drafts are written so that a person can read and edit them, and read back as they were."""

from __future__ import annotations

import json

from hypothesis import given
from hypothesis import strategies as st
from making import action, line, make_dish, make_draft

from extract.json_text import json_text
from extract.model import RecipeDraft

VALUES = st.recursive(
    st.none()
    | st.booleans()
    | st.integers()
    | st.floats(allow_nan=False, allow_infinity=False)
    | st.text(max_size=30),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=12), inner, max_size=4),
    max_leaves=30,
)


@given(VALUES)
def test_any_json_reader_gives_the_values_back(value: object) -> None:
    """Python's own json module as the outside reader."""
    assert json.loads(json_text(value)) == value


def test_a_piece_of_evidence_is_one_line_however_long_its_words() -> None:
    evidence = {"cue": 1, "start": 2.5, "end": 3, "text": "word " * 60}
    assert json_text({"said": [evidence]}).count("\n") == 3
    assert json_text({"said": [evidence, evidence]}).count("\n") == 6


def test_fields_that_are_empty_are_left_out_and_those_that_tell_something_kept() -> None:
    draft = make_draft(
        make_dish(line("butter", known=False), line("eggs", 2), actions=[action("bake", "it", minutes=20)])
    )
    (dish,) = draft.lean()["dishes"]
    butter, eggs = dish["components"][0]["ingredients"]
    assert set(butter) == {"name", "known", "said"}
    assert eggs["amount"] == {"low": 2, "high": 2}
    assert dish["method"][0]["actions"][0]["duration"] == {"low": 20, "high": 20, "unit": "minute"}
    assert "yield" not in dish
    assert draft.lean()["format"] == "recipe-draft/1"


def test_a_lean_draft_reads_back_the_same() -> None:
    draft = make_draft(make_dish(line("butter", 0.5, "cup", known=False, mine=None), title="cake"))
    again = RecipeDraft.model_validate_json(draft.to_json())
    assert again == draft
    assert "mine" in draft.to_json()
    assert again.to_json() == draft.to_json()
