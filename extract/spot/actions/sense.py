"""What a reading comes to as kitchen work: "give it a stir" is a stir, "I have two eggs" an addition."""

from __future__ import annotations

from typing import TYPE_CHECKING

from extract.spot.actions.clauses import is_turned
from extract.spot.verbs.forms import verb_forms
from extract.spot.verbs.words import words

if TYPE_CHECKING:
    from extract.spot.actions.clauses import Arguments
    from extract.spot.verbs.ground import Ground, Phrase
    from extract.spot.verbs.verb import Reading

REACH = 8
SAME_REACH = 7
FATS = frozenset({"oil", "fat"})


def sense(ground: Ground, reading: Reading, found: Arguments, end: int) -> tuple[str, str] | None:
    """The verb and the kind of work that a reading comes to, None where it is no work at all.

    Where a noun does the work ("give it a stir"), that noun leaves the objects of ``found``.
    """
    group = reading.verb.group
    if group not in {"light", "naming"}:
        return reading.lemma, group
    if reading.verb.lemma == "do" and does_the_same(ground, reading.at, end):
        found.objects = []
        return "repeat", "check"
    heated = made_hot(ground, reading, found, end)
    if heated is not None:
        return heated, "heat"
    if reading.particle is not None:
        return reading.lemma, "move"
    works = reading.verb.lemma in words("takes a noun of work")
    noun = light_verb_noun(ground, reading.at, end) if works else None
    if noun is not None:
        found.objects = [phrase for phrase in found.objects if not phrase.start <= noun < phrase.end]
        verb = verb_forms()[ground.doc[noun].lower_][0]
        return verb.lemma, verb.group
    if group == "naming":
        return naming_sense(ground, reading, found)
    return light_sense(ground, reading, found)


def does_the_same(ground: Ground, verb: int, end: int) -> bool:
    """Whether the work before is done again: "you do the very same with the rest"."""
    after = [token.lower_ for token in ground.doc[verb + 1 : min(end, verb + SAME_REACH)]]
    same = next((n for n, word in enumerate(after) if word == "same"), None)
    return same is not None and any(word in {"with", "for", "to"} for word in after[same:])


def made_hot(ground: Ground, reading: Reading, found: Arguments, end: int) -> str | None:
    """The verb for "get the oil hot" and "get those going": heating for what cooks, cooking for what is cooked."""
    if reading.verb.lemma not in words("brings about") or not found.objects:
        return None
    after = found.objects[-1].end
    if after > end or after >= len(ground.doc) or ground.doc[after].lower_ not in words("state of heat"):
        return None
    if ground.doc[after].lower_ in words("hot"):
        return "heat"
    fats = any(p.food is not None and p.food.kinds & FATS for p in found.objects)
    return "heat" if fats or any(p.kind == "thing" for p in found.objects) else "cook"


def naming_sense(ground: Ground, reading: Reading, found: Arguments) -> tuple[str, str] | None:
    """A verb that only names what goes in: "use the stock", "in goes the garlic"."""
    goes = reading.verb.lemma in words("goes in")
    near = [token.lower_ for token in ground.doc[reading.at + 1 : reading.at + 3]]
    comes_out = near[:1] != [] and near[0] in words("away from") and near[1:] != ["of"]
    if goes and (any(phrase.lead in words("away from") for phrase in found.place) or comes_out):
        return f"{reading.verb.lemma} off", "move"
    if any(phrase.kind == "food" for phrase in found.objects):
        return "add", "naming"
    if goes and found.objects and is_turned(ground.doc, reading.at):
        return "add", "naming"
    return ("put", "naming") if goes and found.objects and any(map(is_vessel, found.place)) else None


def is_vessel(phrase: Phrase) -> bool:
    """Whether a place is a thing of the kitchen and no food."""
    return phrase.kind == "thing"


def light_sense(ground: Ground, reading: Reading, found: Arguments) -> tuple[str, str] | None:
    """A verb that says little by itself: it needs a shape, a food, or an object and a place."""
    lemma, group = reading.lemma, reading.verb.group
    if lemma in words("runs") and found.until is not None and found.objects:
        return lemma, "mix"  # "run that till it's smooth"
    if lemma in words("needs a shape"):
        shaped = any(ground.doc[phrase.end - 1].lower_ in words("made by hand") for phrase in found.objects)
        return (lemma, group) if shaped else None
    if lemma in words("needs a food"):
        return (lemma, group) if any(phrase.kind == "food" for phrase in found.objects) else None
    return (lemma, group) if found.place and found.objects else None


def light_verb_noun(ground: Ground, verb: int, end: int) -> int | None:
    """The noun that does the work of a light verb: "give it a good stir", "bring that to a boil"."""
    for at in range(verb + 1, min(end, verb + REACH)):
        if at in ground.in_food or ground.doc[at].lower_ not in words("light verb noun"):
            continue
        before = {ground.doc[back].lower_ for back in range(max(verb, at - 3), at)}
        if before & words("before a noun of work"):
            return at
    return None
