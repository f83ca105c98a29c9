"""How much speaks for a sentence being instruction: readable features, each with a weight in a lexicon."""

from __future__ import annotations

import math
import re
from dataclasses import replace
from functools import cache
from typing import TYPE_CHECKING

from extract.lexicon import read_lexicon
from extract.spot.actions_words import words

if TYPE_CHECKING:
    from extract.spot.actions import ActionSpan
    from extract.spot.actions_ground import Ground

Features = dict[str, float]
NEIGHBOURS = 3
LEAST = 0.0
BRIEF = 0.01
BRIEF_WORDS = 14
WARNING_WORDS = 7  # "Don't knead it."
DENSE = 5  # a sentence with an action in every fifth word is as dense as counts
OPENING = 3
VERBS_OF_NAMING = frozenset({"naming", "light"})
WORK = frozenset({"add", "cut", "mix", "heat", "coat", "season"})
VAGUE = frozenset({"naming", "light", "check", "serve"})


@cache
def instruction_weights() -> dict[str, float]:
    """The weight of each feature, in log odds, by its name."""
    rows = read_lexicon("instruction_weights", columns=("feature", "weight", "meaning"))
    return {row["feature"]: float(row["weight"]) for row in rows}


@cache
def instruction_cues() -> tuple[tuple[str, re.Pattern[str]], ...]:
    """The classes of phrases that speak for or against instruction, in the order of the lexicon."""
    rows = read_lexicon("instruction_cues", columns=("cue", "pattern"))
    return tuple((row["cue"], re.compile(row["pattern"])) for row in rows)


def is_instruction(action: ActionSpan) -> bool:
    """Whether the sentence of an action belongs to the method."""
    return action.weight > LEAST


def weigh(ground: Ground, by_utterance: dict[tuple[int, int], list[ActionSpan]]) -> list[ActionSpan]:
    """The actions, each with the weight of its sentence; the weight of the sentences around it counts too."""
    table = instruction_weights()
    utterances = list(by_utterance)
    features = [sentence_features(ground, *spoken) for spoken in by_utterance.items()]
    alone = [linear(found, table) for found in features]
    around, bar = table.get("neighbours", 0.0), table.get("bar", 0.0)
    weights = [total + around * neighbourhood(alone, number) + bar for number, total in enumerate(alone)]
    raise_brief(ground, utterances, by_utterance, weights)
    return [
        replace(action, weight=round(weight, 3))
        for span, weight in zip(utterances, weights, strict=True)
        for action in by_utterance[span]
    ]


def raise_brief(
    ground: Ground,
    utterances: list[tuple[int, int]],
    by_utterance: dict[tuple[int, int], list[ActionSpan]],
    weights: list[float],
) -> None:
    """Lift what is too short to carry its own evidence: an order, and a measured food among instructions.

    Cooks who speak in short sentences say "Two eggs. A cup of milk. Whisk it till it is smooth."
    """
    brief = [is_brief_order(by_utterance[span]) for span in utterances]
    measured = [is_brief_addition(ground, span, by_utterance[span]) for span in utterances]
    for number, ordered in enumerate(brief):
        if ordered:
            weights[number] = max(weights[number], BRIEF)
    for step in (1, -1):
        order = range(len(utterances)) if step == 1 else range(len(utterances) - 1, -1, -1)
        for number in order:
            if measured[number] and weights[number] <= LEAST and has_neighbour(weights, number, -step):
                weights[number] = BRIEF


def has_neighbour(weights: list[float], number: int, step: int) -> bool:
    """Whether one of the two sentences before (``step`` -1) or after (1) is instruction."""
    return any(
        0 <= near < len(weights) and weights[near] > LEAST for near in (number + step, number + 2 * step)
    )


def is_brief_order(actions: list[ActionSpan]) -> bool:
    """A short sentence that is an order on something: "Pat it dry."."""
    spoken = [action for action in actions if not action.implied]
    if not spoken or spoken[0].utterance[1] - spoken[0].utterance[0] > BRIEF_WORDS:
        return False
    first = spoken[0]
    told = bool(first.objects or first.until or first.with_)
    opens = first.at - first.utterance[0] <= 2 and first.mood == "order"
    if first.negated:
        size = first.utterance[1] - first.utterance[0]
        opens = first.mood in {"order", "want"} and any(phrase.kind == "food" for phrase in first.objects)
        opens = opens or (first.mood == "order" and size <= WARNING_WORDS and first.group in WORK)
    return opens and told and not first.supposed and first.group not in VAGUE


