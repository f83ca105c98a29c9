"""From lines and shares to the draft: names in number, amounts, notes and the words each rests on."""

from __future__ import annotations

from fractions import Fraction

import pytest
from heard import drafted
from making import action, line, make_dish, make_draft

from extract.draft.finish import finish
from extract.draft.heard import UNTITLED, only_heard
from extract.draft.ingredients import draft_amount
from extract.model import Ingredient, Portion, Span
from extract.spot import spans


def the_line(text: str) -> Ingredient:
    (dish,) = drafted(text).dishes
    (line,) = [line for part in dish.components for line in part.ingredients]
    return line


def the_portions(text: str) -> list[Portion]:
    return [portion for dish in drafted(text).dishes for part in dish.components for portion in part.portions]


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("Two onions go in the pan.", "onions"),
        ("One onion goes in the pan.", "onion"),
        ("A pound of carrots goes in the pan.", "carrots"),
        ("Two cups of oats go in the pan.", "oats"),
        ("Two tablespoons of oil go in the pan.", "oil"),
        ("Three cups of flour go in the pan.", "flour"),
    ],
)
def test_a_name_stands_in_the_number_the_cook_used(text: str, name: str) -> None:
    assert the_line(text).name == name


def test_a_line_holds_its_preparation() -> None:
    assert the_line("Two onions, finely chopped, go in the pan.").preparation == "finely chopped"


def test_a_food_that_two_things_are_got_out_of_holds_both() -> None:
    line = the_line("The zest of two limes goes in the pan. Add the juice of those limes.")
    assert (line.name, line.preparation) == ("limes", "zested, juiced")


def test_a_misheard_food_keeps_what_was_heard() -> None:
    line = the_line("Two tablespoons of corn flower go in the pan.")
    assert (line.name, line.heard, line.known) == ("corn flour", "corn flower", True)


def test_the_words_that_tell_the_amount_come_first() -> None:
    line = the_line("Add the lentils to the pot. Stir. Two cups of lentils.")
    assert [said.text for said in line.said] == ["Two cups of lentils", "lentils"]


def test_a_correction_is_noted_with_the_words_it_replaced() -> None:
    line = the_line("Two cups of flour, no, three cups, go in the bowl.")
    assert line.note == "corrected on camera; first said: two cups"
    assert line.said[-1].text == "Two cups"
    assert line.amount is not None
    assert (line.amount.low, line.amount.unit) == (3, "cup")


@pytest.mark.parametrize(
    ("amount", "expected"),
    [
        (None, None),
        (spans.Amount(0, 1, None, None), None),
        (spans.Amount(0, 1, Fraction(1, 3), Fraction(1, 3), "cup"), (1 / 3, 1 / 3, "cup", None)),
        (spans.Amount(0, 1, Fraction(2), None, "cup"), (2.0, 2.0, "cup", None)),
        (spans.Amount(0, 1, Fraction(3), Fraction(4)), (3.0, 4.0, "", None)),
        (
            spans.Amount(0, 1, Fraction(1), Fraction(1), "can", size=(Fraction(14), Fraction(14), "ounce")),
            (1.0, 1.0, "can", (14.0, 14.0, "ounce")),
        ),
    ],
)
def test_amounts_become_figures_only_in_the_draft(amount: spans.Amount | None, expected: object) -> None:
    found = draft_amount(amount)
    if found is None:
        assert expected is None
    else:
        size = found.size and (found.size.low, found.size.high, found.size.unit)
        assert (found.low, found.high, found.unit, size) == expected


METRIC = "Two hundred grams of flour, 100 grams of butter and 50 millilitres of milk go in the bowl."


def test_the_last_touches_reword_a_step_and_leave_the_draft_before_as_it_was() -> None:
    lines = [line("flour", 200, "gram"), line("milk", 50, "millilitre"), line("butter", 100, "gram")]
    baking = action("bake", "bread", heat=("oven", 200, ""), text="Bake at 200 (scale not said).")
    draft = make_draft(make_dish(*lines, title="Bread", actions=[baking]))
    before = draft.to_json()
    (dish,) = finish(draft).dishes
    assert dish.method[0].text == "Bake at 200 °C (400 °F)."
    assert draft.to_json() == before


def test_a_figure_within_another_is_not_reworded() -> None:
    lines = [line("flour", 200, "gram"), line("milk", 50, "millilitre"), line("butter", 100, "gram")]
    text = "Dry at 200 (scale not said), then bake at 180–200 (scale not said)."
    dry = action("dry", "bread", heat=("oven", 200, ""), text=text)
    bake = action("bake", "bread", heat=("oven", 180, ""))
    bake["heat"]["high"] = 200
    (dish,) = finish(make_draft(make_dish(*lines, title="Bread", actions=[dry, bake]))).dishes
    assert dish.method[0].text == "Dry at 200 °C (400 °F), then bake at 180–200 °C (350–400 °F)."


def test_the_last_touches_raise_the_questions_of_each_dish() -> None:
    draft = make_draft(make_dish("flour", title="Bread"), make_dish("leeks", title="Soup"))
    abouts = [{question.about for question in dish.questions} for dish in finish(draft).dishes]
    assert "flour" in abouts[0]
    assert "leeks" in abouts[1]
    assert "flour" not in abouts[1]


@pytest.mark.parametrize("said", ["three spoons", "a glass"])
def test_a_count_of_vessels_is_no_measure_and_is_asked_for(said: str) -> None:
    (dish,) = drafted(f"Pour {said} of olive oil in the pan and fry two onions in it.").dishes
    oil = next(line for part in dish.components for line in part.ingredients if line.name == "olive oil")
    assert oil.counted_in == said
    assert said in oil.note
    asked = [question for question in dish.questions if question.about == "olive oil"]
    assert any(question.kind == "vague amount" and said in question.text for question in asked)


def test_a_measure_told_behind_a_vessel_is_the_amount() -> None:
    (dish,) = drafted("Fry two onions. Then a glass of white wine, two hundred millilitres, goes in.").dishes
    wine = next(line for part in dish.components for line in part.ingredients if line.name == "white wine")
    assert wine.amount is not None
    assert (wine.amount.low, wine.amount.unit) == (200, "millilitre")


def test_a_dish_that_came_to_nothing_makes_its_own_stretches_talk() -> None:
    full = make_dish("leek").model_copy(update={"start": 20.0, "end": 60.0})
    pieces = [Span(start=0.0, end=20.0), Span(start=60.0, end=80.0)]
    empty = make_dish(title=UNTITLED).model_copy(update={"start": 0.0, "end": 80.0, "stretches": pieces})
    kept = only_heard(make_draft(full, empty))
    assert [dish.title for dish in kept.dishes] == [full.title]
    assert [(talk.start, talk.end) for talk in kept.talk] == [(0.0, 20.0), (60.0, 80.0)]
