"""Sayings that hardly any talk has may become fewer, not more; ``python tests/lexicon/rare_rows.py`` lists them."""

from __future__ import annotations

import pytest
from rare_rows import SAYINGS, TOKENS, rare, talks

CEILINGS = {
    "action_words": 0,
    "amount_words": 205,
    "count_words": 609,
    "doubt_cues": 12,
    "heat_levels": 31,
    "heat_words": 133,
    "ledger_cues": 3,
    "mishearings": 194,
    "share_words": 97,
    "step_notes": 3,
    "time_words": 29,
    "title_words": 52,
    "verb_mishearings": 34,
}


@pytest.mark.parametrize("name", SAYINGS)
def test_no_more_rows_are_rare_than_there_were(name: str) -> None:
    """A new row needs three talks that have its words, or one that is no longer rare makes room for it."""
    assert len(rare(name)) <= CEILINGS[name]


def test_talks_are_cut_into_words_as_the_lexicons_write_them() -> None:
    assert TOKENS.findall("it's 2 cups, don't say") == ["it", "'s", "2", "cups", ",", "do", "n't", "say"]
    assert len(talks()) > 120
    assert all(text.count(" ") > 100 for text in talks().values())