def is_brief_addition(ground: Ground, span: tuple[int, int], actions: list[ActionSpan]) -> bool:
    """A short sentence that names a measured food and nothing else: "A cup of buttermilk."."""
    start, end = span
    if end - start > BRIEF_WORDS or not any(action.implied and action.objects for action in actions):
        return False
    tokens = ground.doc[start:end]
    said = any(
        token.like_num or token.lower_ in words("unit noun") or token.lower_ == "half" for token in tokens
    )
    return said and not any(token.pos_ == "AUX" or token.lower_ in {"?", "for"} for token in tokens)


def linear(features: Features, table: dict[str, float]) -> float:
    """The weighted sum of the features."""
    return sum(value * table.get(name, 0.0) for name, value in features.items())


def neighbourhood(alone: list[float], number: int) -> float:
    """The mean likelihood, 0 to 1, that the sentences around one are instruction."""
    around = alone[max(0, number - NEIGHBOURS) : number] + alone[number + 1 : number + 1 + NEIGHBOURS]
    return sum(1 / (1 + math.exp(-max(-30.0, min(30.0, weight)))) for weight in around) / max(1, len(around))


def sentence_features(ground: Ground, span: tuple[int, int], actions: list[ActionSpan]) -> Features:
    """What can be told of one sentence, as numbers."""
    start, end = span
    tokens = [token.lower_ for token in ground.doc[start:end]]
    text = " ".join(tokens)
    named = {food.name for food in ground.foods_within(start, end)}
    foods = len(named)
    new = sum(ground.first_named[name] >= start for name in named)
    place = start / max(1, len(ground.doc))
    found: Features = {
        "always": 1.0,
        "length": math.log(1 + len(tokens)),
        **food_features(actions, foods, new),
        "opening": float(place < 0.08),
        "closing": float(place > 0.92),
        "question": float(text.endswith("?")),
        "figure": float(any(ground.doc[at].like_num for at in range(start, end))),
        "heat": float(any(start <= heat.start < end for heat in ground.heats)),
        "duration": float(any(start <= time.start < end for time in ground.durations)),
        "unit": float(any(token in words("unit noun") for token in tokens)),
    }
    for cue, pattern in instruction_cues():
        found[f"cue {cue}"] = float(pattern.search(text) is not None)
    found.update((f"word {lemma}", 1.0) for lemma in lemmas(ground, start, end))
    found.update(action_features(actions))
    spoken = [action for action in actions if not action.implied]
    size = max(1, end - start)
    found["share foods"] = sum(at in ground.in_food for at in range(start, end)) / size
    found["share actions"] = min(1.0, DENSE * len(spoken) / size)
    found["verb first"] = float(bool(spoken) and spoken[0].at - start <= OPENING)
    return found


def food_features(actions: list[ActionSpan], foods: int, new: int) -> Features:
    """The foods of a sentence by what is said of them: worked on, only named by a verb, or named without one."""
    spoken = [action for action in actions if not action.implied]
    work = any(action.group not in VERBS_OF_NAMING for action in spoken)
    told = "worked on" if work else "named" if spoken else "alone"
    return {f"foods {told}": float(min(foods, 3)), f"new foods {told}": float(min(new, 3))}


def lemmas(ground: Ground, start: int, end: int) -> set[str]:
    """The words of a sentence outside its foods, as lower-case lemmas."""
    return {ground.doc[at].lemma_.lower() for at in range(start, end) if at not in ground.in_food}


def action_features(actions: list[ActionSpan]) -> Features:
    """What the actions of a sentence add: their moods, their kinds of work and what they act on."""
    spoken = [action for action in actions if not action.implied]
    firm = [action for action in spoken if not action.supposed and not action.negated]
    found: Features = {"actions": math.log(1 + len(spoken)), "implied": float(bool(actions) and not spoken)}
    for action in spoken:
        found[f"mood {action.mood}"] = 1.0
        found[f"work {action.group}"] = 1.0
    for action in spoken:
        if any(phrase.kind == "food" for phrase in action.objects):
            found["food worked on"] = max(found.get("food worked on", 0.0), float(action.group in WORK))
            found[f"work {action.group} on food"] = float(action in firm)
    objects = [phrase.kind for action in firm for phrase in action.objects]
    for kind in ("food", "pronoun", "thing"):
        found[f"object {kind}"] = float(kind in objects)
    found["place"] = float(any(action.place for action in firm))
    found["until"] = float(any(action.until for action in firm))
    found["with"] = float(any(action.with_ for action in firm))
    found["supposed"] = float(any(action.supposed for action in spoken))
    found["negated"] = float(any(action.negated for action in spoken))
    return found
