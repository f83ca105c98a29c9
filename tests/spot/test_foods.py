"""Foods as found in whole sentences, the names compared, and the labelled shows as a measure from outside."""

from __future__ import annotations

import csv
import json
import re
from fractions import Fraction
from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from marked_sentences import cases, parse, read_marked
from rapidfuzz import fuzz

from extract.spot.amounts.find import find_amounts
from extract.spot.foods.find import find_foods
from extract.spot.names.foods import canonical, kinds_of, look_up, meaning, name_keys, same_food
from extract.spot.spans import Amount, Food

SHARED = Path(__file__).parents[2].parent / "shared"
DENSITIES = SHARED / "reference" / "densities.csv"
SHOWS = SHARED / "bench"


def short(food: Food) -> str:
    """ "red onion (raw), finely chopped +": name, state, preparation, plural; ? unknown, < as heard."""
    state = f" ({food.state})" if food.state else ""
    preparation = f", {food.preparation}" if food.preparation else ""
    flags = (" +" if food.plural else "") + ("" if food.known else " ?")
    heard = f" < {food.mended}" if food.mended else ""
    return f"{food.name}{state}{preparation}{flags}{heard}"


@pytest.mark.parametrize("line", cases("foods"))
def test_finds_exactly_the_marked_foods(line: str) -> None:
    text, expected = read_marked(line)
    doc = parse(text)
    found = find_foods(doc, find_amounts(doc))
    assert [(doc[f.start : f.end].text, short(f)) for f in found] == expected


@pytest.mark.parametrize(
    ("text", "name", "kinds"),
    [
        ("the chicken soup", "chicken soup", {"dish"}),
        ("an egg glaze for the flour mixture", "flour mixture", {"made", "mixture"}),
        ("three egg yolks", "egg yolk", {"egg"}),
        ("some toasted almonds", "toasted almond", {"nut"}),
        ("a pound of king prawns", "king prawn", {"shellfish"}),
        ("the vegetables", "vegetables", {"vegetable", "generic"}),
    ],
)
def test_kinds_tell_what_a_food_is(text: str, name: str, kinds: set[str]) -> None:
    foods = {food.name: food.kinds for food in find_foods(parse(text))}
    assert kinds <= foods[name]


def test_a_unit_inside_an_amount_is_no_food() -> None:
    doc = parse("four cloves garlic")
    amount = Amount(0, 2, Fraction(4), Fraction(4), "clove")
    assert [food.name for food in find_foods(doc, [amount])] == ["garlic"]


TALK = "the a of and , . red bell pepper olive oil two cups flower cut into strips leak soup bowl E that's"
WORDS = st.lists(st.sampled_from(sorted({*TALK.split(" ")})), max_size=14).map(" ".join)


@given(st.one_of(WORDS, st.text(max_size=40)))
def test_foods_lie_in_the_text_in_order_and_apart(text: str) -> None:
    doc = parse(text)
    foods = find_foods(doc, find_amounts(doc))
    assert all(0 <= food.start < food.end <= len(doc) and food.name and food.head for food in foods)
    assert all(one.end <= other.start for one, other in pairwise(foods))


# Pairs of regional names: common practice, no source.
@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("scallions", "spring onion"),
        ("cilantro", "coriander leaves"),
        ("cornstarch", "cornflour"),
        ("king prawns", "king prawn"),
        ("courgettes", "zucchini"),
        ("aubergine", "eggplants"),
        ("icing sugar", "confectioners' sugar"),
        ("beef mince", "ground beef"),
        ("rocket", "arugula"),
        ("bicarb", "baking soda"),
        ("chicken stock", "chicken broth"),
        ("onion", "two large chopped red onions"),
        ("flour", "plain flour"),
        ("peppers", "red bell pepper"),
        ("crème fraîche", "creme fraiche"),
        ("fresh ginger", "ginger root"),
        ("garlic cloves", "garlic"),
        ("chillies", "chile"),
        ("chicken", "boneless skinless chicken thighs"),
        ("salmon", "salmon fillets"),
        ("dijon", "mustard"),
    ],
)
def test_names_of_one_food_are_the_same_food(one: str, other: str) -> None:
    assert same_food(one, other)
    assert same_food(other, one)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("butter", "peanut butter"),
        ("milk", "coconut milk"),
        ("red onion", "white onion"),
        ("pepper", "bell pepper"),
        ("garlic", "garlic powder"),
        ("cream", "ice cream"),
        ("rice", "fried rice"),
        ("dried oregano", "oregano oil"),
        ("egg white", "egg yolk"),
        ("", "salt"),
        ("chicken", "chicken stock"),
        ("white pepper", "black pepper"),
        ("pepper", "cayenne pepper"),
        ("egg", "egg white"),
        ("chicken breast", "chicken thigh"),
    ],
)
def test_names_of_two_foods_are_kept_apart(one: str, other: str) -> None:
    assert not same_food(one, other)
    assert not same_food(other, one)


