"""What lies beside a draft: its transcript, its recording; what the page is told; the talk it becomes."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from conftest import ROOT, SHOW, WRITTEN, key, write_sound

from extract.errors import CardwrightError
from extract.model import Ingredient, RecipeDraft
from extract.review.keeping.desk import Desk
from extract.review.shown.preview import WrittenSide, page_html
from extract.review.shown.sources import find_media, find_talk
from extract.review.shown.talk import talk_text
from extract.review.shown.view import view
from extract.transcript import read_transcript


def test_the_transcript_is_found_beside_the_draft_or_a_folder_above(
    folder: Path, drafted: RecipeDraft
) -> None:
    assert find_talk(folder / "x.draft.json", drafted, None).path == folder / SHOW.name
    (folder / "drafts").mkdir()
    talk = find_talk(folder / "drafts" / "x.draft.json", drafted, None)
    assert talk.path is not None
    assert talk.path.samefile(folder / SHOW.name)
    assert (talk.note, talk.changed) == ("", False)


def test_without_a_transcript_the_words_of_the_evidence_are_shown_and_it_is_said_so(
    tmp_path: Path, drafted: RecipeDraft
) -> None:
    talk = find_talk(tmp_path / "x.draft.json", drafted, None)
    assert talk.path is None
    assert "harvest-supper.vtt was not found" in talk.note
    assert "--transcript" in talk.note
    whole = {cue.index: cue.text for cue in read_transcript(SHOW).cues}
    assert len(talk.cues) > 50
    assert [cue.index for cue in talk.cues] == sorted({cue.index for cue in talk.cues})
    said = " ".join(cue.text for cue in talk.cues)
    assert "three cloves of" in said
    assert set(talk.cues[0].text.split()) <= set(whole[talk.cues[0].index].split()) | {"…"}


def test_a_transcript_that_was_corrected_since_is_told(folder: Path, drafted: RecipeDraft) -> None:
    transcript = folder / SHOW.name
    transcript.write_text(
        transcript.read_text(encoding="utf-8").replace("cumin", "caraway"), encoding="utf-8"
    )
    talk = find_talk(folder / "x.draft.json", drafted, None)
    assert talk.changed
    assert "not as it was" in talk.note


def test_the_recording_is_found_by_name_and_nothing_else_is_taken_for_it(
    folder: Path, drafted: RecipeDraft
) -> None:
    draft = folder / "harvest-supper.draft.json"
    talk = find_talk(draft, drafted, None)
    assert find_media(draft, talk, None) is None
    write_sound(folder / "other.wav", 1)
    assert find_media(draft, talk, None) is None
    write_sound(folder / "harvest-supper.wav", 1)
    assert find_media(draft, talk, None) == folder.resolve() / "harvest-supper.wav"
    with pytest.raises(CardwrightError, match="no such recording"):
        find_media(draft, talk, folder / "none.mp4")
    with pytest.raises(CardwrightError, match="neither a video nor a sound"):
        find_media(draft, talk, folder / SHOW.name)


def test_values_the_reader_was_less_sure_of_are_told(desk: Desk) -> None:
    lines = desk.draft.dishes[0].components[0].ingredients
    for line, sure in zip(lines, (0.2, 0.95, "low", None, True, 0), strict=False):
        assert line.model_extra is not None
        line.model_extra["sure"] = sure
    shown = view(desk)["dishes"][0]["parts"][0]["lines"]
    assert [line["unsure"] for line in shown[:6]] == [True, False, False, False, False, True]


def test_a_window_is_told_only_of_the_dishes_that_changed(desk: Desk) -> None:
    edit = {"do": "set dish", "dish": key(desk.draft.dishes[1]), "title": "Cake"}
    desk.edit(edit, 0, "w", "Ada")
    first, second = view(desk, since=0)["dishes"]
    assert set(first) == {"key"}
    assert second["title"] == "Cake"
    assert all("parts" in dish for dish in view(desk)["dishes"])


def test_text_of_the_talk_is_never_markup_on_the_page(drafted: RecipeDraft) -> None:
    draft = drafted.model_copy(deep=True)
    evil = "<img src=x onerror=alert(1)> [go](http://elsewhere.invalid) ![p](http://elsewhere.invalid/p.png) <script>"
    draft.dishes[0].title = evil
    draft.dishes[0].components[0].ingredients.insert(0, Ingredient(name=evil))
    draft.dishes[0].method[0].text = f"{evil} `code` [x]: javascript:alert(1)"
    html = page_html(draft, 0)
    assert set(re.findall(r"<([a-z0-9]+)", html)) <= {
        "h2",
        "h3",
        "h4",
        "ul",
        "ol",
        "li",
        "p",
        "a",
        "strong",
        "em",
        "code",
        "blockquote",
    }
    assert {href.partition("=")[0] for href in re.findall(r'href="([^"]*)"', html)} == {"#t"}


def test_the_written_version_is_held_against_the_draft(drafted: RecipeDraft) -> None:
    rows = WrittenSide(WRITTEN).differences(drafted)
    assert len(rows) > 5
    assert {"about", "said", "written", "weight", "start"} <= set(rows[0])
    other = RecipeDraft(source=drafted.source, dishes=[])
    assert "no dish of the draft" in WrittenSide(WRITTEN).differences(other)[0]["weight"]


FIGURES = r"~?\d+(?:\.\d+)?(?:-\d+(?:\.\d+)?)?"
NOTES = {
    "+": rf"(\?|{FIGURES}) \| [a-z_]* \| [^|]+( \| [^|]*){{0,2}}",
    "%": rf"(rest|some|all|{FIGURES}) \| [^|]+",
    "^": r"(oven|hob|oil|internal|other) \| [^|]+ \|( (degC|degF|gas_mark))?",
    "~": rf"{FIGURES} \| (second|minute|hour|day) \| [^|]+",
    "=": rf"(yield|batch) \| {FIGURES}( \| [^|]+)?",
}
ROLES = {"hi", "tease", "need", "do", "tale", "visit", "bye", "break"}


def test_a_reviewed_draft_becomes_a_talk_in_its_form(desk: Desk) -> None:
    cumin = next(o for p in desk.draft.dishes[0].components for o in p.ingredients if o.name == "cumin")
    desk.edit({"do": "set line", "line": key(cumin), "amount": "3 tsp"}, 0, "w", "Ada")
    cues = read_transcript(SHOW).cues
    text = talk_text(desk.draft, cues, "harvest-supper")
    head, body = text.split("---\n")
    assert head.splitlines()[:2] == ["id: harvest-supper", "style: reviewed draft"]
    assert "dish A: Sweet Potato and Black Bean Hand Pies" in head
    spoken = []
    for row in body.splitlines():
        if row.startswith("  "):
            sign, _, rest = row.strip().partition(" ")
            assert re.fullmatch(NOTES[sign], rest), row
        else:
            role, dish, words = row.split(" ", 2)
            assert role in ROLES
            assert (dish == "-") == (role in {"hi", "visit", "bye", "break"}) or role in {"tale", "tease"}
            spoken.append(words)
    assert " ".join(spoken) == " ".join(" ".join(cue.text for cue in cues).split())
    assert "  + 3 | teaspoon | cumin | filling" in body.splitlines()
    assert (
        "do A Five cups of all-purpose flower, two teaspoons of kosher salt and a tablespoon of baking powder."
        in body
    )


def test_every_sample_becomes_a_talk(drafted: RecipeDraft) -> None:
    """Also stamped text, in which a cue holds many sentences."""
    from extract.pipeline import draft_transcript

    transcript = read_transcript(ROOT / "samples" / "market-kitchen.txt")
    text = talk_text(draft_transcript(transcript), transcript.cues, "market-kitchen")
    lines = [row for row in text.splitlines() if row.startswith("  + ")]
    assert len(lines) > 20
