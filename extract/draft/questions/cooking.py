"""Questions about heat, time, tins and yield: what the method lacks for somebody who was not there."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from extract.draft.questions.words import holds, question_words, quoted
from extract.measure.tins import find_lengths, find_tins
from extract.model import Action, Dish, Evidence, Heat, Question
from extract.spot.food_names import kinds_of

_AMBIGUOUS = (90, 275)  # an oven figure that could be meant on either scale
_NEAR = 2  # actions within which a time or a sign may still belong to the one before
_FLESH = frozenset(("meat", "poultry", "fish", "shellfish", "egg"))


def cooking_questions(dish: Dish) -> Iterator[Question]:
    """Every question about how the dish is cooked, and what it makes."""
    actions = [action for step in dish.method for action in step.actions]
    yield from _bare_temperatures(actions)
    yield from _oven(actions)
    yield from _no_time(actions)
    yield from _off_camera(actions)
    yield from _tin(dish, actions)
    if dish.yield_ is None and dish.components:
        yield Question(
            kind="no yield",
            about=dish.title,
            text=f"How many people does it serve, or how many pieces does it make: {dish.title}?",
        )
    if dish.batch is not None:
        yield _batch(dish)


def _bare_temperatures(actions: Sequence[Action]) -> Iterator[Question]:
    """Figures without a scale; each figure once."""
    asked: set[tuple[str, float]] = set()
    for action in actions:
        heat = action.heat
        if heat is None or heat.low is None or heat.unit or any(other.unit for other in heat.equivalents):
            continue
        if (heat.kind, heat.low) in asked:
            continue
        asked.add((heat.kind, heat.low))
        either = _AMBIGUOUS[0] <= heat.low <= _AMBIGUOUS[1]
        fan = " And is that with the fan?" if heat.kind == "oven" and not heat.fan else ""
        text = f"Is {heat.low:g} for {_heated(heat)} in Fahrenheit or in Celsius?{fan}{quoted(action.said)}"
        yield Question(
            kind="bare temperature",
            about=f"{heat.low:g} for {_heated(heat)}",
            text=text,
            weight=72 if either else 40,
            said=action.said[:1],
        )


def _heated(heat: Heat) -> str:
    names = {"oven": "the oven", "oil": "the oil", "internal": "the middle of the food", "hob": "the hob"}
    return names.get(heat.kind, "the heat")


def _oven(actions: Sequence[Action]) -> Iterator[Question]:
    """An oven that is used and never set, or set only after something went in."""
    used = [(place, action) for place, action in enumerate(actions) if _is_in_oven(action)]
    given = [place for place, action in enumerate(actions) if action.heat and action.heat.kind == "oven"]
    if not used:
        return
    place, action = used[0]
    what = action.objects[0] if action.objects else "it"
    if not given:
        text = f"How hot is the oven when the {what} goes in?{quoted(action.said)}"
        yield Question(kind="oven never given", about=what, text=text, said=action.said[:1])
    elif given[0] > place and _start(actions[given[0]]) > _start(action):
        text = f"Is the oven heated beforehand? Its temperature is said only after the {what} goes in."
        said = [*action.said[:1], *actions[given[0]].said[:1]]
        yield Question(kind="oven given late", about=what, text=text, said=said)


def _is_in_oven(action: Action) -> bool:
    return action.verb.split()[0:1] != [] and (
        action.verb.split()[0] in question_words("oven") or "oven" in action.place
    )


def _start(action: Action) -> float:
    return min((said.start for said in action.said), default=0.0)


def _no_time(actions: Sequence[Action]) -> Iterator[Question]:
    """Cooking that has neither a time nor a sign of doneness, near it either."""
    for place, action in enumerate(actions):
        verb = action.verb.split()[0] if action.verb.split() else ""
        if (
            verb not in question_words("cooking")
            or action.negated
            or not action.objects
            or _ends(actions[place : place + 1 + _NEAR])
        ):
            continue
        what = action.objects[0]
        text = f"How long does one {action.verb} the {what}, and how does one tell that it is done?"
        flesh = any(kinds_of(name) & _FLESH for name in action.objects)
        yield Question(
            kind="no time and no sign",
            about=f"{action.verb} {what}",
            text=text + quoted(action.said),
            weight=75 if flesh or verb in question_words("oven") else 55,
            said=action.said[:1],
        )


def _off_camera(actions: Sequence[Action]) -> Iterator[Question]:
    """Work done before the recording, of which neither a time nor a heat nor a sign is told."""
    for action in actions:
        told = action.duration or action.heat or action.until
        if told or not action.objects or not any(holds(said.text, "off camera") for said in action.said):
            continue
        what = action.objects[0]
        text = (
            f"The {what} was seen to before the recording. How does one {action.verb} it, and for how long?"
        )
        yield Question(
            kind="off camera",
            about=f"{action.verb} {what}",
            text=text + quoted(action.said),
            said=action.said[:1],
        )


def _ends(actions: Sequence[Action]) -> bool:
    """Whether a time, a sign or a core temperature closes one of these actions."""
    return any(
        action.duration or action.until or (action.heat and action.heat.kind == "internal")
        for action in actions
    )


def _tin(dish: Dish, actions: Sequence[Action]) -> Iterator[Question]:
    """The size of a tin that decides how a thing bakes."""
    if not holds(dish.title, "tinned") or not any(_is_in_oven(action) for action in actions):
        return
    evidence: list[Evidence] = [said for action in actions for said in action.said]
    texts = [*dish.equipment, *(step.text for step in dish.method), *(said.text for said in evidence)]
    sized = any(next(find_tins(text), None) for text in texts)
    vessel = [said for said in evidence if holds(said.text, "vessel")]
    if sized or any(next(find_lengths(said.text), None) for said in vessel):
        return
    word = next(
        (w for said in vessel for w in said.text.lower().split() if w in question_words("vessel")), "tin"
    )
    text = f"What size and shape is the {word} for the {dish.title}?{quoted(vessel)}"
    yield Question(kind="tin size missing", about=word, text=text, said=vessel[:1])


def _batch(dish: Dish) -> Question:
    assert dish.batch is not None
    factor = dish.batch.factor
    size = {2.0: "a double batch", 0.5: "a half batch"}.get(factor, f"{factor:g} times the normal batch")
    text = f"What is made on camera is {size}. Are all the amounts said for that, or for the normal one?"
    return Question(
        kind="amounts of the batch", about=size, text=text + quoted(dish.batch.said), said=dish.batch.said[:1]
    )
