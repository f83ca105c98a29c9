"""``cardwright publish``: what is held back, what is written where, and what goes wrong."""

from __future__ import annotations

import importlib
import json
import re
import time
from datetime import UTC, datetime
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from recipes import MEDIA, draft, line, pie, said, salad, step

from extract.cli import cardwright
from extract.model import RecipeDraft
from extract.publish.building import recipes_of
from extract.publish.recipe import Edition
from extract.publish.writers import KINDS, kinds, writer_for
from extract.review.mark import set_reviewed

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")


def run(*words: str | Path) -> Result:
    return CliRunner().invoke(cardwright, ["publish", *map(str, words)])


@pytest.fixture
def pies(tmp_path: Path) -> Path:
    """A reviewed draft of two dishes with nothing open that must be answered."""
    return save(tmp_path, draft(salad(), salad(title="Plum tart", start=420, end=490)))


def save(folder: Path, found: RecipeDraft, name: str = "pies.draft.json") -> Path:
    path = folder / name
    path.write_text(found.to_json(), encoding="utf-8")
    return path


@pytest.mark.parametrize("kind", KINDS)
def test_every_form_is_written_whole(pies: Path, tmp_path: Path, kind: str) -> None:
    done = run(pies, "--as", kind, "--out", tmp_path / "out")
    assert done.exit_code == 0, done.output
    names = sorted(path.name for path in (tmp_path / "out").iterdir())
    suffix = writer_for(kind).suffix
    stems = {"dish": ["leek-and-barley-pie", "plum-tart"]}.get(writer_for(kind).each, ["pies"])
    assert names == [f"{stem}{suffix}" for stem in stems]
    assert all(path.stat().st_size > 40 for path in (tmp_path / "out").iterdir())


def test_what_nobody_reviewed_is_held_back(tmp_path: Path) -> None:
    path = save(tmp_path, draft(salad(), reviewed=None))
    done = run(path, "--as", "page", "--out", tmp_path / "out")
    assert done.exit_code == 1
    assert "nobody has reviewed" in done.stderr
    assert "--anyway" in done.stderr
    assert not (tmp_path / "out").exists()
    anyway = run(path, "--as", "markdown", "--anyway")
    assert anyway.exit_code == 0
    assert "Not reviewed" in anyway.stdout


def test_a_draft_that_was_changed_after_its_review_is_held_back(tmp_path: Path) -> None:
    """The mark that the review writes holds the digest of what was reviewed."""
    marked = set_reviewed(draft(salad(), reviewed=None), "M. Abara", datetime(2026, 5, 4, tzinfo=UTC))
    path = save(tmp_path, marked)
    assert run(path, "--as", "text").exit_code == 0
    marked.dishes[0].title = "Leek pie"
    save(tmp_path, marked)
    done = run(path, "--as", "text")
    assert done.exit_code == 1
    assert "changed after it was reviewed" in done.stderr
    assert "Changed after it was reviewed." in run(path, "--as", "text", "--anyway").stdout
    data = json.loads(run(path, "--as", "jsonld", "--anyway").stdout)
    assert data["creativeWorkStatus"] == "Draft"
    assert "dateModified" not in data


def test_an_open_question_that_must_be_answered_holds_a_dish_back(tmp_path: Path) -> None:
    asked = {"kind": "never made", "about": "sauce", "text": "How is the sauce made?", "said": said(40)}
    path = save(tmp_path, draft(salad(questions=[asked])))
    done = run(path, "--as", "text")
    assert done.exit_code == 1
    assert "How is the sauce made?" in done.stderr
    assert done.stdout == ""
    assert "have to be answered before this is published: 1." in run(path, "--as", "text", "--anyway").stdout
    answered = save(tmp_path, draft(salad(questions=[asked | {"answer": "bought"}])))
    assert run(answered, "--as", "text").exit_code == 0


