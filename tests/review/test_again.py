"""A show drafted again: the reviewer's values stay, and what changed under them is told."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from conftest import SHOW, key, read, reopened

from extract.drafts import save_draft
from extract.model import Amount, Evidence, Ingredient, RecipeDraft
from extract.pipeline import draft_transcript
from extract.review.keeping.desk import Desk
from extract.transcript import read_transcript


def line(draft: RecipeDraft, name: str) -> Ingredient | None:
    lines = [one for dish in draft.dishes for part in dish.components for one in part.ingredients]
    return next((one for one in lines if one.name == name), None)


def act(desk: Desk, what: str, **fields: Any) -> None:
    desk.edit({"do": what, **fields}, desk.number, "w", "Ada")


def found(draft: RecipeDraft, name: str) -> Ingredient:
    one = line(draft, name)
    assert one is not None
    return one


def told(desk: Desk) -> dict[str, str]:
    return {note["about"]: note["text"] for note in desk.journal.entries[-1].notes}


@pytest.fixture
def new(drafted: RecipeDraft) -> RecipeDraft:
    """The show drafted again, otherwise in some places."""
    copy = drafted.model_copy(deep=True)
    copy.source.sha256 = "0" * 64
    return copy


def test_nothing_changed_under_an_untouched_draft(desk: Desk, new: RecipeDraft) -> None:
    before = desk.state
    desk.again(new, "Ada")
    assert told(desk) == {}
    assert {**desk.state, "source": None} == {**before, "source": None}
    assert desk.state["source"]["sha256"] == "0" * 64


def test_a_corrected_amount_stays_and_a_new_one_below_it_is_told(desk: Desk, new: RecipeDraft) -> None:
    act(desk, "set line", line=key(found(desk.draft, "cumin")), amount="3 tsp")
    found(new, "cumin").amount = Amount(low=4, high=4, unit="teaspoon")
    found(new, "smoked paprika").amount = Amount(low=1, high=1, unit="teaspoon")
    desk.again(new, "Ada")
    cumin, paprika = (found(desk.draft, name).amount for name in ("cumin", "smoked paprika"))
    assert cumin is not None
    assert paprika is not None
    assert (cumin.low, paprika.low) == (3, 1)
    assert told(desk) == {
        "cumin": "amount: the new draft has 4 teaspoon, before it had 2 teaspoon; yours stays"
    }


def test_what_was_taken_out_stays_out_and_what_was_added_stays(desk: Desk, new: RecipeDraft) -> None:
    part = desk.draft.dishes[0].components[0]
    act(desk, "remove line", line=key(found(desk.draft, "jalapeno")))
    act(desk, "add line", part=key(part), after=key(part.ingredients[0]), text="1 tsp thyme")
    desk.again(new, "Ada")
    assert line(desk.draft, "jalapeno") is None
    assert [one.name for one in desk.draft.dishes[0].components[0].ingredients][:2] == [
        "sweet potatoes",
        "thyme",
    ]


def test_a_line_that_only_the_new_draft_has_is_put_where_it_belongs_and_told(
    desk: Desk, new: RecipeDraft
) -> None:
    said = [Evidence(cue=34, start=133.0, end=135.0, text="a stick of celery")]
    new.dishes[0].components[0].ingredients.insert(2, Ingredient(name="celery", said=said))
    desk.again(new, "Ada")
    assert [one.name for one in desk.draft.dishes[0].components[0].ingredients][1:3] == [
        "yellow onion",
        "celery",
    ]
    assert told(desk)["celery"] == "is new in this draft"


def test_a_line_that_the_new_draft_lost_goes_unless_the_reviewer_worked_on_it(
    desk: Desk, new: RecipeDraft
) -> None:
    act(desk, "set line", line=key(found(desk.draft, "cumin")), amount="3 tsp")
    lines = new.dishes[0].components[0].ingredients
    lines[:] = [one for one in lines if one.name not in ("cumin", "jalapeno")]
    desk.again(new, "Ada")
    assert line(desk.draft, "jalapeno") is None
    assert found(desk.draft, "cumin").amount is not None
    assert told(desk) == {"cumin": "is no longer in the new draft; yours is kept"}


def test_a_line_moved_to_another_part_stays_there(desk: Desk, new: RecipeDraft) -> None:
    target = desk.draft.dishes[0].components[1]
    act(desk, "move line", line=key(found(desk.draft, "cumin")), part=key(target), at=0)
    found(new, "cumin").preparation = "ground"
    desk.again(new, "Ada")
    first = desk.draft.dishes[0].components[1].ingredients[0]
    assert (first.name, first.preparation) == ("cumin", "ground")


def test_dishes_that_were_joined_stay_joined(desk: Desk, new: RecipeDraft) -> None:
    act(desk, "join dish", dish=key(desk.draft.dishes[0]))
    count = sum(len(part.ingredients) for part in desk.draft.dishes[0].components)
    new.dishes[1].components[0].ingredients.append(
        Ingredient(name="cloves", said=[Evidence(cue=120, start=470, end=471, text="ground cloves")])
    )
    desk.again(new, "Ada")
    (dish,) = desk.draft.dishes
    assert sum(len(part.ingredients) for part in dish.components) == count + 1


def test_a_dish_that_was_left_out_stays_out(desk: Desk, new: RecipeDraft) -> None:
    act(desk, "drop dish", dish=key(desk.draft.dishes[1]))
    new.dishes[1].title = "Ginger loaf"
    desk.again(new, "Ada")
    assert [dish.title for dish in desk.draft.dishes] == [new.dishes[0].title]


def test_answers_stay_and_the_whole_can_be_undone_and_done_again(
    desk: Desk, new: RecipeDraft, path: Path
) -> None:
    asked = desk.draft.dishes[0].questions[0]
    act(desk, "answer", question=key(asked), text="as the cook likes")
    before = desk.state
    new.dishes[0].title = "Hand pies"
    desk.again(new, "Ada")
    assert desk.draft.dishes[0].title == "Hand pies"
    answers = [one.answer for one in desk.draft.dishes[0].questions if one.text == asked.text]
    assert answers == ["as the cook likes"]
    desk.undo(desk.number, "w", "Ada")
    assert desk.state == before
    desk.redo(desk.number, "w", "Ada")
    assert reopened(path).draft.dishes[0].title == "Hand pies"


def test_a_third_draft_is_held_against_the_second(desk: Desk, new: RecipeDraft) -> None:
    act(desk, "set line", line=key(found(desk.draft, "cumin")), amount="3 tsp")
    found(new, "cumin").amount = Amount(low=4, high=4, unit="teaspoon")
    desk.again(new, "Ada")
    desk.again(new.model_copy(deep=True), "Ada")
    assert told(desk) == {}
    cumin = found(desk.draft, "cumin").amount
    assert cumin is not None
    assert cumin.low == 3


def test_a_draft_written_anew_over_the_file_is_taken_in_the_same_way(
    desk: Desk, new: RecipeDraft, path: Path
) -> None:
    """``cardwright draft --replace`` while the page is open: no reviewer's value is lost."""
    act(desk, "set line", line=key(found(desk.draft, "cumin")), amount="3 tsp")
    found(new, "smoked paprika").preparation = "sweet"
    save_draft(path, new)
    assert desk.look("") is True
    assert found(read(path), "smoked paprika").preparation == "sweet"
    cumin = found(read(path), "cumin").amount
    assert cumin is not None
    assert cumin.low == 3


def test_a_corrected_transcript_is_drafted_again_with_all_edits_kept(folder: Path, path: Path) -> None:
    """The real program on a really corrected transcript."""
    transcript = folder / SHOW.name
    save_draft(path, draft_transcript(read_transcript(transcript)))
    desk = reopened(path)
    act(desk, "set line", line=key(found(desk.draft, "garlic")), amount="5 cloves")
    act(desk, "set dish", dish=key(desk.draft.dishes[0]), title="Hand pies")
    text = transcript.read_text(encoding="utf-8")
    corrected = text.replace("three cloves", "four cloves").replace("three\ncloves", "four\ncloves")
    corrected = corrected.replace("Five cups", "Six cups").replace("Five\ncups", "Six\ncups")
    transcript.write_text(corrected, encoding="utf-8")
    desk.again(draft_transcript(read_transcript(transcript)), "Ada")
    garlic, flour = (found(desk.draft, name).amount for name in ("garlic", "all-purpose flour"))
    assert garlic is not None
    assert flour is not None
    assert (garlic.low, flour.low, desk.draft.dishes[0].title) == (5, 6, "Hand pies")
    assert json.loads(path.read_text())["source"]["sha256"] == read_transcript(transcript).sha256
