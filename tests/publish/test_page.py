"""The page: valid HTML, harmless whatever the talk held, and on one or two sheets of paper."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
from html.parser import HTMLParser
from pathlib import Path

import pytest
from drafted import SAMPLES, drafted
from hypothesis import given
from recipes import MEDIA, draft, hostile, line, pie, recipe, step, texts, written

from extract.model import RecipeDraft
from extract.publish.building import recipes_of
from extract.publish.phrases import typeset

ROOT = Path(__file__).parents[2]
VALIDATOR = ROOT / ".venv" / "node" / "node_modules" / ".bin" / "html-validate"
CHROMIUM = shutil.which("chromium")
PRINT = [str(CHROMIUM), "--headless=new", "--no-sandbox", "--disable-gpu", "--no-pdf-header-footer"]
ALLOWED = {"html", "head", "meta", "title", "style", "script", "body", "main", "header", "h1", "div", "p", "span",
           "bdi", "section", "h2", "h3", "ul", "ol", "li", "a", "footer"}  # fmt: skip


class Page(HTMLParser):
    """A page as a browser without styles has it: its tags, its attributes and its visible words."""

    def __init__(self, text: str) -> None:
        super().__init__(convert_charrefs=True)
        self.tags: list[str] = []
        self.attributes: list[tuple[str, str | None]] = []
        self.words: list[str] = []
        self.scripts: list[str] = []
        self._in = ""
        self.feed(text)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.attributes += attrs
        self._in = tag if tag in ("script", "style", "title") else ""

    def handle_endtag(self, tag: str) -> None:
        self._in = ""

    def handle_data(self, data: str) -> None:
        if self._in == "script":
            self.scripts.append(data)
        elif not self._in:
            self.words.append(data)

    @property
    def text(self) -> str:
        return " ".join(" ".join(self.words).split())


def test_the_page_shows_everything_of_the_recipe() -> None:
    found = recipe(diets=["vegan"])
    text = Page(written("page", found)).text
    shown = [found.title, "Serves 4–6", "In all 1 h 20 min", "Suitable for vegan diets", "Pastry", "Keep it cold.",
             "Half of the pastry (about 180 g): the tin", "Rolling pin", *found.allergens, *found.cautions]  # fmt: skip
    shown += [step.text for step in found.steps] + [line.name for line in found.lines]
    assert [words for words in shown if " ".join(typeset(words).split()) not in text] == []


def test_the_data_in_the_page_is_the_data_alone() -> None:
    (script,) = Page(written("page", recipe())).scripts
    assert json.loads(script) == json.loads(written("jsonld", recipe()))


def test_the_page_asks_for_nothing_from_elsewhere() -> None:
    page = Page(written("page", recipe()))
    assert [value for name, value in page.attributes if name in ("src", "href", "srcset", "action")] == []
    assert "url(" not in written("page", recipe())
    assert "@import" not in written("page", recipe())


def test_with_a_recording_each_step_leads_to_its_moment() -> None:
    page = Page(written("page", recipe(), MEDIA))
    assert [value for name, value in page.attributes if name == "href"] == [
        f"{MEDIA}#t={n}" for n in (100, 150, 300)
    ]


@given(texts)
def test_words_of_a_talk_are_never_markup(text: str) -> None:
    found = recipes_of(hostile(text))[0]
    page = Page(written("page", found, MEDIA))
    assert set(page.tags) <= ALLOWED
    assert not [name for name, _ in page.attributes if name.startswith("on")]
    assert all((value or "").startswith(MEDIA) for name, value in page.attributes if name == "href")
    assert json.loads(page.scripts[0])["name"] == found.title
    for words in (found.title, *found.equipment, found.sections[0].steps[0].text):
        assert " ".join(typeset(words).split()) in page.text


def test_a_dish_of_which_nothing_is_known_still_has_a_page() -> None:
    bare = {"title": "", "components": [], "method": []}
    assert Page(written("page", recipes_of(draft(bare))[0])).text == "Untitled dish Ingredients Method"


@pytest.mark.skipif(shutil.which("node") is None, reason="node is not installed")
@pytest.mark.skipif(not VALIDATOR.exists(), reason="html-validate is not in .venv/node (.ci/run)")
def test_a_validator_of_html_finds_nothing_wrong(tmp_path: Path) -> None:
    """html-validate of the npm registry, its standard rules (the WHATWG's content models among them)."""
    pages = {"pie": written("page", recipe(), MEDIA), "draft": written("page", draft(reviewed=None))}
    pages |= {name: written("page", drafted(name), MEDIA) for name in SAMPLES}
    pages |= {
        "hostile": written("page", hostile("<b>&amp; \"'</b>")),
        "wrong": "<!DOCTYPE html><p><div>x</p>",
    }
    for name, page in pages.items():
        (tmp_path / f"{name}.html").write_text(page, encoding="utf-8")
    (tmp_path / ".htmlvalidate.json").write_text('{"root": true, "extends": ["html-validate:standard"]}')
    command = [str(VALIDATOR), "--formatter", "json", "*.html"]
    done = subprocess.run(command, cwd=tmp_path, capture_output=True, text=True, check=False)
    faults = {Path(each["filePath"]).stem: each["messages"] for each in json.loads(done.stdout)}
    assert faults.pop("wrong")
    assert {name: found for name, found in faults.items() if found} == {}


def sixty_lines() -> RecipeDraft:
    """A dish of sixty lines in three parts and twenty-five steps of three printed lines each."""
    foods = ("flour", "sugar", "milk", "butter", "onion", "stock", "rice", "cream", "honey", "oats")
    parts = [
        {
            "name": name,
            "ingredients": [line(food, 1 + n, "cup", preparation="sifted") for food in foods for n in (0, 1)],
        }
        for name in ("", "filling", "glaze")
    ]
    told = "over a medium heat until it is soft and golden and smells of nuts, then add the rest and let it simmer."
    steps = [
        step(
            f"Stir the {foods[n % 10]} for {n + 2} minutes {told}",
            100 + n,
            ("", "filling", "glaze")[n // 9],
            minutes=n + 2,
        )
        for n in range(25)
    ]
    return draft(pie(components=parts, method=steps), reviewed=None)


@pytest.mark.skipif(CHROMIUM is None, reason="chromium is not installed")
@pytest.mark.skipif(shutil.which("pdfinfo") is None, reason="poppler-utils is not installed")
@pytest.mark.parametrize(("paper", "size"), [("A4", (595, 842)), ("letter", (612, 792))])
def test_a_recipe_prints_on_one_or_two_sheets(tmp_path: Path, paper: str, size: tuple[int, int]) -> None:
    """Chromium's PDF, measured by poppler; A4 is 210 by 297 mm (ISO 216), Letter 8.5 by 11 inches (ANSI)."""
    for name, page in {
        "pie": written("page", recipe()),
        "long": written("page", drafted("harvest-supper")),
        "sixty lines": written("page", sixty_lines()),
    }.items():
        sized = page.replace("</style>", f"@page {{ size: {paper}; }}</style>")
        (tmp_path / f"{name}.html").write_text(sized, encoding="utf-8")
        pdf = tmp_path / f"{name}.pdf"
        subprocess.run([*PRINT, f"--user-data-dir={tmp_path / 'profile'}", f"--print-to-pdf={pdf}",
                        f"file://{tmp_path}/{name}.html"], check=True, capture_output=True, timeout=120)  # fmt: skip
        told = subprocess.run(["pdfinfo", str(pdf)], check=True, capture_output=True, text=True).stdout
        assert int(re.search(r"Pages:\s+(\d+)", told)[1]) <= (1 if name == "pie" else 2)  # type: ignore[index]
        width, height = re.search(r"Page size:\s+([\d.]+) x ([\d.]+)", told).groups()  # type: ignore[union-attr]
        assert (round(float(width)), round(float(height))) == pytest.approx(size, abs=1)


def test_both_themes_have_enough_contrast() -> None:
    """WCAG 2.2, 1.4.3: 4.5 to 1 for text; relative luminance as WCAG defines it."""
    themes = re.findall(
        r":root \{(.*?)\}", (ROOT / "extract/publish/templates/page.css").read_text(), re.DOTALL
    )
    assert len(themes) == 3  # light, dark, print
    for theme in themes:
        colours = dict(re.findall(r"--(\w+): #([0-9a-f]+);", theme))
        for ink in ("ink", "soft", "mark"):
            for ground in ("paper", "band"):
                assert contrast(colours[ink], colours[ground]) >= 4.5, (ink, ground, theme)


def contrast(one: str, other: str) -> float:
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def luminance(colour: str) -> float:
    full = colour if len(colour) == 6 else "".join(2 * char for char in colour)
    parts = [int(full[at : at + 2], 16) / 255 for at in (0, 2, 4)]
    red, green, blue = (
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def test_the_pie_is_a_pie() -> None:
    assert recipes_of(draft(pie()))[0] == recipe()
