"""Reading the steps of a written method: what is done, to what, how hot, how long, until when."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from extract.check.written.lines.clean import without_stamps
from extract.check.written.lines.tokens import joined, tokens_of
from extract.check.written.lines.words import number_words
from extract.check.written.method.mentions import Larder, Mention
from extract.check.written.method.orders import Order, find_orders
from extract.check.written.method.plain_doc import as_doc
from extract.check.written.method.portions import find_written_shares
from extract.check.written.method.settings import duration_of, heat_of, is_step_time, one_a_setting
from extract.check.written.method.vocabulary import is_thing, method_words
from extract.model import Action, Portion, Step, Written
from extract.spot.heat.find import find_heat
from extract.spot.times.find import find_durations
from extract.spot.verbs.forms import verb_forms
from extract.spot.words import Words

_SENTENCE = re.compile(r"(?<=[.!?;])\s+(?=[\"'(]?[^\W\da-z_])")
_REMARK = "check"  # the verb of a sentence that gives a figure and no order: "The centre should reach 70 C."


def read_step(text: str, line: int, component: str, larder: Larder) -> tuple[Step, list[Portion]]:
    """One step of the method and the shares of made things that it deals out."""
    place = Written(line=line, text=text)
    actions: list[Action] = []
    portions: list[Portion] = []
    topic = ""  # what a pronoun of the next sentence may stand for
    for sentence in _SENTENCE.split(without_stamps(text)):
        reading = _Sentence(_level_words(tokens_of(sentence)), larder)
        before = len(actions)
        actions.extend(reading.actions())
        shared = ""  # what the sentence has dealt out already
        for portion in reading.portions(place, before):
            spoken_of = shared or reading.component() or topic or reading.first_food()
            shared = portion.of = portion.of or spoken_of
            portions.append(portion)
        topic = shared or reading.first_food() or topic
    return Step(text=text, component=component, actions=actions, written=place), portions


def _level_words(tokens: list[str]) -> list[str]:
    """ "medium-high" and "two-thirds" as the two words in which they are said."""
    out: list[str] = []
    for token in tokens:
        parts = token.split("-")
        level = parts[0].lower() == "medium"
        out.extend(parts if len(parts) == 2 and (level or parts[0].lower() in number_words()) else [token])
    return out


@dataclass(frozen=True, slots=True)
class _Clause:
    """The tokens ``start`` to ``end`` of one order; ``order`` is None in a sentence without any."""

    order: Order | None
    start: int
    end: int


class _Sentence:
    """One sentence with what the readers of heat, times, shares and foods find in it."""

    def __init__(self, tokens: list[str], larder: Larder) -> None:
        self.tokens = tokens
        doc = as_doc(tokens)
        words = Words.of(doc)
        self.heats = one_a_setting(tokens, find_heat(doc, words))
        times = [] if _is_other_way(tokens) else find_durations(doc, words)
        self.times = [time for time in times if is_step_time(tokens, time)]
        self.mentions = larder.find(tokens)
        self._components = larder.components

    def actions(self) -> list[Action]:
        orders = find_orders(self.tokens)
        found: list[Action] = []
        for clause in _clauses(self.tokens, orders):
            found.extend(self._of_clause(clause))
        return found

    def _of_clause(self, clause: _Clause) -> list[Action]:
        heats = [heat for heat in self.heats if clause.start <= heat.start < clause.end]
        times = [time for time in self.times if clause.start <= time.start < clause.end]
        if clause.order is None and not heats and not times:
            return []
        objects, places, means = self._things(clause)
        verb = clause.order.verb if clause.order else self._any_verb(clause)
        action = Action(verb=verb, objects=objects, place=places, until=self._until(clause))
        action.with_ = means
        action.heat = heat_of(heats[0]) if heats else None
        action.duration = duration_of(times[0]) if times else None
        further = [Action(verb=verb, objects=objects, heat=heat_of(heat)) for heat in heats[1:]]
        further += [
            Action(verb=self._verb_before(time.start, verb), objects=objects, duration=duration_of(time))
            for time in times[1:]
        ]
        return [action, *further]

    def first_food(self) -> str:
        """The first food or component that the sentence names, "" where it names none."""
        return self.mentions[0].name if self.mentions else ""

    def component(self) -> str:
        """The component that the sentence names before any pronoun for it, "" where it names none."""
        named = [mention.name for mention in self.mentions if mention.name in self._components]
        return named[0] if named else ""

    def _any_verb(self, clause: _Clause) -> str:
        return self._verb_before(clause.end, _REMARK)

    def _verb_before(self, at: int, otherwise: str) -> str:
        """The verb of the nearest "-ing" word before ``at``: "laying foil over after 30 minutes"."""
        for token in reversed(self.tokens[:at]):
            found = verb_forms().get(token.lower())
            if found is not None and found[1] == "ing":
                return found[0].lemma
        return otherwise

    def _until(self, clause: _Clause) -> str | None:
        for at in range(clause.start, clause.end):
            if self.tokens[at].lower() in method_words("until"):
                end = next(
                    (i for i in range(at + 1, clause.end) if self.tokens[i] in (".", ";", "(")), clause.end
                )
                return joined(self.tokens[at + 1 : end]).rstrip(" ,.") or None
        return None

    def _things(self, clause: _Clause) -> tuple[list[str], list[str], list[str]]:
        """Foods and vessels by their part: what is worked on, where it goes, what goes with it."""
        roles: dict[str, list[str]] = {"object": [], "place": [], "means": []}
        role = "object"
        at = clause.start
        verb_at = clause.order.at if clause.order else -1
        by_start = {mention.start: mention for mention in self.mentions if mention.start != verb_at}
        while at < clause.end:
            word = self.tokens[at].lower()
            if word in method_words("until"):
                break
            mention = by_start.get(at)
            if mention is not None:
                _put(roles[role], mention)
                at = mention.end
                continue
            if word in method_words("place") and not self._is_particle(clause, at, by_start):
                role = "place"
                self._vessel(at + 1, clause.end, by_start, roles["place"])
            elif word == "with":
                role = "means"
            elif at == verb_at:
                role = "object"
            at += 1
        return roles["object"], roles["place"], roles["means"]

    def _is_particle(self, clause: _Clause, at: int, foods: dict[int, Mention]) -> bool:
        """Whether "in" and the like belong to the verb before them: "pour in the water"."""
        if clause.order is None or at != clause.order.at + 1:
            return False
        after = at + 1
        while after < clause.end and self.tokens[after].lower() in method_words("article"):
            after += 1
        return after in foods

    def _vessel(self, at: int, end: int, foods: dict[int, Mention], places: list[str]) -> None:
        """The noun of a phrase such as "into a deep roasting tin", where it is no food."""
        last = ""
        while at < end and at not in foods:
            word = self.tokens[at].lower()
            if any(heat.start <= at < heat.end for heat in self.heats):
                return
            if is_thing(word):
                last = word
            elif word not in method_words("article") and not (
                word[:1].isdigit() or word in ("x", "-", "(", ")")
            ):
                break
            at += 1
        if last and last not in places:
            places.append(last)

    def portions(self, place: Written, before: int) -> list[Portion]:
        """The shares that the sentence deals out; ``of`` is "" where only a pronoun names what is shared.

        ``before``: how many actions of the step stand before the sentence.
        """
        orders = [order.at for order in find_orders(self.tokens)]
        return [
            Portion(
                fraction=share.fraction,
                of=share.of,
                into=joined(self.tokens[share.end : share.end + 6]),
                written=place.model_copy(
                    update={"action": before + max(0, sum(at <= share.start for at in orders) - 1)}
                ),
            )
            for share in find_written_shares(self.tokens)
        ]


def _is_other_way(tokens: Sequence[str]) -> bool:
    """Whether a sentence tells another way of doing it: in brackets as a whole, or begun with "Or"."""
    closed = tokens[:1] == ["("] and ")" in tokens[-2:]
    return closed or [token.lower() for token in tokens[:1]] == ["or"]


def _put(names: list[str], mention: Mention) -> None:
    if mention.name not in names:
        names.append(mention.name)


def _clauses(tokens: Sequence[str], orders: Sequence[Order]) -> list[_Clause]:
    """The sentence cut before each order, at the joint that leads up to it."""
    if not orders:
        return [_Clause(None, 0, len(tokens))]
    starts = [0]
    for order in orders[1:]:
        start = order.at
        while start > starts[-1] + 1 and tokens[start - 1].lower() in method_words("opens"):
            start -= 1
        starts.append(start)
    ends = [*starts[1:], len(tokens)]
    return [_Clause(order, start, end) for order, start, end in zip(orders, starts, ends, strict=True)]
