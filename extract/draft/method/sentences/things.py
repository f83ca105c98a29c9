"""What the pronouns of a cook are printed as: a name, the pronoun where the clause before names it, or nothing."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from extract.draft.method.focus import MIXTURE
from extract.draft.method.phrases.clause import PRONOUNS, Clause
from extract.draft.method.phrases.clauses import PUTS_IN
from extract.draft.method.phrases.grammar import is_plural, proper_name, with_article
from extract.draft.method.phrases.names import plain_pronoun
from extract.spot.verbs.words import words

if TYPE_CHECKING:
    from spacy.tokens import Doc

    from extract.spot.actions.span import ActionSpan
    from extract.spot.spans import Share

    Said = tuple[Clause, tuple[int, int]]

# Work that is told without what it is on, where all of it is meant.
ALONE = frozenset({"mix", "heat", "wait"})


@dataclass(frozen=True)
class Things:
    """Names what the actions of one dish are on; ``meant`` tells what an action's pronoun stands for."""

    doc: Doc
    actions: Sequence[ActionSpan]
    shares: Sequence[Share]
    meant: Callable[[ActionSpan], str | None]

    def __call__(self, span: ActionSpan, clause: Clause | None, said: Sequence[Said]) -> str | None:
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
        if meant == MIXTURE and said and agrees(word, said[-1][0].names):
            return word  # what has become of it is not sure; what was named last is
        return with_article(proper_name(meant)) if meant else "" if span.group in ALONE else None

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
        last = name.split()[-1]
        if name in PRONOUNS or " and " in name or last in words("holds the dish") | words("comes off"):
            return ""  # "leaf out, and beat them"
        breath = utterance == span.utterance
        if breath and before.pronoun and any(clause.group in PUTS_IN for clause, _ in said[-2:]):
            return ""
        return word if name == meant or (breath and meant is None) else ""


def agrees(word: str, names: Sequence[str]) -> bool:
    """Whether a pronoun can stand for the one thing just named."""
    return len(names) == 1 and names[0] not in PRONOUNS and (word == "them") == is_plural(names[0])


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
