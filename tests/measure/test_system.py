"""Whose measures a cook speaks, told from the talk, and asked where it cannot be told."""

from __future__ import annotations

from typing import Any

import pytest
from making import action, line, make_dish, make_draft

from extract.errors import CardwrightError
from extract.lexicon import read_lexicon
from extract.measure.drafts.convert import convert
from extract.measure.system import SIGN_COLUMNS, settle
from extract.measure.units import SYSTEMS

US = [line("all-purpose flour", 2, "cup"), line("butter", 1, "stick")]
BRITISH = [line("plain flour", 200, "gram"), line("double cream", 300, "millilitre"), line("milk", 1, "pint")]


@pytest.mark.parametrize(
    ("lines", "heat", "system"),
    [
        (US, ("oven", 350, "degF"), "us"),
        ([line("flour", 2, "cup"), line("stock", 1, "quart")], None, "us"),
        ([line("flour", 2, "cup")], ("oven", 350, "degF"), "us"),
        (BRITISH, ("oven", 4, "gas_mark"), "uk"),
        ([line("flour", 200, "gram"), line("milk", 1, "cup")], ("oven", 4, "gas_mark"), "uk"),
        ([line("capsicum", 1), line("thickened cream", 1, "cup"), line("flour", 200, "gram")], None, "au"),
        ([line("flour", 200, "gram"), line("sugar", 50, "gram")], ("oven", 180, "degC"), "metric"),
    ],
)
def test_the_units_and_words_of_the_talk_settle_it(
    lines: list[dict[str, Any]], heat: tuple[str, float, str] | None, system: str
) -> None:
    actions = [action("bake", "it", heat=heat)] if heat else []
    settled = settle(make_draft(make_dish(*lines, actions=actions)))
    assert (settled.system, settled.sure, settled.question) == (system, True, None)


def test_a_cup_alone_leaves_a_question_with_its_evidence() -> None:
    settled = settle(make_draft(make_dish(line("flour", 2, "cup"), line("lentils", 1, "cup"))))
    assert not settled.sure
    assert settled.question is not None
    assert settled.question.kind == "measures"
    assert settled.question.about == "cup"
    assert settled.question.text == "Which cup is meant: American (237 ml) or metric (250 ml)?"
    assert settled.question.said[0].text == "flour"


def test_where_it_does_not_matter_nothing_is_asked() -> None:
    settled = settle(make_draft(make_dish(line("beef", 2, "pound"), line("egg", 2))))
    assert settled.question is None
    assert settled.sure


def test_a_person_has_the_last_word() -> None:
    asked = {"kind": "measures", "about": "cup", "text": "Which cup?"}
    for answer, system in [
        ("metric please", "metric"),
        ("It's a US cup", "us"),
        ("the U.S. one", "us"),
        ("British", "uk"),
        ("an Australian tablespoon", "au"),
    ]:
        dish = make_dish(*US, questions=[asked | {"answer": answer}])
        assert settle(make_draft(dish)).system == system
    assert settle(make_draft(make_dish(*US), measures="au")).system == "au"
    unanswered = make_dish(line("flour", 2, "cup"), questions=[asked])
    assert not settle(make_draft(unanswered)).sure


def test_an_unknown_system_on_the_draft_is_refused() -> None:
    with pytest.raises(CardwrightError, match='"roman" is no system of measures'):
        settle(make_draft(make_dish(), measures="roman"))


def test_the_question_is_put_to_the_draft_once_and_an_answer_is_kept() -> None:
    draft = make_draft(make_dish("egg"), make_dish(line("flour", 2, "cup")))
    once = convert(draft, "metric")
    assert [len(dish.questions) for dish in once.dishes] == [0, 1]
    assert convert(once, "metric") == once
    once.dishes[1].questions[0].answer = "metric"
    again = convert(once, "metric")
    assert [question.answer for question in again.dishes[1].questions] == ["metric"]
    assert convert(draft, "metric", "us").dishes[1].questions == []


def test_every_sign_speaks_for_a_known_system() -> None:
    rows = read_lexicon("measure_signs", columns=SIGN_COLUMNS)
    assert len({(row["sign"], row["kind"]) for row in rows}) == len(rows)
    for row in rows:
        assert set(row["systems"].split("; ")) <= set(SYSTEMS), row
        assert row["kind"] in {"unit", "heat", "word", "answer"}, row
        assert 1 <= int(row["weight"]) <= 4, row
