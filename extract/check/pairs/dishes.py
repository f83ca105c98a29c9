"""The said and the written dish side by side, and what each of them names anywhere."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from rapidfuzz import fuzz

from extract.check.pairs.foods import LIKELY, alike
from extract.check.pairs.verbatim import word_for_word
from extract.check.written.lines.tokens import tokens_of
from extract.measure.system import settle
from extract.model import Action, Dish, Evidence, Ingredient, RecipeDraft, Written
from extract.spot.names.foods import canonical, name_keys, word_key
from extract.spot.names.identity import sameness

_ENOUGH, _SAME_TITLE, _FEWEST = 25.0, 70.0, 2
_HALF, _THIRD = 1 / 2, 1 / 3


@dataclass
class Sides:
    """One dish as it was said and as it was written."""

    said: Dish
    written: Dish
    others: tuple[Dish, ...] = ()  # further dishes of the recording
    system: str = "us"  # whose spoons and cups the cook speaks of

    @cached_property
    def drafted(self) -> dict[int, int]:
        """The written steps that are the draft's own word for word, each with the draft's step, from 0."""
        return word_for_word(self.said, self.written)

    @cached_property
    def evidence(self) -> list[Evidence]:
        """Every piece of evidence of the dish, in the order of the recording."""
        found = [
            item for component in self.said.components for line in component.ingredients for item in line.said
        ]
        found += [
            item for component in self.said.components for share in component.portions for item in share.said
        ]
        found += [item for action in self.actions for item in action.said]
        found += [item for step in self.said.method for item in step.said]
        return sorted(found, key=lambda item: item.start)

    @cached_property
    def actions(self) -> list[Action]:
        """Every action that was said, in order."""
        return [action for step in self.said.method for action in step.actions]

    @cached_property
    def said_lines(self) -> list[Ingredient]:
        """Every ingredient line that was said."""
        return [line for component in self.said.components for line in component.ingredients]

    def lines_elsewhere(self, name: str) -> Iterator[Ingredient]:
        """The ingredient lines of a food in further dishes of the recording."""
        for dish in self.others:
            for component in dish.components:
                yield from (line for line in component.ingredients if sameness(line.name, name) == "same")

    @cached_property
    def _heard_keys(self) -> list[tuple[float, frozenset[str]]]:
        said = [(item.start, frozenset(self._without_made(item.text))) for item in self.evidence]
        for action in self.actions:
            start = min((item.start for item in action.said), default=0.0)
            names = (*action.objects, *action.with_, *action.place)
            said += [(start, frozenset(name_keys(canonical(name) or name))) for name in names]
        return said

    def _without_made(self, text: str) -> tuple[str, ...]:
        """The words of a text but for those that name something made: "caper mayonnaise" puts no capers in."""
        keys = name_keys(text)
        for made in self._made_keys:
            for at in range(len(keys) - len(made) + 1):
                if keys[at : at + len(made)] == made:
                    keys = (*keys[:at], *keys[at + len(made) - 1 :])
        return keys

    @cached_property
    def _made_keys(self) -> list[tuple[str, ...]]:
        """The names in several words of what was made, in this dish or another of the recording."""
        parts = [part for dish in (self.said, *self.others) for part in dish.components]
        names = [*(part.name for part in parts), *(share.of for part in parts for share in part.portions)]
        keys = {name_keys(name) for name in names}
        return [each for each in keys if len(each) > 1]

    def moment_of(self, name: str) -> float | None:
        """When every word of a food's name was first heard together, None where they never were."""
        wanted = name_keys(canonical(name) or name)
        moments = [start for start, heard in self._heard_keys if wanted and heard.issuperset(wanted)]
        return min(moments, default=None)

    def was_heard(self, name: str) -> bool:
        """Whether the words of a food's name stand in the evidence or an action of the said dish."""
        return self.moment_of(name) is not None

    def is_used(self, name: str) -> bool:
        """Whether an action of the said dish works on a food."""
        return any(
            alike(name, other) >= LIKELY
            for action in self.actions
            for other in (*action.objects, *action.with_, *action.place)
        )

    @cached_property
    def made_names(self) -> list[str]:
        """What either side makes on the way: the names of the components."""
        return [part.name for dish in (self.said, self.written) for part in dish.components if part.name]

    @cached_property
    def method_names_foods(self) -> bool:
        """Whether the said method names most of the foods listed, so that one it never names is doubtful."""
        names = [line.name for component in self.said.components for line in component.ingredients]
        return bool(names) and sum(map(self.is_used, names)) > len(names) / 2

    @cached_property
    def _steps(self) -> list[tuple[int, list[str]]]:
        return [_keyed(step.written, step.text) for step in self.written.method]

    @cached_property
    def _lines(self) -> list[tuple[int, list[str]]]:
        return [_keyed(line.written, f"{line.preparation} {line.note}") for line in self._listed]

    def line_that_names(self, name: str, *, in_lines: bool = False) -> int | None:
        """The written line that names every word of a food in passing; None where none does.

        Looked for in the steps of the method, or, with ``in_lines``, in what the ingredient lines say beside
        their own food ("beaten with a little milk").
        """
        named = [keys for one in (canonical(name) or name, name) if (keys := name_keys(one))]
        places = self._lines if in_lines else self._steps
        return next(
            (line for line, words in places if any(all(key in words for key in keys) for keys in named)), None
        )

    def written_holds(self, name: str) -> bool:
        """Whether one written line, of either list, holds every word of a food's name in some form."""
        keys = name_keys(name)
        texts = [(line.written, line.written.text) for line in self._listed if line.written]
        texts += [(step.written, step.text) for step in self.written.method if step.written]
        return any(keys and all(_in_some_form(key, _keyed(*text)[1]) for key in keys) for text in texts)

    @cached_property
    def listed_texts(self) -> list[str]:
        """The written ingredient lines as they stand."""
        return [line.written.text for line in self._listed if line.written]

    @cached_property
    def _listed(self) -> list[Ingredient]:
        return [line for component in self.written.components for line in component.ingredients]


