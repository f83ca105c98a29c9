"""Every form that is a recipe, read again and held against its own draft: nothing may differ.

The drafts are those of the samples, of every invented show and of a few talks, as the program makes them; the few are
published at other sizes and in other measures too. ``test_shared_published.py`` does the same with many more.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from drafted import SAMPLES, TALKS, drafted, drafted_talk
from publishing import FORMS, SIZES, disagreements, published
from recipes import draft, pie, recipe, step

from extract.check.checking import check
from extract.check.written import read_written

# By cooks of five kitchens: cans, sticks, batches and spoons of 15 and of 20 ml among them.
SPREAD = ("aa-dorm", "a-outport", "l-voiddeck", "q-tempeh")


@pytest.mark.parametrize("name", sorted(TALKS))
def test_what_is_published_of_a_show_agrees_with_its_draft(name: str, tmp_path: Path) -> None:
    found = drafted(name)
    assert found.dishes
    assert disagreements(found, FORMS, tmp_path) == []


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("name", [*SAMPLES, *SPREAD])
def test_what_is_published_at_another_size_agrees_with_its_draft(
    name: str, size: str, tmp_path: Path
) -> None:
    found = SIZES[size](drafted(name) if name in SAMPLES else drafted_talk(name))
    assert found.dishes
    assert disagreements(found, ("text", "jsonld"), tmp_path) == []


CHANGES = {
    "an amount": ("1 1/2 cups", "2 1/2 cups", "amount"),
    "a time": ("40 minutes", "55 minutes", "time"),
    "a heat": ("400 °F (200 °C)", "450 °F (230 °C)", "temperature"),
    "a food": ("- salt\n", "", "missing"),
    "a yield": ("4–6", "8", "yield"),
}


@pytest.mark.parametrize("change", CHANGES)
def test_a_change_of_the_published_text_is_still_found(change: str, tmp_path: Path) -> None:
    """The agreement above is no blindness: one figure changed, and it is told."""
    old, new, kind = CHANGES[change]
    found = draft()
    path = published(found, 0, "text", tmp_path)
    assert check(found, read_written(path))[0].differences == []
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")
    assert kind in [each.kind for each in check(found, read_written(path))[0].differences]


def test_a_figure_that_a_person_wrote_into_the_drafts_own_step_is_told(tmp_path: Path) -> None:
    """The step stands word for word in the draft, but nobody said the time in it."""
    method = pie()["method"]
    method[2]["text"] = method[2]["text"].replace("40 minutes", "55 minutes")
    found = draft(pie(method=method))
    told = check(found, read_written(published(found, 0, "markdown", tmp_path)))[0].differences
    assert [(each.kind, each.written) for each in told] == [("time", "55 minutes")]


def test_a_step_that_was_moved_is_told(tmp_path: Path) -> None:
    """Two steps of the draft's own in another order."""
    method = [
        step("Fry the leek in the pan for 10 minutes.", 100, "", minutes=10),
        step("Pour in the stock and simmer the leek for 20 minutes.", 130, "", minutes=20),
    ]
    method[0]["actions"][0].update(verb="fry", objects=["leek"], place=["pan"])
    method[1]["actions"][0].update(verb="simmer", objects=["leek", "stock"])
    found = draft(pie(method=method, components=pie()["components"][:1], times=None))
    path = published(found, 0, "text", tmp_path)
    first, second = (each["text"] for each in method)
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace(first, "X").replace(second, first).replace("X", second), encoding="utf-8")
    assert "order" in [each.kind for each in check(found, read_written(path))[0].differences]


def test_the_pie_reads_as_it_is(tmp_path: Path) -> None:
    assert recipe().lines
    assert disagreements(draft(), FORMS, tmp_path) == []
