"""Questions about heat, time, tins, batch and yield: what the method lacks for somebody who was not there."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from extract.draft.questions.lines import actions_of
from extract.draft.questions.words import holds, is_many, listed, once, question_words
from extract.measure.tins import find_lengths, find_tins
from extract.model import Action, Batch, Component, Dish, Evidence, Heat, Question, Step
from extract.spot.names.foods import kinds_of, name_keys
from extract.spot.numbers.values import number_words

_AMBIGUOUS = (90, 275)  # an oven figure that could be meant on either scale
_EITHER, _ONE, _OTHER = 72, 40, 25
_LONG, _SHORT, _QUICK = 75, 50, 25
_UNMADE = 34  # of the batch of a dish whose yield nobody said
_FLESH = frozenset(("meat", "poultry", "fish", "shellfish", "egg"))
_SEASONS = frozenset(("fat", "oil", "spice", "herb", "condiment"))
_HEATED = {"oven": "oven", "oil": "oil", "internal": "middle of the food"}
_SIZES = {2.0: "a double batch", 0.5: "half a batch", 3.0: "three batches"}


def cooking_questions(dish: Dish, before: Sequence[Dish] = ()) -> Iterator[Question]:
    """Every question about how the dish is cooked and what it makes; ``before`` are the dishes of the show up to it."""
    yield from _bare_temperatures(dish)
    yield from _oven(dish, before)
    yield from _no_time(dish)
    yield from _tin(dish)
    yield from _batches(dish)
    if dish.yield_ is None and dish.components:
        text = "How many people does it serve, or how many does it make?"
        yield Question(kind="no yield", about="yield", text=text)


def _called(dish: Dish) -> str:
    return dish.title[:1].lower() + dish.title[1:] if not dish.title[1:2].isupper() else dish.title


def _bare_temperatures(dish: Dish) -> Iterator[Question]:
    """The figures without a scale, all in one question."""
    bare: dict[str, list[tuple[Heat, Evidence | None]]] = {}
    for action in actions_of(dish):
        heat = action.heat
        if heat is None or heat.low is None or heat.unit or any(other.unit for other in heat.equivalents):
            continue
        if heat.kind == "hob":
            continue  # the figure on a dial is no temperature
        bare.setdefault(heat.kind, []).append((heat, next(iter(action.said), None)))
    for kind, found in bare.items():
        figures = once(f"{heat.low:g}" for heat, _ in found)
        fan = kind == "oven" and not any(heat.fan for heat, _ in found)
        either = any(_AMBIGUOUS[0] <= (heat.low or 0) <= _AMBIGUOUS[1] for heat, _ in found)
        text = (
            f"You said {listed(figures)} for the {_HEATED.get(kind, 'heat')}: is that Fahrenheit or Celsius"
            f"{', and with the fan or without' if fan else ''}?"
        )
        yield Question(
            kind="bare temperature",
            about=listed(figures),
            text=text,
            weight=_OTHER if kind == "other" else _EITHER if either else _ONE,
            said=[said for _, said in found if said is not None][:3],
        )


def _oven(dish: Dish, before: Sequence[Dish]) -> Iterator[Question]:
    """An oven that is used and whose heat nobody said: whether it is that of the dish before, where that has one."""
    actions = actions_of(dish)
    if any(action.heat is not None and action.heat.kind == "oven" for action in actions):
        return
    used = next((action for action in actions if _is_in_oven(action) and not action.negated), None)
    if used is None:
        return
    what = _thing(used, dish)
    said = used.said[:1]
    for other in reversed(before):
        heats = [action.heat for action in actions_of(other) if action.heat and action.heat.kind == "oven"]
        if heats and heats[-1].low is not None:
            figure = heats[-1].text or f"{heats[-1].low:g}"
            text = f"How hot is the oven for the {_called(dish)}: still at {figure}, as for the {_called(other)}?"
            yield Question(kind="same oven", about=what, text=text, said=said)
            return
    yield Question(
        kind="oven never given", about=what, text=f"How hot is the oven for the {_called(dish)}?", said=said
    )


def _thing(action: Action, dish: Dish) -> str:
    """What an action is done to, by a name that means something to a reader; else the dish itself."""
    known = _known(dish)
    return next((name for name in action.objects if set(name_keys(name)[-1:]) & known), _called(dish))


def _known(dish: Dish) -> set[str]:
    """The last words of the dish's foods and parts, and of its name."""
    names = [dish.title]
    for component in dish.components:
        names += [component.name, *(line.name for line in component.ingredients)]
        names += [portion.of for portion in (*component.portions, *component.leftovers)]
    return {key for name in names for key in name_keys(name)[-1:]}


