"""What a draft leaves open is asked, in words for the cook, the most spoiling first, and stays answered."""

from __future__ import annotations

from typing import Any

import pytest

from extract.draft.questions import carry_answers, find_questions, is_open, must_answer
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
    (dish([line("plain flour", (1, "handful"))]), "vague amount", "plain flour"),
    (dish([line("onion", (1, ""), "an onion")]), "size missing", "onion"),
    (dish([line("tomatoes", (1, "can"), "a tin of tomatoes")]), "size missing", "tomatoes"),
    (
        dish([line("Shaoxing wine", (1, "tablespoon"), heard="shouting wine")]),
        "mended mishearing",
        "Shaoxing wine",
    ),
    (dish([line("skyberries", (1, "cup"), known=False)]), "unknown food", "skyberries"),
    (
        dish([], [action("bake", "pie", heat={**OVEN, "unit": ""}, duration=TIME)]),
        "bare temperature",
        "180 for the oven",
    ),
    (dish([], [action("bake", "pie", duration=TIME)]), "oven never given", "pie"),
    (
        dish([], [action("bake", "pie", duration=TIME), action("set", "oven", start=60.0, heat=OVEN)]),
        "oven given late",
        "pie",
    ),
    (dish([], [action("simmer", "broth")]), "no time and no sign", "simmer broth"),
    (
        dish(
            [line("oats", (1, "cup"))], [action("bake", "oats", heat=OVEN, duration=TIME)], title="oat cake"
        ),
        "tin size missing",
        "tin",
    ),
    (dish([line("oats", (1, "cup"))], made=None), "no yield", "barley bake"),
    (
        dish([], batch={"factor": 2, "said": said("I'm doubling this")}),
        "amounts of the batch",
        "a double batch",
    ),
]

SETTLED = [
    (dish([line("butter", (50, "gram"))]), "missing amount"),
    (dish([line("parsley", (1, "handful"))]), "vague amount"),
    (dish([line("onion", (1, ""), "a large onion")]), "size missing"),
    (dish([line("onion", (1, ""), preparation="small")]), "size missing"),
    (dish([line("onion", (200, "gram"))]), "size missing"),
    (dish([], [action("bake", "pie", heat=OVEN, duration=TIME)]), "bare temperature"),
    (dish([], [action("bake", "pie", heat=OVEN, duration=TIME)]), "oven never given"),
    (
        dish([], [action("preheat", "oven", heat=OVEN), action("bake", "pie", duration=TIME)]),
        "oven given late",
    ),
    (dish([], [action("simmer", "broth", until="thick")]), "no time and no sign"),
    (dish([], [action("simmer", "broth"), action("cook", duration=TIME)]), "no time and no sign"),
    (dish([], [action("bake", "cake", heat=OVEN, duration=TIME)], title="stew"), "tin size missing"),
    (
        dish(
            [], [action("bake", "cake", heat=OVEN, duration=TIME)], title="oat cake", equipment=["9-inch tin"]
        ),
        "tin size missing",
    ),
    (dish([line("oats", (1, "cup"))]), "no yield"),
    (
        dish([], [{"verb": "cook", "said": said("I cooked those last night"), "duration": TIME}]),
        "off camera",
    ),
]


@pytest.mark.parametrize(("found", "kind", "about"), RAISED, ids=[f"{row[1]}: {row[2]}" for row in RAISED])
def test_what_is_left_open_is_asked_once(found: Dish, kind: str, about: str) -> None:
    questions = asked(found, kind)
    assert [question.about for question in questions] == [about]
    assert "?" in questions[0].text


@pytest.mark.parametrize(("found", "kind"), SETTLED, ids=[f"{row[1]} {n}" for n, row in enumerate(SETTLED)])
def test_what_is_settled_is_not_asked(found: Dish, kind: str) -> None:
    assert asked(found, kind) == []


def test_a_question_says_where_the_food_goes_and_quotes_the_cook() -> None:
    (question,) = asked(
        dish([line("butter", words="a bit of butter"), line("leeks", (3, ""))]), "missing amount"
    )
    assert (
        question.text
        == "How much butter goes into the dish, before the leeks? The words are 'a bit of butter'."
    )
    assert question.said[0].start == 10.0


def test_flour_without_an_amount_weighs_more_than_parsley_without_one() -> None:
    found = dish([line("parsley"), line("plain flour")], component="dough")
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
    found = dish([line("parsley")], questions=[over])
    assert [question.kind for question in find_questions(found)][:2] == ["over-used", "missing amount"]


def test_raw_chicken_raises_a_caution_that_must_be_answered() -> None:
    """A core temperature for poultry: USDA FSIS Safe Minimum Internal Temperature Chart, 165 F (lexicons)."""
    found = dish([line("chicken", (2, "pound"))], [action("fry", "chicken", duration=TIME)])
    cautions = asked(found, "safety caution")
    assert cautions
    assert all(must_answer(question) for question in cautions)


def test_asking_again_adds_nothing_and_keeps_answers() -> None:
    found = dish([line("butter", words="a bit of butter")], [action("simmer", "broth")])
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
