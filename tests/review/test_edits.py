"""What a reviewer can do to a draft: each edit does that, says who did it, and leaves all else as it was."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Any

import pytest
from conftest import ask, key

from extract.errors import CardwrightError
from extract.model import Dish, Evidence, Ingredient, RecipeDraft, Source, Step
from extract.review.edits import Done, apply, read_edit
from extract.review.edits.evidence import fields_by_reviewer
from extract.review.edits.stretches import joined, stretches_of, without
from extract.review.keeping.changes import same
from extract.review.keys import Gone, items_of

NOW = datetime(2026, 5, 4, 12, tzinfo=UTC)


def do(draft: RecipeDraft, what: str, **fields: Any) -> Done:
    """The edit applied; the draft given must be left alone."""
    before = draft.to_dict()
    done = apply(draft, read_edit({"do": what, **fields}), now=NOW)
    assert same(draft.to_dict(), before)
    assert RecipeDraft.model_validate(done.draft.to_dict()).to_dict() == done.draft.to_dict()
    keys = [key(item) for dish in done.draft.dishes for item in items_of(dish)]
    assert len(keys) == len(set(keys))
    return done


def line(draft: RecipeDraft, name: str, dish: int = 0) -> Ingredient:
    return next(one for part in draft.dishes[dish].components for one in part.ingredients if one.name == name)


def step(draft: RecipeDraft, words: str, dish: int = 0) -> Step:
    return next(one for one in draft.dishes[dish].method if words in one.text)


def names(dish: Dish) -> list[str]:
    return [one.name for part in dish.components for one in part.ingredients]


def test_an_amount_is_corrected_with_the_reviewer_as_its_evidence(keyed: RecipeDraft) -> None:
    cumin = line(keyed, "cumin")
    after = line(do(keyed, "set line", line=key(cumin), amount="1 tbsp").draft, "cumin")
    assert after.amount is not None
    assert (after.amount.low, after.amount.unit) == (1, "tablespoon")
    assert fields_by_reviewer(after.said) == ["amount"]
    assert after.said[:-1] == cumin.said
    assert (after.said[-1].text, after.said[-1].start) == ("1 tbsp", cumin.said[0].start)


def test_a_field_that_is_left_as_it_was_is_nobody_s_edit(keyed: RecipeDraft) -> None:
    cumin = line(keyed, "cumin")
    done = do(keyed, "set line", line=key(cumin), amount="2 teaspoons", name="cumin", optional=False)
    assert done.touched == frozenset()
    assert line(done.draft, "cumin").said == cumin.said


def test_every_field_of_a_line(keyed: RecipeDraft) -> None:
    fields = {
        "name": "ground cumin",
        "preparation": "toasted",
        "alternatives": "caraway; fennel seed",
        "note": "own",
    }
    done = do(keyed, "set line", line=key(line(keyed, "cumin")), optional=True, **fields)
    after = line(done.draft, "ground cumin")
    assert (after.preparation, after.alternatives, after.note, after.optional) == (
        "toasted",
        ["caraway", "fennel seed"],
        "own",
        True,
    )
    assert set(fields_by_reviewer(after.said)) == {*fields, "optional"}


def test_to_taste_is_a_note_and_settles_the_question(keyed: RecipeDraft) -> None:
    salt = line(keyed, "salt")
    done = do(keyed, "set line", line=key(salt), amount="to taste")
    assert line(done.draft, "salt").amount is None
    assert line(done.draft, "salt").note == "to taste"
    asked = [one for one in done.draft.dishes[0].questions if one.about == "salt"]
    assert [one for one in asked if not one.answer] == []
    measured = do(done.draft, "set line", line=key(salt), amount="1 tsp").draft
    assert line(measured, "salt").note == ""


def test_an_unknown_field_of_a_line_survives_every_edit_of_it(keyed: RecipeDraft) -> None:
    cumin = line(keyed, "cumin")
    assert cumin.model_extra is not None
    cumin.model_extra["sure"] = 0.4
    cumin.model_extra["house"] = {"shelf": 3}
    after = line(do(keyed, "set line", line=key(cumin), amount="3").draft, "cumin")
    assert after.model_extra == cumin.model_extra


def test_lines_are_added_removed_and_moved(keyed: RecipeDraft) -> None:
    filling, rest = keyed.dishes[0].components[:2]
    added = do(
        keyed, "add line", part=key(filling), after=key(filling.ingredients[0]), text="2 cups kale, torn"
    ).draft
    new = added.dishes[0].components[0].ingredients[1]
    assert new.amount is not None
    assert (new.amount.low, new.amount.unit, new.name, new.preparation) == (2, "cup", "kale", "torn")
    assert fields_by_reviewer(new.said) == ["line"]
    moved = do(added, "move line", line=key(new), part=key(rest), at=0).draft
    assert moved.dishes[0].components[1].ingredients[0].name == "kale"
    assert "kale" not in [one.name for one in moved.dishes[0].components[0].ingredients]
    gone = do(moved, "remove line", line=key(new)).draft
    assert names(gone.dishes[0]) == names(keyed.dishes[0])
    with pytest.raises(Gone, match="no longer"):
        do(gone, "remove line", line=key(new))


def test_a_key_is_never_given_twice(keyed: RecipeDraft) -> None:
    part = key(keyed.dishes[0].components[0])
    first = do(keyed, "add line", part=part, text="1 leek").draft
    leek = key(line(first, "leek"))
    again = do(do(first, "remove line", line=leek).draft, "add line", part=part, text="1 parsnip").draft
    assert key(line(again, "parsnip")) != leek


def test_a_line_goes_to_another_dish(keyed: RecipeDraft) -> None:
    cumin, target = line(keyed, "cumin"), keyed.dishes[1].components[0]
    moved = do(keyed, "move line", line=key(cumin), part=key(target), at=99).draft
    assert "cumin" not in names(moved.dishes[0])
    assert moved.dishes[1].components[0].ingredients[-1].name == "cumin"


def test_words_of_the_talk_become_a_line_that_rests_on_them(keyed: RecipeDraft) -> None:
    said = {"cue": 28, "start": 111.0, "end": 115.0, "text": "a pound and a half of sweet potatoes"}
    after = do(keyed, "add line", part=key(keyed.dishes[0].components[0]), said=said).draft
    new = after.dishes[0].components[0].ingredients[-1]
    assert new.amount is not None
    assert (new.amount.low, new.amount.unit, new.name) == (1.5, "pound", "sweet potatoes")
    assert [(one.cue, one.text) for one in new.said] == [(28, said["text"])]


def test_a_part_is_named_and_its_steps_follow(keyed: RecipeDraft) -> None:
    sauce = next(part for part in keyed.dishes[0].components if part.name == "sauce")
    before = sum(one.component == "sauce" for one in keyed.dishes[0].method)
    after = do(keyed, "set part", part=key(sauce), name="green sauce").draft.dishes[0]
    assert "green sauce" in [part.name for part in after.components]
    assert sum(one.component == "green sauce" for one in after.method) == before > 0


def test_a_part_given_another_s_name_is_joined_to_it(keyed: RecipeDraft) -> None:
    sauce, dough = (next(p for p in keyed.dishes[0].components if p.name == n) for n in ("sauce", "dough"))
    after = do(keyed, "set part", part=key(sauce), name="dough").draft.dishes[0]
    (one,) = [part for part in after.components if part.name == "dough"]
    assert len(one.ingredients) == len(sauce.ingredients) + len(dough.ingredients)
    assert sorted(names(after)) == sorted(names(keyed.dishes[0]))


def test_only_an_empty_part_is_removed(keyed: RecipeDraft) -> None:
    with pytest.raises(CardwrightError, match="still holds"):
        do(keyed, "remove part", part=key(keyed.dishes[0].components[0]))
    added = do(keyed, "add part", dish=key(keyed.dishes[0]), name="glaze").draft
    part = added.dishes[0].components[-1]
    assert do(added, "remove part", part=key(part)).draft.dishes[0].components == keyed.dishes[0].components


def test_a_share_is_corrected_and_taken_out(keyed: RecipeDraft) -> None:
    share = next(one for part in keyed.dishes[0].components for one in part.portions)
    after = do(keyed, "set share", share=key(share), fraction="two thirds", into="the bowl").draft
    (same_share,) = [o for p in after.dishes[0].components for o in p.portions if key(o) == key(share)]
    assert (same_share.fraction, same_share.into) == (pytest.approx(2 / 3), "the bowl")
    gone = do(keyed, "set share", share=key(share), remove=True).draft
    assert key(share) not in [key(o) for p in gone.dishes[0].components for o in p.portions]
    with pytest.raises(CardwrightError, match="no share"):
        do(keyed, "set share", share=key(share), fraction="2 cups")


def test_a_step_is_reworded_and_its_times_and_heat_read_anew(keyed: RecipeDraft) -> None:
    bake = step(keyed, "Bake at")
    text = "Bake at 400 °F for 30 minutes until golden."
    after = do(keyed, "set step", step=key(bake), text=text).draft
    new = step(after, text)
    heats = [one.heat for one in new.actions if one.heat]
    times = [one.duration for one in new.actions if one.duration]
    assert [(heat.low, heat.unit) for heat in heats] == [(400, "degF")]
    assert [(time.low, time.unit) for time in times] == [(30, "minute")]
    assert all(action.said for action in new.actions)
    assert "text" in fields_by_reviewer(new.said)
    assert after.dishes[0].times != keyed.dishes[0].times


def test_a_step_is_split_where_the_cursor_stands_and_joined_again(keyed: RecipeDraft) -> None:
    whole = step(keyed, "Drizzle the ice water")
    at = whole.text.index("Drizzle")
    split = do(keyed, "split step", step=key(whole), at=at).draft
    place = [key(one) for one in split.dishes[0].method].index(key(whole))
    first, second = split.dishes[0].method[place : place + 2]
    assert first.text == whole.text[:at].strip()
    assert second.text == whole.text[at:]
    assert [one.verb for one in first.actions + second.actions] == [one.verb for one in whole.actions]
    assert second.actions[0].verb == "drizzle"
    together = do(split, "join step", step=key(whole)).draft
    assert [one.text for one in together.dishes[0].method] == [one.text for one in keyed.dishes[0].method]
    with pytest.raises(CardwrightError, match="one side only"):
        do(keyed, "split step", step=key(whole), at=0)


def test_steps_are_moved_added_and_removed(keyed: RecipeDraft) -> None:
    first, second = keyed.dishes[0].method[:2]
    moved = do(keyed, "move step", step=key(second), at=0).draft.dishes[0].method
    assert [key(one) for one in moved[:2]] == [key(second), key(first)]
    added = do(keyed, "add step", dish=key(keyed.dishes[0]), after=key(first), text="whisk the egg").draft
    assert added.dishes[0].method[1].text == "Whisk the egg."
    assert [one.verb for one in added.dishes[0].method[1].actions] == ["whisk"]
    gone = do(keyed, "remove step", step=key(first)).draft
    assert key(first) not in [key(one) for one in gone.dishes[0].method]


def test_a_dish_is_titled_and_counted(keyed: RecipeDraft) -> None:
    done = do(keyed, "set dish", dish=key(keyed.dishes[0]), title="Hand pies", makes="24-30 pies", batch="")
    after = done.draft.dishes[0]
    assert after.yield_ is not None
    assert (after.title, after.yield_.low, after.yield_.high, after.yield_.unit) == (
        "Hand pies",
        24,
        30,
        "pies",
    )
    assert after.batch is None
    with pytest.raises(CardwrightError, match="needs a title"):
        do(keyed, "set dish", dish=key(keyed.dishes[0]), title=" ")


def test_two_dishes_are_joined_without_a_word_lost(keyed: RecipeDraft) -> None:
    one, two = keyed.dishes
    after = do(keyed, "join dish", dish=key(one)).draft
    (both,) = after.dishes
    assert sorted(names(both)) == sorted(names(one) + names(two))
    assert sorted(key(s) for s in both.method) == sorted(key(s) for s in [*one.method, *two.method])
    assert (both.start, both.end) == (min(one.start, two.start), max(one.end, two.end))
    with pytest.raises(CardwrightError, match="no dish stands behind"):
        do(keyed, "join dish", dish=key(two))


def test_a_dish_is_cut_at_a_moment(keyed: RecipeDraft) -> None:
    dish = keyed.dishes[0]
    after = do(keyed, "cut dish", dish=key(dish), at=189.0, title="Green sauce").draft
    first, second = after.dishes[:2]
    assert sorted(names(first) + names(second)) == sorted(names(dish))
    assert all(one.said[0].start >= 189 for part in second.components for one in part.ingredients)
    assert all(one.said[0].start < 189 for part in first.components for one in part.ingredients)
    assert (first.end, second.start, second.title) == (189.0, 189.0, "Green sauce")
    with pytest.raises(CardwrightError, match="not within"):
        do(keyed, "cut dish", dish=key(dish), at=9999)


def test_a_stretch_left_out_takes_what_rests_on_its_words_alone(keyed: RecipeDraft) -> None:
    dish = keyed.dishes[0]
    after = do(keyed, "leave out", dish=key(dish), start=128.0, end=146.0, reason="visit").draft
    assert "garlic" not in names(after.dishes[0])[:4]  # three cloves, said at 2:15; the sauce's own stays
    assert "cumin" in names(after.dishes[0])
    assert stretches_of(after.dishes[0])[0] == (dish.start, 128.0)
    assert (128.0, 146.0, "visit") in [(one.start, one.end, one.reason) for one in after.talk]
    back = do(after, "take in", dish=key(dish), start=128.0, end=146.0).draft
    assert stretches_of(back.dishes[0]) == stretches_of(dish)
    assert [(one.start, one.end) for one in back.talk] == [(one.start, one.end) for one in keyed.talk]


def test_a_dish_that_is_none_is_left_out_whole(keyed: RecipeDraft) -> None:
    after = do(keyed, "drop dish", dish=key(keyed.dishes[1]), reason="talk").draft
    assert [one.title for one in after.dishes] == [keyed.dishes[0].title]
    assert any(one.reason == "talk" and one.end == keyed.dishes[1].end for one in after.talk)


def test_a_dish_that_was_missed_is_made_of_what_was_left_out(keyed: RecipeDraft) -> None:
    visit = keyed.talk[0]
    after = do(keyed, "add dish", start=visit.start, end=visit.end, title="Sorghum").draft
    new = next(dish for dish in after.dishes if dish.title == "Sorghum")
    assert visit.start not in [part.start for part in after.talk]
    said = {"cue": 90, "start": visit.start + 1, "end": visit.start + 3, "text": "two cups of sorghum"}
    filled = do(after, "add line", part=key(new.components[0]), said=said).draft
    assert "sorghum" in [name for dish in filled.dishes for name in names(dish)]


def two_dishes() -> RecipeDraft:
    def food(name: str, at: float, key_: str) -> Ingredient:
        said = [Evidence(cue=int(at), start=at, end=at + 1, text=name)]
        return Ingredient.model_validate({"name": name, "said": said, "key": key_})

    def dish(title: str, start: float, end: float, foods: list[Ingredient]) -> Dish:
        part = {"name": "", "key": f"{title}-part", "ingredients": foods}
        return Dish.model_validate(
            {"title": title, "start": start, "end": end, "key": title, "components": [part]}
        )

    first = dish("soup", 0, 100, [food("leeks", 10, "l1"), food("cream", 90, "l2")])
    second = dish("cake", 100, 200, [food("flour", 110, "l3"), food("sugar", 150, "l4")])
    return RecipeDraft(source=Source(file="x", sha256="y", end=200), dishes=[first, second])


@pytest.mark.parametrize(
    ("dish", "bound", "to", "soup", "cake"),
    [
        ("soup", "end", "2:00", ["leeks", "cream", "flour"], ["sugar"]),
        ("soup", "end", "1:20", ["leeks"], ["flour", "sugar", "cream"]),
        ("cake", "start", "1:20", ["leeks"], ["flour", "sugar", "cream"]),
    ],
)
def test_a_bound_between_two_dishes_moves_with_what_was_said_there(
    dish: str, bound: str, to: str, soup: list[str], cake: list[str]
) -> None:
    after = do(two_dishes(), "set dish", dish=dish, **{bound: to}).draft
    assert [sorted(names(one)) for one in after.dishes] == [sorted(soup), sorted(cake)]
    assert after.dishes[0].end == after.dishes[1].start


def test_a_stretch_goes_to_another_dish_with_what_was_said_there() -> None:
    after = do(two_dishes(), "take in", dish="cake", start=5, end=20).draft
    assert [sorted(names(one)) for one in after.dishes] == [["cream"], ["flour", "leeks", "sugar"]]
    assert [stretches_of(one) for one in after.dishes] == [[(0, 5), (20, 100)], [(5, 20), (100, 200)]]
    own = do(two_dishes(), "add dish", start=80, end=120).draft
    assert [sorted(names(one)) for one in own.dishes] == [["leeks"], ["cream", "flour"], ["sugar"]]
    with pytest.raises(CardwrightError, match="no time left"):
        do(two_dishes(), "take in", dish="cake", start=0, end=100)


def test_why_a_stretch_is_left_out_is_corrected() -> None:
    out = do(two_dishes(), "leave out", dish="soup", start=20, end=40, reason="talk").draft
    after = do(out, "name talk", start=20, end=30, reason="visit").draft
    assert [(one.start, one.end, one.reason) for one in after.talk] == [(20, 30, "visit"), (30, 40, "talk")]
    assert do(after, "name talk", start=50, end=60, reason="visit").draft is after


def test_a_value_is_confirmed_as_it_stands(keyed: RecipeDraft) -> None:
    cumin = line(keyed, "cumin")
    after = do(keyed, "confirm", item=key(cumin), fields=["amount", "text"])
    assert fields_by_reviewer(line(after.draft, "cumin").said) == ["amount"]
    assert line(after.draft, "cumin").amount == cumin.amount
    assert after.words == "confirmed cumin"
    done = do(keyed, "confirm", item=key(keyed.dishes[0].method[0]), fields=["text"]).draft
    assert fields_by_reviewer(done.dishes[0].method[0].said) == ["text"]
    with pytest.raises(Gone):
        do(keyed, "confirm", item="k9999", fields=["name"])


def test_the_batch_of_a_part_alone_is_corrected(keyed: RecipeDraft) -> None:
    part = keyed.dishes[0].components[0]
    after = do(keyed, "set part", part=key(part), batch="triple").draft.dishes[0].components[0]
    assert after.batch is not None
    assert (after.name, after.batch.factor, after.batch.said[-1].by) == (part.name, 3, "reviewer")
    cleared = do(keyed, "set part", part=key(part), batch="1").draft.dishes[0].components[0]
    assert cleared.batch is None


def test_a_dish_never_ends_before_it_begins() -> None:
    with pytest.raises(CardwrightError, match="before it begins"):
        do(two_dishes(), "set dish", dish="cake", end="1:00")
    with pytest.raises(CardwrightError, match="no time left"):
        do(two_dishes(), "set dish", dish="soup", end="5:00")


def answered(draft: RecipeDraft, name: str) -> str | None:
    return next(one.answer for dish in draft.dishes for one in dish.questions if key(one) == name)


def test_an_answer_becomes_the_value_of_its_line(keyed: RecipeDraft) -> None:
    asked = ask(keyed, "two amounts", "sugar")
    after = do(keyed, "answer", question=asked, text="1/4 tsp").draft
    sugar = line(after, "sugar")
    assert sugar.amount is not None
    assert (sugar.amount.low, sugar.amount.unit) == (0.25, "teaspoon")
    assert [one.text for one in sugar.said if getattr(one, "by", "") == "reviewer"] == ["1/4 tsp"]
    assert answered(after, asked) == "1/4 tsp"


def test_the_size_of_a_can_is_put_on_its_amount(keyed: RecipeDraft) -> None:
    asked = ask(keyed, "size missing", "black beans")
    beans = line(do(keyed, "answer", question=asked, text="15 oz").draft, "black beans")
    assert beans.amount is not None
    assert beans.amount.size is not None
    assert (beans.amount.size.low, beans.amount.size.unit) == (15, "ounce")


@pytest.mark.parametrize(
    ("text", "name"),
    [("yes", "all-purpose flour"), ("OK.", "all-purpose flour"), ("bread flour", "bread flour")],
)
def test_a_misheard_food_is_confirmed_or_named(keyed: RecipeDraft, text: str, name: str) -> None:
    asked = ask(keyed, "mended mishearing", "all-purpose flour")
    assert line(do(keyed, "answer", question=asked, text=text).draft, name).heard == ""


def test_a_bare_no_is_no_food_s_name(keyed: RecipeDraft) -> None:
    asked = ask(keyed, "mended mishearing", "all-purpose flour")
    after = do(keyed, "answer", question=asked, text="no").draft
    assert line(after, "all-purpose flour") == line(keyed, "all-purpose flour")


def test_an_answer_that_is_no_value_stands_with_its_question(keyed: RecipeDraft) -> None:
    asked = ask(keyed, "two amounts", "sugar")
    after = do(keyed, "answer", question=asked, text="as much as it takes").draft
    assert line(after, "sugar").amount == line(keyed, "sugar").amount
    assert answered(after, asked) == "as much as it takes"
    again = do(after, "answer", question=asked, text="").draft
    assert answered(again, asked) is None


def test_the_mark_holds_until_anything_changes(keyed: RecipeDraft) -> None:
    from extract.review.mark import mark_of

    marked = do(keyed, "review", by="Ada Quill").draft
    mark = mark_of(marked.to_dict())
    assert mark == {"by": "Ada Quill", "at": "2026-05-04T12:00:00+00:00", "current": True}
    later = do(marked, "set dish", dish=key(marked.dishes[1]), title="Cake").draft
    assert mark_of(later.to_dict()) == {**mark, "current": False}
    assert mark_of(do(later, "review", clear=True).draft.to_dict()) is None
    with pytest.raises(CardwrightError, match="needs a name"):
        do(keyed, "review", by=" ")


@pytest.mark.parametrize(
    "data",
    [
        None,
        [],
        {},
        {"do": "burn it"},
        {"do": "set line"},
        {"do": "set line", "line": "k1", "amount": 3},
        {"do": "set line", "line": "k1", "colour": "red"},
        {"do": "cut dish", "dish": "k1", "at": float("nan")},
        {"do": "move step", "step": "k1", "at": -1},
        {"do": "set step", "step": "k1", "text": "x" * 5000},
        {"do": "add line", "part": "k1", "said": {"cue": "one"}},
    ],
)
def test_what_is_no_edit_is_refused_with_its_place(data: Any) -> None:
    with pytest.raises(CardwrightError, match="this is no edit: "):
        read_edit(data)


@pytest.mark.parametrize(
    ("spans", "start", "end", "left"),
    [
        ([(0, 10)], 3, 5, [(0, 3), (5, 10)]),
        ([(0, 10)], 0, 10, []),
        ([(0, 4), (6, 9)], 3, 7, [(0, 3), (7, 9)]),
        ([(0, 4)], 5, 6, [(0, 4)]),
    ],
)
def test_stretches_less_a_time(spans: Any, start: float, end: float, left: Any) -> None:
    assert without(spans, start, end) == left
    assert joined([*left, (start, end)]) == joined([*spans, (start, end)])
