"""What is being worked on as a dish is told, so that a cook's "it" and "them" can be printed by name.

A newcomer's note. A cook works on one thing at a time: what was cut, heated or wrapped last, or, once several
foods have gone together, the whole of them. A part of the dish has a thing of its own; who comes back to the part
comes back to its thing. Fat, seasoning and liquid that go in do not become what is worked on where a piece of meat
or a vegetable is. A food that is named just before without an action ("broad beans, these are the last") is taken up.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from extract.draft.method.phrases.clauses import PUTS_IN
from extract.draft.method.phrases.grammar import is_plural
from extract.draft.method.phrases.names import food_name, plain_pronoun
from extract.spot.names.foods import SEASONINGS, kinds_of
from extract.spot.spans import MadeName
from extract.spot.verbs.words import words

if TYPE_CHECKING:
    from spacy.tokens import Doc

    from extract.draft.method.larder import Larder
    from extract.spot.actions.span import ActionSpan
    from extract.spot.spans import Food

MIXTURE = "mixture"
DOUGH = "dough"
LIGHT = SEASONINGS | {"dairy"}
DRY = frozenset({"flour", "egg", "grain"})  # what is seldom worked on alone once anything is with it
LOOK_BACK = 8
LED = 4  # tokens before a verb that tell what it is on
UNCUT = DRY | {"oil", "fat", "condiment", "vinegar", "liquid", "alcohol", "sauce", "sugar", "dairy", "spice"}
UNNAMED = frozenset({"wait", "heat"})  # work that can be told without what it is on
STALE = 60  # tokens after which a name may no longer be what is worked on
MOST_NAMES = 2
WORKED = frozenset({"heat", "shape", "mix", "wait", "coat"})
LOOSE = frozenset({"mix", "heat", "wait", "add", "season"})  # work that can be on a mixture


@dataclass(frozen=True)
class Work:
    """What one part of a dish has come to: the ``thing`` worked on, what has gone into it, foods by their moment.

    ``before``: what was worked on until a food was named that has yet to go in.
    """

    thing: str = ""
    light: bool = False
    gone_in: tuple[str, ...] = ()
    named: tuple[str, ...] = ()
    before: str = ""

    @property
    def is_whole(self) -> bool:
        """Whether the thing is what several foods have become."""
        return len(self.gone_in) > 1


@dataclass
class Focus:
    """Follows the work of one dish.

    ``meant`` are the names of what pronouns stand for, by the token and verb of each action. ``part_at`` tells the
    part of the dish at a token; ``mentions`` are foods and made things named where no action names them.
    """

    doc: Doc
    part_at: Callable[[int], str]
    mentions: Sequence[Food | MadeName] = ()
    meant: dict[tuple[int, str], str] = field(default_factory=dict)
    _work: dict[str, Work] = field(default_factory=dict)
    _named_at: dict[str, int] = field(default_factory=dict)

    @classmethod
    def on(
        cls,
        doc: Doc,
        actions: Iterable[ActionSpan],
        part_at: Callable[[int], str],
        mentions: Sequence[Food | MadeName] = (),
    ) -> Mapping[tuple[int, str], str]:
        """The names of what the pronouns of a dish's actions stand for, by the token and verb of each action."""
        focus = cls(doc, part_at, mentions)
        before = 0
        last = ""
        for action in actions:
            part = part_at(action.at)
            focus.take_up(part, before, action)
            word = focus.reference(action)
            name = focus.named(part, last, action, word) if word else ""
            if name and not focus.is_stale(part, name, action):
                focus.meant[action.at, action.verb] = name
            focus.follow(part, action)
            before, last = max(before, action.end), part
        return focus.meant

    def is_stale(self, part: str, name: str, action: ActionSpan) -> bool:
        """Whether a food was named so long before that work which needs no name is better told without."""
        if action.group not in UNNAMED or name in (MIXTURE, DOUGH, part):
            return False
        poured = action.group == "wait" and bool(kinds_of(name) & UNCUT)
        return poured or action.at - self._named_at.get(name, 0) > STALE

    def reference(self, action: ActionSpan) -> str:
        """The pronoun that an action is on, as a method writes it: "it" where nothing is said, "" where a name is."""
        pronoun = next((p for p in action.objects[:1] if p.kind == "pronoun"), None)
        if pronoun is not None:
            return plain_pronoun(self.doc[pronoun.start].lower_)
        if action.implied:
            return ""
        after = self.doc[action.at + 1].lower_ if action.at + 1 < len(self.doc) else ""
        if after in words("object pronoun") and after in words("reference pronoun"):
            return plain_pronoun(after)
        return "" if action.objects else "it"

    def work(self, part: str) -> Work:
        """What a part has come to."""
        return self._work.get(part, Work())

    def take_up(self, part: str, since: int, action: ActionSpan) -> None:
        """Take up a food that was named since the last action and before this one."""
        named = [f for f in self.mentions if since <= f.start < action.at and not is_light(f)]
        own = {p.start for p in (*action.objects, *action.place, *action.with_)}
        named = [f for f in named if f.start not in own and self.part_at(f.start) == part]
        if named:
            name = named[-1].name if isinstance(named[-1], MadeName) else food_name(named[-1])
            work = self.work(part)
            again = name in work.named and work.is_whole
            gone_in = work.gone_in if again else (name,)
            thing = work.thing if again and action.group in LOOSE else name
            before = work.thing if thing == name != work.thing else ""
            named_so_far = (*work.named, name)
            self._named_at[name] = named[-1].end
            self._work[part] = Work(thing, False, gone_in, named_so_far, before)

    def named(self, part: str, last: str, action: ActionSpan, word: str) -> str:
        """The name of what a pronoun stands for, "" where nothing agrees with it."""
        work = self.work(part)
        work = work if work.thing else self.work(last)
        if word == "everything" or not work.thing:
            return ""
        recent = list(reversed(work.named[-LOOK_BACK:]))
        if word == "them":
            if is_plural(work.thing) or " and " in work.thing:
                return work.thing
            return next((name for name in recent if is_plural(name)), "")
        if action.group == "cut" and self.is_on_all(action):
            return self.whole(part)
        if work.is_whole and action.group == "cut":
            return next((name for name in recent[:1] if not kinds_of(name) & UNCUT), work.thing)
        if work.is_whole and action.group == "mix":
            return self.whole(part)
        return work.thing

    def is_on_all(self, action: ActionSpan) -> bool:
        """Whether all that was told before is worked on: "all together, chop it"."""
        led = self.doc[max(action.utterance[0], action.at - LED) : action.at]
        return any(token.lower_ in {"together", "everything"} for token in led)

    def follow(self, part: str, action: ActionSpan) -> None:
        """What a part has come to after an action."""
        work = self.work(part)
        if self.takes_off(action):
            return
        foods = [p.food for p in action.objects if p.food is not None]
        names = tuple(dict.fromkeys(food_name(food) for food in foods)) or self.made_by_hand(action)
        aside = tuple(food_name(p.food) for p in (*action.with_, *action.place) if p.food is not None)
        seen = (*work.named, *aside, *names)
        self._named_at.update(dict.fromkeys((*aside, *names), action.end))
        if work.before and action.group in PUTS_IN and not names and not aside:
            thing = self.whole(part) if work.before == MIXTURE else work.before
            self._work[part] = Work(thing, False, (*work.gone_in, work.before), work.named)
            return
        if action.negated or action.supposed or (not names and not aside):
            self._work[part] = self.mixed(action, work)
            return
        if action.implied or action.group in PUTS_IN:
            self._work[part] = self.put_in(part, work, foods, names, aside, seen)
            return
        thing = " and ".join(names) if 0 < len(names) <= MOST_NAMES else MIXTURE if names else work.thing
        whole = len(names) > MOST_NAMES or (action.group == "mix" and len((*names, *aside)) > 1)
        gone_in = (*names, *aside) if whole or action.group == "coat" else names or work.gone_in
        if whole:
            thing = self.whole(part)
        light = bool(foods) and all(is_light(food) for food in foods)
        self._work[part] = Work(thing, light, gone_in, seen)

    def takes_off(self, action: ActionSpan) -> bool:
        """Whether an action takes off what is not used, so that work goes on with the rest: "take the seeds out"."""
        off = action.group in {"move", "light"} or action.verb.split()[-1] in {"off", "out"}
        return bool(off and action.objects) and all(
            self.doc[p.end - 1].lower_ in words("comes off") for p in action.objects
        )

    def made_by_hand(self, action: ActionSpan) -> tuple[str, ...]:
        """What work without a food's name is on, where it is no part of a food and no tool: "bake the rolls"."""
        if action.group not in WORKED:
            return ()
        nouns = (self.doc[p.start : p.end].text.lower() for p in action.objects if p.kind == "noun")
        return tuple(noun for noun in nouns if noun.split()[-1] not in words("kitchen thing") | {"rest"})

    def put_in(
        self,
        part: str,
        work: Work,
        foods: Sequence[Food],
        names: tuple[str, ...],
        aside: tuple[str, ...],
        seen: tuple[str, ...],
    ) -> Work:
        """What a part has come to after foods have gone into it."""
        heavy = [food_name(food) for food in foods if not is_light(food)]
        gone_in = tuple(dict.fromkeys((*work.gone_in, *aside, *names)))
        if not work.thing or (work.light and heavy and not work.is_whole):
            alone = len(heavy) == 1 and (
                len(names) == 1 or not all(f.kinds & DRY for f in foods if not is_light(f))
            )
            thing = heavy[0] if alone else names[0] if len(names) == 1 else self.whole(part)
            return Work(thing, not heavy, gone_in if len(names) > 1 else names, seen)
        if not heavy and not work.light and not work.is_whole:
            return replace(work, named=seen)
        return Work(self.whole(part), False, gone_in, seen)

    def mixed(self, action: ActionSpan, work: Work) -> Work:
        """What a part has come to after work without a food's name: a dough where it is kneaded."""
        if action.verb.split()[0] in words("makes a dough") and work.thing != DOUGH:
            return replace(work, thing=DOUGH, light=False)
        return work

    def whole(self, part: str) -> str:
        """What several foods of a part have become, by name."""
        work = self.work(part)
        if work.thing == DOUGH:
            return DOUGH
        last = part.split()[-1] if part else ""
        return part if last and not is_plural(part) else MIXTURE


def is_light(food: Food | MadeName) -> bool:
    """Whether a food goes into a thing without becoming what is worked on: fat, seasoning, liquid."""
    if isinstance(food, MadeName):
        return False
    return bool(food.kinds & LIGHT) or food.name == "salt"


def mentions(larder: Larder, actions: Sequence[ActionSpan]) -> list[Food | MadeName]:
    """The foods and made things named in the making of a dish where no action names them, in order."""
    named = {phrase.start for a in actions for phrase in (*a.objects, *a.place, *a.with_)}
    foods = [food for food in larder.told if food.start not in named]
    taken = named | {food.start for food in foods}
    made = [name for name in larder.made if name.sure and not name.dish and name.start not in taken]
    return sorted([*foods, *made], key=lambda mention: mention.start)
