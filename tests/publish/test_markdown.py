"""The page a person reads beside the video."""

from __future__ import annotations

import re

import isodate
import pytest
from drafted import SAMPLES, TALKS, drafted
from syrupy.assertion import SnapshotAssertion

from extract.model import (
    Action,
    Amount,
    Batch,
    Component,
    Dish,
    Duration,
    Evidence,
    Ingredient,
    Portion,
    Question,
    RecipeDraft,
    Source,
    Step,
    Talk,
    Times,
    Yield,
)
from extract.publish.markdown import escaped, page
from extract.publish.words import clock, iso_words, share_words


def said(start: float, text: str = "words") -> list[Evidence]:
    return [Evidence(cue=0, start=start, end=start + 2, text=text)]


def a_draft(*, timed: bool = True) -> RecipeDraft:
    leeks = Ingredient(
        name="leek", amount=Amount(low=2, high=2), preparation="sliced", alternatives=["onion"], said=said(33)
    )
    oil = Ingredient(name="olive oil", said=said(61))
    glaze = Component(
        name="glaze", ingredients=[oil], portions=[Portion(fraction=0.5, of="glaze", said=said(90))]
    )
    dish = Dish(
        title="Leek and Barley Broth",
        start=21,
        end=3725,
        **{"yield": Yield(low=4, high=6, said=said(40))},
        batch=Batch(factor=2, said=said(50)),
        components=[Component(ingredients=[leeks]), glaze],
        method=[Step(text="Slice the leeks into a wide pan.", notes=["It will spit."], said=said(222))],
        equipment=["wide pan", "whisk"],
        times=Times(total="PT1H25M", active="PT25M", waiting="PT1H", at_least=False),
        questions=[
            Question(
                id="ab2c", kind="missing amount", about="oil", text="How much oil?", weight=40, said=said(61)
            ),
            Question(
                id="de3f", kind="vague amount", about="leek", text="Which leek?", weight=5, said=said(33)
            ),
        ],
    )
    source = Source(file="leek-show.vtt", sha256="0" * 64, end=3800, timed=timed)
    return RecipeDraft(source=source, dishes=[dish], talk=[Talk(start=3725, end=3800, reason="sign-off")])


@pytest.mark.parametrize(
    "line",
    [
        "# Leek show",
        "## Leek and Barley Broth",
        "- In the recording: [0:21](#t=21) to [1:02:05](#t=3725)",
        "- Serves: 4–6 [0:40](#t=40)",
        "- Batch on camera: a double batch; the amounts below are as said [0:50](#t=50)",
        "- Time: total 1 hour 25 minutes, active 25 minutes, waiting 1 hour",
        "- 2 **leek**, sliced (or onion) [0:33](#t=33)",
        "#### Glaze",
        "- **olive oil** (amount not said) [1:01](#t=61)",
        "- *Half of the glaze* [1:30](#t=90)",
        "- Wide pan",
        "1. Slice the leeks into a wide pan. [3:42](#t=222)",
        "    - Note: It will spit.",
        "- `ab2c` How much oil? [1:01](#t=61)",
        "1 lesser question: `cardwright questions --all`.",
        "- [1:02:05](#t=3725) to [1:03:20](#t=3800): the sign-off",
    ],
)
def test_everything_in_a_draft_is_on_the_page_with_its_moment(line: str) -> None:
    assert line in page(a_draft()).splitlines()


def test_equipment_that_no_step_uses_is_not_listed() -> None:
    assert "Whisk" not in page(a_draft())


def test_a_total_is_given_only_where_every_stage_has_a_time() -> None:
    draft = a_draft()
    hour = Duration(low=1, high=1, unit="hour")
    simmer, bake = Action(verb="simmer", duration=hour), Action(verb="bake", until="golden")
    draft.dishes[0].method += [Step(text="Simmer it for 1 hour.", actions=[simmer])]
    assert "Time: total 1 hour 25 minutes" in page(draft)
    draft.dishes[0].method += [Step(text="Bake it until golden.", actions=[bake])]
    assert "Time:" not in page(draft)


def test_a_line_carries_the_moment_of_its_amount_not_of_its_first_mention() -> None:
    draft = a_draft()
    draft.dishes[0].components[0].ingredients[0].said = [*said(120), *said(5)]
    assert "- 2 **leek**, sliced (or onion) [2:00](#t=120)" in page(draft)


