"""The ingredient lines of a dish as questions see them: where each stands, and what else the dish tells of its food."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from extract.draft.questions.words import holds, question_words
from extract.model import Action, Amount, Dish, Ingredient
from extract.spot.names.foods import canonical, name_keys

LEAST_WORK = 5  # actions from which a dish has an end to speak of


@dataclass(frozen=True, slots=True)
class Line:
    """An ingredient line with the part of the dish it stands in.

    ``baked``: in what is mixed there the proportions decide. ``salted``: its salt is measured.
    ``elsewhere``: another line of the dish gives an amount of the same food. ``used``: a step takes it up, or there
    is no method. ``last``: first told when the rest is made.
    """

    food: Ingredient
    part: str
    baked: bool
    salted: bool
    elsewhere: bool
    used: bool
    last: bool = False

    @property
    def where(self) -> str:
        """ "into the dough", "into the dish" where the part has no name, "to serve" where that is its name."""
        first = self.part.split()[0].lower() if self.part.split() else ""
        return self.part if first in question_words("purpose") else f"into the {self.part or 'dish'}"

    @property
    def told(self) -> bool:
        """Whether the cook's words tell that there is an amount and not which: "some", "a little"."""
        return any(holds(said.text, "some") for said in self.food.said[:1])

    @property
    def aside(self) -> bool:
        """Whether the use is one whose amount matters little: to serve, for dusting, a garnish."""
        return holds(" & ".join((self.food.preparation, self.food.note, self.part)), "aside")


def lines_of(dish: Dish) -> list[Line]:
    """Every ingredient line of the dish, in its order."""
    measured = [
        (line, canonical(line.name))
        for component in dish.components
        for line in component.ingredients
        if is_measured(line.amount) and not line.counted_in
    ]
    taken = _taken_up(dish)
    found = []
    for component in dish.components:
        baked = holds(component.name, "baked") or (
            holds(dish.title, "baked") and not component.name and len(dish.components) < 3
        )
        salted = holds(component.name or dish.title, "salt counts")
        for line in component.ingredients:
            name = canonical(line.name)
            again = any(other is not line and _same(name, known) for other, known in measured)
            used = not taken or bool(set(name_keys(line.name)[-1:]) & taken)
            found.append(Line(line, component.name, baked, salted, again, used, _is_last(dish, line)))
    return found


def _is_last(dish: Dish, line: Ingredient) -> bool:
    """Whether a food is first told in the last sixth of the work on a dish."""
    times = [said.start for action in actions_of(dish) for said in action.said]
    told = min((said.start for said in line.said), default=0.0)
    return len(times) > LEAST_WORK and told > max(times) - (max(times) - min(times)) / 6


def is_measured(amount: Amount | None) -> bool:
    """Whether an amount is one that a stranger can measure out."""
    return amount is not None and not holds(amount.unit, "by feel")


def _same(name: str, other: str) -> bool:
    """Whether two names are one food, or one is the other's short name: "flour" and "plain flour"."""
    mine, theirs = name.split(), other.split()
    shorter, longer = sorted((mine, theirs), key=len)
    return bool(shorter) and (mine == theirs or longer[-len(shorter) :] == shorter)


def _taken_up(dish: Dish) -> set[str]:
    """The last words of everything that the method does something with."""
    names = [name for action in actions_of(dish) for name in (*action.objects, *action.with_)]
    return {key for name in names for key in name_keys(name)[-1:]}


def actions_of(dish: Dish) -> list[Action]:
    """Everything the cook does, in order."""
    return [action for step in dish.method for action in step.actions]


def by_part(lines: Sequence[Line]) -> Iterator[list[Line]]:
    """The lines part by part."""
    for part in dict.fromkeys(line.part for line in lines):
        yield [line for line in lines if line.part == part]