def test_only_the_dish_that_is_asked_for_counts(tmp_path: Path) -> None:
    asked = {"kind": "never made", "about": "sauce", "text": "How is the sauce made?", "said": said(40)}
    path = save(tmp_path, draft(salad(questions=[asked]), salad(title="Plum tart")))
    done = run(path, "--as", "text", "--dish", "plum")
    assert done.exit_code == 0
    assert done.stdout.startswith("PLUM TART\n")


def test_a_whole_title_goes_before_a_part_of_another(tmp_path: Path) -> None:
    path = save(tmp_path, draft(salad(title="Plum tart"), salad(title="Tart")))
    assert run(path, "--as", "text", "--dish", "TART").stdout.startswith("TART\n")


def test_a_dish_that_is_not_there_is_told_with_those_that_are(pies: Path) -> None:
    done = run(pies, "--as", "text", "--dish", "soup")
    assert done.exit_code == 2
    assert '"Leek and barley pie", "Plum tart"' in done.stderr
    assert len(done.stderr.strip().splitlines()) == 1


def test_nothing_is_written_over_unasked(pies: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    out.mkdir()
    (out / "plum-tart.md").write_text("mine")
    done = run(pies, "--as", "markdown", "--out", out)
    assert done.exit_code == 2
    assert "--replace" in done.stderr
    assert [path.name for path in out.iterdir()] == ["plum-tart.md"]  # not half of it either
    assert (out / "plum-tart.md").read_text() == "mine"
    assert run(pies, "--as", "markdown", "--out", out, "--replace").exit_code == 0
    assert (out / "plum-tart.md").read_text().startswith("# Plum tart")


def test_a_draft_is_never_written_over(pies: Path) -> None:
    before = pies.read_bytes()
    done = run(pies, "--as", "sheet", "--out", pies, "--replace")
    assert done.exit_code == 2
    assert pies.read_bytes() == before


def test_several_files_need_a_folder(pies: Path, tmp_path: Path) -> None:
    assert run(pies, "--as", "page").exit_code == 2
    done = run(pies, "--as", "page", "--out", tmp_path / "one.html")
    assert done.exit_code == 2
    assert "2 files" in done.stderr
    assert not (tmp_path / "one.html").exists()


def test_dishes_of_one_name_get_files_of_their_own(tmp_path: Path) -> None:
    path = save(tmp_path, draft(salad(title="Pie!"), salad(title="Pie?"), salad(title="…")))
    run(path, "--as", "text", "--out", tmp_path / "out")
    assert sorted(each.name for each in (tmp_path / "out").iterdir()) == ["dish.txt", "pie-2.txt", "pie.txt"]


def test_a_sheet_holds_every_draft(pies: Path, tmp_path: Path) -> None:
    other = save(tmp_path, draft(salad(title="Broth")), "other.draft.json")
    rows = run(pies, other, "--as", "sheet").stdout.splitlines()
    assert {title for title in ("Plum tart", "Broth") if any(title in row for row in rows)} == {
        "Plum tart",
        "Broth",
    }


@pytest.mark.parametrize("kind", ["captions", "chapters"])
def test_moments_need_times(tmp_path: Path, kind: str) -> None:
    path = save(tmp_path, draft(salad(), timed=False))
    done = run(path, "--as", kind)
    assert done.exit_code == 2
    assert "no times" in done.stderr


@pytest.mark.parametrize(
    "url", ["javascript:alert(1)", "show.mp4", "https://", "https://a b.example", "https://[x"]
)
def test_a_recording_is_at_a_web_address(pies: Path, url: str) -> None:
    done = run(pies, "--as", "jsonld", "--dish", "tart", "--media-url", url)
    assert done.exit_code == 2
    assert "--media-url" in done.stderr


def test_one_recording_belongs_to_one_draft(pies: Path) -> None:
    assert run(pies, pies, "--as", "sheet", "--media-url", MEDIA).exit_code == 2
    done = run(pies, "--as", "jsonld", "--dish", "tart", "--media-url", MEDIA)
    assert json.loads(done.stdout)["video"]["contentUrl"] == MEDIA


def test_an_unknown_form_is_told_with_those_there_are(pies: Path) -> None:
    done = run(pies, "--as", "telegram")
    assert done.exit_code == 2
    assert all(kind in done.stderr for kind in KINDS)


def test_a_show_without_dishes_has_nothing_to_publish(tmp_path: Path) -> None:
    empty = RecipeDraft.model_validate(draft().to_dict() | {"dishes": []})
    done = run(save(tmp_path, empty), "--as", "text")
    assert done.exit_code == 2
    assert "no dish" in done.stderr


def test_a_folder_that_cannot_be_made_is_told(pies: Path, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    done = run(pies, "--as", "text", "--out", tmp_path / "file" / "out")
    assert done.exit_code == 2
    assert "cannot be made" in done.stderr


def install(folder: Path, code: str, name: str = "slips", value: str = "recipe_slips:slips") -> None:
    """A package in ``folder`` as pip leaves one: its module, and its entry points beside it."""
    (folder / "recipe_slips.py").write_text(code, encoding="utf-8")
    about = folder / "recipe_slips-1.dist-info"
    about.mkdir()
    (about / "METADATA").write_text("Metadata-Version: 2.1\nName: recipe-slips\nVersion: 1\n")
    (about / "entry_points.txt").write_text(f"[cardwright.writers]\n{name} = {value}\n")


@pytest.fixture
def own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    folder = tmp_path / "site"
    folder.mkdir()
    monkeypatch.syspath_prepend(folder)
    monkeypatch.delitem(importlib.sys.modules, "recipe_slips", raising=False)  # type: ignore[attr-defined]
    return folder


def test_the_form_that_the_readme_adds_works(pies: Path, own: Path) -> None:
    code = re.search(r"```python\n(.*?)```", README, re.DOTALL)
    entry = re.search(r'\[project\.entry-points\."cardwright\.writers"\]\n(\w+) = "(\S+)"', README)
    assert code
    assert entry
    assert len([row for row in code[1].splitlines() if row.strip()]) <= 10
    install(own, code[1], entry[1], entry[2])
    importlib.invalidate_caches()
    assert kinds()[-1] == "slips"
    done = run(pies, "--as", "slips", "--dish", "tart")
    assert done.exit_code == 0, done.output
    assert done.stdout.splitlines()[:3] == [
        "Plum tart",
        "2 leek, sliced (or onion)",
        "1 1/2 cups (350 ml) stock",
    ]


@pytest.mark.parametrize("code", ["slips = 3", "raise ImportError('no such thing')", ""])
def test_a_form_that_does_not_work_is_told_in_one_line(pies: Path, own: Path, code: str) -> None:
    install(own, code)
    importlib.invalidate_caches()
    done = run(pies, "--as", "slips")
    assert done.exit_code == 2
    assert "slips" in done.stderr.strip().splitlines()[-1]


@pytest.mark.parametrize("kind", KINDS)
def test_a_recipe_of_sixty_lines_is_made_in_a_fifth_of_a_second(kind: str) -> None:
    """Beyond the start: the lexicons and the libraries have been read once."""
    foods = ("flour", "sugar", "milk", "butter", "onion", "stock", "rice", "cream", "honey", "oats")
    lines = [line(f"{food}", 1 + n, "cup", start=10.0 * n) for n in range(6) for food in foods]
    steps = [
        step(f"Stir the {food} for {n + 2} minutes.", 100 + n, "", minutes=n + 2)
        for n, food in enumerate(foods)
    ]
    found = draft(pie(components=[{"name": "", "ingredients": lines}], method=steps))
    writer = writer_for(kind)
    writer.write(Edition(tuple(recipes_of(found))))
    taken = []
    for _ in range(3):
        start = time.process_time()
        writer.write(Edition(tuple(recipes_of(found))))
        taken.append(time.process_time() - start)
    assert min(taken) < 0.2
