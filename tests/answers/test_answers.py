"""An answer goes into the line, step or fact that its question is about, with the reviewer as its evidence."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from making import action, line, make_dish, make_draft

from extract.answers import Reply, Taken, take_answers, write_in_answers
from extract.answers.reading import amount_for, read_amount, read_heat, read_made, read_until
from extract.draft.questions import carry_answers, find_questions
from extract.errors import CardwrightError
from extract.model import Dish, Question, RecipeDraft

SAID = [{"cue": 4, "start": 40.0, "end": 42.0, "text": "some flour"}]
TIME = 20
BARE = {"heat": ("oven", 180, "")}


def answer_question(draft: RecipeDraft, name: str, text: str) -> tuple[RecipeDraft, Taken]:
    """A copy of the draft with the answer of one question."""
    answered, (taken,) = take_answers(draft, [Reply(name, text)])
    return answered, taken


def the(found: RecipeDraft, kind: str, place: int = 0) -> Question:
    return next(q for q in find_questions(found.dishes[place], found) if q.kind == kind)


def answered(dish: Dish, kind: str, text: str) -> tuple[Dish, Taken]:
    draft = make_draft(dish, measures="us")
    result, taken = answer_question(draft, the(draft, kind).id, text)
    return result.dishes[0], taken


def dough(**more: Any) -> Dish:
    flour = line("flour", said=SAID)
    return make_dish(flour, title="oat cake", **more)


# what is asked, the answer, and (low, high, unit) of the line after it
AMOUNTS = [
    ("200 g", (200, 200, "gram")),
    ("about 1 1/2 cups", (1.5, 1.5, "cup")),
    ("2 to 3 tablespoons", (2, 3, "tablespoon")),
    ("half a cup", (0.5, 0.5, "cup")),
    ("It's 200g", (200, 200, "gram")),
    ("a pinch", (1, 1, "pinch")),
    ("two tablespoons", (2, 2, "tablespoon")),
]


@pytest.mark.parametrize(("text", "amount"), AMOUNTS, ids=[row[0] for row in AMOUNTS])
def test_an_amount_goes_into_its_line(text: str, amount: tuple[float, float, str]) -> None:
    dish, taken = answered(dough(), "missing amount", text)
    (flour,) = dish.components[0].ingredients
    assert flour.amount is not None
    assert (flour.amount.low, flour.amount.high, flour.amount.unit) == amount
    assert (flour.said[-1].by, flour.said[-1].text, flour.said[-1].cue) == ("reviewer", text, 4)
    assert flour.said[0].text == "some flour"
    assert taken.written.startswith("flour: ")
    assert [q.answer for q in dish.questions if q.kind == "missing amount"] == [text]


def test_words_beside_an_amount_stand_in_the_note() -> None:
    dish, _ = answered(dough(), "missing amount", "200 g, sieved twice")
    assert dish.components[0].ingredients[0].note == "sieved twice"


@pytest.mark.parametrize("text", ["a dollop", "to taste", "enough to coat"])
def test_an_answer_that_is_no_amount_stands_beside_the_line(text: str) -> None:
    dish, _ = answered(dough(), "missing amount", text)
    flour = dish.components[0].ingredients[0]
    assert flour.amount is None
    assert flour.note == text


def test_a_second_answer_takes_the_place_of_the_first() -> None:
    draft = make_draft(dough())
    name = the(draft, "missing amount").id
    for text in ("100 g", "200 g"):
        draft, _ = answer_question(draft, name, text)
    flour = draft.dishes[0].components[0].ingredients[0]
    assert flour.amount is not None
    assert flour.amount.low == 200
    assert [said.text for said in flour.said] == ["some flour", "200 g"]


def test_one_answer_tells_several_foods_apart_by_name() -> None:
    dish = make_dish("cinnamon", "cloves", "nutmeg")
    found, taken = answered(dish, "missing amount", "1 tsp cinnamon, 3 cloves; nutmeg a pinch")
    units = [
        (each.name, each.amount and (each.amount.low, each.amount.unit))
        for each in found.components[0].ingredients
    ]
    assert units == [("cinnamon", (1, "teaspoon")), ("cloves", (3, "")), ("nutmeg", (1, "pinch"))]
    assert taken.written.count(":") == 3


def test_each_holds_for_every_food_asked_about() -> None:
    found, _ = answered(make_dish("cinnamon", "nutmeg"), "missing amount", "1 tsp each")
    assert [each.amount and each.amount.low for each in found.components[0].ingredients] == [1, 1]


def test_foods_that_an_answer_leaves_out_stay_as_they_are() -> None:
    found, _ = answered(make_dish("cinnamon", "nutmeg"), "missing amount", "1 tsp cinnamon")
    cinnamon, nutmeg = found.components[0].ingredients
    assert cinnamon.amount is not None
    assert nutmeg.amount is None
    assert not any(said.by for said in nutmeg.said)


def test_the_size_of_a_can_goes_into_its_amount() -> None:
    found, _ = answered(make_dish(line("tomatoes", 2, "can")), "size missing", "400 g each")
    amount = found.components[0].ingredients[0].amount
    assert amount is not None
    assert amount.size is not None
    assert (amount.size.low, amount.size.unit, amount.low) == (400, "gram", 2)


@pytest.mark.parametrize(
    ("text", "name", "amount"),
    [("yes", "kudam", None), ("It's kudampuli, 5 pieces", "kudampuli", 5), ("kokum", "kokum", None)],
)
def test_an_unknown_food_gets_its_name(text: str, name: str, amount: float | None) -> None:
    found, _ = answered(make_dish(line("kudam", known=False)), "unknown food", text)
    food = found.components[0].ingredients[0]
    assert (food.name, food.known, food.amount and food.amount.low) == (name, True, amount)
    assert [q.kind for q in find_questions(found) if q.kind == "unknown food" and not q.answer] == []


def test_the_scale_goes_to_every_figure_and_into_the_words_of_the_steps() -> None:
    steps = [
        action("bake", "pie", **BARE, minutes=TIME, text="Bake the pie at 180 (no scale was said)."),
        action("bake", "pie", heat=("oven", 200, ""), minutes=TIME),
    ]
    dish = make_dish("flour", actions=steps)
    draft = make_draft(dish)
    result, taken = answer_question(draft, the(draft, "bare temperature").id, "Celsius, with the fan")
    heats = [each.heat for step in result.dishes[0].method for each in step.actions]
    assert [(heat.unit, heat.fan) for heat in heats if heat] == [("degC", True), ("degC", True)]
    assert "180 °C fan" in taken.written


def test_the_heat_of_the_oven_goes_into_the_step() -> None:
    dish = make_dish("pears", actions=[action("bake", "pears", minutes=TIME, text="Bake the pears.")])
    found, _ = answered(dish, "oven never given", "180 C fan")
    step = found.method[0]
    assert step.actions[0].heat is not None
    assert (step.actions[0].heat.low, step.actions[0].heat.unit, step.actions[0].heat.fan) == (
        180,
        "degC",
        True,
    )
    assert step.text.startswith("Bake the pears at 180 °C fan")
    assert step.actions[0].said[-1].by == "reviewer"


def test_yes_takes_the_oven_of_the_dish_before() -> None:
    first = make_dish(
        "chicken", actions=[action("roast", "chicken", heat=("oven", 170, "degC"), minutes=TIME)]
    )
    second = make_dish("pears", actions=[action("bake", "pears", minutes=TIME, text="Bake the pears.")])
    draft = make_draft(first, second)
    result, _ = answer_question(draft, the(draft, "same oven", 1).id, "Yes, still")
    heat = result.dishes[1].method[0].actions[0].heat
    assert heat is not None
    assert (heat.low, heat.unit) == (170, "degC")


def test_a_time_and_a_sign_go_into_the_step() -> None:
    dish = make_dish("beans", actions=[action("simmer", "beans", text="Simmer the beans.")])
    found, _ = answered(dish, "no time and no sign", "40 to 50 minutes, until they are soft")
    done = found.method[0].actions[0]
    assert done.duration is not None
    assert (done.duration.low, done.duration.high, done.until) == (40, 50, "they are soft")
    assert found.method[0].text == "Simmer the beans for 40 to 50 minutes until they are soft."


@pytest.mark.parametrize(
    ("text", "low", "high", "unit"),
    [
        ("4 to 6", 4, 6, "servings"),
        ("it makes 24 biscuits", 24, 24, "biscuits"),
        ("serves four", 4, 4, "servings"),
    ],
)
def test_the_yield_goes_under_the_title(text: str, low: float, high: float, unit: str) -> None:
    found, _ = answered(make_dish(line("oats", 1, "cup")), "no yield", text)
    assert found.yield_ is not None
    assert (found.yield_.low, found.yield_.high, found.yield_.unit) == (low, high, unit)
    assert found.yield_.said[0].by == "reviewer"


@pytest.mark.parametrize(
    ("text", "kept"), [("for one", False), ("the normal one", False), ("the double", True)]
)
def test_amounts_of_one_batch_leave_no_batch_behind(text: str, kept: bool) -> None:
    found, _ = answered(make_dish("oats", batch={"factor": 2}), "amounts of the batch", text)
    assert (found.batch is not None) is kept


def test_a_doubt_is_answered_in_a_note_at_its_step() -> None:
    said = [{"cue": 0, "start": 1.0, "end": 4.0, "text": "stir"}]
    doubt = {"kind": "never put in", "about": "peas", "text": "Where do the peas go?", "said": said}
    dish = make_dish("peas", actions=[action("stir", "peas")], questions=[doubt])
    found, _ = answered(dish, "never put in", "With the rice.")
    assert found.method[0].notes == ["With the rice."]


def test_an_answer_that_fits_nothing_is_kept_beside_its_question() -> None:
    found, taken = answered(make_dish(line("oats", 1, "cup")), "no yield", "nobody knows")
    assert found.yield_ is None
    assert taken.written == ""
    assert [q.answer for q in found.questions if q.kind == "no yield"] == ["nobody knows"]


@pytest.mark.parametrize(
    ("reply", "words"),
    [
        (Reply("zzzz", "1 g"), "no question zzzz"),
        (Reply("", "1 g"), "no question without an id"),
        (Reply("zzzz", " "), "is empty"),
    ],
)
def test_a_reply_that_fits_no_question_is_refused(reply: Reply, words: str) -> None:
    with pytest.raises(CardwrightError, match=words):
        take_answers(make_draft(dough()), [reply])


def test_a_reply_to_a_question_that_has_changed_is_refused_and_none_is_taken() -> None:
    draft = make_draft(dough())
    name = the(draft, "missing amount").id
    replies = [Reply(name, "200 g"), Reply(name, "300 g", "How much sugar goes into the dish?", 3)]
    with pytest.raises(CardwrightError, match="is not what was asked") as refused:
        take_answers(draft, replies)
    assert refused.value.line == 3
    assert draft.dishes[0].components[0].ingredients[0].amount is None


def test_answers_carried_to_a_later_draft_stand_in_its_lines() -> None:
    old, new = make_draft(dough()), make_draft(dough())
    old, _ = answer_question(old, the(old, "missing amount").id, "200 g")
    for dish in new.dishes:
        dish.questions = find_questions(dish, new)
    later = write_in_answers(carry_answers(old, new))
    amount = later.dishes[0].components[0].ingredients[0].amount
    assert amount is not None
    assert amount.low == 200
    assert write_in_answers(later) == later


def test_reading_answers() -> None:
    told = read_amount("2 teaspoons, heaped")
    assert told is not None
    assert told.beside == "heaped"
    assert read_amount("no idea") is None
    corn = amount_for("chilli oil 1 tsp and 2 dl cream, 100 g sweetcorn", "sweet corn")
    assert corn is not None
    assert (corn.amount.low, corn.amount.unit) == (100, "gram")
    assert amount_for("1 tsp cinnamon", "nutmeg") is None
    heat = read_heat("gas mark 4")
    assert heat is not None
    assert (heat.kind, heat.unit, heat.low) == ("oven", "gas_mark", 4)
    assert read_heat("hot") is None
    assert read_made("a lot") is None
    assert read_until("20 minutes till golden.") == "golden"


def everything_open() -> RecipeDraft:
    """A dish that raises a question of almost every kind."""
    steps = [
        action("bake", "pears", heat=("oven", 180, ""), text="Bake the pears at 180 (no scale was said)."),
        action("simmer", "beans", text="Simmer the beans."),
    ]
    lines = [
        line("flour", said=SAID),
        "cinnamon",
        "nutmeg",
        line("tomatoes", 2, "can"),
        line("kudam", known=False),
    ]
    lines += [line("carrot", 1, heard="core out"), "pears", "beans"]
    dish = make_dish(*lines, title="pear tart", batch={"factor": 2}, actions=steps, equipment=["tart tin"])
    return make_draft(dish, make_dish(line("oats", 1, "cup"), actions=[action("bake", "oats")]))


PIECES = "1/0,9e999,99999999999,-3,½,1/2,to,g,kg,cups,hours,180,C,fan,gas,until,yes,no,each,of,and,;,("
ANSWERS = st.text(min_size=1, max_size=40) | st.lists(
    st.sampled_from(PIECES.split(",")), min_size=1, max_size=8
).map(" ".join)


@given(ANSWERS, st.data())
def test_no_answer_is_lost_or_leaves_a_draft_that_cannot_be_read(text: str, data: st.DataObject) -> None:
    draft = everything_open()
    ids = [question.id for dish in draft.dishes for question in find_questions(dish, draft)]
    name = data.draw(st.sampled_from(ids))
    if not text.strip():
        return
    result, _ = answer_question(draft, name, text)
    kept = {question.id: question.answer for dish in result.dishes for question in dish.questions}
    assert kept[name] == text.strip()
    assert RecipeDraft.model_validate_json(result.to_json()).to_json() == result.to_json()


def test_the_questions_of_one_draft_have_ids_of_their_own() -> None:
    draft = everything_open()
    ids = [question.id for dish in draft.dishes for question in find_questions(dish, draft)]
    assert len(ids) == len(set(ids)) >= 9


def test_an_answer_that_names_no_batch_changes_none() -> None:
    found, taken = answered(
        make_dish("oats", batch={"factor": 2}, **SERVES), "amounts of the batch", "who knows"
    )
    assert found.batch is not None
    assert taken.written == ""


SERVES: dict[str, Any] = {"yield": {"low": 4, "high": 4}}
