"""Writing the steps of one dish: what was heard of each action, and the words for it."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import cache, cached_property
from typing import TYPE_CHECKING

from extract.draft.method.actions import draft_action
from extract.draft.method.arrange import AHEAD, is_ahead
from extract.draft.method.focus import Focus, mentions
from extract.draft.method.larder import Larder
from extract.draft.method.notes import Asides
from extract.draft.method.phrases.clause import Clause
from extract.draft.method.phrases.clauses import ON_KNOWN, PUTS_IN, clause_of
from extract.draft.method.phrases.grammar import is_plural, proper_name
from extract.draft.method.phrases.names import Resolve, phrase_name, plain_pronoun, shared_name
from extract.draft.method.references import MAIN
from extract.draft.method.sentences.settle import Settler
from extract.draft.method.sentences.wording import step_sentences
from extract.draft.method.shares import Taken
from extract.draft.times import MEANWHILE
from extract.lexicon import read_lexicon
from extract.measure.kitchen import UNIT_COLUMNS, print_amount
from extract.model import Action, Step
from extract.spot.names.foods import kinds_of, same_food
from extract.spot.verbs.ground import Phrase
from extract.spot.verbs.words import words

if TYPE_CHECKING:
    from spacy.tokens import Doc

    from extract.language.speech import Speech
    from extract.spot.actions.span import ActionSpan
    from extract.spot.spans import Food


@dataclass
class Writer:
    """Writes steps from the actions of one dish; ``actions`` are all of them, in the order said."""

    speech: Speech
    actions: Sequence[ActionSpan]
    resolve: Resolve
    volumes: Mapping[int, Fraction]
    larder: Larder
    component_at: Callable[[int], str]
    taken: Taken = field(default_factory=Taken)
    _drafted: dict[int, Action] = field(default_factory=dict)
    _clauses: dict[tuple[int, bool], Clause | None] = field(default_factory=dict)

    @cached_property
    def worded(self) -> dict[int, ActionSpan | None]:
        """Each action as it is worded, None where it is left unsaid, by its place in memory."""
        found = self.larder.worded(self.actions)
        return {id(action): own for action, own in zip(self.actions, found, strict=True)}

    @cached_property
    def places(self) -> dict[int, int]:
        """The place of each action among them all, by its place in memory."""
        return {id(action): number for number, action in enumerate(self.actions)}

    @cached_property
    def spoken_of(self) -> list[tuple[Food, int]]:
        """The foods of the dish where no action names them."""
        return self.larder.spoken_of(self.actions)

    @cached_property
    def states(self) -> dict[int, str]:
        """Whether each action is done "hot" or "cold", by its token, "" where the ones before it do not tell."""
        found, state = {}, ""
        for action in self.actions:
            state = state_after(self.speech.doc, action, state)
            days = action.duration is not None and action.duration.unit == "day"
            found[action.at] = "cold" if days else state
        return found

    @cached_property
    def asides(self) -> Asides:
        """The notes of the dish."""
        return Asides(self.speech, self.actions, self.larder.utterances)

    def drafted(self, action: ActionSpan) -> Action:
        """An action as the draft holds it."""
        if id(action) not in self._drafted:
            self._drafted[id(action)] = draft_action(self.speech, action, self.resolve)
        return self._drafted[id(action)]

    def sentences(self, part: Sequence[ActionSpan]) -> list[str]:
        """The sentences of a step of some actions."""
        spoken = [self.worded[id(action)] for action in part]
        drafted = [self.drafted(action) for action in part]
        return step_sentences(self, spoken, drafted)

    def clause(self, span: ActionSpan, action: Action, opens: bool) -> Clause | None:
        """The clause of an action, anew each time: those who draw clauses together change them."""
        key = (id(action), opens)
        if key not in self._clauses:
            names = self.names(span, opens)
            self._clauses[key] = self.taken.clause(span) or clause_of(
                self.speech.doc, span, action, names, self.states.get(span.at, "cold")
            )
        clause = self._clauses[key]
        return None if clause is None else replace(clause.copy(), first=span.at in self.firsts)

    @cached_property
    def settle(self) -> Settler:
        """Settles what of a clause is printed."""
        return Settler(self.speech.doc, self.actions, self.larder.shares, self.meant)

    @cached_property
    def firsts(self) -> frozenset[int]:
        """The tokens of the actions before which nothing was told, of the dish or of a part made after another."""
        seen: dict[str, int] = {}
        before = "" if any(is_ahead(self.speech, action) for action in self.actions) else None
        for action in self.actions:
            part = self.component_at(action.at)
            if part not in seen:
                seen[part] = action.at if before is None or (part and before) else -1
            before = part
        return frozenset(seen.values())

    @cached_property
    def focus(self) -> Mapping[tuple[int, str], str]:
        """What the pronouns of the actions stand for, by the token and verb of each action."""
        return Focus.on(self.speech.doc, self.actions, self.component_at, mentions(self.larder, self.actions))

    def meant(self, action: ActionSpan) -> str | None:
        """What the pronoun an action is on stands for, None where nothing agrees with it."""
        return self.focus.get((action.at, action.verb))

    def count(self, part: Sequence[ActionSpan]) -> int:
        """How many sentences a step of some actions comes to."""
        return len(self.sentences(part))

    def step(self, part: Sequence[ActionSpan], component: str) -> Step:
        """The step of some actions."""
        drafted = [self.drafted(action) for action in part]
        said = [evidence for action in drafted for evidence in action.said]
        text = opened(self.speech, part[0], " ".join(self.sentences(part)))
        notes = self.asides.between(part[0].utterance[0], part[-1].utterance[1])
        return Step(text=text, component=component, actions=drafted, notes=notes, said=said)

    def names(self, action: ActionSpan, opens: bool) -> dict[int, str]:
        """The names of an action's phrases, with their shares, by the first token of each.

        A pronoun stays the pronoun that the cook said, within a step because what it means has just been named;
        where it opens a step it is named only if one thing alone can be meant: a wrong name would say more than
        the cook did.
        """
        named = {}
        for phrase in (*action.objects, *action.place, *action.with_):
            name = self.name(action, phrase, opens)
            if name:
                named[phrase.start] = name
        return named

    def name(self, action: ActionSpan, phrase: Phrase, opens: bool) -> str | None:
        """The name of one phrase of an action, None where it has none."""
        if phrase.kind == "noun" and action.group in ON_KNOWN and not self.is_known(phrase):
            return None
        if phrase.kind == "thing" and self.is_measure(phrase):
            return None
        if phrase.kind != "pronoun":
            name = phrase_name(self.speech, phrase, self.resolve)
            if not name:
                return None
            name = self.with_state(phrase, self.larder.fuller_name(phrase, name))
            shared = shared_name(self.speech, phrase, name, self.volumes)
            return proper_name(shared) + self.amount(phrase, name, shared)
        made = self.larder.made_before(action.utterance[0], min(action.at, phrase.start))
        if made is not None and not self.is_left_behind(made.start):
            told = Phrase(made.start, made.end, "noun")
            return proper_name(shared_name(self.speech, told, made.name, self.volumes))
        pronoun = plain_pronoun(self.speech.doc[phrase.start].lower_)
        owned = self.speech.doc[phrase.start].lower_ in words("own thing")
        name = phrase_name(self.speech, phrase, self.resolve) if opens or owned else None
        if name is not None and owned:
            return proper_name(name)  # "mine" is as much one thing as several
        if name is None:
            return pronoun
        agrees = pronoun == "them" and is_plural(name)
        return proper_name(name) if agrees or is_main(name) or name == self.worked_on(action) else pronoun

    def is_measure(self, phrase: Phrase) -> bool:
        """Whether a vessel only measures: "three spoons"."""
        doc = self.speech.doc
        measures = doc[phrase.end - 1].lower_ in words("vessel counted")
        return measures and phrase.start > 0 and doc[phrase.start - 1].like_num

    def with_state(self, phrase: Phrase, name: str) -> str:
        """A food's name with the state it goes in, where the word stands before it: "boiling water"."""
        near = [token.lower_ for token in self.speech.doc[max(0, phrase.start - 1) : phrase.end]]
        state = next((word for word in near if word in words("state of a food")), "")
        stated = phrase.kind == "food" and state and state not in name.split()
        return f"{state} {name}" if stated else name

    def is_left_behind(self, at: int) -> bool:
        """Whether something comes out of the thing named at a token: "it's out of the marinade, pat it dry"."""
        before = [token.lower_ for token in self.speech.doc[max(0, at - 3) : at]]
        return any(word in words("away from") for word in before)

    def is_known(self, phrase: Phrase) -> bool:
        """Whether a noun is what a line goes by ("the chops") or the rest of something.

        What is put in, heated or left is a food, a pronoun or a known thing: another noun is misheard or no cooking.
        """
        noun = self.speech.doc[phrase.end - 1]
        lines = self.larder.lines
        names = {noun.lower_, noun.lemma_.lower()}
        known = any(same_food(name, line.name) for line in lines for name in names)
        return not lines or noun.lower_ == "rest" or known or phrase.start in self.larder.made_at

    def worked_on(self, action: ActionSpan) -> str | None:
        """The one thing that was being worked on before an action, None where several things could be meant.

        It stays the same through work on pronouns and times without a food: "Peel the pear. Slice it."
        """
        place = self.places.get(id(action), 0)
        for other in reversed(self.actions[:place]):
            named = [phrase for phrase in other.objects if phrase.kind != "pronoun"]
            if not named:
                continue
            if len(named) > 1 or other.implied or other.group in PUTS_IN or named[0].kind == "thing":
                return None
            if any(other.end <= food.start < action.at for food, _ in self.spoken_of):
                return None
            return phrase_name(self.speech, named[0], self.resolve)
        return None

    def amount(self, phrase: Phrase, name: str, shared: str) -> str:
        """The amount of a food that is used more than once, behind its name: " (2 tablespoons)"."""
        amount = self.larder.amount_of(phrase) if shared == name else None
        if amount is None or amount.low is None or amount.unit not in measures():
            return ""
        high = amount.high if amount.high is not None else amount.low
        return f" ({print_amount(amount.low, high, amount.unit, size=amount.size)})"


