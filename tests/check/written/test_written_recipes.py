"""A whole written recipe is read: title, yield, components, lines, steps with heat, time and shares."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st

from extract.check.written import read_written, read_written_text
from extract.cli import cardwright
from extract.errors import CardwrightError
from extract.model import Action, Dish

MARKDOWN = """# Barley and leek bake

Serves 4 to 6

## Ingredients

### For the bake

- 1 cup pearl barley
- 2 leeks, sliced

### Dressing

- 3 tbsp olive oil

## Method

1. Heat the oven to 180°C fan (200°C, gas mark 6). Simmer the barley over a low heat for 25–30 minutes,
   until tender.
2. Pour half of the dressing over the leeks and bake for an hour and a half.
3. Let it rest for 10 minutes. The centre should reach 75°C.

## Notes

- 4 days in the refrigerator is too long.
"""

PLAIN = """Barley and leek bake

Makes about 2 dozen squares
1 cup pearl barley
2 leeks, sliced
Olive oil, 3 tbsp

Simmer the barley in a wide pan for 25 minutes, stirring now and then, until
it is tender.
Bake for 20 minutes.
"""

PAGE = """<!doctype html><html><head><title>Home</title></head><body><nav>1 cup of news</nav>
<h1>Barley &amp; leek bake</h1><p>Serves 4</p>
<h2>Ingredients</h2>
<ul><li>1 cup <b>pearl barley</b></li>
<li>2 leeks</li></ul>
<h2>Method</h2><ol><li><p>Simmer the barley for 25 minutes.</p></li></ol></body></html>
"""

LINKED = """<html><head><script type="application/ld+json">
{"@graph": [{"@type": "WebPage"}, {"@type": ["Recipe"], "name": "Barley bake",
 "recipeYield": ["6", "6 squares"],
 "recipeIngredient": ["1 cup pearl barley",
  "2 leeks"],
 "recipeInstructions": [{"@type": "HowToSection", "name": "Bake", "itemListElement": [
   {"@type": "HowToStep", "position": 2, "text": "Bake for 20 minutes."},
   {"@type": "HowToStep", "position": 1, "text": "Simmer the barley."}]}]}]}
