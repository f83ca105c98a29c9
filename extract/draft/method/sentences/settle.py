"""What of an action is printed: its rewording where that is sure and whole, else the cook's own words, else nothing."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING

from extract.draft.method.phrases.clause import PRONOUNS, Clause
from extract.draft.method.phrases.clauses import PUTS_IN, lacks_object
from extract.draft.method.phrases.figures import duration_words
from extract.draft.method.phrases.grammar import listed, proper_name
from extract.draft.method.phrases.timing import is_bare_time, moment_words
from extract.draft.method.sentences.spoken import MOST_LOST, lost, said_order, told_tokens
from extract.draft.method.sentences.things import Things, bare, name_it
from extract.draft.method.sentences.unsaid import is_anothers_time, is_elsewhere, is_led, is_no_order
from extract.spot.actions.weight import is_instruction
from extract.spot.verbs.words import words

if TYPE_CHECKING:
    from spacy.tokens import Doc

    from extract.model import Action
    from extract.spot.actions.span import ActionSpan
    from extract.spot.spans import Share

    Said = tuple[Clause, tuple[int, int]]

LEAST_ORDER = 4  # words of an order whose verb says little by itself
LEFT_OUT = -2.0  # the weight under which not even a time or a heat is printed
NEEDS_OBJECT = PUTS_IN | {"cut", "move", "coat", "store", "unknown", "light", "shape"}
TAKES_OBJECT = frozenset({"heat", "coat", "move"})
TAKES_TIME = frozenset({"heat", "mix", "wait"})


@dataclass(frozen=True)
class Settler:
    """Settles the clauses of one dish; ``meant`` names what an action's pronoun stands for where that is sure."""

    doc: Doc
    actions: Sequence[ActionSpan]
    shares: Sequence[Share]
    meant: Callable[[ActionSpan], str | None]

    @cached_property
    def things(self) -> Things:
        """What the actions are on, by name."""
        return Things(self.doc, self.actions, self.shares, self.meant)

    def __call__(
        self, span: ActionSpan, action: Action, clause: Clause | None, said: Sequence[Said]
    ) -> Clause | None:
        """The clause to print after those of the same step, None where nothing is."""
        if is_no_order(self.doc, span, clause):
            return None
        figure = span.heat is not None or span.duration is not None
        names_food = span.implied and not figure and any(phrase.food for phrase in span.objects)
        if not is_instruction(span) and not names_food and not (clause is not None and clause.condition):
            oven = span.heat is not None and clause is not None and bool(clause.whole)
            return clause if oven and span.weight > LEFT_OUT else None
        if clause is not None and clause.whole and not clause.whole.startswith("give "):
            return clause
        if is_anothers_time(self.doc, span):
            return None
        thing = self.things(span, clause, said)
        if clause is not None and (
            (is_bare_time(span) and not moment_words(action)) or is_elsewhere(self.doc, span)
        ):
            return self.timed(span, clause, thing, said)
        clause = clause if span.implied else self.with_object(span, clause)
        if clause is None or not self.is_whole(span, clause, thing):
            return self.in_own_words(span, action, clause, thing, said)
        if clause.pronoun and clause.objects and clause.objects[0] in PRONOUNS:
            name_it(clause, thing or "", said[-1][0].names if said else [])
        return clause

    def with_object(self, span: ActionSpan, clause: Clause | None) -> Clause | None:
        """A clause with what its verb is on where the cook named nothing: "And fry."."""
        meant = proper_name(self.meant(span) or "")
        if span.objects or not meant or span.group not in TAKES_OBJECT or span.negated:
            return clause
        if clause is None:
            return Clause(span.verb, [meant], [], names=[meant], group=span.group)
        if not (clause.objects or clause.whole) and clause.verb.split()[0] not in words("stands alone"):
            clause.objects, clause.names = [meant], [meant]
        return clause

    def is_whole(self, span: ActionSpan, clause: Clause, thing: str | None) -> bool:
        """Whether a clause says all that was said, and of what."""
        text = clause.text()
        if (
            thing is None
            or self.is_share_lost(span, text)
            or (" " not in text and text not in words("stands alone"))
        ):
            return False
        if span.negated and not span.implied and span.end > span.at + 2:
            return False  # what is not to be done stands in the cook's words
        if span.group == "wait" and clause.times:
            return True
        if span.heat is None and self.is_lost(span, text, MOST_LOST):
            return False
        return lacks_object(clause) or not self.lacks_object(span, clause)

    def in_own_words(
        self, span: ActionSpan, action: Action, clause: Clause | None, thing: str | None, said: Sequence[Said]
    ) -> Clause | None:
        """An action that no rewording tells: as an order in the cook's words, else what of its clause is sure."""
        order = self.order(span, action, clause, thing, said)
        if order and (clause is not None or len(order.split()) >= LEAST_ORDER):
            names = [] if thing in (None, "") else said[-1][0].names if thing in PRONOUNS else [bare(thing)]
            return Clause("", [], [], whole=order, names=names, group=span.group, in_own_words=True)
        if clause is None:
            return None
        if clause.pronoun and clause.objects and clause.objects[0] in PRONOUNS:
            name_it(clause, thing or "", said[-1][0].names if said else [])
        if thing and not clause.whole:
            return self.shortened(clause, thing)
        sure = bool(clause.times) and span.group in TAKES_TIME and not self.lacks_object(span, clause)
        put_in = span.group in PUTS_IN and any(phrase.food for phrase in span.objects) and not clause.pronoun
        return clause if sure or put_in else None

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

    def shortened(self, clause: Clause, thing: str) -> Clause | None:
        """A clause as its verb and the thing it is on, with its time: what is sure where the rest is not."""
        first = clause.verb.split()[0]
        if clause.verb in words("says little") or clause.negated:
            return None
        tail = clause.tail[-1:] if first in words("needs an object") else []
        if first in words("needs an object") and not tail:
            return None
        names = clause.names if thing in PRONOUNS else [bare(thing)]
        return replace(clause, objects=[bare(thing)], names=names, tail=tail, before=[], until="")

    def order(
        self, span: ActionSpan, action: Action, clause: Clause | None, thing: str | None, said: Sequence[Said]
    ) -> str:
        """An action as an order in the cook's words, its object named; "" where they make none or name nothing."""
        near = bool(said) and said[-1][1] == span.utterance
        if (thing is None and not near) or span.group == "naming":
            return ""
        time = (
            duration_words(action.duration, span.duration.approximate)
            if span.duration and action.duration
            else ""
        )
        order = said_order(self.doc, span, self.told_by_others(span), thing or "", time)
        verb, _, rest = order.partition(" ")
        if clause is not None and not span.negated and order and self.is_fronted(span, clause):
            return " ".join(part for part in (verb, listed(clause.objects), rest) if part)
        first = rest.split()[:1]
        cut_off = bool(first) and first[0] in words("opens a clause")
        empty = not rest or (cut_off and not rest.startswith("and put "))
        empty = empty or (span.group in NEEDS_OBJECT and first[0] in words("opens a place"))
        return "" if empty else order

    def is_fronted(self, span: ActionSpan, clause: Clause) -> bool:
        """Whether what a verb is on was all named before it: "and the rest you leave whole"."""
        named = bool(clause.objects) and clause.objects[0] not in PRONOUNS
        return named and bool(span.objects) and all(phrase.end <= span.at for phrase in span.objects)

    def timed(
        self, span: ActionSpan, clause: Clause, thing: str | None, said: Sequence[Said]
    ) -> Clause | None:
        """A bare time: that of the work just told where that has none, else as a clause of its own."""
        before, utterance = said[-1] if said else (None, None)
        if (
            before is not None
            and before.in_own_words
            and utterance == span.utterance
            and is_led(self.doc, span)
        ):
            before.whole = " ".join([before.whole, *clause.times])
            return None
        if (
            before is not None
            and before.group in TAKES_TIME
            and clause.times
            and not (before.times or before.whole or before.negated or before.then)
        ):
            before.times = clause.times
            before.until = before.until or clause.until
            return None
        if before is not None and utterance == span.utterance and are_one_time(before, clause):
            before.times = [f"{before.times[0]} or {bare_time(clause.times[0])}"]
            return None
        if clause.pronoun:
            name_it(clause, thing or "", [])
        return clause


def is_time_alone(clause: Clause) -> bool:
    """Whether a clause says nothing but how long something goes on: "cook for 2 minutes"."""
    said_more = (
        clause.tail or clause.until or clause.whole or clause.condition or clause.negated or clause.then
    )
    return len(clause.times) == 1 and not said_more and (not clause.objects or clause.pronoun)


def are_one_time(before: Clause, clause: Clause) -> bool:
    """Whether two clauses are nothing but times in one unit, told as alternatives: "two minutes, two and a half"."""
    alone = is_time_alone(before) and is_time_alone(clause)
    return alone and before.times[0].split()[-1].rstrip("s") == clause.times[0].split()[-1].rstrip("s")


def bare_time(time: str) -> str:
    """A time without the word that leads to it: "about 3 minutes"."""
    return time.removeprefix("for ")
