"""The published recipe that all forms are written from."""

from __future__ import annotations

import unicodedata
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from recipes import HOSTILE, draft, line, pie, recipe, step

from extract.draft.questions import find_questions
from extract.errors import CardwrightError
from extract.measure.drafts.scale import scale
from extract.publish.building import recipes_of
from extract.publish.cleaning import clean
from extract.publish.phrases import facts, line_text, share_line, short, typeset


@pytest.mark.parametrize(
    ("told", "printed"),
    [
        (line("stock", 1.5, "cup"), "1 1/2 cups (350 ml) stock"),
        (line("flour", 225, "gram"), "225 g (1 3/4 cups) flour"),
        (line("salt"), "salt"),
        (line("salt", 1, "pinch"), "a pinch of salt"),
        (line("bay leaf", 1, "leaf"), "1 bay leaf"),
        (line("leek", 2, preparation="sliced", alternatives=["onion"]), "2 leek, sliced (or onion)"),
        (line("butter", 4, "ounce", divided=True, note="divided"), "4 ounces (115 g) butter, divided"),
        (line("feta", optional=True), "feta (optional)"),
        (line("vinegar", 2, "tablespoon", note="corrected on camera; first said: two teaspoons"),
         "2 tablespoons vinegar"),
    ],
)  # fmt: skip
def test_a_line_has_both_measures_and_nothing_meant_for_the_editor(
    told: dict[str, object], printed: str
) -> None:
    dish = pie(components=[{"name": "", "ingredients": [told]}])
    assert line_text(recipes_of(draft(dish))[0].lines[0]) == printed


@pytest.mark.parametrize(
    ("told", "printed"),
    [
        (line("egg", 1), "1 egg (and 1 yolk, or 1 large egg)"),
        (line("lime", 3), "4 limes"),
        (line("bay leaf", 1, "leaf"), "1 bay leaf"),
        (line("stock", 1, "cup"), "1 cup + 5 tablespoons (300 ml) stock"),
    ],
)
def test_a_scaled_line_is_what_a_kitchen_can_have(told: dict[str, object], printed: str) -> None:
    scaled = scale(draft(pie(components=[{"name": "", "ingredients": [told]}])), Fraction(13, 10))
    assert line_text(recipes_of(scaled)[0].lines[0]) == printed


def test_a_scaled_yield_is_a_whole_number() -> None:
    scaled = scale(draft(pie(**{"yield": {"low": 28, "high": 28, "unit": "pies"}})), Fraction(13, 10))
    assert recipes_of(scaled)[0].makes == ("Makes", "about 36 pies")


@pytest.mark.parametrize(
    ("fraction", "words"),
    [(0.2, "A fifth"), (0.125, "An eighth"), (1 / 3, "A third"), (0.75, "Three quarters"), (0.07, "7 %")],
)
def test_a_share_has_the_name_that_cooks_give_it(fraction: float, words: str) -> None:
    part = {"name": "sauce", "portions": [{"fraction": fraction, "of": "sauce", "grams": 0.2}]}
    assert share_line(recipe(components=[part]).parts[0].shares[0]) == f"{words} of the sauce"


def test_the_weights_of_both_measures_are_those_of_the_handbook() -> None:
    """225 g is 1 3/4 cups and a bit of flour: USDA SR-28 gives 125 g a cup (food 20081)."""
    flour = recipe().parts[1].lines[0]
    cups = sum({"1": 1.0, "3/4": 0.75}.get(part, 0) for part in flour.other.split())
    assert cups == pytest.approx(225 / 125, rel=0.05)


def test_a_measure_that_the_cook_gave_in_both_ways_stays_as_said() -> None:
    butter = line("butter", 225, "gram")
    butter["amount"]["equivalents"] = [{"low": 8, "high": 8, "unit": "ounce"}]
    made = recipes_of(draft(pie(components=[{"name": "", "ingredients": [butter]}])))[0]
    assert line_text(made.lines[0]) == "225 g (8 ounces) butter"


def test_parts_are_sections_and_steps_count_through() -> None:
    made = recipe()
    assert [part.name for part in made.parts] == ["", "pastry"]
    assert [section.name for section in made.sections] == ["", "Pastry", "To finish"]
    assert [step.number for step in made.steps] == [1, 2, 3]


