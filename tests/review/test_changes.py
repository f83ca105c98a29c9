"""What differs between two states can be applied, and taken back, whatever the states are."""

from __future__ import annotations

import copy
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from extract.review.keeping.changes import applied, differences, inverse, same

VALUES = st.recursive(
    st.none() | st.booleans() | st.integers(-3, 3) | st.floats(-2, 2) | st.text("abé\n", max_size=4),
    lambda inner: (
        st.lists(inner, max_size=5) | st.dictionaries(st.text("xyz", max_size=2), inner, max_size=4)
    ),
    max_leaves=20,
)


@given(VALUES, VALUES)
def test_changes_lead_there_and_back(old: Any, new: Any) -> None:
    kept = copy.deepcopy(old)
    changes = differences(old, new)
    assert same(applied(old, changes), new)
    assert same(applied(new, inverse(changes)), old)
    assert same(old, kept)


@given(VALUES)
def test_nothing_differs_from_itself(value: Any) -> None:
    assert differences(value, copy.deepcopy(value)) == []


def test_one_line_changed_in_a_long_list_is_one_small_change() -> None:
    old = {"lines": [{"name": f"food {number}", "amount": None} for number in range(200)]}
    new = copy.deepcopy(old)
    new["lines"][120]["amount"] = {"low": 2.0}  # type: ignore[index]
    assert differences(old, new) == [{"at": ["lines", 120, "amount"], "old": None, "new": {"low": 2.0}}]


@pytest.mark.parametrize(("one", "other"), [(1, True), (1, 1.0), (0, False), ("1", 1), (None, 0)])
def test_values_written_differently_are_not_the_same(one: Any, other: Any) -> None:
    assert not same(one, other)
    assert differences([one], [other]) != []
