"""One action in the words of a written method."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import TYPE_CHECKING

from extract.draft.method.phrases.clause import PRONOUNS, Clause
from extract.draft.method.phrases.figures import (
    changed_heat,
    duration_words,
    heat_words,
    level_words,
    span_words,
)
from extract.draft.method.phrases.grammar import is_plural, listed
from extract.draft.method.phrases.manner import cut_words, manner, on_top, without_cut
from extract.draft.method.phrases.places import means_words, place_words, put_by, rested
from extract.draft.method.phrases.plain import condition_words, until_words
from extract.draft.method.phrases.timing import each_side, is_bare_time, is_given, moment_words, part_probed
from extract.lexicon import read_lexicon
from extract.spot.verbs.forms import phrasal_verbs
from extract.spot.verbs.words import words

if TYPE_CHECKING:
    from spacy.tokens import Doc

    from extract.model import Action, Heat
    from extract.spot.actions.span import ActionSpan

PUTS_IN = frozenset({"add", "season", "naming"})
ON_KNOWN = PUTS_IN | {"heat", "wait", "serve"}
MADE = frozenset({"made", "mixture"})
OPENING = 2
LEFT_AWAY = frozenset({"leave out", "leave off"})  # a step only where it is told when


@cache
def verb_wordings() -> dict[tuple[str, str], str]:
    """The trade's verb by the cook's verb and what must stand beside it; "" where it is left out."""
    rows = read_lexicon("verb_wording", columns=("verb", "when", "wording"))
    return {(row["verb"], row["when"]): "" if row["wording"] == "-" else row["wording"] for row in rows}


def trade_verb(action: Action, placed: bool) -> str:
    """The verb to write for an action: "bake" for what is popped into the oven for a time.

    ``placed``: the place will be worded.
    """
    in_oven = any(place.split()[-1] == "oven" for place in action.place)
    at_oven_heat = action.heat is not None and action.heat.kind == "oven"
    timed = action.duration is not None or at_oven_heat
    cases = ["always", *(["oven"] if timed and (in_oven or at_oven_heat) else [])]
    cases += ["place" if placed else "alone", *(["food"] if action.objects else [])]
    for case in cases:
        if (action.verb, case) in verb_wordings():
            return verb_wordings()[action.verb, case]
    verb, _, particle = action.verb.partition(" ")
    return phrasal_verbs().get(verb, {}).get(particle) or action.verb


def clause_of(
    doc: Doc, span: ActionSpan, action: Action, names: dict[int, str], state: str = "hot"
) -> Clause | None:
    """The clause of one action, None where it says nothing that a reader could do.

    ``names`` are the names of its phrases by their first token; one without a name is left out. ``state``:
    whether it is done "hot" or "cold", "" where nothing tells, so that a time without a verb is only given.
    """
    condition = condition_words(doc, span.utterance[0], span.at)
    until = until_words(doc, span.until, [figure for figure in (span.duration, span.heat) if figure])
    whole = whole_words(doc, span, action, names, state)
    if whole is not None:
        return Clause("", [], [], whole=whole, condition=condition, until=until)
    verb = chosen_verb(span, action, names, state)
    span = rested(span, names)
    objects = object_names(span, names)
    if objects == ["lid"] and verb in words("puts on"):
        span = replace(span, objects=(), place=())
        verb, objects = "cover", []
    objects = [name for name in objects if name not in PRONOUNS] or objects
    only_pronouns = bool(span.objects) and all(phrase.kind == "pronoun" for phrase in span.objects)
    clause = Clause(verb, objects[:1] if only_pronouns else list(dict.fromkeys(objects)), [])
    clause.pronoun, clause.names = only_pronouns, objects
    add_manner(clause, doc, span, names)
    add_times(clause, doc, span, action, names, state)
    clause.until = until
    clause.condition = condition or moment_words(action)
    clause.negated = span.negated
    clause.group = span.group
    fronted = zip(span.place[:1], span.objects[:1], strict=False)
    clause.fronted = span.implied and any(place.start < first.start for place, first in fronted)
    clause.named = span.implied or span.group == "naming"
    clause.opens = span.start <= span.utterance[0] + OPENING
    if tells_nothing(clause, span):
        return None
    if verb in words("takes no object"):
        clause.objects = []
    return clause if is_sayable(clause) else None


def whole_words(doc: Doc, span: ActionSpan, action: Action, names: dict[int, str], state: str) -> str | None:
    """An action of heat or time alone as a whole clause: "heat the oven to 200 °C", "give it 10 minutes"."""
    whole = heat_clause(span, action)
    if whole:
        return whole
    if not (is_given(doc, span, action) or (state == "" and is_bare_time(span))):
        return None
    thing = next(iter(object_names(span, names)), "it")
    return f"give {thing} {span_words(action.duration)}" if action.duration is not None else ""


def chosen_verb(span: ActionSpan, action: Action, names: dict[int, str], state: str) -> str:
    """The trade's verb for an action, as its place and its heat ask for."""
    place = place_words(span, names)
    verb = trade_verb(action, bool(place))
    if verb == "add" and place and place[-1].split()[-1] in words("holds the dish"):
        verb = "put"
    if span.implied and verb == "heat" and action.heat is not None and action.heat.kind == "hob":
        verb = "cook"
    if span.implied and verb == "cook" and action.heat is None and state == "cold":
        verb = "leave"
    return "mix" if span.implied and verb == "cook" and mixes_itself(span, names) else verb


