"""A draft made larger or smaller: exact, reversible, and honest about what does not scale."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from making import action, line, make_dish, make_draft

from extract.errors import CardwrightError
from extract.measure.drafts.convert import convert, lines
from extract.measure.drafts.scale import scale, scale_to_normal_batch, scale_to_servings
from extract.measure.kitchen import amount_words
from extract.model import Dish, Question, RecipeDraft, Yield
from extract.publish.markdown import ingredient_line
from extract.publish.words import yield_words

# Worked on paper from NIST SP 430 ratios (3 teaspoons a tablespoon, 16 tablespoons a cup) and USDA weights.
SCALED: list[tuple[dict[str, Any], str, str]] = [
    (line("stock", 0.75, "cup"), "2", "1 1/2 cups"),
    (line("milk", 1 / 3, "cup"), "3", "1 cup"),
    (line("milk", 0.25, "cup"), "1/2", "2 tablespoons"),
    (line("milk", 1 / 3, "cup"), "1/2", "2 tablespoons + 2 teaspoons"),
    (line("oil", 1, "tablespoon"), "1/2", "1 1/2 teaspoons"),
    (line("salt", 1, "teaspoon"), "4", "1 tablespoon + 1 teaspoon"),
    (line("garlic", 2, "clove", high=3), "2", "4–6 cloves"),
    (line("egg", 2), "1.5", "3"),
    (line("egg", 1), "1 1/2", "1 1/2"),
    (line("flour", 800, "gram"), "2", "1.6 kg"),
    (line("butter", 1, "kilogram"), "1/4", "250 g"),
    (line("milk", 500, "millilitre"), "3", "1.5 litres"),
    (line("beef", 12, "ounce"), "2", "1 1/2 pounds"),
    (line("nutmeg", 0.125, "teaspoon"), "1/2", "a pinch"),
    (line("thyme", 1, "handful"), "3", "3 handfuls"),
    (line("tomatoes", 1, "can", size=(400, "gram")), "2", "2 (400 g) cans"),
]


def full_draft(**more: Any) -> RecipeDraft:
    dish = make_dish(
        line("plain flour", 1.5, "cup"),
        line("egg", 2, high=3),
        line("milk", 1 / 3, "cup"),
        line("garlic", 2, "clove"),
        line("salt", 0.5, "teaspoon"),
        "pepper",
        portions=[{"fraction": 0.5, "of": "batter", "millilitres": 200.0}],
        actions=[action("bake", "cake", heat=("oven", 350, "degF"), minutes=30)],
        equipment=["8-inch square tin"],
        **{"yield": {"low": 4, "high": 6, "unit": "servings"}, "batch": {"factor": 2}},
    )
    return make_draft(dish, **more)


@pytest.mark.parametrize(
    ("each", "by", "words"), SCALED, ids=lambda value: value if isinstance(value, str) else ""
)
def test_an_amount_is_scaled_into_the_measures_there_are(each: dict[str, Any], by: str, words: str) -> None:
    [result] = lines(scale(make_draft(make_dish(each)), by).dishes[0])
    assert result.amount is not None
    assert amount_words(result.amount) == words


def test_yields_and_portions_scale_times_temperatures_and_cans_do_not() -> None:
    [before], [after] = full_draft().dishes, scale(full_draft(), 2).dishes
    assert after.yield_ is not None
    assert (after.yield_.low, after.yield_.high) == (8, 12)
    assert after.components[0].portions[0].fraction == 0.5
    assert after.components[0].portions[0].millilitres == 400
    assert after.method == before.method
    assert after.batch == before.batch
    assert after.scaling is not None
    assert after.scaling.by == "2"


def test_what_was_said_is_kept_beside_the_scaled_amount() -> None:
    first = next(lines(scale(full_draft(), 2).dishes[0]))
    assert first.amount is not None
    assert first.amount.unscaled is not None
    assert (first.amount.unscaled.low, first.amount.unscaled.unit) == (1.5, "cup")
    assert first.said == next(lines(full_draft().dishes[0])).said


def test_the_notes_say_what_a_cook_has_to_think_of() -> None:
    """An 8-inch square has 64 square inches; 1 1/2 times that is 9.8 inches square. An egg is 50 g (SR28)."""
    scaling = scale(full_draft(), "3/2").dishes[0].scaling
    assert scaling is not None
    notes = "\n".join(scaling.notes)
    assert "Made 1 1/2 times" in notes
    assert "Times and temperatures are as said" in notes
    assert "its floor is 64 square inches" in notes
    assert "about 10 inch square" in notes
    assert "salt: season to taste" in notes
    assert "egg: counted to the nearest that can be had; by weight, beaten, 150–225 g" in notes


STEPS: list[tuple[str, str, str]] = [
    (
        "Stir in 1 1/2 cups of the stock and 50 g of butter.",
        "2",
        "Stir in 3 cups of the stock and 100 g of butter.",
    ),
    ("Add 2–3 tablespoons of stock.", "1/2", "Add 1–1 1/2 tablespoons of stock."),
    ("Melt the butter (40 g) in the pan.", "3/2", "Melt the butter (60 g) in the pan."),
    (
        "Bake for 20 minutes at 350 °F, about 2 cm apart.",
        "2",
        "Bake for 20 minutes at 350 °F, about 2 cm apart.",
    ),
    ("Pour it into a 2 pound loaf tin.", "2", "Pour it into a 2 pound loaf tin."),
    ("Drain the 400 g can of beans.", "2", "Drain the 400 g can of beans."),
]


@pytest.mark.parametrize(("text", "by", "scaled"), STEPS)
def test_amounts_in_the_words_of_the_method_are_scaled(text: str, by: str, scaled: str) -> None:
    """Sizes of tins and packages, lengths and temperatures stay."""
    draft = make_draft(make_dish("stock", "butter", texts=[text]), measures="us")
    after = scale(draft, by)
    assert after.dishes[0].method[0].text == scaled
    assert scale(after, 1 / Fraction(by)) == draft


def test_what_a_person_changed_in_a_scaled_step_is_scaled_on() -> None:
    draft = make_draft(make_dish("stock", texts=["Add 1 cup of stock."]), measures="us")
    once = scale(draft, 2)
    once.dishes[0].method[0].text = "Slowly add 2 cups of stock."
    assert scale(once, 2).dishes[0].method[0].text == "Slowly add 4 cups of stock."


def two_parts(**more: Any) -> RecipeDraft:
    """A dough that alone was doubled, and a filling."""
    dish = make_dish("salt", texts=["Put 200 g of flour in a bowl."], **more)
    data = dish.model_dump(by_alias=True)
    dough = {"name": "dough", "ingredients": [line("flour", 200, "gram")], "batch": {"factor": 2}}
    data["components"] = [dough, {"name": "filling", "ingredients": [line("egg", 3)]}]
    data["method"][0]["component"] = "dough"
    data["yield"] = {"low": 12, "high": 12, "unit": "pies"}
    return make_draft(Dish.model_validate(data), measures="us")


def test_the_normal_batch_touches_only_the_part_that_was_multiplied() -> None:
    after = scale_to_normal_batch(two_parts()).dishes[0]
    flour, egg = lines(after)
    assert flour.amount is not None
    assert egg.amount is not None
    assert (flour.amount.low, egg.amount.low) == (100, 3)
    assert after.method[0].text == "Put 100 g of flour in a bowl."
    assert after.yield_ is not None
    assert after.yield_.low == 12
    assert scale_to_normal_batch(scale_to_normal_batch(two_parts())) == scale_to_normal_batch(two_parts())


def test_a_dish_and_its_part_are_scaled_together() -> None:
    flour, egg = lines(scale(scale_to_normal_batch(two_parts()), 3).dishes[0])
    assert flour.amount is not None
    assert egg.amount is not None
    assert (flour.amount.low, egg.amount.low) == (300, 9)


def test_the_normal_batch_waits_for_the_answer_to_its_question() -> None:
    question = {"kind": "amounts of the batch", "about": "a double batch", "text": "For which are they?"}
    draft = full_draft()
    draft.dishes[0].questions = [Question.model_validate(question)]
    with pytest.raises(CardwrightError, match="question 1 is open"):
        scale_to_normal_batch(draft)
    draft.dishes[0].questions[0].answer = "For the double one."
    assert scale_to_normal_batch(draft).dishes[0].scaling is not None


COUNTS: list[tuple[dict[str, Any], str, str]] = [
    (line("bay leaf", 1, "leaf"), "2", "- 2 **bay leaves**"),
    (line("bay leaves", 3, "leaf"), "1/3", "- 1 **bay leaf**"),
    (line("limes", 2), "1/2", "- 1 **lime**"),
    (line("lime", 1), "4", "- 4 **limes**"),
    (line("egg", 1), "9/8", "- 1 **egg** (and 1 yolk, or 1 large egg)"),
    (line("eggs", 3), "1/2", "- 1 **egg** (and 1 yolk, or 1 large egg)"),
    (line("egg", 1), "1/2", "- 1 **egg** (1/2 of it, beaten)"),
    (line("eggs", 3), "5/8", "- 2 **eggs** (small ones)"),
    (line("onions", 3), "3/8", "- 1 **onion**"),
    (line("onion", 1), "1/4", "- 1/4 **onion**"),
    (line("sugar", 1, "pinch"), "1/2", "- a small pinch of **sugar**"),
    (line("sugar", 1, "pinch"), "5/2", "- 2 pinches **sugar**"),
    (line("garlic", 3, "clove"), "1/2", "- 1 1/2 cloves **garlic**"),
]


@pytest.mark.parametrize(("each", "by", "words"), COUNTS)
def test_a_count_is_printed_as_a_kitchen_takes_it(each: dict[str, Any], by: str, words: str) -> None:
    """Common practice, no source: an egg and a yolk come to about 1 1/3 eggs (USDA SR28: 50 g, 17 g)."""
    result = scale(make_draft(make_dish(each)), by)
    assert ingredient_line(next(lines(result.dishes[0])), timed=False) == words


def test_a_yield_is_printed_in_whole_things() -> None:
    made = Yield(low=10, high=10, unit="slices")
    draft = make_draft(make_dish("flour", **{"yield": made.model_dump()}))
    after = scale(draft, Fraction(37, 100)).dishes[0].yield_
    assert after is not None
    assert yield_words(after) == "Makes: about 4 slices"


def test_one_dish_of_a_show_is_scaled_by_name() -> None:
    draft = make_draft(
        make_dish(line("milk", 1, "cup"), title="Fish pie"), make_dish(line("milk", 1, "cup"), title="Loaf")
    )
    for name in ("loaf", "Loaf", "2"):
        pie, loaf = scale(draft, 2, [name]).dishes
        assert pie == draft.dishes[0]
        assert loaf.scaling is not None
    with pytest.raises(CardwrightError, match='"cake" names no dish'):
        scale(draft, 2, ["cake"])


def test_a_count_that_still_divides_needs_no_words() -> None:
    scaling = scale(full_draft(), 2).dishes[0].scaling
    assert scaling is not None
    assert not [note for note in scaling.notes if "counted to the nearest" in note]


@pytest.mark.parametrize(
    ("said", "grown", "factor"),
    [("8-inch round tin", "10-inch round", "81/64"), ("8-inch square tin", "9 x 13 inch", "117/64")],
)
def test_tins_are_compared_by_their_area(said: str, grown: str, factor: str) -> None:
    """An 8-inch round grown by 81/64 is a 9-inch round; 8 inches square and 9 by 13 differ by 1.828125."""
    dish = make_dish("flour", equipment=[said])
    scaling = scale(make_draft(dish), factor).dishes[0].scaling
    assert scaling is not None
    [note] = [note for note in scaling.notes if said in note]
    area = 50 if "round" in said else 64
    assert f"its floor is {area} square inches" in note
    side = 9 if "round" in said else 11
    assert f"about {side} inch" in note


def test_servings_go_by_the_middle_of_what_was_said() -> None:
    """Serves 4 to 6 made for 10: twice as much."""
    after = scale_to_servings(full_draft(), 10).dishes[0]
    assert after.scaling is not None
    assert after.scaling.by == "2"


def test_the_normal_batch_undoes_the_double_batch_once() -> None:
    once = scale_to_normal_batch(full_draft())
    first = next(lines(once.dishes[0]))
    assert first.amount is not None
    assert first.amount.low == 0.75
    assert scale_to_normal_batch(once) == once


@pytest.mark.parametrize("factor", [0, -1, "0", "-2", "much", "", "1/0", float("nan"), float("inf")])
def test_a_factor_that_is_no_positive_number_is_refused(factor: float | str) -> None:
    with pytest.raises(CardwrightError, match="must be a number above zero"):
        scale(full_draft(), factor)
    with pytest.raises(CardwrightError, match="servings must be a number above zero"):
        scale_to_servings(full_draft(), factor)


def test_servings_need_a_yield_in_servings() -> None:
    with pytest.raises(CardwrightError, match="did not say how many servings"):
        scale_to_servings(make_draft(make_dish("egg")), 4)
    pancakes = make_dish("egg", **{"yield": {"low": 12, "high": 12, "unit": "pancakes"}})
    with pytest.raises(CardwrightError, match="said 12 pancakes, not servings"):
        scale_to_servings(make_draft(pancakes), 4)
    with pytest.raises(CardwrightError, match="no dish of this draft"):
        scale_to_normal_batch(make_draft(make_dish("egg")))


units = st.sampled_from(
    ["", "cup", "tablespoon", "teaspoon", "gram", "kilogram", "pound", "clove", "pinch", "litre"]
)
figures = st.one_of(
    st.integers(1, 40).map(float),
    st.integers(1, 64).map(lambda n: n / 8),
    st.integers(1, 30).map(lambda n: n / 3),
)
drafts = st.lists(st.tuples(units, figures, figures), min_size=1, max_size=5).map(
    lambda rows: make_draft(
        make_dish(
            *(line("sugar", low, unit, high=low + more) for unit, low, more in rows),
            **{"yield": {"low": 4, "high": 6, "unit": "servings"}},
        ),
        measures="us",
    )
)
factors = st.fractions(min_value=Fraction(1, 12), max_value=Fraction(24), max_denominator=12)


@given(drafts, factors)
def test_scaling_by_k_and_then_by_one_over_k_gives_the_draft_again(
    draft: RecipeDraft, factor: Fraction
) -> None:
    assert scale(scale(draft, factor), 1 / factor) == draft


@given(drafts, factors, factors)
def test_scaling_twice_is_scaling_by_the_product(draft: RecipeDraft, one: Fraction, other: Fraction) -> None:
    assert list(lines(scale(scale(draft, one), other).dishes[0])) == list(
        lines(scale(draft, one * other).dishes[0])
    )


@given(drafts, factors, st.sampled_from(["metric", "us", "uk"]))
def test_the_order_of_converting_and_scaling_does_not_matter(
    draft: RecipeDraft, factor: Fraction, to: str
) -> None:
    assert scale(convert(draft, to), factor) == convert(scale(draft, factor), to)


@given(drafts, factors)
def test_a_range_stays_ordered_and_in_proportion(draft: RecipeDraft, factor: Fraction) -> None:
    for each in lines(scale(draft, factor).dishes[0]):
        assert each.amount is not None
        assert 0 < each.amount.low <= each.amount.high
