"""Heat settings in whole sentences."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from marked_sentences import cases, parse, read_marked
from spacy.lang.en import English
from spelling_out import SPELL

from extract.lexicon import read_lexicon
from extract.spot.heat.find import find_heat
from extract.spot.spans import HeatSetting

TOKENS = English()


def short(setting: HeatSetting) -> str:
    low, high = setting.low, setting.high
    figures = setting.level or (str(low) if low == high else f"{low}-{high}")
    words = [setting.kind, figures, setting.unit, "fan" if setting.fan else ""]
    words += [f"= {short(other)}" for other in setting.equivalents]
    return " ".join(word for word in words if word)


@pytest.mark.parametrize("line", cases("heat"))
def test_finds_exactly_the_marked_settings(line: str) -> None:
    text, expected = read_marked(line)
    assert [(h.text, short(h)) for h in find_heat(parse(text))] == expected


@given(st.integers(20, 50).map(lambda n: n * 10))
def test_hundreds_spoken_short_are_the_figure(value: int) -> None:
    """ "three fifty" for 350: the hundreds as a digit, the tens after it."""
    hundreds, rest = divmod(value, 100)
    spoken = SPELL.number_to_words(hundreds) + (f" {SPELL.number_to_words(rest)}" if rest else " hundred")
    found = find_heat(TOKENS(f"preheat the oven to {spoken} degrees"))
    assert [(h.low, h.kind) for h in found] == [(value, "oven")]


LEVELS = [row["words"] for row in read_lexicon("heat_levels", columns=("words", "level", "alone"))]


@given(
    st.lists(
        st.sampled_from(
            [
                *LEVELS,
                "heat",
                "on",
                "oven",
                "gas",
                "mark",
                "350",
                "three",
                "fifty",
                "degrees",
                "fan",
                "to",
                "or",
                ",",
                ".",
            ]
        ),
        max_size=12,
    )
)
def test_any_words_give_ordered_settings_inside_them(words: list[str]) -> None:
    doc = parse(" ".join(words)) if words else TOKENS("")
    found = find_heat(doc)
    assert all(0 <= h.start < h.end <= len(doc) for h in found)
    assert all((h.level is None) != (h.low is None) for h in found)
    assert all(one.end <= two.start for one, two in pairwise(found))
