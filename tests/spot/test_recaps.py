"""A time that is only looked back on is no second time. The sentences are invented."""

from __future__ import annotations

from fractions import Fraction

import pytest
from heard import spotted_in

HALF_HOUR = (Fraction(1, 2), "hour")
MINUTES = {n: (Fraction(n), "minute") for n in (10, 20, 30)}

TOLD = [
    ("Roast it for half an hour. Right, that's had its half hour, so turn it over.", [HALF_HOUR]),
    (
        "Roast it for 30 minutes. That's had its half hour, so leave it ten minutes.",
        [MINUTES[30], MINUTES[10]],
    ),
    ("Simmer them 20 minutes. After their 20 minutes they are soft.", [MINUTES[20]]),
    ("The potatoes have had their 20 minutes, so drain them.", [MINUTES[20]]),
    ("Bake it for 20 minutes. Turn it and bake it for 20 minutes.", [MINUTES[20], MINUTES[20]]),
]


@pytest.mark.parametrize(("text", "times"), TOLD)
def test_times_told(text: str, times: list[tuple[Fraction, str]]) -> None:
    assert [(duration.low, duration.unit) for duration in spotted_in(text).durations] == times