def _keyed(place: Written | None, text: str) -> tuple[int, list[str]]:
    return (place.line if place else 0, [word_key(token) for token in tokens_of(text)])


def _in_some_form(key: str, words: list[str]) -> bool:
    """Whether a word is there, or another of its stem: "canned" and "can"."""
    done = key.endswith("ed")
    return any(key == word or (done and len(word) >= 3 and key.startswith(word)) for word in words)


def choose(draft: RecipeDraft, written: RecipeDraft) -> Iterator[Sides]:
    """Each written dish with the said dish that it is most like, by title and by foods.

    Two written dishes share a said one only where the others are like neither.
    """
    dishes = [(said, tuple(other for other in draft.dishes if other is not said)) for said in draft.dishes]
    system = settle(draft).system
    wanted = [[Sides(said, dish, others, system) for said, others in dishes] for dish in written.dishes]
    pairs = sorted(
        (
            (_nearness(sides), row, column)
            for row, line in enumerate(wanted)
            for column, sides in enumerate(line)
        ),
        key=lambda found: (-found[0], found[1], found[2]),
    )
    best: dict[int, int] = {}
    taken: set[int] = set()
    for _, row, column in pairs:
        if row not in best and column not in taken and _is_one_dish(wanted[row][column]):
            best[row] = column
            taken.add(column)
    for _, row, column in pairs:
        if row not in best and _is_one_dish(wanted[row][column]):
            best[row] = column
    for row in sorted(best):
        yield wanted[row][best[row]]


def doubt_of(sides: Sides) -> str:
    """Why the two sides may be different dishes, "" where title and foods speak for one."""
    count = sum(len(component.ingredients) for component in sides.written.components)
    met = _met(sides)
    ours, theirs = (set(name_keys(dish.title)) for dish in (sides.said, sides.written))
    enough = _THIRD if ours <= theirs or theirs <= ours else _HALF
    if count < _FEWEST or met >= enough * count:
        return ""
    return f"These may be different dishes: {met} of the {count} written foods were said in this one."


def _titles(sides: Sides) -> float:
    """From 0 to 100: how far the titles meet."""
    return float(fuzz.token_set_ratio(sides.said.title.lower(), sides.written.title.lower()))


def _met(sides: Sides) -> int:
    """How many of the written foods are said too."""
    ours = [line.name for line in sides.said_lines]
    theirs = [line.name for component in sides.written.components for line in component.ingredients]
    return sum(any(sameness(name, other) in ("same", "sort") for name in ours) for other in theirs)


def _nearness(sides: Sides) -> float:
    """From 0 to 150: how far title and foods meet, the share of either side's foods."""
    ours = sum(len(component.ingredients) for component in sides.said.components)
    theirs = sum(len(component.ingredients) for component in sides.written.components)
    met = _met(sides)
    return _titles(sides) / 4 + 100 * met / max(1, theirs) + 25 * met / max(1, ours)


def _is_one_dish(sides: Sides) -> bool:
    return _titles(sides) >= _SAME_TITLE or (_met(sides) >= _FEWEST and _nearness(sides) >= _ENOUGH)
