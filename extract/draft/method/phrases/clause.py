"""The parts of one sentence of a written method, as they are gathered."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from extract.draft.method.phrases.grammar import listed
from extract.spot.verbs.words import words

PRONOUNS = frozenset({"it", "them", "everything"})


@dataclass(slots=True)
class Clause:
    """The parts of one sentence-to-be. ``verb`` is the trade's; ``tail`` is all that follows the objects.

    ``then`` is the verb that takes the ``times`` (heat and duration) where the first cannot: "add the leeks and
    cook over a low heat for 10 minutes". ``whole`` is a clause that needs none of this. ``opens``: it begins what
    the cook said in one breath. ``fronted``: the place of an addition was told before it.
    ``named``: an addition whose foods were only named, with no verb of putting in. ``first``: nothing of its part
    went in before. ``in_own_words``: ``whole`` are the cook's words as an order.
    """

    verb: str
    objects: list[str]
    tail: list[str]
    before: list[str] = field(default_factory=list)
    times: list[str] = field(default_factory=list)
    then: str = ""
    until: str = ""
    condition: str = ""
    negated: bool = False
    pronoun: bool = False
    whole: str = ""
    names: list[str] = field(default_factory=list)
    group: str = ""
    opens: bool = False
    fronted: bool = False
    named: bool = False
    first: bool = False
    in_own_words: bool = False

    def copy(self) -> Clause:
        """A clause with the same parts, which can be changed by itself."""
        return replace(
            self,
            objects=[*self.objects],
            tail=[*self.tail],
            before=[*self.before],
            times=[*self.times],
            names=[*self.names],
        )

    def text(self) -> str:
        """The clause in words, no capital and no full stop."""
        told = self.whole or self.order()
        return f"{self.condition}, {told}" if self.condition else told

    def order(self) -> str:
        """The clause without its condition."""
        verb, _, particle = self.verb.partition(" ")
        tail = [*self.tail, *([] if self.then else self.times)]
        parts = [*self.before, verb, listed(self.objects), particle, *tail]
        pronoun = len(self.objects) == 1 and self.objects[0] in PRONOUNS
        behind = particle in words("after the object") or (pronoun and particle != "with")
        if particle and (not self.objects or not behind):
            parts = [*self.before, verb, particle, listed(self.objects), *tail]
        text = " ".join(part for part in parts if part)
        text = f"do not {text}" if self.negated else text
        text = f"{text} and {' '.join([self.then, *self.times])}" if self.then else text
        ends = any(time.startswith(("until", "when")) for time in self.times)
        return f"{text} until {self.until}" if self.until and not ends else text

    @property
    def plain(self) -> bool:
        """Whether it says no more than a verb and its objects."""
        return not (self.tail or self.times or self.until or self.negated or self.condition or self.whole)
