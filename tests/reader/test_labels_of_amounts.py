"""Which words the amount of a line is learned at."""

from __future__ import annotations

from pathlib import Path

import pytest

from extract.language import load_model
from extract.reader.training.form import read_annotated
from extract.reader.training.labels import label

HEAD = "id: bench\nstyle: invented\nmeasures: metric\ndish A: rub\n---\n"
AMOUNTS = [
    (
        "A teaspoon of cumin, a teaspoon of mace.",
        ["1 | teaspoon | cumin", "1 | teaspoon | mace"],
        ["A teaspoon", "a teaspoon"],
    ),
    ("A spoon of sugar, a sprig of thyme.", ["1 | sprig | thyme", "1 | | sugar"], ["A spoon", "a sprig"]),
    (
        "A clove of garlic and a teaspoon of paprika.",
        ["1 | clove | garlic", "1 | teaspoon | paprika"],
        ["A clove", "a teaspoon"],
    ),
    (
        "Mace, a teaspoon, and cumin, a teaspoon.",
        ["1 | teaspoon | mace", "1 | teaspoon | cumin"],
        ["a teaspoon", "a teaspoon"],
    ),
    ("Half a litre of stock, and then water, half a pint.", ["0.5 | pint | water"], ["half a pint"]),
    (
        "A quarter of a cup of rice, and an egg.",
        ["0.25 | cup | rice", "1 | | egg"],
        ["A quarter of a cup", "an"],
    ),
    ("One spoon of oil, a tablespoon.", ["1 | tablespoon | oil"], ["One spoon"]),
    (
        "A cup of sugar, the same of butter.",
        ["1 | cup | sugar", "1 | cup | butter"],
        ["A cup", "the same of"],
    ),
]


@pytest.mark.parametrize(("said", "notes", "wanted"), AMOUNTS)
def test_an_amount_is_learned_at_its_own_words(
    said: str, notes: list[str], wanted: list[str], tmp_path: Path
) -> None:
    talk = tmp_path / "bench.talk"
    talk.write_text(HEAD + f"do A {said}\n" + "".join(f"  + {note} |\n" for note in notes), encoding="utf-8")
    record = label(read_annotated(talk), load_model(), "captions")
    lines = sorted(record["lines"], key=lambda line: line["food"])
    assert [" ".join(record["words"][slice(*line["amount"])]) for line in lines] == wanted
