"""One action in the words of a written method."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cache
from typing import TYPE_CHECKING

from extract.draft.method.figures import duration_words, heat_words, level_words
from extract.draft.method.grammar import is_plural, listed, with_article
from extract.lexicon import read_lexicon
from extract.measure.kitchen import print_temperature
from extract.spot.actions_verbs import phrasal_verbs
from extract.spot.actions_words import words

if TYPE_CHECKING:
    from spacy.tokens import Doc

    from extract.model import Action
    from extract.spot.actions import ActionSpan


@dataclass(slots=True)
class Clause:
    """The parts of one sentence-to-be. ``verb`` is the trade's; ``tail`` is all that follows the objects."""

    verb: str
    objects: list[str]
    tail: list[str]
    before: list[str] = field(default_factory=list)
    until: str = ""
    negated: bool = False
    pronoun: bool = False
    whole: str = ""
    names: list[str] = field(default_factory=list)
    group: str = ""

    def text(self) -> str:
        """The clause in words, no capital and no full stop."""
        if self.whole:
            return self.whole
        verb, _, particle = self.verb.partition(" ")
        parts = [*self.before, verb, listed(self.objects), particle, *self.tail]
        pronoun = self.objects in (["it"], ["them"], ["everything"])
        behind = particle in words("after the object") or (pronoun and particle != "with")
        if particle and (not self.objects or not behind):
            parts = [*self.before, verb, particle, listed(self.objects), *self.tail]
        text = " ".join(part for part in parts if part)
        text = f"do not {text}" if self.negated else text
        return f"{text} until {self.until}" if self.until else text


@cache
def verb_wordings() -> dict[tuple[str, str], str]:
    """The trade's verb by the cook's verb and what must stand beside it; "" where it is left out."""
    rows = read_lexicon("verb_wording", columns=("verb", "when", "wording"))
    return {(row["verb"], row["when"]): "" if row["wording"] == "-" else row["wording"] for row in rows}


def trade_verb(action: Action) -> str:
    """The verb to write for an action: "bake" for what is popped into the oven for a time."""
    in_oven = any(place.split()[-1] == "oven" for place in action.place)
    timed = action.duration is not None or (action.heat is not None and action.heat.kind == "oven")
    cases = ["always", *(["oven"] if in_oven and timed else []), "place" if action.place else "alone"]
    cases += ["food"] if action.objects else []
    for case in cases:
        if (action.verb, case) in verb_wordings():
            return verb_wordings()[action.verb, case]
    verb, _, particle = action.verb.partition(" ")
    return phrasal_verbs().get(verb, {}).get(particle) or action.verb


def clause_of(doc: Doc, span: ActionSpan, action: Action, names: dict[int, str]) -> Clause | None:
    """The clause of one action, None where it says nothing that a reader could do.

    ``names`` are the names of its phrases by their first token; one without a name is left out.
    """
    whole = heat_clause(span, action)
    if whole:
        return Clause("", [], [], whole=whole)
    verb = trade_verb(action)
    objects = [names[phrase.start] for phrase in span.objects if phrase.start in names]
    only_pronouns = bool(span.objects) and all(phrase.kind == "pronoun" for phrase in span.objects)
    said = objects[:1] if only_pronouns else list(dict.fromkeys(objects))
    clause = Clause(verb, said, tail_of(span, action, names, verb))
    clause.before = manner(doc, span, "manner before")
    clause.tail += manner(doc, span, "manner after")
    clause.until = until_words(doc, span)
    clause.negated = span.negated
    clause.pronoun = only_pronouns
    clause.names = objects
    clause.group = span.group
    if verb in words("takes no object"):
        clause.objects = []
    empty = not (objects or clause.tail or clause.until) and verb.split()[0] not in words("stands alone")
    return None if empty else clause


def heat_clause(span: ActionSpan, action: Action) -> str:
    """An action that only sets a heat: "heat the oven to 350 °F (180 °C)", "reduce the heat to low"."""
    heat = action.heat
    if heat is None:
        return ""
    cooked = [phrase for phrase in span.objects if phrase.kind != "thing"]
    if heat.low is not None and heat.kind in {"oven", "oil"} and not cooked and action.duration is None:
        return f"heat the {heat.kind} to {print_temperature(heat)}"
    sets = span.group == "heatset" or action.verb.split()[0] in words("sets a heat")
    if heat.low is None and heat.kind != "oven" and sets and not cooked and action.duration is None:
        down = action.verb.split()[-1] in words("lowers")
        verb = "reduce" if down else "raise" if action.verb.split()[-1] in words("raises") else "set"
        return f"{verb} the heat to {level_words(heat)}"
    return ""


def tail_of(span: ActionSpan, action: Action, names: dict[int, str], verb: str) -> list[str]:
    """What follows the objects: place, means, heat and time, in that order."""
    tail: list[str] = []
    for phrase in span.place:
        name = names.get(phrase.start)
        if name and phrase.kind != "pronoun" and not any(name in part for part in tail):
            tail.append(f"{preposition(phrase.lead, verb)} {with_article(name)}")
    named = [phrase for phrase in span.with_ if phrase.start in names and phrase.kind != "pronoun"]
    means = [names[phrase.start] for phrase in named]
    tail += [f"with {listed(means)}"] if means else []
    tail += [heat_words(action.heat)] if action.heat is not None else []
    tail += [duration_words(action.duration)] if action.duration is not None else []
    return tail


def preposition(lead: str, verb: str) -> str:
    """The preposition that the trade's verb takes: a cook adds "in the pan", a method "to the pan"."""
    inwards = lead in {"in", "into", "inside", ""}
    if lead in {"out of", "off of"}:
        return "from"
    if verb == "add":
        return "to" if inwards or lead == "on" else lead
    if inwards and verb.split()[0] in words("goes into"):
        return "into"
    return lead or "in"


def manner(doc: Doc, span: ActionSpan, kind: str) -> list[str]:
    """The words that tell how, from the action's own clause: "gently", "well", "evenly"."""
    reach = range(span.at - 2, span.at + 2) if kind == "manner before" else range(span.at, span.at + 9)
    inside = (at for at in reach if span.utterance[0] <= at < span.end)
    return [doc[at].lower_ for at in inside if doc[at].lower_ in words(kind)][:1]


def until_words(doc: Doc, span: ActionSpan) -> str:
    """When it is done, in the cook's words, cut before it turns to something else."""
    if span.until is None:
        return ""
    kept: list[str] = []
    for token in doc[span.until[0] : span.until[1]]:
        if token.lower_ in words("not in a method") or len(kept) > 14 or (kept and token.text in {",", ";"}):
            break
        kept.append(token.text_with_ws)
    text = " ".join("".join(kept).split())
    return text[:1].lower() + text[1:]


def pronoun_for(name: str) -> str:
    """The pronoun that stands for a name: "it" or "them"."""
    return "them" if is_plural(name) or " and " in name else "it"