def state_after(doc: Doc, action: ActionSpan, before: str) -> str:
    """Whether what is worked on is "hot" or "cold" after an action, "" where nothing tells."""
    first, _, particle = action.verb.partition(" ")
    heated = action.heat is not None and action.heat.kind in {"hob", "oven", "oil"}
    if heated or (action.group in {"heat", "heatset"} and not action.implied):
        return "hot"
    places = {doc[phrase.end - 1].lower_ for phrase in action.place}
    if places & words("place of rest") or first in words("works cold") or particle in {"aside"}:
        return "cold"
    return "cold" if first in words("covers") and before != "hot" else before


def is_main(name: str) -> bool:
    """Whether a thing is what a dish is about, so that work on an "it" is most likely on it: meat, fish, a dough."""
    kinds = kinds_of(name)
    return name in words("named when worked on") or ("dish" not in kinds and bool(kinds & MAIN))


@cache
def measures() -> frozenset[str]:
    """The units that are measured with a spoon, a cup or a scale."""
    ways = {"kitchen", "pounds", "decimal"}
    rows = read_lexicon("unit_print", columns=UNIT_COLUMNS)
    return frozenset(row["unit"] for row in rows if row["way"] in ways)


def opened(speech: Speech, action: ActionSpan, text: str) -> str:
    """A step's text with what ties it to the one before: "Meanwhile, …", "Ahead of time, …"."""
    if not text:
        return text
    tie = AHEAD if is_ahead(speech, action) and not text.endswith(" ahead.") else ""
    start = action.utterance[0]
    if any(token.lower_ in words("meanwhile") for token in speech.doc[start : min(start + 4, action.at)]):
        tie = MEANWHILE
    return f"{tie}, {text[0].lower()}{text[1:]}" if tie else text