def _is_in_oven(action: Action) -> bool:
    return action.verb.split()[0:1] != [] and (
        action.verb.split()[0] in question_words("oven") or "oven" in action.place
    )


def _no_time(dish: Dish) -> Iterator[Question]:
    """A stage of cooking with neither a time nor a sign of doneness, in it or right after it; each thing once.

    Only of what the dish holds: an action on something that is neither a line nor a part of it is no stage of its own.
    """
    known, asked = _known(dish), set[str]()
    timed = {key for action in actions_of(dish) if _ends(action) for key in _keys(action)}
    for place, step in enumerate(dish.method):
        if any(map(_ends, _stage(dish.method, place))):
            continue
        for action in step.actions:
            things = [name for name in action.objects if set(name_keys(name)[-1:]) & known]
            verb = action.verb.split()[0] if action.verb.split() else ""
            if verb not in question_words("cooking") or action.negated or not things:
                continue
            if _keys(action) & timed or things[0] in asked:
                continue
            asked.add(things[0])
            if kinds_of(things[0]) & _SEASONS:
                continue  # fat that is heated, a spice that is toasted: the smell tells
            flesh = any(kinds_of(name) & _FLESH for name in things)
            how = "How long do the" if is_many(things[0]) else "How long does the"
            text = f"{how} {things[0]} {action.verb}, or how does one see that it is done?"
            yield Question(
                kind="no time and no sign",
                about=things[0],
                part=step.component,
                text=text,
                weight=_QUICK if verb in question_words("quick") else _LONG if flesh else _SHORT,
                said=action.said[:1],
            )


def _stage(method: Sequence[Step], place: int) -> list[Action]:
    """The actions of a step, of the step before it and of the one after it."""
    around = method[max(0, place - 1) : place + 2]
    return [action for step in around for action in step.actions]


def _ends(action: Action) -> bool:
    """Whether a time, a sign or a core temperature closes an action."""
    return bool(action.duration or action.until or (action.heat and action.heat.kind == "internal"))


def _keys(action: Action) -> set[str]:
    return {key for name in action.objects for key in name_keys(name)[-1:]}


def _tin(dish: Dish) -> Iterator[Question]:
    """The size of a tin that is named and decides how a thing bakes."""
    parts = [dish.title, *(component.name for component in dish.components)]
    if not any(holds(name, "tinned") for name in parts) or not any(map(_is_in_oven, actions_of(dish))):
        return
    places = [place for action in actions_of(dish) for place in action.place]
    vessel = next((name for name in (*dish.equipment, *places) if holds(name, "vessel")), "")
    texts = [*dish.equipment, *places, *(step.text for step in dish.method)]
    if not vessel or _has_figure(vessel):
        return
    if any(next(find_tins(text), None) or next(find_lengths(text), None) for text in texts):
        return
    said = next((action.said[:1] for action in actions_of(dish) if vessel in action.place), [])
    yield Question(
        kind="tin size missing",
        about=vessel,
        text=f"What size is the {vessel} for the {_called(dish)}?",
        said=said,
    )


def _has_figure(vessel: str) -> bool:
    """Whether a vessel's name tells a size: "two-litre dish", "9-inch tin"."""
    words = re.split(r"[\s-]+", vessel.lower())
    return any(word in number_words() or word[:1].isdigit() for word in words)


def _batches(dish: Dish) -> Iterator[Question]:
    """Whether the amounts are those of the batch on camera: of the dish, or of the part that alone was made larger."""
    if any(question.kind == "batch" for question in dish.questions):
        return
    if dish.batch is not None:
        yield _batch(dish, dish.batch, "")
    for component in dish.components:
        batch = batch_of(component)
        if batch is not None:
            yield _batch(dish, batch, component.name)


def batch_of(component: Component) -> Batch | None:
    """The batch of one part alone, None where it has none; a field that a later draft may hold."""
    found = getattr(component, "batch", None)
    return Batch.model_validate(found) if isinstance(found, dict) else found


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _batch(dish: Dish, batch: Batch, part: str) -> Question:
    """Whether list and yield are both for what was made on camera; without a yield the words mostly settle it."""
    size = _SIZES.get(batch.factor, f"{batch.factor:g} times the usual batch")
    made = dish.yield_
    lead = f"{_capital(size)}{f' of the {part}' if part else ''} is made on camera"
    weight, text = _UNMADE, f"{lead}: are the amounts on the list for that, or for one batch?"
    if made is not None:
        count = f"{made.low:g}" if made.low == made.high else f"{made.low:g} to {made.high:g}"
        weight, text = 0, f"{lead}: are the list and the {count} {made.unit} for that, or for one batch?"
    return Question(
        kind="amounts of the batch", about=size, part=part, text=text, weight=weight, said=batch.said[:1]
    )
