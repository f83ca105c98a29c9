"""Foods named without a verb: what goes in, what comes out again, and what is only denied."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from extract.spot.actions.span import ActionSpan
from extract.spot.verbs.ground import Phrase, equipment_within
from extract.spot.verbs.words import words

if TYPE_CHECKING:
    from extract.spot.spans import Food
    from extract.spot.verbs.ground import Ground


def implied_additions(ground: Ground, utterance: tuple[int, int]) -> list[ActionSpan]:
    """A verbless naming of foods as what it is in a passage of making: something added."""
    end = utterance[1]
    for at in range(utterance[0] + 1, utterance[1]):
        if ground.doc[at].lower_ in words("ends a list of foods") and at not in ground.in_food:
            end = at
            break
    foods = [food for food in ground.foods_within(utterance[0], end) if "dish" not in food.kinds]
    place = fronted_place(ground, utterance)
    return [
        replace(action, place=place) if action.group == "add" else action
        for action in named_alone(ground, foods, utterance)
    ]


def named_alone(ground: Ground, foods: list[Food], utterance: tuple[int, int]) -> list[ActionSpan]:
    """Foods named without a verb: those that go in, and those that come out again ("bay leaf out")."""
    out = [food for food in foods if comes_out(ground, food)]
    put_in = [food for food in foods if food not in out and not is_denied(ground, food)]
    taken = [replace(a, verb="take out", group="move") for a in additions(out, utterance)]
    return [*taken, *additions(put_in, utterance)]


def is_denied(ground: Ground, food: Food) -> bool:
    """Whether a food is named as what is not meant: "and no salt, not till the end", "cider. Not water."."""
    return food.start > 0 and ground.doc[food.start - 1].lower_ in {"no", "not"}


def comes_out(ground: Ground, food: Food) -> bool:
    """Whether a food is named with an "out" and nothing behind it: "bay leaf out, and mash them"."""
    after = [token.lower_ for token in ground.doc[food.end : food.end + 2]]
    return after[:1] == ["out"] and (not after[1:] or after[1] in words("opens a clause") | {".", "!"})


def fronted_place(ground: Ground, utterance: tuple[int, int]) -> tuple[Phrase, ...]:
    """The place that opens an utterance: "in the blender, one bunch of mint"."""
    start, end = utterance
    while start < end and ground.doc[start].lower_ in words("begins a thought") | {"and", ","}:
        start += 1
    stop = next((at for at in range(start, end) if ground.doc[at].lower_ == ","), start)
    opens = start < end and ground.doc[start].lower_ in words("opens a place")
    return tuple(equipment_within(ground, start, stop)) if opens else ()


def additions(foods: list[Food], utterance: tuple[int, int], start: int | None = None) -> list[ActionSpan]:
    """Foods named together, as one addition that begins at ``start``, the utterance's first token by itself."""
    if not foods:
        return []
    phrases = tuple(Phrase(food.start, food.end, "food", food) for food in foods)
    start = utterance[0] if start is None else start
    return [ActionSpan("add", start, start, foods[-1].end, utterance, "add", objects=phrases, implied=True)]