@given(st.text(max_size=30))
def test_any_name_has_one_canonical_form(name: str) -> None:
    assert canonical(canonical(name)) == canonical(name)
    assert same_food(name, name) == bool(meaning(name).keys)


def usda_names() -> list[str]:
    """Food names of USDA SR28 in kitchen words, without what follows a comma or stands in brackets."""
    with DENSITIES.open(encoding="utf-8") as rows:
        names = {
            re.sub(r"\(.*?\)", "", row["name"].lower()).split(",")[0].strip() for row in csv.DictReader(rows)
        }
    return sorted(part.strip() for name in names for part in name.split("/"))


@pytest.mark.skipif(not DENSITIES.exists(), reason="the table of USDA SR28 names is not beside this checkout")
def test_the_lexicon_knows_the_foods_of_usda_sr28() -> None:
    """USDA National Nutrient Database for Standard Reference, Release 28 (2015)."""
    names = usda_names()
    known = [name for name in names if meaning(name).entry is not None]
    assert len(names) > 300
    assert len(known) >= 0.97 * len(names)


@cache
def labelled_shows() -> list[tuple[str, list[list[str]]]]:
    """The words of each labelled show, and for each of its ingredient lines every name it may go by."""
    shows = []
    for gold in sorted(SHOWS.glob("s*/*.gold.json")):
        stem = gold.name.split(".")[0]
        dishes = json.loads(gold.read_text(encoding="utf-8"))["dishes"]
        names = [[line["name"], *line.get("also", [])] for dish in dishes for line in dish["ingredients"]]
        timed, stamped = gold.with_name(f"{stem}.vtt"), gold.with_name(f"{stem}.transcript.md")
        if timed.exists():
            cues = re.findall(r"^\d+\n[\d:.]+ --> [\d:.]+.*\n(.*)$", timed.read_text(encoding="utf-8"), re.M)
        else:
            cues = re.findall(r"^\[[\d:]+\]\s*(.*)$", stamped.read_text(encoding="utf-8"), re.M)
        shows.append((" ".join(cues), names))
    return shows


def near(one: tuple[str, ...], other: tuple[str, ...]) -> bool:
    """The same last word, and the rest alike: how the shows' lines are compared."""
    return one[-1:] == other[-1:] and fuzz.token_set_ratio(" ".join(one), " ".join(other)) >= 80


@pytest.mark.skipif(not SHOWS.exists(), reason="the labelled shows are not beside this checkout")
def test_finds_the_ingredients_of_the_labelled_shows() -> None:
    found = wanted = 0
    for text, lines in labelled_shows():
        doc = parse(text)
        foods = {name_keys(food.name) for food in find_foods(doc, find_amounts(doc))}
        for names in lines:
            wanted += 1
            found += any(near(food, name_keys(name)) for food in foods for name in names)
    assert wanted > 500
    assert found >= 0.93 * wanted


def test_plurals_that_are_other_foods() -> None:
    assert look_up(name_keys("peppers"), plural=True) is not look_up(name_keys("pepper"))
    assert kinds_of("peppers") == {"vegetable"}
    assert kinds_of("pepper") == {"spice"}
