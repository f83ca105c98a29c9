"""JSON-LD against schema.org's vocabulary and against another reader of JSON-LD."""

from __future__ import annotations

import json
import shutil
import subprocess
from collections.abc import Iterator
from datetime import datetime
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import isodate
import pytest
from drafted import SAMPLES, drafted
from hypothesis import given
from pyld import jsonld
from recipes import MEDIA, draft, hostile, pie, recipe, texts, written

from extract.lexicon import read_table
from extract.publish.building import recipes_of
from extract.publish.recipe import Recipe
from extract.publish.writers.jsonld import recipe_data

HERE = Path(__file__).parent
ROOT = HERE.parents[1]
NODE = ROOT / ".venv" / "node" / "node_modules"
COLUMNS = ("type", "property", "of", "expects")
EXPECTS = {
    (row["type"], row["property"]): row["expects"].split(", ")
    for row in read_table(HERE / "schema_org.tsv", COLUMNS)
}
# The supertypes of what is published, from the same release.
IS_A = {
    "HowToStep": {"ListItem", "ItemList", "CreativeWork", "Thing"},
    "HowToSection": {"ListItem", "ItemList", "CreativeWork", "Thing"},
    "HowToTip": {"ListItem", "CreativeWork", "Thing"},
    "HowToTool": {"HowToItem", "ListItem", "Thing"},
    "Clip": {"CreativeWork", "Thing"},
    "VideoObject": {"MediaObject", "CreativeWork", "Thing"},
}
# What https://schema.org serves as its context, as far as it is used here; from memory.
CONTEXT = {"@vocab": "https://schema.org/", "url": {"@type": "@id"}, "contentUrl": {"@type": "@id"},
           "suitableForDiet": {"@type": "@id"}}  # fmt: skip


def published() -> Iterator[Recipe]:
    """The pie, a vegan one of which little is known, and every dish of the samples."""
    yield recipe()
    yield recipe(diets=["vegan"], times=None, method=[], equipment=[], components=[])
    yield recipes_of(draft(reviewed=None))[0]
    for name in SAMPLES:
        yield from recipes_of(drafted(name))


def properties(data: dict[str, Any]) -> Iterator[tuple[str, str, Any]]:
    """Every value in the data with the type and the property that hold it."""
    for name, values in data.items():
        for value in values if isinstance(values, list) else [values]:
            if not name.startswith("@"):
                yield data["@type"], name, value
            if isinstance(value, dict):
                yield from properties(value)


def fits(value: Any, expected: str) -> bool:
    """Whether a value is of a type that schema.org expects."""
    if isinstance(value, dict):
        return expected in IS_A[value["@type"]] | {value["@type"]}
    match expected:
        case "Text":
            return isinstance(value, str) and bool(value)
        case "Integer":
            return isinstance(value, int)
        case "Number":
            return isinstance(value, int | float)
        case "Duration":
            return isinstance(value, str) and isodate.parse_duration(value) is not None
        case "DateTime":
            return datetime.fromisoformat(value) is not None
        case "URL":
            return urlsplit(value).scheme == "https"
        case "RestrictedDiet":
            return value.startswith("https://schema.org/") and value.endswith("Diet")
    return False


@pytest.mark.parametrize("media", ["", MEDIA])
def test_every_property_is_of_its_type_and_has_what_the_vocabulary_expects(media: str) -> None:
    """schema.org, as in schema-dts 2.1.0; see schema_org.tsv."""
    told = [row for found in published() for row in properties(recipe_data(found, media))]
    assert len(told) > 200
    wrong = [row for row in told if not any(fits(row[2], kind) for kind in EXPECTS.get(row[:2], ()))]
    assert wrong == []


