"""What lies beside a draft: its transcript, its recording; what the page is told; the talk it becomes."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from conftest import ROOT, SHOW, WRITTEN, key, write_sound

from extract.errors import CardwrightError
from extract.model import Component, Ingredient, RecipeDraft
from extract.reader.labels import ROLES
from extract.reader.training.form import AnnotatedTalk, read_annotated
from extract.review.keeping.desk import Desk
from extract.review.shown.hearing import UNSURE, Hearing, hear
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


@pytest.fixture(scope="module")
def hearing() -> Hearing:
    return hear(SHOW)


def line_of(name: str, words: str, cue: int, amount: float | None = None) -> Ingredient:
    given = {"name": name, "said": [{"cue": cue, "start": 0, "end": 0, "text": words}]}
    return Ingredient.model_validate({**given, "amount": amount and {"low": amount, "high": amount}})


def test_values_the_reader_was_less_sure_of_are_told(desk: Desk, hearing: Hearing) -> None:
    """Of a food that is put in and measured it is sure; of the same words as no food, or unmeasured, it is not."""
    flour = next(cue.index for cue in hearing.cues if "Five cups of" in cue.text)
    jokes = next(cue.index for cue in hearing.cues if "softball team" in cue.text)
    said = "Five cups of all-purpose flower"
    assert (hearing.food(line_of("flour", said, flour, 5)) or 0) > 0.9
    assert (hearing.amount(line_of("flour", said, flour, 5)) or 0) > 0.9
    assert (hearing.amount(line_of("flour", said, flour)) or 0) < UNSURE
    assert (hearing.food(line_of("team", "softball team", jokes)) or 0) < UNSURE
    assert hearing.food(line_of("flour", "words that nobody said", flour)) is None
    part = desk.draft.dishes[0].components[0]
    wrong = line_of("team", "softball team", jokes)
    wrong.model_extra["key"] = "k999"  # type: ignore[index]
    part.ingredients.append(wrong)
    told = hearing.unsure(desk.draft)
    assert "name" in told["k999"]
    assert len(told) < 0.3 * sum(
        len(one.ingredients) + len(d.method) for d in desk.draft.dishes for one in d.components
    )


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


def check_form(text: str, path: Path) -> AnnotatedTalk:
    """Hold a talk against the form as the training reads it: roles, dishes and notes are of the closed lists."""
    path.write_text(text, encoding="utf-8")
    talk = read_annotated(path)
    for spoken in talk.sentences:
        assert spoken.role in ROLES
        assert (spoken.dish == "-") == (spoken.role in {"hi", "tease", "visit", "break", "bye", "junk"})
        assert spoken.dish in {"-", *talk.dishes}
        for note in spoken.notes:
            assert spoken.dish != "-"
            assert re.fullmatch(NOTES[note.sign], " | ".join(note.cells)), note
    for letter in talk.dishes:
        inside = [spoken for spoken in talk.sentences if spoken.dish == letter]
        assert {"do", "need"} & {spoken.role for spoken in inside}
        assert any(note.sign == "+" for spoken in inside for note in spoken.notes)
    return talk


FIGURES = r"~?\d+(?:\.\d+)?(?:-\d+(?:\.\d+)?)?"
NOTES = {
    "+": rf"(\?|{FIGURES}) \| [a-z_]* \| [^|]+( \| [^|]*){{0,2}}",
    "%": rf"(rest|some|all|{FIGURES}) \| [^|]+",
    "^": r"(oven|hob|oil|internal|other) \| [^|]+ \| ?(degC|degF|gas_mark)?",
    "~": rf"{FIGURES} \| (second|minute|hour|day) \| [^|]+",
    "=": rf"(yield|batch) \| {FIGURES}( \| [^|]+)?",
}


def test_a_reviewed_draft_becomes_a_talk_in_its_form(desk: Desk, hearing: Hearing, tmp_path: Path) -> None:
    cumin = next(o for p in desk.draft.dishes[0].components for o in p.ingredients if o.name == "cumin")
    desk.edit({"do": "set line", "line": key(cumin), "amount": "3 tsp"}, 0, "w", "Ada")
    hello = {
        "do": "leave out",
        "dish": key(desk.draft.dishes[0]),
        "start": 0,
        "end": 15,
        "reason": "greeting",
    }
    desk.edit(hello, 1, "w", "Ada")
    text = talk_text(desk.draft, hearing, "harvest-supper")
    talk = check_form(text, tmp_path / "out.talk")
    assert text.splitlines()[:2] == ["id: harvest-supper", "style: reviewed draft"]
    assert talk.dishes["A"] == "Sweet Potato and Black Bean Hand Pies"
    whole = " ".join(" ".join(cue.text for cue in hearing.cues).split())
    assert " ".join(spoken.text for spoken in talk.sentences) == whole
    assert "  + 3 | teaspoon | cumin | filling" in text.splitlines()
    role = {spoken.text: spoken.role for spoken in talk.sentences}
    assert role["It is."] == "hi"  # the greeting
    assert role["I've a cousin who does this in a food processor and we pray for him."] == "tale"
    dough = next(spoken for spoken in talk.sentences if spoken.text.startswith("Five cups of all-purpose"))
    assert (dough.role, len(dough.notes)) == ("do", 3)
    assert ["batch", "2"] in [note.cells for spoken in talk.sentences for note in spoken.notes]
    dish = desk.draft.dishes[0].model_copy(deep=True)
    dish.components[0].batch, dish.batch = dish.batch, None
    part = desk.draft.model_copy(update={"dishes": [dish]})
    assert f"  = batch | 2 | {dish.components[0].name}" in talk_text(part, hearing, "x").splitlines()


def test_what_nobody_said_is_in_no_talk(desk: Desk, hearing: Hearing, tmp_path: Path) -> None:
    """A line that the reviewer typed, and a dish that holds such lines alone."""
    draft = desk.draft.model_copy(deep=True)
    typed = Ingredient.model_validate(
        {
            "name": "saffron",
            "said": [{"cue": -1, "start": 30, "end": 30, "text": "saffron", "by": "reviewer"}],
        }
    )
    draft.dishes[0].components[0].ingredients.append(typed)
    draft.dishes[1].components = [Component(ingredients=[typed])]
    talk = check_form(talk_text(draft, hearing, "x"), tmp_path / "x.talk")
    assert list(talk.dishes) == ["A"]
    assert "saffron" not in (tmp_path / "x.talk").read_text(encoding="utf-8")


def test_a_stamped_talk_is_learned_from(tmp_path: Path) -> None:
    """A cue holds many sentences there. The training finds the words of nearly every line that was written."""
    from extract.language import load_model
    from extract.pipeline import draft_transcript
    from extract.reader.training.labels import label

    path = ROOT / "samples" / "market-kitchen.txt"
    draft = draft_transcript(read_transcript(path))
    talk = check_form(talk_text(draft, hear(path), "market-kitchen"), tmp_path / "market.talk")
    drafted = sum(len(part.ingredients) for dish in draft.dishes for part in dish.components)
    written = sum(note.sign == "+" for spoken in talk.sentences for note in spoken.notes)
    assert written >= 0.9 * drafted
    assert len(label(talk, load_model(), "captions")["lines"]) >= 0.9 * written
