"""Sentences with their findings marked in place: ``add [two cups|2 cup] of oats``.

A case file has one sentence a line, ``#`` for comments. What stands in square brackets is a finding: the
words, a bar, and what they mean in the short form that the test module gives its values.
"""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import pytest
from spacy.language import Language
from spacy.tokens import Doc

from extract.language import load_model

CASES = Path(__file__).parent.parent / "cases"
MARK = re.compile(r"\[([^|\]]+)\|([^\]]*)\]")
Found = list[tuple[str, str]]


@cache
def model() -> Language:
    return load_model()


def parse(text: str) -> Doc:
    return model()(text)


def read_marked(line: str) -> tuple[str, Found]:
    """The sentence without its marks, and (words, meaning) of each mark in order."""
    marks = [(words, meaning) for words, meaning in MARK.findall(line)]
    return MARK.sub(lambda match: match[1], line), marks


def cases(name: str) -> list[object]:
    """The sentences of ``tests/cases/<name>.txt``, each a pytest parameter named by its line number."""
    lines = (CASES / f"{name}.txt").read_text(encoding="utf-8").splitlines()
    kept = [(n, line) for n, line in enumerate(lines, start=1) if line.strip() and not line.startswith("#")]
    assert kept, f"no cases in {name}"
    return [pytest.param(line, id=f"{name}:{number}") for number, line in kept]
