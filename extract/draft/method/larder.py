"""What belongs to a dish: its foods and the things made of them, told from foods that are only spoken of.

The ingredient lines decide. An action on nothing but a stand-in, a neighbour's habit or a food of the talk is no
step, and a food of the list that no action of the method names goes in where it was told.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import TYPE_CHECKING

from extract.draft.method.additions import addition, is_fuller_named, is_taken_up, throws_away
from extract.reconcile.lines.general_words import kind_words
from extract.spot.actions.span import ActionSpan
from extract.spot.names.foods import same_food, word_key
from extract.spot.verbs.ground import Phrase

if TYPE_CHECKING:
    from extract.reconcile.lines.lines import Line
    from extract.reconcile.lines.uses import Use
    from extract.spot.spans import Amount, Food, MadeName, Share

MADE = frozenset({"made", "mixture", "dish"})
HANDLING = frozenset({"cut", "mix", "season", "add", "naming", "coat"})  # work that is done on foods
AWAY = frozenset({"move", "light", "serve", "check", "unknown", "store"})  # work that need not be cooking
SURE = 0.7
NAMED = 0.5  # how likely foods named without a verb have to be put in where another action tells them too
SHARE_NEXT = 3  # how far on, in actions, a share of a food just named is told
REACH = 60  # tokens around the method within which a food that was named goes in


@dataclass
class Larder:
    """The lines and made things of one dish; empty, it takes every food for the dish's own.

    ``titled`` are the utterances that hold the dish's whole name, ``title`` its words as they are compared;
    ``told`` the foods of the dish that are named in its making, no talk.
    """

    lines: Sequence[Line] = ()
    made: Sequence[MadeName] = ()
    utterances: Sequence[tuple[int, int]] = ()
    foods: Sequence[Food] = ()
    shares: Sequence[Share] = ()
    tools: frozenset[tuple[int, int]] = frozenset()
    titled: frozenset[tuple[int, int]] = frozenset()
    title: frozenset[str] = frozenset()
    told: Sequence[Food] = ()
    _known: dict[str, bool] = field(default_factory=dict)

    @cached_property
    def line_at(self) -> dict[int, Line]:
        """The line of each mention by the token at which its food begins."""
        return {use.mention.food.start: line for line in self.lines for use in line.uses}

    @cached_property
    def made_at(self) -> frozenset[int]:
        """The tokens of the names of made things."""
        return frozenset(at for name in self.made for at in range(name.start, name.end))

    @cached_property
    def several(self) -> frozenset[str]:
        """The names of foods that have more than one line, so that each use needs its amount."""
        counts = Counter(line.name for line in self.lines)
        return frozenset(name for name, count in counts.items() if count > 1)

    @cached_property
    def offered(self) -> frozenset[str]:
        """The names of the foods that stand in for others and are no lines themselves."""
        others = frozenset(name for line in self.lines for name in line.alternatives)
        return others - {line.name for line in self.lines}

    def fuller_name(self, phrase: Phrase, name: str) -> str:
        """A food's name, its line's where the cook names it in more general words: the cheddar for "the cheese"."""
        line = self.line_at.get(phrase.start)
        if line is None or phrase.food is None or phrase.food.name not in kind_words():
            return name
        return name if phrase.food.name in line.name.split() else line.name

    def amount_of(self, phrase: Phrase) -> Amount | None:
        """The amount to say with a food that is used more than once, None where none is needed or known."""
        line = self.line_at.get(phrase.start)
        return line.amount if line is not None and line.measured and line.name in self.several else None

    def made_before(self, start: int, at: int) -> MadeName | None:
        """The made thing that a sentence beginning at ``start`` names right before token ``at``, no food between."""
        sure = (name for name in reversed(self.made) if name.sure and not name.dish)
        name = next((name for name in sure if start <= name.start and name.end <= at), None)
        if name is None or any(name.end <= food.start < at for food in self.foods):
            return None
        return name

    def holds(self, food: Food) -> bool:
        """Whether a food is of this dish: a line's, a made thing, or one that goes by the same name."""
        if not self.lines or food.start in self.line_at or food.start in self.made_at or "made" in food.kinds:
            return True
        if food.name not in self._known:
            names = [line.name for line in self.lines] + [name.name for name in self.made]
            kinds = set(kind_words().get(word_key(food.name), ()))
            self._known[food.name] = any(same_food(food.name, name) for name in names) or any(
                line.food.kinds & kinds for line in self.lines
            )
        return self._known[food.name]

    def own(self, actions: Iterable[ActionSpan]) -> list[ActionSpan]:
        """The actions without those that name, with no verb of work, foods that are none of the dish or its name."""
        kept = (self.without_title(action) for action in actions)
        return [
            action
            for action in kept
            if action is not None
            if not (action.implied or action.group == "naming") or self.of_dish(action) is not None
        ]

    def without_title(self, action: ActionSpan) -> ActionSpan | None:
        """An action that only names foods, without the dish's name and what is made for it: "pies, with a sauce"."""
        plain = (
            (action.implied or action.group == "naming") and action.heat is None and action.duration is None
        )
        if not plain or action.utterance not in self.titled:
            return action
        objects = tuple(p for p in action.objects if not (self.is_title(p) or self.is_made(p)))
        if objects == action.objects:
            return action
        return replace(action, objects=objects) if objects else None

    def is_title(self, phrase: Phrase) -> bool:
        """Whether the words of a food are all words of the dish's name."""
        return phrase.food is not None and all(word_key(w) in self.title for w in phrase.food.name.split())

    def of_dish(self, action: ActionSpan) -> ActionSpan | None:
        """An action without the foods of its objects that are none of the dish, None where nothing is left."""
        foreign = [
            phrase for phrase in action.objects if phrase.food is not None and not self.holds(phrase.food)
        ]
        if action.group != "serve":
            action = replace(action, place=self.held(action.place), with_=self.held(action.with_))
        if not foreign:
            return action
        objects = tuple(phrase for phrase in action.objects if phrase not in foreign)
        return replace(action, objects=objects) if objects else None

    def held(self, phrases: tuple[Phrase, ...]) -> tuple[Phrase, ...]:
        """The phrases without foods that stand in for others: "shake it over the tin, or ground almonds"."""
        return tuple(p for p in phrases if p.food is None or p.food.name not in self.offered)

    def worded(self, actions: Sequence[ActionSpan]) -> list[ActionSpan | None]:
        """Each action as the method words it, None for one that it leaves unsaid.

        Left unsaid are actions on nothing of the dish, foods only named that go in elsewhere, and what is done
        to a stand-in: "saltines are fine too, crush them up".
        """
        told: set[int] = set()
        done = {id(line) for action in actions if action.doing > SURE for line in self.lines_of(action)}
        found: list[ActionSpan | None] = []
        for number, action in enumerate(actions):
            own = self.bought(self.of_dish(action))
            named_only = own is not None and own.implied and own.doing < NAMED
            named_only = named_only and not is_taken_up(actions[number + 1 : number + 2])
            if own is not None and (self.is_kept(own) or (named_only and self.is_told_again(own, done))):
                own = None
            if own is not None and self.is_shared_next(own, actions[number + 1 : number + SHARE_NEXT]):
                own = None
            if own is None and (action.heat is not None or action.duration is not None):
                own = replace(action, objects=self.held(action.objects))
            if own is None or self.is_elsewhere(own) or (action.implied and self.is_told_again(own, told)):
                found.append(None)
                continue
            found.append(own)
            told.update(id(line) for line in self.lines_of(own))
        return found

    def is_kept(self, action: ActionSpan) -> bool:
        """Whether an action only names shares that are put by: "the other half of the dressing waits"."""
        if not (action.implied or action.group == "naming") or action.heat or action.duration:
            return False
        kept = [s for s in self.shares if s.kept and (s.other or s.fraction == "rest")]
        put_by = (any(s.start <= phrase.start <= s.end for s in kept) for phrase in action.objects)
        return bool(action.objects) and all(put_by)

    def is_shared_next(self, action: ActionSpan, following: Sequence[ActionSpan]) -> bool:
        """Whether an action names a food of which the next puts in a share: "75 grams of cheese. Half goes on"."""
        plain = action.heat is None and action.duration is None and len(action.objects) == 1
        if not plain or not (action.implied or action.group == "naming") or self.is_shared(action.objects[0]):
            return False
        shared = [phrase for other in following for phrase in other.objects if self.is_shared(phrase)]
        line = self.line_at.get(action.objects[0].start)
        return line is not None and any(self.line_at.get(phrase.start) is line for phrase in shared)

    def bought(self, action: ActionSpan | None) -> ActionSpan | None:
        """An action that only names foods, without the made things among them: "so that's the topping".

        A share of a made thing is put in. Of a food named twice in one breath ("the beer, a dark beer") the
        fuller name stays.
        """
        if action is None or not (action.implied or action.group == "naming"):
            return action
        objects = tuple(
            phrase
            for phrase in action.objects
            if phrase.food is None or not (self.is_made(phrase) or is_fuller_named(phrase, action))
        )
        if objects == action.objects:
            return action
        return replace(action, objects=objects) if objects else None

    def is_made(self, phrase: Phrase) -> bool:
        """Whether a phrase names a made thing or a dish, no share of it and no line."""
        if phrase.food is None or phrase.start in self.line_at:
            return False
        made = phrase.start in self.made_at or bool(phrase.food.kinds & MADE)
        return made and not self.is_shared(phrase)

    def is_elsewhere(self, action: ActionSpan) -> bool:
        """Whether an action is on nothing of the kitchen's: a stand-in, or a thing that no recipe knows."""
        if action.heat is not None or action.duration is not None:
            return False  # a temperature or a time is never left unsaid
        kinds = {phrase.kind for phrase in action.objects}
        if self.is_on_foreign(action) or (kinds == {"noun"} and action.group in AWAY):
            return True
        return kinds == {"thing"} and action.group in HANDLING and self.is_on_tools(action)

    def is_on_tools(self, action: ActionSpan) -> bool:
        """Whether all that an action is on are tools, machines and the like, which are not worked on."""
        return all((phrase.start, phrase.end) in self.tools for phrase in action.objects)

    def is_on_foreign(self, action: ActionSpan) -> bool:
        """Whether an action is on a pronoun in a sentence that names foods, none of them the dish's."""
        if not action.objects or any(phrase.kind != "pronoun" for phrase in action.objects):
            return False
        start, _ = action.utterance
        foods = [food for food in self.foods if start <= food.start < action.at]
        return bool(foods) and not any(self.holds(food) for food in foods)

    def lines_of(self, action: ActionSpan) -> list[Line]:
        """The lines whose foods an action names, in order."""
        phrases: tuple[Phrase, ...] = (*action.objects, *action.with_, *action.place)
        return [self.line_at[phrase.start] for phrase in phrases if phrase.start in self.line_at]

    def is_told_again(self, action: ActionSpan, told: set[int]) -> bool:
        """Whether foods named without a verb went in before: "and the stock, that was two and a half cups"."""
        plain = action.heat is None and action.duration is None
        foods = [phrase for phrase in action.objects if phrase.food is not None]
        if not plain or not foods or any(self.is_shared(phrase) for phrase in foods):
            return False
        return all(self.is_told(phrase, told) for phrase in foods)

    def is_told(self, phrase: Phrase, told: set[int]) -> bool:
        """Whether the line of a food, or one that goes by its name, went in before."""
        if phrase.start in self.line_at:
            return id(self.line_at[phrase.start]) in told
        assert phrase.food is not None
        name = phrase.food.name
        return any(id(line) in told and same_food(name, line.name) for line in self.lines)

    def is_shared(self, phrase: Phrase) -> bool:
        """Whether a share of a food is told."""
        return any(share.start <= phrase.start <= share.end for share in self.shares)

    def untold(self, actions: Sequence[ActionSpan]) -> list[ActionSpan]:
        """An addition for every line whose food no action names, where it was told within the method."""
        told = {id(line) for a in actions if not throws_away(a) for line in self.lines_of(a)}
        names = {p.food.name for a in actions for p in (*a.objects, *a.with_, *a.place) if p.food is not None}
        found: dict[tuple[int, int], list[Use]] = {}
        for line in self.lines:
            use = self.entry(line)
            named = id(line) in told or (line.name in names and not line.measured)
            if not named and self.is_within(use, actions):
                found.setdefault(self.utterance_of(use), []).append(use)
        return [addition(utterance, uses) for utterance, uses in found.items()]

    def spoken_of(self, actions: Sequence[ActionSpan]) -> list[tuple[Food, int]]:
        """The foods of the lines where no action names them, each with the end of its utterance."""
        named = {phrase.start for a in actions for phrase in (*a.objects, *a.place, *a.with_)}
        uses = [use for line in self.lines for use in line.uses if use.mention.food.start not in named]
        return [(use.mention.food, self.utterance_of(use)[1]) for use in uses]

    def entry(self, line: Line) -> Use:
        """The mention by which a line's food goes in: one that puts it in, else the one that tells how much."""
        return next((use for use in line.uses if use.put_in), line.telling[0])

    def is_within(self, use: Use, actions: Sequence[ActionSpan]) -> bool:
        """Whether a mention stands in the method or close to it, and not in a list of what is needed."""
        at, line = use.mention.food.start, self.line_at[use.mention.food.start]
        sure = line.measured or line.put_in or line.score > SURE
        return sure and any(abs(action.at - at) <= REACH for action in actions)

    def utterance_of(self, use: Use) -> tuple[int, int]:
        """The utterance of a mention."""
        at = use.mention.food.start
        return next(
            (span for span in self.utterances if span[0] <= at < span[1]),
            (use.mention.start, use.mention.food.end),
        )
