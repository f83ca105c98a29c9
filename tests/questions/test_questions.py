"""What a draft leaves open is asked, in words for the cook, the most spoiling first, and stays answered."""

from __future__ import annotations

import re
from typing import Any

import pytest

from extract.draft.questions import SHOWN, carry_answers, find_questions, is_open, must_answer, shown
from extract.model import Action, Amount, Dish, Evidence, Question, RecipeDraft, Source


def said(text: str, start: float = 10.0) -> list[dict[str, Any]]:
    return [{"cue": 0, "start": start, "end": start + 2, "text": text}]


def line(name: str, amount: tuple[float, str] | None = None, words: str = "", **more: Any) -> dict[str, Any]:
    given = {"low": amount[0], "high": amount[0], "unit": amount[1]} if amount else None
    return {"name": name, "amount": given, "said": said(words or name), **more}


def action(verb: str, *objects: str, start: float = 20.0, **more: Any) -> dict[str, Any]:
    return {"verb": verb, "objects": list(objects), "said": said(verb, start), **more}


SERVES: dict[str, Any] = {"low": 4, "high": 4}


def dish(
    lines: list[dict[str, Any]],
    actions: list[dict[str, Any]] | None = None,
    component: str = "",
    made: dict[str, Any] | None = SERVES,
    **more: Any,
) -> Dish:
    method = [{"text": each["verb"], "actions": [each]} for each in actions or []]
    parts = [{"name": component, "ingredients": lines}]
    fields = {
        "title": "barley bake",
        "yield": made,
        "components": parts,
        "method": method,
        **more,
    }
    return Dish.model_validate(fields)


def asked(found: Dish, kind: str) -> list[Question]:
    return [question for question in find_questions(found) if question.kind == kind]


OVEN = {"kind": "oven", "low": 180.0, "high": 180.0, "unit": "degC"}
TIME = {"low": 20.0, "high": 20.0, "unit": "minute"}

# dish, kind, what it is about; common practice, no source
RAISED = [
    (dish([line("butter", words="a bit of butter")]), "missing amount", "butter"),
    (dish([line("plain flour", (1, "handful"))], component="dough"), "vague amount", "plain flour"),
    (dish([line("sugar", (3, ""), counted_in="three spoons")], component="dough"), "vague amount", "sugar"),
    (dish([line("salt", words="some salt")], component="dough"), "missing amount", "salt"),
    (dish([line("tomatoes", (1, "can"), "a tin of tomatoes")]), "size missing", "tomatoes"),
    (dish([line("chicken", (1, ""), "a chicken")]), "size missing", "chicken"),
    (dish([line("carrot", (1, ""), heard="core out")]), "mended mishearing", "carrot"),
    (dish([line("skyberries", (1, "cup"), known=False)]), "unknown food", "skyberries"),
    (dish([], [action("bake", "pie", heat={**OVEN, "unit": ""}, duration=TIME)]), "bare temperature", "180"),
    (dish([line("pie")], [action("bake", "pie", duration=TIME)]), "oven never given", "pie"),
    (dish([], [action("bake", "it", duration=TIME)]), "oven never given", "barley bake"),
    (dish([line("broth")], [action("simmer", "broth")]), "no time and no sign", "broth"),
    (
        dish(
            [line("oats", (1, "cup"))],
            [action("bake", "oats", heat=OVEN, duration=TIME)],
            title="oat cake",
            equipment=["cake tin"],
        ),
        "tin size missing",
        "cake tin",
    ),
    (dish([line("oats", (1, "cup"))], made=None), "no yield", "yield"),
    (
        dish([], batch={"factor": 2, "said": said("I'm doubling this")}),
        "amounts of the batch",
        "a double batch",
    ),
]

