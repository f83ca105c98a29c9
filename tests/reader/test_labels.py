"""Where the words of a note are found: the label that each word of a talk gets for it."""

from __future__ import annotations

from pathlib import Path

import pytest

from extract.language import load_model
from extract.reader.labels import FIGURES, THINGS
from extract.reader.training.form import read_annotated
from extract.reader.training.labels import label

HEAD = "id: probe\nstyle: home\ndish A: fritters\n---\n"


def labelled(tmp_path: Path, body: str) -> dict[str, list[tuple[int, str]]]:
    """Each tag with the places and words that got it."""
    path = tmp_path / "probe.talk"
    path.write_text(HEAD + body, encoding="utf-8")
    record = label(read_annotated(path), load_model(), "captions")
    found: dict[str, list[tuple[int, str]]] = {}
    for names, tags in ((FIGURES, record["figures"]), (THINGS, record["things"])):
        for place, (tag, word) in enumerate(zip(tags, record["words"], strict=True)):
            if tag:
                found.setdefault(names[tag], []).append((place, word))
    return found


@pytest.mark.parametrize(
    ("body", "tag", "wanted"),
    [
        pytest.param(
            "do A Half of the glaze goes on, and the other half waits.\n  % 0.5 | glaze\n  % 0.5 | glaze\n",
            "share part",
            [(0, "Half"), (10, "half")],
            id="two of a figure are two places",
        ),
        pytest.param(
            "do A Half a block of lard, and half of the sauce.\n  % 0.5 | sauce\n",
            "share part",
            [(7, "half")],
            id="the half that is of the thing",
        ),
        pytest.param(
            "do A Two thirds go in the tin, one third I keep.\n  % 0.33 | dough\n",
            "share part",
            [(8, "third")],
            id="one third is not two",
        ),
        pytest.param(
            "do A Cut the dough in six.\n  % 0.1667 | dough\n",
            "share part",
            [(4, "six")],
            id="one of so many parts",
        ),
        pytest.param(
            "do A Rest it a while, then the remaining batter.\n  % rest | batter\n",
            "share rest",
            [(7, "remaining")],
            id="to rest is no rest",
        ),
        pytest.param(
            "do A Keep the rest over hot water.\n  % rest | icing\n",
            "share rest",
            [(2, "rest")],
            id="the rest before what is kept",
        ),
        pytest.param(
            "do A Two cups of the broth and some salt.\n  % some | broth\n",
            "share some",
            [(4, "broth")],
            id="a measure of it stands at the thing",
        ),
        pytest.param(
            "do A Pour it over.\n  % all | brine\ndo A Then all the peas\n",
            "share all",
            [],
            id="all of something else beside it is not it",
        ),
        pytest.param(
            "need A I'd do half of this, but the pan holds a double.\n  = batch | 2\n",
            "batch",
            [(12, "double")],
            id="the multiple, not what to make of it",
        ),
        pytest.param(
            "need A That'll feed four. Four, or six who have eaten.\n  = yield | 4 | people\n",
            "yield",
            [(3, "four")],
            id="the first that tells it",
        ),
        pytest.param(
            "do A Five minutes, then five minutes more.\n  ~ 5 | minute | fry\n  ~ 5 | minute | fry\n",
            "time",
            [(0, "Five"), (1, "minutes"), (4, "five"), (5, "minutes")],
            id="two times of a length",
        ),
        pytest.param(
            "do A Small fire now, one hour.\n  ^ hob | low |\n",
            "heat hob",
            [(0, "Small"), (1, "fire")],
            id="a level in other words",
        ),
        pytest.param(
            "need A A cup of broth, beef or chicken.\n  + 1 | cup | chicken broth | | also=broth;alt=beef broth\n",
            "instead",
            [(5, "beef")],
            id="what alone tells the other from the food",
        ),
        pytest.param(
            "need A Two tomatoes. Tomatoes, well.\n  + 2 | | tomatoes | | alt=tinned tomatoes\n",
            "instead",
            [],
            id="the food itself is no stand-in",
        ),
    ],
)
def test_a_note_is_found_at_its_words(
    tmp_path: Path, body: str, tag: str, wanted: list[tuple[int, str]]
) -> None:
    assert labelled(tmp_path, body).get(tag, []) == wanted
