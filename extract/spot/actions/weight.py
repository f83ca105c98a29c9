"""How much speaks for an action being one of the method: what the reader takes its words to be for."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from extract.reader.reading import Reading
    from extract.spot.actions.span import ActionSpan

LEAST = 0.0
HALF = 0.5
NEAR = 5  # tokens from a verb on that tell what its words are for
FLOOR = 1e-3


def is_instruction(action: ActionSpan) -> bool:
    """Whether the words of an action belong to the method."""
    return action.weight > LEAST


def weigh(reading: Reading, by_utterance: dict[tuple[int, int], list[ActionSpan]]) -> list[ActionSpan]:
    """The actions, each with the log odds that its words are instruction."""
    return [
        replace(
            action,
            weight=round(log_odds(likelihood(reading, action)), 3),
            doing=doing(reading, action),
            ahead=ahead(reading, action),
        )
        for actions in by_utterance.values()
        for action in actions
    ]


def likelihood(reading: Reading, action: ActionSpan) -> float:
    """How likely the words of an action tell something to be done; what only names or shows counts half."""
    start, end = action.start, max(action.end, action.at + 1)
    done = reading.role_of(start, end, "do", "ahead")
    return done + HALF * reading.role_of(start, end, "need", "sign")


def doing(reading: Reading, action: ActionSpan) -> float:
    """How likely the words of an action from its verb on, a few of them, are something done."""
    end = min(max(action.end, action.at + 1), action.at + NEAR)
    return round(reading.role_of(action.at, end, "do", "ahead"), 3)


def ahead(reading: Reading, action: ActionSpan) -> float:
    """How likely the words of an action tell what was done before the recording."""
    return round(reading.role_of(action.start, max(action.end, action.at + 1), "ahead"), 3)


def log_odds(likely: float) -> float:
    """The log odds of a likelihood from 0 to 1."""
    kept = min(1 - FLOOR, max(FLOOR, likely))
    return math.log(kept / (1 - kept))
