"""Every caution of a dish, and how they stand in a draft."""

from __future__ import annotations

from collections.abc import Iterable

from extract.measure.heat.scales import settle_heats
from extract.measure.system import settle
from extract.model import Dish, Ingredient, Question, RecipeDraft, Step
from extract.safety.caution import Caution
from extract.safety.core import core_cautions
from extract.safety.minimums import authority_for
from extract.safety.usual import served_raw, usual_cautions


def cautions(dish: Dish, authority: str = "USDA") -> list[Caution]:
    """The cautions that ``dish`` calls for; [] where none is due.

    ``authority`` (USDA, Health Canada or UK FSA) says whose minimum decides whether what the cook said is
    enough; the words give the other chart's figure beside it. What is served raw has the caution for that in
    place of one on its core.
    """
    core = [] if served_raw(dish) else list(core_cautions(dish, authority))
    found = [*core, *usual_cautions(dish)]
    return list({(caution.kind, caution.about): caution for caution in found}.values())


def caution_questions(dish: Dish, authority: str = "USDA") -> list[Question]:
    """What the cook has to be asked for safety: a core below the published minimum, a rest that was not said.

    The other cautions ask nothing; they stand at their line or step and in a paragraph of their own.
    """
    asked: dict[str, Question] = {}
    for caution in cautions(dish, authority):
        if caution.ask:  # one figure that is said for several foods is one matter
            place = " ".join(f"{words.cue} {words.text}" for words in caution.said) or caution.about
            asked.setdefault(place, caution.asked())
    return list(asked.values())


def cautions_of_draft(draft: RecipeDraft) -> list[list[Caution]]:
    """The cautions of every dish, by the chart and the oven scale that go with the cook's measures."""
    authority = authority_for(settle(draft).system)
    return [cautions(dish, authority) for dish in settle_heats(draft).dishes]


def at_line(found: Iterable[Caution], line: Ingredient) -> list[str]:
    """The short words of the cautions that stand at an ingredient line."""
    short = (caution.short for caution in found if line.name in caution.foods)
    return list(dict.fromkeys(filter(None, short)))


def at_step(found: Iterable[Caution], step: Step) -> list[str]:
    """The short words of the cautions that stand at a step: those on what is done there, not on a food of the list."""
    said = [evidence for action in step.actions for evidence in action.said] + step.said
    short = (each.short for each in found if not each.foods and any(words in said for words in each.said))
    return list(dict.fromkeys(filter(None, short)))