def test_shares_say_how_much_and_where() -> None:
    assert [share_line(share) for share in recipe().parts[1].shares] == [
        "Half of the pastry (about 180 g): the tin"
    ]


def test_what_leaves_the_show_is_listed_too() -> None:
    part = {"name": "pastry", "leftovers": [{"fraction": "rest", "of": "pastry", "into": "the freezer"}]}
    assert (
        share_line(recipe(components=[part]).parts[0].shares[0])
        == "The rest of the pastry: the freezer, left over"
    )


def test_the_whole_of_a_thing_is_all_of_it() -> None:
    part = {"name": "sauce", "portions": [{"fraction": 1.0, "of": "sauce"}]}
    assert share_line(recipe(components=[part]).parts[0].shares[0]) == "All of the sauce"


def test_notes_for_the_editor_stay_with_the_editor() -> None:
    assert recipe().steps[1].notes == ("Keep it cold.",)


def test_the_facts_say_what_it_makes_and_how_long() -> None:
    assert list(facts(recipe())) == [
        ("Serves", "4–6"),
        ("To prepare", "20 min"),
        ("To cook", "1 h"),
        ("In all", "1 h 20 min"),
    ]


def test_a_time_that_is_a_least_one_says_so() -> None:
    made = recipe(times={"total": "PT45M", "at_least": True})
    assert ("In all", "at least 45 min") in list(facts(made))


@pytest.mark.parametrize("iso", ["1 hour", "P1", "an hour and a bit"])
def test_a_time_that_is_no_duration_is_told(iso: str) -> None:
    with pytest.raises(CardwrightError, match="ISO 8601"):
        recipe(times={"total": iso, "at_least": False})


@pytest.mark.parametrize("iso", ["PT", "PT0S", ""])
def test_a_time_of_no_length_is_left_out(iso: str) -> None:
    assert recipe(times={"total": iso, "at_least": False}).times == {}


def chicken(**more: object) -> dict[str, object]:
    part = {"name": "", "ingredients": [line("chicken breast", 2)]}
    return pie(components=[part], method=[], **more)


def test_cautions_go_with_the_recipe() -> None:
    told = " ".join(recipes_of(draft(chicken()))[0].cautions)
    assert "165 °F" in told  # USDA FSIS, safe minimum internal temperature of poultry
    assert "local food code" in told


def test_a_caution_speaks_to_the_reader_not_to_the_cook() -> None:
    """What the cook is asked ("is that so?") is for the editor; the page says what was said and what is published."""
    cold = step("Cook the chicken breast.", 100, "")
    cold["actions"][0].update(objects=["chicken breast"], heat=core(140))
    found = draft(chicken() | {"method": [cold]})
    found.dishes[0].questions = find_questions(found.dishes[0], found)
    assert any("is that so?" in question.text for question in found.dishes[0].questions)
    told = " ".join(recipes_of(found)[0].cautions)
    assert "the cook said a core of 140 °F (60 °C)" in told
    assert "?" not in told


def core(degrees: float) -> dict[str, object]:
    return {"kind": "internal", "low": degrees, "high": degrees, "unit": "degF", "text": str(degrees)}


def test_an_unreviewed_draft_says_so_and_a_double_batch_too() -> None:
    made = recipes_of(draft(pie(batch={"factor": 2}), reviewed=None))[0]
    assert made.notices[0].startswith("Not reviewed")
    assert "a double batch" in made.notices[1]
    assert recipe().notices == ()


@pytest.mark.parametrize(
    ("factor", "told"),
    [
        ("3", "The amounts make 6 times the normal batch."),
        ("1/4", "The amounts make a half batch."),
        ("1/2", ""),
    ],
)
def test_a_double_batch_at_another_size_is_told_as_it_now_stands(factor: str, told: str) -> None:
    whole = scale(draft(pie(batch={"factor": 2})), factor)
    assert recipes_of(whole)[0].notices == ((told,) if told else ())
    pastry = pie()
    pastry["components"][1]["batch"] = {"factor": 2}
    assert recipes_of(scale(draft(pastry), factor))[0].notices == ((f"Pastry: {told}",) if told else ())


def test_a_blank_name_is_no_review() -> None:
    assert recipes_of(draft(reviewed={"by": "  ", "at": ""}))[0].notices