def test_a_part_without_a_name_that_is_not_first_has_a_heading_of_its_own() -> None:
    draft = a_draft()
    components = draft.dishes[0].components
    components.reverse()
    text = page(draft)
    assert text.index("#### Glaze") < text.index("#### For the rest of the dish") < text.index("**leek**")


def test_a_caution_stands_at_its_line_and_once_in_a_paragraph() -> None:
    draft = a_draft()
    chicken = Ingredient(name="chicken thighs", said=said(70))
    draft.dishes[0].components[0].ingredients.append(chicken)
    text = page(draft)
    assert "- **chicken thighs** (amount not said; caution: cook through) [1:10](#t=70)" in text
    paragraph = text[text.index("### Cautions") :]
    assert paragraph.count("Chicken thighs: no core temperature was said.") == 1
    assert "local food code" in paragraph


def test_allergens_are_one_paragraph_that_names_the_lists_where_they_differ() -> None:
    draft = a_draft()
    draft.dishes[0].components[0].ingredients += [
        Ingredient(name="butter", said=said(70)),
        Ingredient(name="mustard powder", said=said(71)),
    ]
    text = page(draft)
    paragraph = text[text.index("### Allergens") :].split("\n\n")[1]
    assert paragraph.startswith("May contain: milk (butter). On the Canada and EU lists also: mustard")
    assert "\n" not in paragraph


def test_the_cautions_come_before_the_first_dish() -> None:
    text = page(a_draft())
    caution = text.index("Check before use")
    assert caution < text.index("## Leek")
    for word in ("allergen", "local food code", "not advice"):
        assert word in text[caution : text.index("## Leek")]


def test_a_talk_without_times_has_no_moments() -> None:
    text = page(a_draft(timed=False))
    assert "(#t=" not in text
    assert "no times" in text


def test_a_show_without_dishes_still_has_a_page() -> None:
    text = page(RecipeDraft(source=Source(file="x.vtt", sha256="0" * 64)))
    assert text.startswith("# X\n")
    assert "No dish was found" in text


def test_moments_are_media_fragments() -> None:
    """W3C Media Fragments URI 1.0, section 4.2.1: ``t=`` with seconds in normal play time."""
    for found in re.findall(r"\]\((#[^)]*)\)", page(a_draft())):
        assert re.fullmatch(r"#t=\d+(\.\d*)?", found)


@pytest.mark.parametrize(
    ("seconds", "printed"),
    [(0, "0:00"), (59.9996, "0:59"), (222, "3:42"), (3600, "1:00:00"), (3725.5, "1:02:05")],
)
def test_a_moment_is_never_rounded_past_its_second(seconds: float, printed: str) -> None:
    assert clock(seconds) == printed


@pytest.mark.parametrize("iso", ["PT25M", "PT1H", "PT1H25M", "P1DT2H", "PT0S", "PT90M"])
def test_times_in_words_say_what_isodate_reads(iso: str) -> None:
    """isodate 0.7 as the outside reader of ISO 8601 durations."""
    sizes = {"day": 1440, "hour": 60, "minute": 1}
    words = re.findall(r"(\d+) (day|hour|minute)", iso_words(iso))
    assert (
        sum(int(count) * sizes[unit] for count, unit in words)
        == isodate.parse_duration(iso).total_seconds() / 60
    )


@pytest.mark.parametrize(
    ("share", "printed"),
    [
        (0.5, "Half of"),
        (1 / 3, "A third of"),
        ("rest", "The rest of"),
        (0.4, "Two fifths of"),
        (0.45, "45 % of"),
    ],
)
def test_shares_are_said_in_words(share: float | str, printed: str) -> None:
    assert share_words(share) == printed


def test_words_of_a_talk_cannot_become_markup() -> None:
    """CommonMark 0.31, section 2.4: any ASCII punctuation may be escaped with a backslash."""
    assert (
        escaped("a *b* [c](d) <i> `e` _f_ #g | h\n- i") == r"a \*b\* \[c\](d) \<i\> \`e\` \_f\_ \#g \| h - i"
    )


@pytest.mark.parametrize("name", SAMPLES, ids=[TALKS[name].name for name in SAMPLES])
def test_the_page_of_a_sample_is_as_reviewed(name: str, snapshot: SnapshotAssertion) -> None:
    """A change in wording shows here, to be read before it is taken: ``pytest --snapshot-update``."""
    assert page(drafted(name)) == snapshot
