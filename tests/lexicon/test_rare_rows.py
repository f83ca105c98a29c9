"""Sayings that hardly any talk has may become fewer, not more; ``python tests/lexicon/rare_rows.py`` lists them."""

from __future__ import annotations

import pytest
from rare_rows import SAYINGS, TOKENS, rare, talks

CEILINGS = {
    "action_words": 0,
    "amount_words": 226,
    "count_words": 665,
    "doubt_cues": 13,
    "heat_levels": 32,
    "heat_words": 139,
    "ledger_cues": 4,
    "mishearings": 199,
    "share_words": 106,
    "step_notes": 4,
    "time_words": 32,
    "title_words": 58,
    "verb_mishearings": 35,
}


@pytest.mark.parametrize("name", SAYINGS)
def test_no_more_rows_are_rare_than_there_were(name: str) -> None:
    """A new row needs three talks that have its words, or one that is no longer rare makes room for it."""
    assert len(rare(name)) <= CEILINGS[name]


def test_talks_are_cut_into_words_as_the_lexicons_write_them() -> None:
    assert TOKENS.findall("it's 2 cups, don't say") == ["it", "'s", "2", "cups", ",", "do", "n't", "say"]
    assert len(talks()) > 40
    assert all(text.count(" ") > 100 for text in talks().values())