</script></head><body><p>Nothing to see</p></body></html>
"""


def one(text: str) -> Dish:
    (dish,) = read_written_text(text).dishes
    return dish


def actions(dish: Dish) -> list[Action]:
    return [action for step in dish.method for action in step.actions]


def test_markdown_gives_components_yield_and_line_numbers() -> None:
    dish = one(MARKDOWN)
    assert dish.title == "Barley and leek bake"
    assert dish.yield_ is not None
    assert (dish.yield_.low, dish.yield_.high, dish.yield_.unit) == (4, 6, "servings")
    lines = [
        (part.name, line.name, line.written and line.written.line)
        for part in dish.components
        for line in part.ingredients
    ]
    assert lines == [("bake", "pearl barley", 9), ("bake", "leeks", 10), ("dressing", "olive oil", 14)]


def test_steps_give_verbs_heat_times_and_signs() -> None:
    found = actions(one(MARKDOWN))
    assert [action.verb for action in found] == ["heat", "simmer", "pour", "bake", "rest", "check"]
    oven, simmer, core = found[0].heat, found[1], found[5].heat
    assert oven is not None
    assert (oven.kind, oven.low, oven.unit, oven.fan) == ("oven", 180, "degC", True)
    assert [(other.low, other.unit) for other in oven.equivalents] == [(200, "degC"), (6, "gas_mark")]
    assert simmer.heat is not None
    assert simmer.duration is not None
    assert (simmer.heat.level, simmer.duration.low, simmer.duration.high, simmer.until) == (
        "low",
        25,
        30,
        "tender",
    )
    assert simmer.objects == ["pearl barley"]
    assert found[3].duration is not None
    assert (found[3].duration.low, found[3].duration.unit) == (1.5, "hour")
    assert core is not None
    assert (core.kind, core.low) == ("internal", 75)


def test_shares_of_a_component_are_kept() -> None:
    shares = [(share.of, share.fraction) for part in one(MARKDOWN).components for share in part.portions]
    assert shares == [("dressing", 0.5)]


def test_plain_text_without_headings_is_told_apart_by_its_lines() -> None:
    dish = one(PLAIN)
    assert dish.title == "Barley and leek bake"
    assert dish.yield_ is not None
    assert (dish.yield_.low, dish.yield_.unit) == (24, "squares")
    assert [line.name for part in dish.components for line in part.ingredients] == [
        "pearl barley",
        "leeks",
        "Olive oil",
    ]
    assert [step.written and step.written.line for step in dish.method] == [8, 10]


@pytest.mark.parametrize(("page", "title"), [(PAGE, "Barley & leek bake"), (LINKED, "Barley bake")])
def test_web_pages_are_read_by_their_data_or_their_visible_text(page: str, title: str) -> None:
    dish = one(page)
    assert dish.title == title
    assert [line.name for part in dish.components for line in part.ingredients] == ["pearl barley", "leeks"]
    assert dish.method[0].text.startswith("Simmer the barley")


def test_linked_data_keeps_lines_sections_and_positions() -> None:
    dish = one(LINKED)
    assert [line.written and line.written.line for part in dish.components for line in part.ingredients] == [
        4,
        5,
    ]
    assert [step.component for step in dish.method] == ["bake", "bake"]
    assert [action.verb for action in actions(dish)] == ["simmer", "bake"]


def test_two_recipes_in_one_file_are_two_dishes() -> None:
    second = MARKDOWN.replace("# Barley and leek bake", "# Leek broth").replace("pearl barley", "spelt")
    dishes = read_written_text(MARKDOWN + second).dishes
    assert [dish.title for dish in dishes] == ["Barley and leek bake", "Leek broth"]


def test_a_file_without_a_recipe_is_told_in_one_line(tmp_path: Path) -> None:
    path = tmp_path / "letter.txt"
    path.write_text("Dear all,\n\nThe kettle is on.\n", encoding="utf-8")
    with pytest.raises(CardwrightError, match="no ingredient list and no method"):
        read_written(path)


def test_the_command_writes_what_it_read_and_goes_on_past_a_broken_file(tmp_path: Path) -> None:
    good, bad = tmp_path / "bake.md", tmp_path / "missing.md"
    good.write_text(MARKDOWN, encoding="utf-8")
    result = CliRunner().invoke(cardwright, ["written", str(bad), str(good), "--out", str(tmp_path / "read")])
    assert result.exit_code == 2
    assert "missing.md" in result.stderr
    read = json.loads((tmp_path / "read" / "bake.written.json").read_text(encoding="utf-8"))
    assert read["dishes"][0]["components"][0]["ingredients"][0]["written"] == {
        "line": 9,
        "text": "- 1 cup pearl barley",
    }


def test_reading_a_written_recipe_loads_no_language_model(tmp_path: Path) -> None:
    path = tmp_path / "bake.md"
    path.write_text(MARKDOWN, encoding="utf-8")
    code = (
        "import sys; from extract.check.written import read_written; "
        f"read_written({str(path)!r}); print('spacy' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "False"


@given(st.text(max_size=300))
def test_no_text_makes_the_reader_fail(text: str) -> None:
    for dish in read_written_text(text).dishes:
        assert dish.components or dish.method


BITS = [
    "# ",
    "- ",
    "1. ",
    "\n",
    "\n\n",
    "Ingredients",
    "Method",
    "**",
    "For the sauce:",
    "1 cup oats",
    "<li>",
    "<html>",
    "</",
]


@given(
    st.lists(
        st.sampled_from([*BITS, '{"@type": "Recipe"', "|", "Serves 4", "Bake for 5 minutes."]), max_size=25
    )
)
def test_no_layout_makes_the_reader_fail(bits: list[str]) -> None:
    text = "".join(bits)
    lines = text.count("\n") + 1
    for dish in read_written_text(text).dishes:
        for part in dish.components:
            assert all(line.written and 1 <= line.written.line <= lines for line in part.ingredients)


LISTS = Path(__file__).resolve().parents[4] / "shared" / "bench" / "written"


@pytest.mark.skipif(not LISTS.is_dir(), reason="the labelled ingredient lists are not beside the checkout")
def test_labelled_lists_are_read_as_well_as_the_published_readers_do(tmp_path: Path) -> None:
    """Bounds: F1 of the best published models on TASTEset (arXiv 2204.07775), food 0.932, quantity 0.986."""
    for path in sorted(LISTS.glob("*.md")):
        (tmp_path / f"{path.stem}.written.json").write_text(read_written(path).to_json(), encoding="utf-8")
    scorer = [sys.executable, "score_written.py", str(tmp_path), "written", "--json"]
    done = subprocess.run(scorer, capture_output=True, text=True, check=True, cwd=LISTS.parent)
    figures = json.loads(done.stdout)["figures"]
    assert figures["food"] >= 93
    assert figures["amount"] >= 98
    assert figures["both"] >= 92