@pytest.mark.skipif(shutil.which("node") is None, reason="node is not installed")
@pytest.mark.skipif(not (NODE / "schema-dts").is_dir(), reason="schema-dts is not in .venv/node (.ci/run)")
def test_the_published_types_of_the_vocabulary_take_it(tmp_path: Path) -> None:
    """schema-dts 2.1.0 through the TypeScript compiler, and a property that there is none of refused."""
    found = [*[recipe_data(each, MEDIA) for each in published()], {"@context": "https://schema.org"}]
    found[-1] |= {"@type": "Recipe", "recipeIngredients": ["x"]}
    rows = [f"const a{n}: WithContext<Recipe> = {json.dumps(each)};" for n, each in enumerate(found)]
    names = ", ".join(f"a{n}" for n in range(len(found)))
    head = 'import type { Recipe, WithContext } from "schema-dts";'
    (tmp_path / "published.ts").write_text(
        "\n".join([head, *rows, f"export {{ {names} }};"]), encoding="utf-8"
    )
    (tmp_path / "node_modules").symlink_to(NODE)
    compiler = [str(NODE / ".bin" / "tsc"), "--noEmit", "--strict", "--skipLibCheck", "published.ts"]
    done = subprocess.run(compiler, cwd=tmp_path, capture_output=True, text=True, check=False)
    faults = done.stdout.splitlines()
    assert len(faults) == 1, done.stdout
    assert f"published.ts({len(found) + 1}," in faults[0]
    assert "recipeIngredients" in faults[0]


def expanded(found: Recipe, media: str = "") -> dict[str, Any]:
    """The recipe as PyLD reads it, its context put in place of the one on the web."""
    data = json.loads(written("jsonld", found, media)) | {"@context": CONTEXT}
    (one,) = jsonld.expand(data)
    assert isinstance(one, dict)
    return one


def test_another_reader_finds_the_same_recipe() -> None:
    found = recipe(diets=["vegan"])
    read = expanded(found, MEDIA)
    at = "https://schema.org/"
    assert read["@type"] == [f"{at}Recipe"]
    assert [each["@value"] for each in read[f"{at}recipeIngredient"]][:2] == ["2 leek, sliced (or onion)",
                                                                             "1 1/2 cups (350 ml) stock"]  # fmt: skip
    assert read[f"{at}suitableForDiet"] == [{"@id": f"{at}VeganDiet"}]
    told = read[f"{at}recipeInstructions"]
    assert [each["@type"][0].removeprefix(at) for each in told] == [
        "HowToStep",
        "HowToSection",
        "HowToSection",
        "HowToTip",
    ]
    assert [each[f"{at}position"][0]["@value"] for each in told] == [1, 2, 3, 4]


@given(texts)
def test_nothing_is_lost_or_taken_for_syntax_on_the_way(text: str) -> None:
    found = recipes_of(hostile(text))[0]
    data = json.loads(written("jsonld", found))
    assert data["name"] == found.title
    assert data["recipeIngredient"][0].startswith(f"2 {found.lines[0].name}")
    assert expanded(found)["https://schema.org/name"] == [{"@value": found.title}]


def test_durations_say_what_the_draft_says() -> None:
    """ISO 8601 through isodate 0.7."""
    data = recipe_data(recipe())
    minutes = {
        key: isodate.parse_duration(data[key]).total_seconds() / 60
        for key in ("prepTime", "cookTime", "totalTime")
    }
    assert minutes == {"prepTime": 20, "cookTime": 60, "totalTime": 80}


def test_a_least_time_is_no_duration() -> None:
    data = recipe_data(recipe(times={"total": "PT45M", "at_least": True}))
    assert "totalTime" not in data


def test_no_diet_is_worked_out() -> None:
    assert all("suitableForDiet" not in recipe_data(found) for found in published() if not found.diets)


def test_clips_are_the_steps_in_the_recording() -> None:
    """W3C Media Fragments URI 1.0, 4.2.1: ``t=start,end`` in seconds."""
    clips = recipe_data(recipe(), f"{MEDIA}#t=9")["video"]["hasPart"]
    assert [(clip["startOffset"], clip["endOffset"]) for clip in clips] == [
        (100, 103),
        (150, 153),
        (300, 303),
    ]
    assert clips[0]["url"] == f"{MEDIA}#t=100,103"
    assert all(clip["startOffset"] < clip["endOffset"] for clip in clips)


@pytest.mark.parametrize(("url", "key"), [(MEDIA, "contentUrl"), ("https://video.example/watch?v=1", "url")])
def test_a_page_is_no_media_file(url: str, key: str) -> None:
    assert recipe_data(recipe(), url)["video"][key] == url


def test_warnings_travel_with_the_data() -> None:
    data = recipe_data(recipes_of(draft(pie(), reviewed=None))[0])
    assert "wheat" in data["description"]
    assert "check labels" in data["description"]
    assert data["creativeWorkStatus"] == "Draft"
    assert "creativeWorkStatus" not in recipe_data(recipe())
