"""What a check reports, what it passes over with a reason, and how it weighs."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest
from made_drafts import CAKE, STEW, Made

from extract.check.checking import check
from extract.check.pairs.foods import LIKELY, alike
from extract.check.report import Agreement, Difference, Report
from extract.check.written import read_written_text
from extract.drafts import save_draft
from extract.errors import CardwrightError
from extract.publish.markdown import page


def checked(made: Made, *changes: tuple[str, str]) -> Report:
    """The report of a published draft after some of its words were changed."""
    text = page(made.draft)
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    return check(made.draft, read_written_text(text))[0]


def one(report: Report) -> Difference:
    (found,) = [difference for difference in report.differences if difference.weight != "wording"]
    return found


def why(report: Report, about: str) -> str:
    return next(agreed.why for agreed in report.agreements if agreed.about == about)


# what is changed on the page, and that it makes no difference; common practice, no source
HARMLESS = [
    (STEW, ("2 tablespoons **olive oil**", "30 ml (2 tbsp) olive oil")),
    (STEW, ("2 tablespoons **olive oil**", "1/8 cup olive oil")),
    (STEW, ("600 g **butternut squash**", "1 lb 5 oz (600 g) butternut squash")),
    (STEW, ("600 g **butternut squash**", "0.6 kg butternut squash")),
    (STEW, ("1 (14-ounce) can **chopped tomatoes**", "400 g tin of chopped tomatoes")),
    (STEW, ("1.2 litres **vegetable stock**", "5 cups vegetable broth")),
    (STEW, ("3–4 cloves **garlic**", "3 to 4 garlic cloves")),
    (STEW, ("a handful of **parsley**", "handful of parsley leaves")),
    (STEW, ("8–10 minutes", "8 to 10 min")),
    (STEW, ("Serves: 4–6", "Makes 4 to 6 servings")),
    (STEW, ("Barley and squash stew", "Squash and Barley Stew")),
    (CAKE, ("for 1 hour", "for 60 minutes")),
    (CAKE, ("180 °C", "350 °F")),
    (CAKE, ("200 g **self-raising flour**", "200 g self-rising flour")),
    (CAKE, ("**soft butter**", "butter, softened")),
    (CAKE, ("3 **eggs**", "3 large eggs")),
]


@pytest.mark.parametrize(("made", "change"), HARMLESS, ids=[change[1] for _, change in HARMLESS])
def test_what_only_looks_different_is_passed_over(made: Made, change: tuple[str, str]) -> None:
    report = checked(made, change)
    assert [found for found in report.differences if found.weight != "wording"] == []


def test_lines_merged_with_the_same_sum_agree() -> None:
    oil = "- 2 tablespoons **olive oil** [0:20](#t=20)\n"
    report = checked(STEW, (oil, "- 1 tablespoon olive oil\n- 1 tablespoon olive oil, for the pan\n"))
    assert one_or_none(report) is None
    assert why(report, "olive oil") == "lines merged or split with the same sum"


def one_or_none(report: Report) -> Difference | None:
    return next((found for found in report.differences if found.weight != "wording"), None)


def test_both_sides_stand_beside_each_other_with_moment_and_line() -> None:
    found = one(checked(STEW, ("1 1/2 teaspoons **smoked paprika**", "1 1/2 tablespoons smoked paprika")))
    assert (found.kind, found.about, found.weight) == ("unit", "smoked paprika", "changes the dish")
    assert (found.said, found.written) == ("1 1/2 teaspoons", "1 1/2 tablespoons")
    assert (found.start, found.line) == (
        56.0,
        page(STEW.draft).splitlines().index(line_of("smoked paprika")) + 1,
    )


def line_of(food: str) -> str:
    return next(line for line in page(STEW.draft).splitlines() if f"**{food}**" in line)


def test_a_temperature_on_the_other_scale_is_held_to_the_customary_figure() -> None:
    assert one_or_none(checked(CAKE, ("180 °C", "gas mark 4"))) is None
    assert one(checked(CAKE, ("180 °C", "400 °F"))).kind == "temperature"


def test_one_wrong_scale_of_several_is_told() -> None:
    found = one(checked(CAKE, ("180 °C", "160 °C (350 °F)")))
    assert (found.kind, found.said) == ("temperature", "180 °C (350 °F)")


def test_the_whole_batch_written_twice_as_large_is_one_difference() -> None:
    pairs = [("180 g", "360 g"), ("150 g", "300 g"), ("3 **eggs**", "6 **eggs**"), ("200 g", "400 g")]
    pairs += [("75 g", "150 g"), ("1/2 teaspoon", "1 teaspoon"), ("3 tablespoons", "6 tablespoons")]
    pairs += [("2 **pears**", "4 **pears**"), ("2 tablespoons **apricot", "4 tablespoons **apricot")]
    pairs += [("1 tablespoon **water", "2 tablespoons **water")]
    assert one(checked(CAKE, *pairs)).kind == "batch"


def test_an_agreement_gives_both_sides_and_the_reason() -> None:
    report = checked(STEW, ("2 tablespoons **olive oil**", "1/8 cup olive oil"))
    agreed = next(agreement for agreement in report.agreements if agreement.about == "olive oil")
    assert isinstance(agreed, Agreement)
    assert (agreed.said, agreed.written) == ("2 tablespoons olive oil", "1/8 cup olive oil")
    assert agreed.why == "the same in other units"


def test_what_changes_the_dish_comes_before_what_is_worth_a_look() -> None:
    report = checked(STEW, ("600 g", "900 g"), (" (or pumpkin)", ""), (" (optional)", ""))
    assert [found.weight for found in report.differences] == [
        "changes the dish",
        "worth a look",
        "worth a look",
    ]


NAMES = [
    ("spring onions", "scallions", True),
    ("cornflour", "corn starch", True),
    ("icing sugar", "powdered sugar", True),
    ("chilli powder", "chili powder", True),
    ("lemon", "lemon zest", True),
    ("dark beer", "stout", True),
    ("butter", "peanut butter", False),
    ("egg", "egg yolks", False),
    ("red onion", "white onion", False),
    ("tomato", "tomato paste", False),
    ("sugar", "salt", False),
]


@pytest.mark.parametrize(("said", "written", "same"), NAMES)
def test_names_of_one_food_are_told_from_names_of_two(said: str, written: str, same: bool) -> None:
    assert (alike(said, written) >= LIKELY) is same


def test_a_recipe_of_another_dish_is_refused_with_the_titles_of_the_draft() -> None:
    other = "# Lemon sherbet\n\n## Ingredients\n\n- 9 lemons\n- 1 lb ice\n\n## Method\n\n1. Freeze it.\n"
    with pytest.raises(CardwrightError, match="Barley and squash stew"):
        check(STEW.draft, read_written_text(other))


def long_recipe(lines: int) -> str:
    foods = [f"{n} g **skyberry jam number {n}**" for n in range(1, lines)]
    steps = [f"{n}. Simmer skyberry jam number {n} over a low heat for {n} minutes." for n in range(1, 30)]
    listed = "\n".join(f"- {food}" for food in foods)
    return f"# Skyberry stew\n\n## Ingredients\n\n{listed}\n\n## Method\n\n" + "\n".join(steps) + "\n"


def test_checking_loads_neither_the_language_model_nor_the_reader(tmp_path: Path) -> None:
    written = tmp_path / "stew.md"
    written.write_text(long_recipe(60), encoding="utf-8")
    draft = read_written_text(long_recipe(60))
    save_draft(tmp_path / "stew.draft.json", draft)
    code = (
        "import sys; from extract.cli import cardwright; "
        f"sys.argv[1:] = ['check', {str(tmp_path / 'stew.draft.json')!r}, {str(written)!r}]\n"
        "try: cardwright(prog_name='cardwright')\n"
        "except SystemExit as done: print("
        "done.code, 'spacy' in sys.modules, 'onnxruntime' in sys.modules, file=sys.stderr)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stderr.strip() == "0 False False"
