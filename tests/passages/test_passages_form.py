"""The passages are well formed, and their arithmetic is what the US legal volumes make it.

Source of the volumes: NIST Handbook 44, Appendix C (1 US gallon = 231 cubic inches, 1 inch = 25.4 mm exactly;
16 cups, 256 tablespoons, 768 teaspoons to the gallon).
"""

import json
import re
from fractions import Fraction
from pathlib import Path

import pytest

PASSAGES = json.loads((Path(__file__).parent / "passages.json").read_text(encoding="utf-8"))
GALLON = 231 * Fraction("2.54") ** 3
MILLILITRES = {
    "teaspoon": GALLON / 768,
    "tablespoon": GALLON / 256,
    "cup": GALLON / 16,
    "pint": GALLON / 8,
    "quart": GALLON / 4,
    "millilitre": Fraction(1),
}
README = (Path(__file__).parent / "README.md").read_text(encoding="utf-8")
KINDS = set(re.findall(r"`([a-z -]+)`\s\(", README.partition("Kinds of question:")[2]))


def fraction(figure: object) -> Fraction:
    return Fraction(str(figure))


def ends(figure: object) -> tuple[float, float]:
    low, high = figure if isinstance(figure, list) else (figure, figure)
    return float(low), float(high)


def made(component: dict) -> tuple[Fraction, Fraction]:
    lines = component["lines"]
    low = sum((fraction(x["low"]) * MILLILITRES[x["unit"]] for x in lines), Fraction(0))
    high = sum((fraction(x["high"]) * MILLILITRES[x["unit"]] for x in lines), Fraction(0))
    return low, high


MEASURED = [(p["name"], c) for p in PASSAGES for c in p["ledger"]["components"] if "made_millilitres" in c]


def test_every_kind_explained_is_used() -> None:
    assert {q["kind"] for p in PASSAGES for q in p["ledger"]["questions"]} == KINDS


def test_names_are_unique() -> None:
    names = [p["name"] for p in PASSAGES]
    assert len(names) == len(set(names)) >= 30


@pytest.mark.parametrize("passage", PASSAGES, ids=lambda p: p["name"])
def test_passage_has_the_form_of_the_readme(passage: dict) -> None:
    assert 30 <= len(passage["talk"].split()) <= 150
    assert set(passage) == {"name", "trap", "source", "talk", "ledger"}
    ledger = passage["ledger"]
    names = {c["name"] for c in ledger["components"]}
    for component in ledger["components"]:
        assert all({"name", "low", "high", "unit"} <= set(line) for line in component["lines"])
        assert all(p["of"] in names for p in component["portions"])
    assert {q["kind"] for q in ledger["questions"]} <= KINDS


@pytest.mark.parametrize(("name", "component"), MEASURED, ids=[name for name, _ in MEASURED])
def test_what_was_made_is_the_sum_of_its_lines(name: str, component: dict) -> None:
    low, high = made(component)
    assert ends(component["made_millilitres"]) == pytest.approx((float(low), float(high)), rel=1e-9)


@pytest.mark.parametrize(("name", "component"), MEASURED, ids=[name for name, _ in MEASURED])
def test_a_numbered_share_is_that_share_of_what_was_made(name: str, component: dict) -> None:
    low, high = made(component)
    for portion in component["portions"]:
        if portion["fraction"] not in ("rest", "some", "all") and portion["millilitres"] is not None:
            share = fraction(portion["fraction"])
            assert ends(portion["millilitres"]) == pytest.approx(
                (float(share * low), float(share * high)), rel=1e-9
            )


@pytest.mark.parametrize(("name", "component"), MEASURED, ids=[name for name, _ in MEASURED])
def test_a_rest_is_what_the_shares_before_it_left(name: str, component: dict) -> None:
    left = float(made(component)[1])
    for portion in component["portions"]:
        if portion["fraction"] == "rest":
            assert portion["millilitres"] == pytest.approx(max(left, 0.0), rel=1e-9, abs=1e-9)
        left -= ends(portion["millilitres"])[1]
