"""Whether the stages of a dish's making tell how long they take."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from typing import TYPE_CHECKING

from extract.draft.times import work_of

if TYPE_CHECKING:
    from extract.model import Action, Dish, Duration

COOKING = frozenset({"heat"})
STAGES = frozenset({"heat", "wait"})


def is_timed(dish: Dish, works: Collection[str]) -> bool:
    """Whether each step that does one of ``works`` tells for how long, so that the times add up to something."""
    return all(any(map(_has_figures, _durations(stage))) for stage in _stages(dish, works))


def is_timed_exactly(dish: Dish, works: Collection[str]) -> bool:
    """Whether, besides, no time is a range or an about, so that their sum is no least one."""
    told = [duration for stage in _stages(dish, works) for duration in _durations(stage)]
    return is_timed(dish, works) and all(_has_figures(each) and each.low == each.high for each in told)


def _stages(dish: Dish, works: Collection[str]) -> Iterator[list[Action]]:
    """The actions of each step that does one of ``works``; heating the oven is none."""
    for step in dish.method:
        if any(work_of(act) in works and not act.negated and act.objects != ["oven"] for act in step.actions):
            yield step.actions


def _durations(stage: list[Action]) -> list[Duration]:
    return [action.duration for action in stage if action.duration is not None]


def _has_figures(duration: Duration) -> bool:
    return duration.low is not None
