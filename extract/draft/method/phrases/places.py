"""Where and with what: the phrases that follow the objects of a clause."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from extract.draft.method.phrases.grammar import listed, with_article
from extract.spot.verbs.words import words

if TYPE_CHECKING:
    from extract.draft.method.phrases.clause import Clause
    from extract.spot.actions.span import ActionSpan
    from extract.spot.verbs.ground import Phrase


def place_words(span: ActionSpan, names: dict[int, str], verb: str = "") -> list[str]:
    """Where an action is done, at most one place to come from and one to go to: "from the tin", "into the bowl"."""
    told = [phrase for phrase in span.place if phrase.start in names and phrase.kind != "pronoun"]
    sources = [phrase for phrase in told if is_source(phrase)]
    others = [phrase for phrase in told if not is_source(phrase) and not is_against_tool(phrase, names)]
    vessels = [phrase for phrase in others if phrase.kind == "thing"]
    foods = [phrase for phrase in others if phrase.kind != "thing" and is_onto_food(phrase.lead)]
    object_names = {names[phrase.start] for phrase in span.objects if phrase.start in names}
    object_foods = {phrase.food.name for phrase in span.objects if phrase.food is not None}
    taken_out = verb.split()[:1] == ["remove"]
    chosen = [*sources[:1], *([] if taken_out else (vessels or foods)[:1])]
    return [
        f"{preposition(phrase.lead, verb)} {with_article(names[phrase.start])}"
        for phrase in sorted(chosen, key=lambda phrase: phrase.start)
        if names[phrase.start] not in object_names
        and (phrase.food is None or phrase.food.name not in object_foods)
    ]


def is_onto_food(lead: str) -> bool:
    """Whether a preposition leads to a food: "into", "next to"."""
    return lead == "next to" or lead in words("leads to a food")


def is_source(phrase: Phrase) -> bool:
    """Whether a place is where something comes from: "out of the oven"."""
    return phrase.lead.split(" ")[0] in words("away from") or phrase.lead == "from"


def is_against_tool(phrase: Phrase, names: dict[int, str]) -> bool:
    """Whether a place is a tool that something sticks to: "sticking to the knife"."""
    return phrase.lead == "to" and names[phrase.start] in words("hand tool")


def means_words(span: ActionSpan, names: dict[int, str]) -> list[str]:
    """With what an action is done: "with a fork", "with the butter"."""
    told = (phrase for phrase in span.with_ if phrase.start in names and phrase.kind != "pronoun")
    named = [phrase for phrase in told if names[phrase.start] != "oven"]
    means = list(dict.fromkeys(names[phrase.start] for phrase in named))
    return [f"with {listed(means)}"] if means else []


def preposition(lead: str, verb: str) -> str:
    """The preposition that the trade's verb takes: a cook adds "in the pan", a method "to the pan"."""
    inwards = lead in {"in", "into", "inside", ""}
    if lead in {"out of", "off of", "out", "off"}:
        return "from"
    if lead in {"onto", "to"} and verb.split()[:1] and verb.split()[0] in words("cooks on"):
        return "on"
    if lead == "to" and verb == "put":
        return "into"
    if verb == "add":
        return "to" if inwards or lead == "on" else lead
    if inwards and verb and verb.split()[0] in words("goes into"):
        return "into"
    return "in" if inwards and verb.split()[:1] and verb.split()[0] in words("stays in") else lead or "in"


def put_by(clause: Clause, span: ActionSpan, names: dict[int, str]) -> None:
    """Say where something is left as a second verb where the first is done at once: "wrap and leave in the fridge"."""
    rests = [p for p in span.place if p.start in names and names[p.start].split()[-1] in words("put by in")]
    first = clause.verb.split()[0] if clause.verb else ""
    if not rests or not clause.times or not (span.group == "cut" or first in words("done at once")):
        return
    told = place_words(span, names, clause.verb)
    where = place_words(span, names, "leave")
    clause.tail = [words_ for words_ in clause.tail if words_ not in told]
    clause.then = " ".join(["leave", *where])


def rested(span: ActionSpan, names: dict[int, str]) -> ActionSpan:
    """An action of waiting with the place that it was said of as its place: "firm up the fridge, 20 minutes"."""
    moved = tuple(
        replace(p, lead="in")
        for p in span.objects
        if p.kind == "thing"
        and names.get(p.start, "").split()[-1:]
        and names[p.start].split()[-1] in words("put by in")
    )
    if span.group != "wait" or not moved:
        return span
    kept = tuple(phrase for phrase in span.objects if phrase.start not in {p.start for p in moved})
    return replace(span, objects=kept, place=(*span.place, *moved))