def add_manner(clause: Clause, doc: Doc, span: ActionSpan, names: dict[int, str]) -> None:
    """Say how, where and with what."""
    runs = span.implied and clause.verb == "mix" and mixes_itself(span, names)
    clause.tail = [
        *cut_words(doc, span),
        *(manner(doc, span, "manner after") if clause.verb != "add" else []),
        *place_words(without_cut(doc, span), names, clause.verb if not runs else "cook"),
        *means_words(span, names),
    ]
    clause.tail = clause.tail or (on_top(doc, span) if clause.names else [])
    clause.before = [] if span.implied else manner(doc, span, "manner before")


def add_times(
    clause: Clause, doc: Doc, span: ActionSpan, action: Action, names: dict[int, str], state: str
) -> None:
    """Say how long and how hot, with a second verb where the first takes no time."""
    clause.times = time_words(doc, span, action)
    put_by(clause, span, names)
    if clause.times and not clause.then:
        clause.then = then_verb(span, action, clause.verb, state != "cold")
    if clause.verb == "boil" and action.heat is not None and is_low(action.heat):
        clause.times = [time for time in clause.times if not time.startswith("over ")]
        simmers = " and simmer" if clause.times else ""
        clause.then = f"reduce the heat to {level_words(action.heat)}{simmers}"


def tells_nothing(clause: Clause, span: ActionSpan) -> bool:
    """Whether an action is told elsewhere, or nothing is left of what it acts on."""
    if span.mood == "described" and span.group == "cut" and not clause.names:
        return True  # "three peppers, cut in strips": told with its line
    placed = bool(clause.tail) and span.group not in PUTS_IN
    if span.objects and not (clause.names or placed or clause.times or clause.until):
        return True
    ahead = bool(clause.times) and clause.times[0].endswith(" ahead")
    return span.implied and span.duration is not None and ahead


def is_low(heat: Heat) -> bool:
    """Whether a heat is one at which nothing boils: "bring it to a boil and then way down, low"."""
    return heat.low is None and heat.level in words("simmers")


def object_names(span: ActionSpan, names: dict[int, str]) -> list[str]:
    """The names of an action's objects; one that belongs to the next is joined to it: "corn dog batter"."""
    found: list[str] = []
    ends = -1
    for phrase in span.objects:
        if phrase.start not in names:
            continue
        name = names[phrase.start]
        if phrase.start == ends and phrase.food is not None and phrase.food.kinds & MADE:
            name = f"{found.pop()} {name}"
        found.append(name)
        ends = phrase.end
    return found


def is_sayable(clause: Clause) -> bool:
    """Whether a clause tells a reader something to do.

    A verb that says little by itself ("leave it", "keep going") needs a food, a place or a time.
    """
    first = clause.verb.split()[0] if clause.verb else ""
    if not first or (clause.verb in LEFT_AWAY and not (clause.condition or clause.until)):
        return False
    if clause.objects and clause.verb not in words("says little"):
        return True
    if clause.objects and not clause.pronoun and first not in words("says nothing alone"):
        return True
    told = bool(clause.tail or clause.times or clause.until)
    return told or (not clause.objects and first in words("stands alone"))


