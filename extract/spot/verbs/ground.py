"""What was spotted in a talk, looked up by token, and the noun phrases that actions are read from."""

from __future__ import annotations

from bisect import bisect_left
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal

from extract.spot.verbs.things import equipment_at
from extract.spot.verbs.words import words

if TYPE_CHECKING:
    from spacy.tokens import Doc

    from extract.spot.spans import Duration, Food, HeatSetting


@dataclass(frozen=True, slots=True)
class Phrase:
    """A noun phrase of a clause: a food, a pronoun, a known thing of the kitchen, or another noun.

    ``lead`` is the preposition before it as said ("into", "over"), "" for an object.
    """

    start: int
    end: int
    kind: Literal["food", "pronoun", "thing", "noun"]
    food: Food | None = None
    lead: str = ""


@dataclass(slots=True)
class Ground:
    """Everything spotted in a talk, looked up by token; ``measures``: where the reader sees an amount begin."""

    doc: Doc
    foods: list[Food]
    durations: list[Duration]
    heats: list[HeatSetting]
    measures: frozenset[int] = frozenset()
    food_at: dict[int, Food] = field(default_factory=dict)
    in_food: frozenset[int] = frozenset()
    figures: frozenset[int] = frozenset()
    starts: list[int] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.foods = sorted(self.foods, key=lambda food: food.start)
        self.food_at = {food.start: food for food in self.foods}
        self.in_food = frozenset(at for food in self.foods for at in range(food.start, food.end))
        times = {at for time in self.durations for at in range(time.start, time.end)}
        heats = {at for heat in self.heats for at in range(heat.start, heat.end)}
        self.figures = frozenset(times | heats)
        self.starts = [food.start for food in self.foods]

    def foods_within(self, start: int, end: int) -> list[Food]:
        """The foods that begin within a span of tokens, in order."""
        return self.foods[bisect_left(self.starts, start) : bisect_left(self.starts, end)]


def equipment_within(ground: Ground, start: int, end: int) -> list[Phrase]:
    """The places of cooking named in a span of tokens, each with its preposition."""
    found: list[Phrase] = []
    lead, at = "", start
    while at < end:
        word = ground.doc[at].lower_
        thing = None if at in ground.in_food else equipment_at(ground.doc, at, end)
        if thing is not None and lead and thing[0].kind not in {"tool", "wrap"}:
            found.append(Phrase(at, thing[1], "thing", lead=lead))
        kept = word in words("determiner") or word in words("part of a place")
        lead = word if word in words("opens a place") else lead if kept else ""
        at = at + 1 if thing is None else thing[1]
    return found
