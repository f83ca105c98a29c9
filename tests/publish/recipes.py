"""Drafts for the tests of publishing: one of a few lines with everything in it, and hostile texts."""

from __future__ import annotations

from typing import Any

from hypothesis import strategies as st

from extract.model import RecipeDraft
from extract.publish.building import recipes_of
from extract.publish.recipe import Edition, Recipe
from extract.publish.writers import writer_for

MEDIA = "https://video.example/show.mp4"
# Markup, arrows, quotes, both directions of writing, emoji with joiners, figures that look like lists.
HOSTILE = (
    "<script>alert('x')</script> & \"quotes\" </script><!--",
    "a --> b ]]> {{ 7 * 7 }} {% raw %}",
    "1. not a *list* _item_ `code` [link](javascript:x) # | ~",
    "חלה עם שומשום and كعك التمر",
    "pie 👩‍🍳🏴󠁧󠁢󠁳󠁣󠁴󠁿 👨‍👩‍👧",
    "\u202eeip\u202c dna \u2066x",
    "=SUM(A1) \x00\x07\x1b[31m \ud800 line\nbreak\u2028two",
)
texts = st.one_of(st.sampled_from(HOSTILE), st.text(max_size=40))


def said(start: float, text: str = "words") -> list[dict[str, Any]]:
    return [{"cue": 0, "start": start, "end": start + 3, "text": text}]


def line(
    name: str, low: float | None = None, unit: str = "", start: float = 30, **more: Any
) -> dict[str, Any]:
    amount = None if low is None else {"low": low, "high": more.pop("high", low), "unit": unit}
    return {"name": name, "amount": amount, "said": said(start), **more}


def pie(**more: Any) -> dict[str, Any]:
    """A dish in the form of a draft: two parts, a share, both ways of telling a time, equipment."""
    return {
        "title": "Leek and barley pie",
        "start": 20,
        "end": 400,
        "yield": {"low": 4, "high": 6, "unit": "servings", "said": said(40)},
        "components": [
            {
                "name": "",
                "ingredients": [
                    line("leek", 2, start=31, preparation="sliced", alternatives=["onion"]),
                    line("stock", 1.5, "cup", start=45, note="corrected on camera; first said: two cups"),
                    line("salt", start=60),
                ],
            },
            {
                "name": "pastry",
                "ingredients": [
                    line("flour", 225, "gram", start=90),
                    line("butter", 4, "ounce", start=95, divided=True, note="divided; from the freezer"),
                    line("sesame seeds", start=99, optional=True),
                ],
                "portions": [
                    {"fraction": 0.5, "of": "pastry", "into": "the tin", "grams": 180, "said": said(200)}
                ],
            },
        ],
        "method": [
            step("Slice the leeks and simmer them in the stock for 20 minutes.", 100, "", minutes=20),
            step("Rub the butter into the flour.", 150, "pastry", notes=["Keep it cold.", "Inferred: cold."]),
            step("Bake the pie at 400 °F (200 °C) for 40 minutes.", 300, "", minutes=40, oven=400),
        ],
        "equipment": ["rolling pin"],
        "times": {"preparation": "PT20M", "cooking": "PT1H", "total": "PT1H20M", "at_least": False},
        **more,
    }


def salad(**more: Any) -> dict[str, Any]:
    """A dish of which nothing has to be asked and no caution is due: leek, stock and salt, no method."""
    return pie(**{"components": pie()["components"][:1], "method": [], **more})


def step(
    text: str,
    start: float,
    part: str,
    *,
    minutes: float | None = None,
    oven: float | None = None,
    **more: Any,
) -> dict[str, Any]:
    action: dict[str, Any] = {"verb": text.split()[0].lower(), "said": said(start)}
    if minutes is not None:
        action["duration"] = {"low": minutes, "high": minutes, "unit": "minute"}
    if oven is not None:
        action["heat"] = {"kind": "oven", "low": oven, "high": oven, "unit": "degF", "text": str(oven)}
    return {"text": text, "component": part, "actions": [action], "said": said(start), **more}


def draft(*dishes: dict[str, Any], timed: bool = True, **more: Any) -> RecipeDraft:
    """A reviewed draft of the dishes; of the pie where none is given."""
    source = {"file": "pie-show.vtt", "sha256": "0" * 64, "end": 500, "timed": timed}
    fields: dict[str, Any] = {
        "reviewed": {"by": "M. Abara", "at": "2026-05-04T16:20:00+00:00"},
        "measures": "us",
    }
    fields.update(more)
    return RecipeDraft.model_validate({"source": source, "dishes": list(dishes) or [pie()], **fields})


def hostile(text: str) -> RecipeDraft:
    """The pie with ``text`` in every place where a draft may hold words."""
    dish = pie(title=text, equipment=[text], questions=[{"kind": "x", "about": text, "text": text}])
    dish["components"][0]["ingredients"] = [
        line(f"leek {text}", 2, preparation=text, alternatives=[text], note=text),
        line("stock", 1.5, text),
    ]
    dish["components"][1]["name"] = text
    dish["components"][1]["portions"][0].update(of=text, into=text)
    dish["method"] = [step(f"Stir {text}", 100, text, notes=[text]), step("Serve.", 120, "")]
    return draft(dish)


def recipe(**more: Any) -> Recipe:
    return recipes_of(draft(pie(**more)))[0]


def written(kind: str, found: RecipeDraft | Recipe, media_url: str = "") -> str:
    """What a form makes of the recipe (of a draft's first)."""
    one = recipes_of(found)[0] if isinstance(found, RecipeDraft) else found
    made = writer_for(kind).write(Edition((one,), media_url))
    assert isinstance(made, str)
    return made