def time_words(doc: Doc, span: ActionSpan, action: Action) -> list[str]:
    """The heat and the time of an action, with the sides it goes for."""
    told: list[str] = []
    if action.duration is not None and not moment_words(action):
        end = span.duration.end if span.duration is not None else len(doc)
        told_after = doc[end].lower_ if end < len(doc) else ""
        ahead = told_after == "ago" or (told_after == "before" and span.group == "move")
        if ahead and action.duration.low is not None:
            return [f"{span_words(action.duration)} ahead"]
        told.append(duration_words(action.duration, span.duration is not None and span.duration.approximate))
        if span.duration is not None and each_side(doc, span.duration.end):
            told.append("on each side")
    if action.heat is None:
        return told
    heat = heat_words(action.heat, part_probed(doc, span))
    if action.heat.kind == "internal" and action.heat.low is not None:
        moved = span.group == "move"
        return [*told, heat.replace("until", "when", 1) if moved else heat]
    return [heat, *told]


def then_verb(span: ActionSpan, action: Action, verb: str, warm: bool) -> str:
    """The verb for the time of an action that takes none: what went in is cooked, what was put by is left."""
    vessel = any(phrase.kind == "thing" and phrase.lead in {"in", "into"} for phrase in span.place)
    filled = span.group == "move" or (span.group == "cut" and verb.split()[0] in words("goes into"))
    moved = filled and vessel and span.mood not in {"past", "done"}
    if (span.group not in PUTS_IN and not moved) or verb in words("takes a time"):
        return ""
    if action.heat is not None and action.heat.kind == "oven":
        return "bake"
    places = {place.split()[-1] for place in action.place}
    hot = warm or action.heat is not None
    return "cook" if hot and not places & words("place of rest") else "leave"


def heat_clause(span: ActionSpan, action: Action) -> str:
    """An action that only sets a heat: "heat the oven to 350 °F (180 °C)", "reduce the heat to low"."""
    heat = action.heat
    if heat is None:
        return ""
    first, last = action.verb.split()[0], action.verb.split()[-1]
    foods = any(phrase.kind == "food" for phrase in span.objects)
    cooked = foods or any(phrase.kind != "thing" for phrase in span.objects)
    if heat.low is not None and heat.kind == "internal" and span.objects and not cooked:
        return f"cook {heat_words(heat)}"
    if heat.low is not None and heat.kind in {"oven", "oil"}:
        if first in words("changes a heat") and not foods:
            return changed_heat(heat, action.duration, "reduce" if first in words("lowers") else "set")
        oil = heat.kind == "oil" and all(phrase.kind in {"thing", "pronoun"} for phrase in span.objects)
        if (not cooked or (oil and span.group == "heat")) and action.duration is None:
            return f"heat the {heat.kind} to {heat_words(heat).removeprefix('at ')}"
        if oil_goes_in(span) and action.duration is None:
            return f"heat {listed(action.objects)} to {heat_words(heat).removeprefix('at ')}"
        return ""
    if oil_goes_in(span) and heat.kind == "hob" and heat.low is None and not action.duration:
        return f"heat {listed(action.objects)} {heat_words(heat)}"
    if span.implied and heat.low is None and heat.kind == "hob" and not span.objects and not action.duration:
        return "" if level_words(heat) == "hot" else f"set the heat to {level_words(heat)}"
    turned = first in words("turns a heat") and not foods
    sets = span.group == "heatset" or first in words("sets a heat")
    if heat.low is None and heat.kind != "oven" and (turned or (sets and not cooked)):
        verb = "reduce" if last in words("lowers") else "raise" if last in words("raises") else "set"
        told = f"{verb} the heat to {level_words(heat)}"
        return f"{told} and cook {duration_words(action.duration)}" if action.duration else told
    return ""


def mixes_itself(span: ActionSpan, names: dict[int, str]) -> bool:
    """Whether a time is that of a machine which mixes: "in the mixer, five minutes"."""
    places = (names[phrase.start].split()[-1] for phrase in span.place if phrase.start in names)
    return span.heat is None and any(place in words("machine that mixes") for place in places)


def oil_goes_in(span: ActionSpan) -> bool:
    """Whether all that goes in by name is oil, which is heated then: "oil in the pan, medium heat"."""
    foods = [phrase.food for phrase in span.objects]
    return span.implied and bool(foods) and all(food is not None and "oil" in food.kinds for food in foods)


def pronoun_for(name: str) -> str:
    """The pronoun that stands for a name: "it" or "them"."""
    return "them" if is_plural(name) or " and " in name else "it"


def lacks_object(clause: Clause) -> bool:
    """Whether a clause has a place and nothing that goes there: "put on the table"."""
    told = clause.objects or clause.whole
    return clause.verb in words("needs an object") and bool(clause.tail) and not told
