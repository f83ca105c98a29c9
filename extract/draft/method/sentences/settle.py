"""What of an action is printed: its rewording where that is sure and whole, else the cook's own words, else nothing."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from extract.draft.method.focus import MIXTURE
from extract.draft.method.phrases.clause import PRONOUNS, Clause
from extract.draft.method.phrases.clauses import PUTS_IN, lacks_object
from extract.draft.method.phrases.figures import duration_words
from extract.draft.method.phrases.grammar import listed, with_article
from extract.draft.method.phrases.names import plain_pronoun
from extract.draft.method.phrases.timing import is_bare_time, moment_words
from extract.draft.method.sentences.spoken import MOST_LOST, lost, said_order, told_tokens
from extract.spot.actions.weight import is_instruction
from extract.spot.verbs.words import words

if TYPE_CHECKING:
    from spacy.tokens import Doc

    from extract.model import Action
    from extract.spot.actions.span import ActionSpan
    from extract.spot.spans import Share

    Said = tuple[Clause, tuple[int, int]]

LEAST_ORDER = 4  # words of an order whose verb says little by itself
AHEAD_LIKELY = 0.4
LIKELY_TIME = 0.3  # the same for a bare time
DONE = 0.4  # how likely what is printed has to be something done, no look and no tale
LEFT_OUT = -2.0  # the weight under which not even a time or a heat is printed
ALONE = frozenset(
    {"mix", "heat", "wait"}
)  # work that is told without what it is on, where all of it is meant
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

    def __call__(
        self, span: ActionSpan, action: Action, clause: Clause | None, said: Sequence[Said]
    ) -> Clause | None:
        """The clause to print after those of the same step, None where nothing is."""
        if self.is_just_now(span):
            return None
        figure = span.heat is not None or span.duration is not None
        if self.is_in_condition(span, clause) or self.is_warned(span) or self.is_of_itself(span):
            return None
        if (span.implied or not figure) and not self.is_done(span):
            return None
        names_food = span.implied and not figure and any(phrase.food for phrase in span.objects)
        if not is_instruction(span) and not names_food and not (clause is not None and clause.condition):
            oven = span.heat is not None and clause is not None and bool(clause.whole)
            return clause if oven and span.weight > LEFT_OUT else None
        if clause is not None and clause.whole and not clause.whole.startswith("give "):
            return clause
        if self.is_anothers_time(span):
            return None
        thing = self.thing(span, clause, said)
        if clause is not None and (
            (is_bare_time(span) and not moment_words(action)) or self.is_elsewhere(span)
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
        meant = self.meant(span)
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

    def is_in_condition(self, span: ActionSpan, clause: Clause | None) -> bool:
        """Whether the verb of an action belongs to its condition: "if it wants to stick, a splash of water"."""
        conditional = clause is not None and bool(clause.condition)
        return conditional and span.at > 0 and self.doc[span.at - 1].lower_ == "to"

    def is_warned(self, span: ActionSpan) -> bool:
        """Whether an action tells what happens otherwise: "one half stays in the bag, or it dries"."""
        led = [token.lower_ for token in self.doc[max(span.utterance[0], span.at - 2) : span.at]]
        return span.mood == "present" and led[:1] == ["or"] and led[-1] in PRONOUNS

    def is_done(self, span: ActionSpan) -> bool:
        """Whether an action without a figure is told as something done, on something where its verb says little."""
        if span.implied:
            return span.duration is None or span.heat is not None or span.doing > LIKELY_TIME
        behind = any(phrase.start > span.at for phrase in span.objects)
        return span.doing > DONE and (span.group != "light" or behind)

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

    def is_led(self, span: ActionSpan) -> bool:
        """Whether a time is led in by a "for", so that it is of the work before it."""
        time = span.duration
        return (
            time is not None
            and time.start > 0
            and self.doc[time.start - 1].lower_ in words("leads to a time")
        )

    def is_just_now(self, span: ActionSpan) -> bool:
        """Whether a time tells how long ago something was done, of no matter: "I pulled these 5 minutes ago"."""
        time = span.duration
        ago = time is not None and time.end < len(self.doc) and self.doc[time.end].lower_ == "ago"
        return ago and span.ahead < AHEAD_LIKELY

    def is_of_itself(self, span: ActionSpan) -> bool:
        """Whether an action is what a thing does not do of itself: "what doesn't stick to the sides"."""
        near = {token.lower_ for token in self.doc[max(span.utterance[0], span.at - 3) : span.at]}
        left = bool(near & words("denies by leaving"))
        return span.negated and (left or bool(near & words("denies of a thing")))

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
        empty = not rest or (span.group in NEEDS_OBJECT and rest.split()[0] in words("opens a place"))
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
        if before is not None and before.in_own_words and utterance == span.utterance and self.is_led(span):
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

    def thing(self, span: ActionSpan, clause: Clause | None, said: Sequence[Said]) -> str | None:
        """What the pronoun an action is on is printed as: a name or the pronoun, None where it is unclear.

        "" where the action is on no pronoun, or on all of it.
        """
        word = self.reference(span)
        if not word:
            return ""
        if clause is not None and clause.pronoun and clause.objects and clause.objects[0] not in PRONOUNS:
            return with_article(clause.objects[0])
        if word == "everything":
            return ""
        if span.implied and (span.duration is not None or span.heat is not None):
            return ""  # "it's another three minutes": a time needs no name
        if span.verb in words("shows itself"):
            return ""
        meant = self.share_told(span, self.meant(span))
        if meant == MIXTURE and span.group == "mix" and said and said[-1][0].verb == "add":
            return ""
        near = self.just_named(span, word, meant, said)
        if near:
            return near
        return with_article(meant) if meant else "" if span.group in ALONE else None

    def reference(self, span: ActionSpan) -> str:
        """The pronoun that an action is on, as a method writes it; "" where it is on none."""
        after = self.doc[span.at + 1].lower_ if span.at + 1 < len(self.doc) else ""
        phrase = next((p for p in span.objects[:1] if p.kind == "pronoun"), None)
        if phrase is not None:
            return plain_pronoun(self.doc[phrase.start].lower_)
        shown = not span.implied and after in words("object pronoun") and after in words("reference pronoun")
        return plain_pronoun(after) if shown and after not in words("determiner") else ""

    def share_told(self, span: ActionSpan, name: str | None) -> str | None:
        """A name with the share of it that was told before the verb: "take half of it, and you crush it"."""
        start = span.utterance[0]
        told = [s for s in self.shares if start <= s.start < span.at and s.fraction not in ("some", "all")]
        between = any(told and told[-1].start < other.at < span.at for other in self.actions)
        if name is None or not told or between or told[-1].of or told[-1].kept:
            return name
        share = next((w for w in (self.doc[told[-1].start].lower_,) if w in words("share told")), "")
        return f"{share} of the {name}" if share in {"half"} else name

    def just_named(self, span: ActionSpan, word: str, meant: str | None, said: Sequence[Said]) -> str:
        """The pronoun where the clause before it in the step names what it stands for; "" elsewhere."""
        before, utterance = said[-1] if said else (None, None)
        if before is not None and word == "them" and before.verb == "add" and len(before.names) > 1:
            return word
        if before is None or len(before.names) != 1:
            return ""
        name = before.names[0]
        if name in PRONOUNS or " and " in name or name.split()[-1] in words("holds the dish"):
            return ""
        breath = utterance == span.utterance
        if breath and before.pronoun and any(clause.group in PUTS_IN for clause, _ in said[-2:]):
            return ""
        return word if name == meant or (breath and meant is None) else ""


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


def bare(name: str) -> str:
    """A name without its article."""
    return name.removeprefix("the ")


def name_it(clause: Clause, thing: str, before: Sequence[str]) -> None:
    """Print the object of a clause as a thing that a pronoun was said for; a pronoun means what was named before."""
    if thing in PRONOUNS:
        clause.objects, clause.names = [thing], list(before) or clause.names
    elif not thing:
        clause.objects = []
    else:
        clause.objects = [bare(thing)]
        clause.names = clause.objects
        clause.pronoun = False
