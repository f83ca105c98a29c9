"""What of an action is printed: its rewording where that is sure and whole, else the cook's own words, else nothing."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from extract.draft.method.phrases.clause import PRONOUNS, Clause
from extract.draft.method.phrases.clauses import PUTS_IN, lacks_object
from extract.draft.method.phrases.grammar import is_plural, with_article
from extract.draft.method.phrases.timing import is_bare_time, moment_words
from extract.draft.method.sentences.spoken import MOST_LOST, MOST_WORDS, lost, said_order, told_tokens
from extract.spot.actions.weight import is_instruction
from extract.spot.verbs.words import words

if TYPE_CHECKING:
    from spacy.tokens import Doc

    from extract.model import Action
    from extract.spot.actions.span import ActionSpan
    from extract.spot.spans import Share

    Said = tuple[Clause, tuple[int, int]]

LEFT_OUT = -2.0  # the weight under which not even a time or a heat is printed
ALONE = frozenset(
    {"mix", "heat", "wait"}
)  # work that is told without what it is on, where all of it is meant
NEEDS_OBJECT = PUTS_IN | {"cut", "move", "coat", "store", "unknown", "light", "shape"}
TAKES_TIME = frozenset({"heat", "mix", "wait"})
MOST_BEYOND = 9
WITHIN_MARKS = 14  # tokens of a clause that ends where it seems to, without any mark


@dataclass(frozen=True)
class Settler:
    """Settles the clauses of one dish; ``meant`` names what an action's pronoun stands for where that is sure.

    ``printed`` are the spans of the cook's own words in steps.
    """

    doc: Doc
    actions: Sequence[ActionSpan]
    shares: Sequence[Share]
    meant: Callable[[ActionSpan], str | None]
    printed: set[tuple[int, int]] = field(default_factory=set)

    def __call__(
        self, span: ActionSpan, action: Action, clause: Clause | None, said: Sequence[Said]
    ) -> Clause | None:
        """The clause to print after those of the same step, None where nothing is."""
        figure = span.heat is not None or span.duration is not None
        exact = span.heat is not None
        if self.is_in_condition(span, clause) or self.is_warned(span):
            return self.quoted(span)
        names_food = span.implied and not figure and any(phrase.food for phrase in span.objects)
        if not is_instruction(span) and not names_food and not (clause is not None and clause.condition):
            oven = exact and clause is not None and bool(clause.whole)
            quotes = figure and span.weight > LEFT_OUT
            return clause if quotes and oven else self.quoted(span) if quotes else None
        if clause is None:
            return self.own_words(span, "") if self.is_lost(span, "", 1) else None
        if clause.whole and not clause.whole.startswith("give "):
            return clause
        if self.is_told_time(span):
            return None
        if self.is_anothers_time(span):
            return self.quoted(span)
        if (is_bare_time(span) and not moment_words(action)) or self.is_elsewhere(span):
            return self.timed(span, clause, said)
        thing = self.thing(span, clause, said) if clause.pronoun and clause.objects else ""
        if thing is None:
            return self.quoted(span)
        if clause.pronoun and clause.objects and clause.objects[0] in PRONOUNS:
            name_it(clause, thing, said[-1][0].names if said else [])
        text = clause.text()
        if self.is_share_lost(span, text):
            return self.quoted(span)
        if " " not in text and text not in words("stands alone"):
            return self.own_words(span, thing)
        if self.is_lost(span, text, MOST_LOST) and not exact:
            return self.own_words(span, thing)
        if self.lacks_object(span, clause) and not lacks_object(clause):
            return self.quoted(span)
        return clause

    def is_in_condition(self, span: ActionSpan, clause: Clause | None) -> bool:
        """Whether the verb of an action belongs to its condition: "if it wants to stick, a splash of water"."""
        conditional = clause is not None and bool(clause.condition)
        return conditional and span.at > 0 and self.doc[span.at - 1].lower_ == "to"

    def is_warned(self, span: ActionSpan) -> bool:
        """Whether an action tells what happens otherwise: "one half stays in the bag, or it dries"."""
        led = [token.lower_ for token in self.doc[max(span.utterance[0], span.at - 2) : span.at]]
        return span.mood == "present" and led[:1] == ["or"] and led[-1] in PRONOUNS

    def is_told_time(self, span: ActionSpan) -> bool:
        """Whether a bare time lies within words of the cook that are printed."""
        time = span.duration
        if not span.implied or time is None or any(phrase.food for phrase in span.objects):
            return False
        return any(start <= time.start < end for start, end in self.printed)

    def is_anothers_time(self, span: ActionSpan) -> bool:
        """Whether a time is told before the verb, of work before it: "five minutes of kneading, then you put it"."""
        time = span.duration
        if time is None or time.end > span.at:
            return False
        return any(token.lower_ == "then" for token in self.doc[time.end : span.at])

    def is_elsewhere(self, span: ActionSpan) -> bool:
        """Whether a time was given a place that its own sentence does not name, and that is no oven."""
        start, end = span.utterance
        return (
            span.implied
            and span.duration is not None
            and not any(phrase.food for phrase in span.objects)
            and any(not start <= p.start < end and self.doc[p.end - 1].lower_ != "oven" for p in span.place)
        )

    def is_share_lost(self, span: ActionSpan, text: str) -> bool:
        """Whether a share told among an action's words is not in a clause."""
        own = (
            s for s in self.shares if span.start <= s.start < span.end and s.fraction not in ("some", "all")
        )
        return any(
            not any(word.lower_ in text.lower() for word in self.doc[s.start : s.start + 2]) for s in own
        )

    def is_lost(self, span: ActionSpan, text: str, most: int) -> bool:
        """Whether more words of weight than ``most`` of what was said are not in a text."""
        return (
            not span.implied
            and span.mood != "described"
            and len(lost(self.doc, span, text, self.told_by_others(span))) > most
        )

    def told_by_others(self, span: ActionSpan) -> set[int]:
        """The tokens among an action's words that other actions tell."""
        others = (o for o in self.actions if o is not span and o.utterance == span.utterance)
        return {
            at for other in others for at in told_tokens(self.doc, other) if other.at != span.at
        } - told_tokens(self.doc, span)

    def lacks_object(self, span: ActionSpan, clause: Clause) -> bool:
        """Whether a clause says nothing of what its verb is done to: "stir in", "drop on the knife"."""
        first, _, particle = clause.verb.partition(" ")
        if clause.objects or clause.whole or not first:
            return False
        if particle:
            return span.group not in {"wait"}
        if first in words("stands alone") or first in words("takes no object"):
            return False
        return span.group in NEEDS_OBJECT

    def quoted(self, span: ActionSpan) -> Clause | None:
        """An action as the cook's words in quotation marks: its sentence where that is short, else its own words."""
        start, end = span.start, max(span.end, span.at + 1)
        alone = not any(other is not span and other.utterance == span.utterance for other in self.actions)
        if span.implied and alone and span.utterance[1] - span.utterance[0] <= MOST_WORDS:
            start, end = span.utterance
        if span.later is not None:
            end = max(end, span.later[1])
        if span.duration is not None:
            start, end = min(start, span.duration.start), max(end, span.duration.end)
        start = self.bound(start, -1) if span.implied else start
        end = self.bound(end, 1)
        self.printed.add((start, end))
        return Clause("", [], [], whole="…", quote=(start, end))

    def bound(self, at: int, by: int) -> int:
        """Where the words around a token end, going back or on: at a mark or another action; the token if far."""
        for moved in range(MOST_BEYOND):
            place = at + by * moved
            if not 0 < place < len(self.doc) or self.is_work(place - (by < 0)):
                return place
            if self.doc[place - (by < 0)].is_punct:
                return place
        return at

    def is_work(self, at: int) -> bool:
        """Whether a token is within the words of an action."""
        return any(other.start <= at < other.end for other in self.actions)

    def own_words(self, span: ActionSpan, thing: str | None) -> Clause | None:
        """An action as an order in the cook's words, in quotation marks where they make none or name nothing."""
        if thing in PRONOUNS or (span.group in NEEDS_OBJECT and not span.objects):
            return self.quoted(span)
        marked = any(t.is_punct for t in self.doc[span.start : span.end + 1])
        inside = span.duration is None or span.at < span.duration.start < span.end
        order = (
            said_order(self.doc, span, self.told_by_others(span), thing or "")
            if thing is not None and inside
            else ""
        )
        if not order or not (marked or span.end - span.at <= WITHIN_MARKS) or len(order.split()) < 2:
            return self.quoted(span)
        self.printed.add((span.start, span.end))
        return Clause("", [], [], whole=order, names=[])

    def timed(self, span: ActionSpan, clause: Clause, said: Sequence[Said]) -> Clause | None:
        """A bare time: that of the work just told where that has none, else the cook's words."""
        before = said[-1][0] if said else None
        if (
            before is not None
            and before.group in TAKES_TIME
            and clause.times
            and not (before.times or before.whole or before.negated or before.then)
        ):
            before.times = clause.times
            before.until = before.until or clause.until
            return None
        return self.quoted(span)

    def thing(self, span: ActionSpan, clause: Clause, said: Sequence[Said]) -> str | None:
        """What the pronoun of a clause is printed as: a name, the pronoun, "" for nothing, None where it is unclear."""
        word = clause.objects[0]
        if word not in PRONOUNS:
            return with_article(word)
        before, utterance = said[-1] if said else (None, None)
        breath = utterance == span.utterance
        if before is not None and not before.quote and len(before.names) == 1:
            name = before.names[0]
            vessel = name.split()[-1] in words("holds the dish")
            single = name not in PRONOUNS and " and " not in name and not vessel
            agrees = is_plural(name) == (word == "them")
            if single and before.named and before.verb == "add" and (breath or agrees):
                return word
            whole = breath and before.pronoun and any(clause.group in PUTS_IN for clause, _ in said[-2:])
            if single and not whole and (breath or (agrees and before.group not in PUTS_IN)):
                return word if breath and not before.pronoun else with_article(name)
        meant = self.meant(span)
        if meant:
            return with_article(meant)
        return "" if span.group in ALONE or word == "everything" else None


def name_it(clause: Clause, thing: str, before: Sequence[str]) -> None:
    """Print the object of a clause as a thing that a pronoun was said for; a pronoun means what was named before."""
    if thing in PRONOUNS:
        clause.objects, clause.names = [thing], list(before) or clause.names
    elif not thing:
        clause.objects = []
    else:
        clause.objects = [thing.removeprefix("the ")]
        clause.names = clause.objects
        clause.pronoun = False