SETTLED = [
    (dish([line("butter", (50, "gram"))]), "missing amount"),
    (dish([line("butter"), line("butter", (50, "gram"))]), "missing amount"),  # the dish tells it elsewhere
    (dish([line("salt"), line("black pepper")]), "missing amount"),  # to taste
    (dish([line("flour", preparation="for dusting")]), "missing amount"),
    (dish([line("parsley", (1, "handful"))]), "vague amount"),
    (dish([line("butter", (1, "knob"))]), "vague amount"),
    (dish([line("salt", (1, "pinch"))], component="dough"), "vague amount"),
    (dish([line("onion", (1, ""), "an onion")]), "size missing"),
    (dish([line("egg", (4, ""), "four eggs")]), "size missing"),
    (dish([line("chicken thighs", (6, ""))]), "size missing"),
    (dish([line("tomatoes", (1, "can"), note="400 g")]), "size missing"),
    (dish([line("flour", (1, "cup"), heard="flower")]), "mended mishearing"),
    (dish([line("cheese rind", (1, ""), known=False)]), "unknown food"),
    (dish([], [action("bake", "pie", heat=OVEN, duration=TIME)]), "bare temperature"),
    (
        dish([], [action("fry", "pie", heat={"kind": "hob", "low": 3, "high": 3}, duration=TIME)]),
        "bare temperature",
    ),
    (dish([], [action("bake", "pie", heat=OVEN, duration=TIME)]), "oven never given"),
    (dish([line("broth")], [action("simmer", "broth", until="thick")]), "no time and no sign"),
    (
        dish([line("broth")], [action("simmer", "broth"), action("cook", duration=TIME)]),
        "no time and no sign",
    ),
    (dish([line("leek")], [action("simmer", "water")]), "no time and no sign"),
    (dish([], [action("bake", "cake", heat=OVEN, duration=TIME)], title="stew"), "tin size missing"),
    (dish([], [action("bake", "cake", heat=OVEN, duration=TIME)], title="oat cake"), "tin size missing"),
    (
        dish(
            [], [action("bake", "cake", heat=OVEN, duration=TIME)], title="oat cake", equipment=["9-inch tin"]
        ),
        "tin size missing",
    ),
    (
        dish(
            [],
            [action("bake", "cake", heat=OVEN, duration=TIME)],
            title="oat cake",
            equipment=["two-pound loaf tin"],
        ),
        "tin size missing",
    ),
    (dish([line("oats", (1, "cup"))]), "no yield"),
    (dish([line("chicken")], [action("roast", "chicken", heat=OVEN, duration=TIME)]), "safety caution"),
]


def printed(found: Dish, kind: str) -> list[Question]:
    return [question for question in shown(find_questions(found)) if question.kind == kind]


@pytest.mark.parametrize(("found", "kind", "about"), RAISED, ids=[f"{row[1]}: {row[2]}" for row in RAISED])
def test_what_is_left_open_is_asked_once(found: Dish, kind: str, about: str) -> None:
    questions = asked(found, kind)
    assert [question.about for question in questions] == [about]
    assert "?" in questions[0].text


@pytest.mark.parametrize(("found", "kind"), SETTLED, ids=[f"{row[1]} {n}" for n, row in enumerate(SETTLED)])
def test_what_is_settled_or_small_is_not_printed(found: Dish, kind: str) -> None:
    assert printed(found, kind) == []


def test_a_question_says_where_the_food_goes() -> None:
    found = dish([line("butter", words="a bit of butter")], component="dough")
    (question,) = asked(found, "missing amount")
    assert question.text == "How much butter goes into the dough?"
    assert question.said[0].start == 10.0


def test_seasonings_of_one_part_are_asked_for_in_one_breath() -> None:
    found = dish([line("cinnamon"), line("cloves"), line("nutmeg")], component="gingerbread")
    (question,) = asked(found, "missing amount")
    assert question.text == "How much of each goes into the gingerbread: cinnamon, cloves and nutmeg?"
    assert len(question.said) == 3


def test_flour_without_an_amount_weighs_more_than_parsley_without_one() -> None:
    found = dish([line("parsley"), line("plain flour", words="some flour")], component="dough")
    questions = asked(found, "missing amount")
    assert [question.about for question in questions] == ["plain flour", "parsley"]
    assert must_answer(questions[0])
    assert not must_answer(questions[1])


def test_what_is_put_on_at_the_end_weighs_less() -> None:
    plain = asked(dish([line("sugar")]), "missing amount")[0]
    dusting = asked(dish([line("sugar", preparation="for dusting")]), "missing amount")[0]
    assert dusting.weight < plain.weight


