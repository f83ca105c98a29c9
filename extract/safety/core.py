"""The core temperature that was said of meat, fish and eggs, held against the published minimum."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from extract.measure.figures import exact
from extract.measure.kitchen import print_temperature
from extract.model import Action, Dish, Evidence, Heat
from extract.safety.caution import Caution
from extract.safety.classes import Risky, actions, cooked_after, holds, mentions, risky_foods, words
from extract.safety.minimums import meets, published

_READY = frozenset({"cooked ham", "hot dog"})  # bought cooked: a chart only speaks of heating them up
_LOOKS = {"fish": ("opaque", "flakes"), "crustacean": ("opaque",), "mollusc": ("open",), "egg": ("firm",)}
_MINUTES = {"second": Fraction(1, 60), "minute": Fraction(1), "hour": Fraction(60), "day": Fraction(1440)}
_NEEDS_REST = frozenset({"whole cut", "pork cut", "raw ham"})
_REST = Fraction(3)
_REST_BELOW = {"degF": Fraction(160), "degC": Fraction(71)}
_BARE_SCALE = (
    100  # a bare figure for a core is °C up to here and °F above: no food is eaten at 100 °F or 100 °C
)


_NO_CORE = {
    "degF": 113,
    "degC": 45,
}  # nothing is taken for done below this: such a figure is of a ferment or a bath


def core_cautions(dish: Dish, authority: str) -> Iterator[Caution]:
    """One caution for each class of food whose core was said to be below the published minimum, or not said.

    None where the figure said reaches the minimum of ``authority``, or a look that the chart accepts was said
    (fish that flakes, mussels that open).
    """
    found = list(risky_foods(dish))
    groups: dict[str, list[Risky]] = {}
    for risky in found:
        groups.setdefault(_group(dish, risky, found), []).append(risky)
    for food_class, foods in groups.items():
        if food_class:
            caution = _core_caution(dish, food_class, foods, found, authority)
            if caution is not None:
                yield caution


def _group(dish: Dish, risky: Risky, found: list[Risky]) -> str:
    """The class under which the food is judged here, "" where nothing is due."""
    if risky.food_class != "egg":
        return risky.food_class
    texts = " ".join([dish.title, *(step.text for step in dish.method)])
    if holds(texts, words("egg dish")):
        return "egg dish"
    if not cooked_after(dish, risky.food):
        return ""  # a raw egg has a caution of its own
    lines = [line.name for component in dish.components for line in component.ingredients]
    in_batter = any(holds(name, words("baked")) for name in lines)
    in_meat = any(other.food_class.startswith("ground") for other in found)
    return "" if in_batter or in_meat else "egg"


def _core_caution(
    dish: Dish, food_class: str, foods: list[Risky], found: list[Risky], authority: str
) -> Caution | None:
    names = ", ".join(dict.fromkeys(risky.food for risky in foods))
    said = [action for action in actions(dish) if _speaks_of(action, foods, found)]
    minimum = published(food_class, authority)
    for action in said:
        assert action.heat is not None
        enough = _enough(action, food_class, authority)
        if enough is False:
            core = print_temperature(action.heat)
            text = f"{names}: the cook said a core of {core}; the published minimum is {minimum}."
            ask = f"You said {core} in the middle of the {names}, below the published minimum: is that so?"
            return _caution(foods, names, text, tuple(action.said[:1]), ask)
        if enough and _unrested(dish, action.heat, food_class, authority):
            core = print_temperature(action.heat)
            text = f"{names}: {core} is enough only with a rest, and none was said; the minimum is {minimum}."
            ask = f"How long does the {names} rest after it is taken off at {core}?"
            return _caution(foods, names, text, tuple(action.said[:1]), ask)
    if said or food_class in _READY or _looks_done(dish, food_class):
        return None
    text = f"{names}: no core temperature was said. The published minimum is {minimum}."
    return _caution(foods, names, text, _evidence(foods))


def _caution(foods: list[Risky], names: str, text: str, said: tuple[Evidence, ...], ask: str = "") -> Caution:
    at = tuple(dict.fromkeys(risky.line.name for risky in foods))
    return Caution("core temperature", names, text, said, "cook through", at, ask)


def _speaks_of(action: Action, foods: list[Risky], found: list[Risky]) -> bool:
    """Whether the action gives a core temperature of one of ``foods``, or names none of those ``found``."""
    heat = action.heat
    if heat is None or heat.kind != "internal" or heat.low is None:
        return False
    named = [risky for risky in found if mentions(action, risky.food)]
    if heat.low < _NO_CORE[heat.unit or ("degC" if heat.low <= _BARE_SCALE else "degF")]:
        return False
    return not named or any(risky in foods for risky in named)


def _enough(action: Action, food_class: str, authority: str) -> bool | None:
    """Whether the core that was said reaches the minimum; None where the chart has no figure."""
    heat = action.heat
    assert heat is not None
    assert heat.low is not None
    food_class = "egg dish" if food_class == "egg" else food_class
    degrees = exact(heat.low)
    unit = heat.unit or ("degC" if degrees <= _BARE_SCALE else "degF")
    held = Fraction(0)
    if action.duration is not None and action.duration.low is not None:
        held = exact(action.duration.low) * _MINUTES[action.duration.unit]
    return meets(food_class, degrees, unit, authority, held)


def _unrested(dish: Dish, heat: Heat, food_class: str, authority: str) -> bool:
    """Whether USDA's figure for whole cuts was said without the rest that is part of it."""
    assert heat.low is not None
    unit = heat.unit or ("degC" if heat.low <= _BARE_SCALE else "degF")
    if authority != "USDA" or food_class not in _NEEDS_REST or exact(heat.low) >= _REST_BELOW[unit]:
        return False
    return not any(_rests(action) for action in actions(dish))


def _rests(action: Action) -> bool:
    if action.verb.lower() not in words("rest"):
        return False
    if action.duration is None or action.duration.low is None:
        return True
    return exact(action.duration.low) * _MINUTES[action.duration.unit] >= _REST


def _looks_done(dish: Dish, food_class: str) -> bool:
    """Whether a look that the chart accepts for this class was said."""
    looks = [word for role in _LOOKS.get(food_class, ()) for word in words(role)]
    return any(action.until and holds(action.until, looks) for action in actions(dish))


def _evidence(foods: list[Risky]) -> tuple[Evidence, ...]:
    return tuple(evidence for risky in foods for evidence in risky.line.said[:1])[:3]
