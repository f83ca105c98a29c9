"""The timed and heated actions of both sides, told apart by what is done, to what, and where in the dish."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import TypeVar

from rapidfuzz import fuzz

from extract.check.pairs.foods import LIKELY, alike
from extract.check.words import first_moment
from extract.model import Action, Dish, Duration, Heat
from extract.spot.names.foods import kinds_of
from extract.spot.verbs.forms import verb_forms

_EVERYWHERE = frozenset(("liquid", "fat", "oil"))
_ADDING = frozenset(("add", "mix", "season", "coat", "serve"))
_NEARER = 0.04  # than the equal one, for two figures to be of other work
_VERB, _GROUP, _FOODS, _SIGN, _PLACE = 0.5, 0.25, 0.4, 0.2, 0.4


@dataclass(frozen=True, slots=True)
class Moment:
    """An action in its place: ``place`` counts actions from the start, ``share`` is that from 0 to 1.

    ``start`` is when it was said, ``line`` where it is written; ``foods`` those it names, or, where it names
    none, those of the action before it. ``pot``: all that is in the same pot or on the same board by then;
    ``hot``: whether that has been on the heat. ``step``: its step, from 0; ``twin``: the step of the other
    side that is the same word for word, None where there is none.
    """

    action: Action
    foods: tuple[str, ...]
    place: int
    share: float
    start: float | None
    line: int | None
    pot: frozenset[str] = frozenset()
    hot: bool = False
    step: int = 0
    twin: int | None = None


def moments_of(dish: Dish, twins: Mapping[int, int] | None = None) -> list[Moment]:
    """Every action of a dish, in order; ``twins``: its steps that the other side has too, with the step there."""
    flat = [(number, step, action) for number, step in enumerate(dish.method) for action in step.actions]
    found: list[Moment] = []
    foods: tuple[str, ...] = ()
    pot, hot, vessel = frozenset[str](), False, ""
    for place, (number, step, action) in enumerate(flat):
        foods = (*action.objects, *action.with_) or foods
        if _starts_anew(action, pot, vessel):
            pot, hot = frozenset(), False
        vessel = _vessel(action) or vessel
        pot, hot = pot | _solids(action), hot or group_of(action.verb) == "heat"
        found.append(
            Moment(
                action,
                foods,
                place,
                place / max(1, len(flat) - 1),
                first_moment(action.said or step.said),
                step.written.line if step.written else None,
                pot,
                hot,
                number,
                (twins or {}).get(number),
            )
        )
    return found


def _solids(action: Action) -> frozenset[str]:
    """The foods an action names by which a pot is known: water, fat and seasoning are in many."""
    names = (*action.objects, *action.with_)
    return frozenset(name for name in names if kinds_of(name).isdisjoint(_EVERYWHERE))


def _starts_anew(action: Action, pot: frozenset[str], vessel: str) -> bool:
    """Whether an action turns to other foods or another vessel, rather than adding to the pot before it."""
    solids = _solids(action)
    if any(alike(name, other) >= LIKELY for name in solids for other in pot):
        return False
    if _vessel(action) not in ("", vessel) and (*action.objects, *action.with_):
        return True
    return bool(solids) and group_of(action.verb) not in _ADDING


def _vessel(action: Action) -> str:
    """The first place of an action that is no food, "" without one; a casserole is dish and vessel."""
    return next((place for place in action.place if not kinds_of(place) - {"dish", "made"}), "")


def same_pot(one: Moment, other: Moment) -> bool:
    """Whether two actions work on one pot of food."""
    return any(alike(name, also) >= LIKELY for name in one.pot for also in other.pot)


def context(said: Moment, written: Moment) -> float:
    """From 0 to about 1.5: how far two actions are one by verb, foods, sign of doneness and place."""
    close = _verbs(said.action.verb, written.action.verb)
    if any(alike(one, other) >= LIKELY for one in said.foods for other in written.foods):
        close += _FOODS
    if said.action.until and written.action.until:
        close += _SIGN * fuzz.token_set_ratio(said.action.until, written.action.until) / 100
    return close + _PLACE * (1 - abs(said.share - written.share))


def is_chance(
    pair: tuple[int, int], equal: Sequence[tuple[int, int]], sides: tuple[Sequence[Moment], Sequence[Moment]]
) -> bool:
    """Whether two figures are equal by chance: each is nearer to another one, and then nothing is out of its order.

    ``pair``: their places among the moments of either side; ``equal``: all pairs of equal figures.
    """
    taken, given = {one for one, _ in equal}, {other for _, other in equal}
    one, other = pair

    def near(first: int, second: int) -> float:
        return context(sides[0][first], sides[1][second])

    return any(
        near(first, other) + near(one, second) > near(one, other) + near(first, second) + _NEARER
        for first in range(len(sides[0]))
        for second in range(len(sides[1]))
        if first not in taken and second not in given and (first - one) * (second - other) < 0
    )


def _verbs(one: str, other: str) -> float:
    if one.split()[:1] == other.split()[:1]:
        return _VERB
    return _GROUP if group_of(one) and group_of(one) == group_of(other) else 0.0


def group_of(verb: str) -> str:
    """The kind of work a verb is ("heat", "mix", "wait" …), "" for one that no lexicon knows."""
    found = verb_forms().get(verb.split()[0].lower()) if verb.split() else None
    return found[0].group if found else ""


def timed(moments: Sequence[Moment]) -> list[tuple[Moment, Duration]]:
    """The moments that say how long, with the time."""
    return [(moment, moment.action.duration) for moment in moments if moment.action.duration is not None]


def heated(moments: Sequence[Moment]) -> list[tuple[Moment, Heat]]:
    """The moments that say how hot, with the heat."""
    return [(moment, moment.action.heat) for moment in moments if moment.action.heat is not None]


Told = TypeVar("Told")  # a time or a heat


def left_open(
    ours: Sequence[tuple[Moment, Told]],
    theirs: Sequence[tuple[Moment, Told]],
    equal: Callable[[Told, Told], bool],
    told: Mapping[int, Sequence[Told]] | None = None,
) -> tuple[list[tuple[Moment, Told]], list[tuple[Moment, Told]]]:
    """What is to be compared: all but the figures of steps that both sides have word for word.

    A figure that nobody said stays open, and with it what was said in its step: a person may have changed a step's
    words in the draft itself. ``told``: what was said in each step of the draft beside what its actions have.
    """

    said = [our[1] for our in ours]
    wrong: list[tuple[Moment, Told]] = []
    for pair in theirs:
        twin, figure = pair[0].twin, pair[1]
        heard = said if twin is None or told is None else [*said, *told.get(twin, ())]
        if twin is None or not any(equal(one, figure) for one in heard):
            wrong.append(pair)
    touched = {moment.twin for moment, _ in wrong}
    return [pair for pair in ours if pair[0].twin is None or pair[0].step in touched], wrong