def test_questions_of_the_talk_are_kept_and_ranked_with_the_others() -> None:
    over = {
        "kind": "over-used",
        "about": "dressing",
        "text": "More dressing is used than is made. Is that so?",
    }
    found = dish([line("plain flour", words="some flour")], component="dough", questions=[over])
    assert [question.kind for question in find_questions(found)][:2] == ["over-used", "missing amount"]


def test_contradictions_come_first_and_about_seven_are_printed() -> None:
    two = {"kind": "two amounts", "about": "garlic", "text": "Which?", "said": said("2 cloves")}
    lines = [
        line(name, words=f"some {name}") for name in ("milk", "rice", "beef", "sugar", "lentils", "pasta")
    ]
    found = dish(
        [*lines, line("cod", words="some cod"), line("peas", words="some peas")], made=None, questions=[two]
    )
    questions = find_questions(found)
    assert len(questions) > SHOWN
    assert [question.kind for question in questions[:2]] == ["two amounts", "no yield"]
    assert SHOWN <= len(shown(questions)) < len(questions)
    assert all(not must_answer(question) for question in questions if question not in shown(questions))


def test_the_oven_of_the_dish_before_is_offered() -> None:
    first = dish(
        [line("chicken")], [action("roast", "chicken", heat=OVEN, duration=TIME)], title="roast chicken"
    )
    second = dish([line("pears")], [action("bake", "pears", duration=TIME)], title="pears")
    both = draft(first, second)
    (question,) = (q for q in find_questions(both.dishes[1], both) if q.kind == "same oven")
    assert question.text == "How hot is the oven for the pears: still at 180, as for the roast chicken?"


def test_bare_temperatures_are_one_question() -> None:
    bare = [action("bake", "pie", heat={**OVEN, "unit": "", "low": low, "high": low}) for low in (180, 200)]
    (question,) = asked(dish([], bare), "bare temperature")
    assert question.text == (
        "You said 180 and 200 for the oven: is that Fahrenheit or Celsius, and with the fan or without?"
    )


def test_a_core_below_the_published_minimum_must_be_answered() -> None:
    """USDA FSIS Safe Minimum Internal Temperature Chart: poultry 165 F (lexicons)."""
    low = {"kind": "internal", "low": 150, "high": 150, "unit": "degF"}
    found = dish([line("chicken", (2, "pound"))], [action("fry", "chicken", heat=low, duration=TIME)])
    questions = asked(found, "safety caution")
    assert questions
    assert all(must_answer(question) for question in questions)


def test_ids_are_short_distinct_and_the_same_over_runs() -> None:
    lines = [line("butter", words="a bit of butter"), line("salt", words="some salt"), line("beef")]
    first, again = (find_questions(dish(lines, component="dough", made=None)) for _ in range(2))
    ids = [question.id for question in first]
    assert ids == [question.id for question in again]
    assert len(set(ids)) == len(ids) >= 3
    assert all(re.fullmatch(r"[a-z2-7]{4}", name) for name in ids)


def test_an_id_does_not_change_when_another_question_is_settled() -> None:
    lines = [line("butter", words="a bit of butter"), line("milk", words="some milk")]
    before = {question.about: question.id for question in find_questions(dish(lines))}
    after = {question.about: question.id for question in find_questions(dish(lines[1:]))}
    assert before["milk"] == after["milk"]


def test_asking_again_adds_nothing_and_keeps_answers() -> None:
    found = dish([line("butter", words="a bit of butter"), line("broth")], [action("simmer", "broth")])
    found.questions = find_questions(found)
    found.questions[0].answer = "50 g"
    again = find_questions(found)
    assert again == found.questions
    assert not is_open(again[0])


def test_a_line_mended_by_hand_is_asked_about_no_more() -> None:
    found = dish([line("butter", words="a bit of butter")])
    found.questions = find_questions(found)
    found.components[0].ingredients[0].amount = Amount(low=50, high=50, unit="gram")
    assert asked(found, "missing amount") == []


def draft(*dishes: Dish) -> RecipeDraft:
    return RecipeDraft(source=Source(file="show.vtt", sha256="00"), dishes=list(dishes))


