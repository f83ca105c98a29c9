"""Yields and batches in whole sentences."""

from __future__ import annotations

import pytest
from marked_sentences import cases, parse, read_marked

from extract.spot.counts import find_counts
from extract.spot.spans import Count


def short(count: Count) -> str:
    figures = str(count.low) if count.low == count.high else f"{count.low}-{count.high}"
    return f"batch {figures}" if count.unit == "batch" else f"yield {figures} {count.unit}"


@pytest.mark.parametrize("line", cases("counts"))
def test_finds_exactly_the_marked_yields_and_batches(line: str) -> None:
    text, expected = read_marked(line)
    doc = parse(text)
    yields, batches = find_counts(doc)
    found = sorted([*yields, *batches], key=lambda count: count.start)
    assert [(doc[c.start : c.end].text, short(c)) for c in found] == expected
