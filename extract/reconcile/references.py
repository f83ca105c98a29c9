"""What a reference stands for: by vessel, by kind, by what was just named, else the likeliest thing.

Notes for a newcomer. A reference is a pronoun ("it", "them"), a vessel's contents ("what's in the bowl"), a kind
("the liquid", "the meat") or a word for all of it ("everything"). The ledger knows what went into which vessel,
of which kind each food is, and which made thing was spoken of last; where it does not know, ``likeliest`` may.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from extract.reconcile.lines.components import component_at
from extract.reconcile.lines.general_words import kind_words
from extract.reconcile.scene import Scene, between
from extract.reconcile.wording import fits
from extract.spot.actions.span import ActionSpan
from extract.spot.names.foods import word_key
from extract.spot.spans import MadeName
from extract.spot.verbs.things import equipment_at

REACH = 25
MOST_NAMES = 3
PRONOUNS = frozenset({"it", "this", "that"})
Likeliest = Callable[[int, int], str | None]


@dataclass(frozen=True, slots=True)
class Put:
    """A food that an action put into a vessel at a token."""

    at: int
    vessel: str
    food: str


@dataclass
class Resolver:
    """Names what the references of one dish stand for; call it with the tokens of a reference.

    ``likeliest`` is asked where the ledger does not know.
    """

    scene: Scene
    likeliest: Likeliest | None = None
    puts: list[Put] = field(default_factory=list)

    def __post_init__(self) -> None:
        actions = between(
            self.scene.spotted.actions, self.scene.dish.start, self.scene.dish.end, lambda a: a.at
        )
        self.puts = [put for action in actions for put in puts_of(self.scene, action)]

    def __call__(self, start: int, end: int) -> str | None:
        """The name of what tokens ``start`` to ``end`` (exclusive) stand for, None where nothing tells."""
        words = self.scene.wording.words[start:end]
        found = self.vessel(start, end) or self.kind(words, start)
        if found is None and len(words) == 1 and words[0] in PRONOUNS:
            found = self.just_named(start)
        if found is None and self.likeliest is not None:
            found = self.likeliest(start, end)
        return found

    def vessel(self, start: int, end: int) -> str | None:
        """ "What's in the bowl": what was put there, the last few foods by name."""
        words = self.scene.wording.words
        if words[start] not in {"what", "whatever"} or "in" not in words[start:end]:
            return None
        doc = self.scene.spotted.speech.doc
        found = next((e for at in range(start, end) if (e := equipment_at(doc, at, end)) is not None), None)
        if found is None:
            return None
        foods = [put.food for put in self.puts if put.at < start and put.vessel == found[0].name]
        return joined(foods)

    def kind(self, words: Sequence[str], start: int) -> str | None:
        """ "The liquid", "the meat": the foods of that kind that were put in before."""
        kinds = kind_words().get(word_key(words[-1])) if len(words) > 1 else None
        if kinds is None:
            return None
        before = [line for line in self.scene.lines if line.at < start and line.food.kinds & set(kinds)]
        own = component_at(self.scene.parts, start)
        return joined(
            [line.name for line in before if line.component == own] or [line.name for line in before]
        )

    def just_named(self, start: int) -> str | None:
        """The made thing named just before, with no food named since."""
        names = between(self.scene.names, start - REACH, start, _start)
        name = next((name for name in reversed(names) if name.sure), None)
        if name is None or name.end > start:
            return None
        since = between(self.scene.spotted.foods, name.end, start, lambda food: food.start)
        # What was put "into the batter" is spoken of next, not the batter.
        place = fits("ledger_cues", "into", self.scene.wording.part(name.start - REACH, name.start))
        return None if since or place else name.name


def puts_of(scene: Scene, action: ActionSpan) -> list[Put]:
    """The foods that an action puts into a vessel."""
    doc = scene.spotted.speech.doc
    vessels = [e for phrase in action.place if (e := equipment_at(doc, phrase.start, phrase.end)) is not None]
    foods = [phrase.food for phrase in (*action.objects, *action.with_) if phrase.food is not None]
    return [Put(food.start, vessels[0][0].name, food.name) for food in foods] if vessels else []


def joined(names: Sequence[str]) -> str | None:
    """A few names as one, None where there are none: "honey and coconut oil"."""
    own = list(dict.fromkeys(names))[-MOST_NAMES:]
    if len(own) < 2:
        return own[0] if own else None
    return f"{', '.join(own[:-1])} and {own[-1]}"


def _start(span: MadeName) -> int:
    return span.start