def with_questions(found: Dish) -> Dish:
    found.questions = find_questions(found)
    return found


def answer(found: Dish, kind: str, words: str) -> None:
    next(question for question in found.questions if question.kind == kind).answer = words


def answer_to(found: Dish, kind: str) -> str | None:
    return next((question.answer for question in found.questions if question.kind == kind), None)


def test_answers_are_carried_to_the_same_question_of_a_later_draft() -> None:
    old, new = (draft(with_questions(dish([line("butter", words="a bit of butter")]))) for _ in range(2))
    answer(old.dishes[0], "missing amount", "50 g")
    assert answer_to(carry_answers(old, new).dishes[0], "missing amount") == "50 g"
    assert answer_to(new.dishes[0], "missing amount") is None  # the draft handed in stays as it was


def test_an_answer_is_carried_though_the_words_were_heard_better() -> None:
    old = draft(with_questions(dish([line("butter", words="a bit of batter")])))
    new = draft(with_questions(dish([line("butter", words="a bit of butter")])))
    answer(old.dishes[0], "missing amount", "50 g")
    assert answer_to(carry_answers(old, new).dishes[0], "missing amount") == "50 g"


def test_an_answer_whose_question_is_gone_is_kept() -> None:
    old = draft(with_questions(dish([line("butter")])))
    answer(old.dishes[0], "missing amount", "50 g")
    new = draft(with_questions(dish([line("butter", (50, "gram"))])))
    carried = carry_answers(old, new).dishes[0]
    assert answer_to(carried, "missing amount") == "50 g"
    assert answer_to(Dish(title="x", questions=find_questions(carried)), "missing amount") == "50 g"


def test_an_answer_given_to_the_later_draft_is_not_overwritten() -> None:
    old, new = (draft(with_questions(dish([line("butter")]))) for _ in range(2))
    answer(old.dishes[0], "missing amount", "50 g")
    answer(new.dishes[0], "missing amount", "60 g")
    assert answer_to(carry_answers(old, new).dishes[0], "missing amount") == "60 g"


def test_answers_go_to_their_own_dish_only() -> None:
    old = draft(with_questions(dish([line("butter")], title="leek broth")))
    answer(old.dishes[0], "missing amount", "50 g")
    other = with_questions(dish([line("butter")], title="oat cake", start=500.0, end=600.0))
    assert answer_to(carry_answers(old, draft(other)).dishes[0], "missing amount") is None


def test_an_empty_draft_asks_nothing() -> None:
    assert find_questions(Dish(title="")) == []
    assert find_questions(Dish(title="x", method=[{"text": "", "actions": [Action(verb="")]}])) == []  # type: ignore[list-item]


def test_evidence_is_shortened_to_what_can_be_read_out() -> None:
    words = " ".join(["and"] * 60)
    (question,) = asked(dish([line("butter", words=words)]), "missing amount")
    assert len(question.text) < 200
    assert question.said == [Evidence(cue=0, start=10.0, end=12.0, text=words)]


def test_an_unknown_food_of_an_earlier_dish_is_not_asked_about_again() -> None:
    first, second = (dish([line("kudam", (1, "pinch"), known=False)], title=name) for name in ("eggs", "dip"))
    both = draft(first, second)
    kinds = [[question.kind for question in find_questions(each, both)] for each in both.dishes]
    assert ["unknown food" in found for found in kinds] == [True, False]


def test_unknown_foods_are_one_question() -> None:
    lines = [line(name, (1, "cup"), known=False) for name in ("skyberries", "kudam")]
    (question,) = asked(dish(lines), "unknown food")
    assert question.text == "Are “skyberries” and “kudam” the right words for what goes into the dish?"


def test_list_and_yield_of_a_larger_batch_are_asked_about_together() -> None:
    double = {"factor": 2, "said": said("I'm doubling this")}
    loaves = {"low": 2, "high": 2, "unit": "loaves"}
    (question,) = asked(dish([], batch=double, made=loaves), "amounts of the batch")
    assert question.text == (
        "A double batch is made on camera: are the list and the 2 loaves for that, or for one batch?"
    )
    assert printed(dish([], batch=double, made=None), "amounts of the batch") == []