def test_diets_are_only_those_that_a_person_set() -> None:
    assert recipe().diets == ()
    assert [diet.member for diet in recipe(diets=["Vegan", "gluten-free"]).diets] == [
        "VeganDiet",
        "GlutenFreeDiet",
    ]
    with pytest.raises(CardwrightError, match="is no diet"):
        recipe(diets=["stone age"])


@pytest.mark.parametrize("figures", [(-1, 2), (3, 2)])
def test_an_amount_that_is_none_is_told_with_its_line(figures: tuple[float, float]) -> None:
    wrong = line("stock", figures[0], "cup", high=figures[1])
    with pytest.raises(CardwrightError, match="stock"):
        recipe(components=[{"name": "", "ingredients": [wrong]}])


def test_a_recording_without_times_has_no_moments() -> None:
    made = recipes_of(draft(timed=False))[0]
    assert made.stretches == ()
    assert {each.start for each in (*made.lines, *made.steps)} == {None}


@given(st.one_of(st.sampled_from(HOSTILE), st.text()))
def test_cleaned_text_keeps_its_letters_and_loses_what_steers_a_screen(text: str) -> None:
    cleaned = clean(text)
    visible = [char for char in text if unicodedata.category(char)[0] in "LMNPS"]
    assert [char for char in cleaned if unicodedata.category(char)[0] in "LMNPS"] == visible
    assert not any(unicodedata.category(char) in ("Cc", "Cs") for char in cleaned)
    assert not set(cleaned) & set("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069\u2028\u2029")
    assert clean(cleaned) == cleaned


def test_emoji_of_several_characters_stay_whole() -> None:
    family, flag = "👨‍👩‍👧", "🏴󠁧󠁢󠁳󠁣󠁴󠁿"
    assert clean(f"{family} {flag}") == f"{family} {flag}"


@pytest.mark.parametrize(
    ("plain", "set_"),
    [
        ("1 1/2 cups", "1½ cups"),
        ("3/4 cup", "¾ cup"),
        ("1/7 cup", "1/7 cup"),
        ("180 °C", "180\u00a0°C"),
        ("about 25 g", "about 25\u00a0g"),
        ("2 good eggs", "2 good eggs"),
        ("11/2/1999", "11/2/1999"),
    ],
)
def test_fractions_and_figures_are_set_as_print_sets_them(plain: str, set_: str) -> None:
    assert typeset(plain) == set_


@pytest.mark.parametrize(
    ("step_text", "label"),
    [
        ("“Cut down through the core” (7:57). Add the salt.", "Cut down through the core"),
        ("Ahead of time, roast the garlic at 400 °F (200 °C).", "Ahead of time, roast the garlic at 400 °F…"),
        (
            "Whisk. Add the rest of the garlic and squeeze it.",
            "Whisk. Add the rest of the garlic and squeeze it",
        ),
        ("Heat the oven to 375 °F (190 °C).", "Heat the oven to 375 °F (190 °C)"),
        ("Stir.", "Stir"),
        ("Add 1.5 cups. Stir.", "Add 1.5 cups"),
        (
            "Slice the leeks as thinly as you can, then wash them twice over.",
            "Slice the leeks as thinly as you can",
        ),
    ],
)
def test_a_label_says_what_a_step_is_about(step_text: str, label: str) -> None:
    assert short(step_text, 48) == label


def test_the_time_of_cooking_is_known_where_every_step_that_cooks_tells_it() -> None:
    """The least time of all the work is still a least one: slicing has no time of its own."""
    least = {"times": {"preparation": "PT20M", "cooking": "PT1H", "total": "PT1H20M"}}
    assert dict(facts(recipe(**least)))["To cook"] == "1 h"
    assert dict(facts(recipe(**least)))["In all"] == "at least 1 h 20 min"
    fried = step("Fry the leeks.", 90, "")
    assert dict(facts(recipe(**least, method=[fried, *pie()["method"]])))["To cook"] == "at least 1 h"
    ranged = step("Bake the pie.", 300, "", minutes=40, oven=400)
    ranged["actions"][0]["duration"]["high"] = 45
    assert dict(facts(recipe(**least, method=[ranged])))["To cook"] == "at least 1 h"


@given(st.text(max_size=200), st.integers(min_value=5, max_value=60))
def test_a_label_is_never_longer_than_asked(text: str, most: int) -> None:
    assert len(short(clean(text), most)) <= most + 1  # a letter may have a capital of two
