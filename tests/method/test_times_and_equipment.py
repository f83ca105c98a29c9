"""Times added up from a method, and the equipment that a talk names."""

from __future__ import annotations

import isodate
import pytest

from extract.draft.equipment import equipment_list
from extract.draft.times import dish_times
from extract.language import load_model, read_speech
from extract.model import Action, Duration, Step
from extract.spot.spotted import spot
from extract.transcript.cues import Cue, Transcript


def step(text: str, *actions: Action) -> Step:
    return Step(text=text, actions=list(actions))


def work(verb: str, low: float, unit: str = "minute", high: float | None = None, place: str = "") -> Action:
    time = Duration(low=low, high=low if high is None else high, unit=unit)
    return Action(verb=verb, duration=time, place=[place] if place else [])


def moment(verb: str, low: float, unit: str = "minute") -> Action:
    """Work done when that long has passed: "after an hour I put in the beans"."""
    action = work(verb, low, unit)
    assert action.duration is not None
    action.duration.moment = True
    return action


def minutes(duration: str | None) -> float:
    """An ISO 8601 duration in minutes, read by isodate as the outside reader."""
    return 0 if duration is None else isodate.parse_duration(duration).total_seconds() / 60


def minutes_of(action: Action) -> float:
    time = action.duration
    return 0 if time is None or time.high is None else time.high * {"minute": 1, "hour": 60}[time.unit]


METHODS = [
    # one after another: (active, waiting, preparation, cooking, total)
    ([step("Knead.", work("knead", 10)), step("Rest.", work("rest", 1, "hour"))], (10, 60, 70, 0, 70)),
    ([step("Bake.", work("bake", 25, high=30))], (0, 25, 0, 25, 25)),
    ([step("Fry.", work("fry", 4))], (4, 0, 0, 4, 4)),
    # parallel work is not counted twice
    ([step("Bake.", work("bake", 40)), step("Meanwhile, whisk.", work("whisk", 5))], (5, 35, 5, 35, 40)),
    # parallel work longer than the wait lengthens the whole
    ([step("Chill.", work("chill", 10)), step("Meanwhile, stir.", work("stir", 25))], (25, 0, 25, 0, 25)),
    ([step("Put it in.", work("put", 1, "hour", place="oven"))], (0, 60, 0, 60, 60)),
    # a moment within a time told before adds nothing; one that no time covers does
    ([step("Simmer.", work("simmer", 2, "hour"), moment("simmer", 1, "hour"))], (0, 120, 0, 120, 120)),
    ([step("Simmer.", work("simmer", 30), moment("simmer", 1, "hour"))], (0, 60, 0, 60, 60)),
]


@pytest.mark.parametrize(("method", "sums"), METHODS)
def test_times_add_up(method: list[Step], sums: tuple[float, ...]) -> None:
    times = dish_times(method)
    assert times is not None
    parts = (times.active, times.waiting, times.total)
    assert tuple(map(minutes, parts)) == (sums[0], sums[1], sums[4])
    assert minutes(times.preparation) + minutes(times.cooking) == sums[4]


def test_work_and_waiting_make_the_total() -> None:
    for method, _ in METHODS:
        times = dish_times(method)
        assert times is not None
        assert minutes(times.active) + minutes(times.waiting) == minutes(times.total)
        assert minutes(times.total) <= sum(minutes_of(action) for step in method for action in step.actions)


def test_no_times_no_sum() -> None:
    assert dish_times([step("Stir.", Action(verb="stir"))]) is None
    assert dish_times([step("Leave.", Action(verb="leave", duration=Duration(text="overnight")))]) is None


def test_unsaid_parts_make_it_a_least_time() -> None:
    whole = dish_times([step("Bake.", work("bake", 25))])
    part = dish_times([step("Chop.", Action(verb="chop")), step("Bake.", work("bake", 25))])
    assert whole is not None
    assert part is not None
    assert (whole.at_least, part.at_least) == (False, True)


TALKS = [
    (
        "Melt the butter in a large skillet. Pour the batter into a 9 inch cake tin.",
        ["large skillet", "9-inch cake tin"],
    ),
    ("Bake the loaf at 350 degrees for 40 minutes.", ["oven"]),
    ("Heat the oil in the pan. Fry the onions in the frying pan.", ["frying pan"]),
    ("Blend the soup in the blender and strain it through a fine sieve.", ["blender", "sieve"]),
    ("My sister bought a blender on Tuesday.", []),
    # a vessel whose size is told belongs to the dish, whatever else is said of it
    ("Pile the mash on top of the fish. It's a two litre dish, this, and it leaks.", ["two-litre dish"]),
    ("I've a two pound loaf tin there. Bake the loaf for an hour.", ["two-pound loaf tin"]),
]


@pytest.mark.parametrize(("said", "expected"), TALKS, ids=[said for said, _ in TALKS])
def test_equipment_is_listed_once_with_its_size(said: str, expected: list[str]) -> None:
    transcript = Transcript("t", "0" * 64, (Cue(0, 0, 9_000, said),))
    found = spot(read_speech(transcript, load_model()))
    assert equipment_list(found.speech, found.actions, found.utterances) == expected
