"""What a verb acts on: the noun phrases of its clause, sorted into objects, place and means."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Literal

from extract.spot.verbs.bounds import amount_start, begins_clause_at, until_span
from extract.spot.verbs.ground import Phrase
from extract.spot.verbs.particles import PUTTING, puts_in
from extract.spot.verbs.things import equipment_at
from extract.spot.verbs.verb import is_let
from extract.spot.verbs.words import words

if TYPE_CHECKING:
    from spacy.tokens import Doc

    from extract.spot.spans import Food
    from extract.spot.verbs.ground import Ground
    from extract.spot.verbs.verb import Reading

OVEN_REACH = 5
Slot = Literal["objects", "place", "with", "none"]


@dataclass(slots=True)
class Arguments:
    """The phrases of one clause by their part in it."""

    objects: list[Phrase] = field(default_factory=list)
    place: list[Phrase] = field(default_factory=list)
    with_: list[Phrase] = field(default_factory=list)
    until: tuple[int, int] | None = None
    loose: list[Phrase] = field(default_factory=list)

    def add(self, slot: Slot, phrase: Phrase) -> None:
        """Put a phrase where it belongs; phrases of no slot are dropped."""
        if slot == "objects":
            self.objects.append(phrase)
        elif slot == "place":
            self.place.append(phrase)
        elif slot == "with":
            self.with_.append(phrase)


def read_arguments(ground: Ground, reading: Reading, end: int) -> Arguments:
    """The phrases from the word after the verb to ``end``."""
    start = reading.at + 1 + puts_in(ground, reading, end)
    walk = Walk(ground, reading, start, end)
    at = start
    while at < end and not walk.stops(at):
        at = walk.step(at)
    return told_behind(ground, walk.found, start, end)


@dataclass
class Walk:
    """The words after a verb, walked from ``start`` to ``end``: what was found, and the slot that is open."""

    ground: Ground
    reading: Reading
    start: int
    end: int
    found: Arguments = field(default_factory=Arguments)
    slot: Slot = "objects"
    lead: str = ""
    timed: bool = False

    def stops(self, at: int) -> bool:
        """Whether the clause of the verb ends before a token; an "until" that ends it is kept."""
        ground, word = self.ground, self.ground.doc[at].lower_
        self.timed = self.timed or at in ground.figures
        if self.timed and word == "and":
            return True  # "drop them in for three minutes, and straight into ice water"
        acts = self.found.objects and self.reading.verb.group not in PUTTING
        if acts and goes_into_oven(ground, at, self.end):
            return True
        if word in words("until"):
            self.found.until = until_span(ground.doc, at + 1, self.end, ground.measures)
            return True
        # "fold it through, you don't want it in strings"
        return word in words("subject") and at > self.start and ground.doc[at - 1].lower_ == ","

    def step(self, at: int) -> int:
        """Take in the word or phrase at a token; the token behind it."""
        ground, word = self.ground, self.ground.doc[at].lower_
        closed = word == "and" and at - 1 in ground.figures
        if closed or word in words("subject") or begins_clause_at(ground.doc, at, self.end):
            self.slot = "none"
        if at == self.reading.particle or at in ground.figures:
            if at == self.reading.particle and at + 1 < self.end and ground.doc[at + 1].lower_ == "of":
                self.slot, self.lead = "place", f"{word} of"
            return at + 1
        phrase = phrase_at(ground, at, self.end, self.reading.at)
        if phrase is None:
            self._open(at, word)
            return at + 1
        if self._is_loose(phrase):
            self.found.loose.append(phrase)
            self.slot = "none"
        else:
            self.found.add(self.slot, replace(phrase, lead="" if self.slot == "objects" else self.lead))
        return phrase.end

    def _open(self, at: int, word: str) -> None:
        """Open the slot that a small word leads to."""
        before, self.slot = self.slot, next_slot(self.ground, at, self.slot, self.start)
        self.lead = word if self.slot != before or word in words("opens a place") else self.lead
        if word == "to" and self.ground.doc[at - 1].lower_ == "next":
            self.lead = "next to"

    def _is_loose(self, phrase: Phrase) -> bool:
        """Whether a phrase is none of the verb's: "melt that, and then two leeks"."""
        tooled = any(other.kind == "thing" for other in self.found.with_)
        if is_loose(self.ground, phrase, self.slot, self.start, self.reading, tooled):
            return True
        acted = bool(self.found.objects) and self.found.objects[0].kind == "pronoun"
        measured = amount_start(self.ground.doc, phrase.start, self.start) < phrase.start
        return acted and self.slot == "objects" and measured


def told_behind(ground: Ground, found: Arguments, start: int, end: int) -> Arguments:
    """The arguments with the foods behind a time as loose: "cook them for an hour, just water and a bay leaf"."""
    if found.objects and found.objects[0].kind == "pronoun" and found.objects[0].start == start:
        figure = next((at for at in range(start, end) if at in ground.figures), end)
        behind = [phrase for phrase in found.objects if phrase.kind == "food" and phrase.start > figure]
        found.loose = [*behind, *found.loose]
        found.objects = [phrase for phrase in found.objects if phrase not in behind]
    found.objects = sure_of(found.objects, start)
    return found


def goes_into_oven(ground: Ground, at: int, end: int) -> bool:
    """Whether what goes in the oven for a time is a clause of its own: "smooth it, and in the oven, 35 minutes"."""
    doc = ground.doc
    opens = doc[at].lower_ in words("opens a place") and doc[at - 1].lower_ in {"and", ","}
    oven = next((n for n in range(at + 1, min(end, at + 4)) if doc[n].lower_ == "oven"), None)
    if not opens or oven is None:
        return False
    return any(n in ground.figures for n in range(oven + 1, min(end, oven + OVEN_REACH)))


def is_loose(ground: Ground, phrase: Phrase, slot: Slot, start: int, reading: Reading, tooled: bool) -> bool:
    """Whether a measured food opens a clause of its own, without a verb, behind what a verb acts on.

    "Tear it up in chunks, one teaspoon of salt": the salt is neither torn nor a place. ``tooled``: what it is
    done with has been named: "toss it with a fork, and a tablespoon of vinegar".
    """
    if phrase.food is None:
        return False
    first = amount_start(ground.doc, phrase.start, start)
    if first == phrase.start:
        return False
    before = ground.doc[first - 1].lower_
    if slot == "none":
        return before not in words("ends the objects")
    if slot in {"place", "with"}:
        opened = before in words("opens a place") or before in words("opens a with")
        if before in words("away from") and slot == "place":
            return True  # "the leaves off two sprigs of rosemary"
        return not opened and (before != "and" or (slot == "with" and tooled))
    return reading.verb.group not in PUTTING and before == ","


def sure_of(objects: list[Phrase], start: int) -> list[Phrase]:
    """The objects worth keeping: beside a food, pronouns and unknown nouns are mostly slips.

    A pronoun right behind the verb is what it acts on, whatever tool is named after it.
    """
    if objects and objects[0].kind == "pronoun" and objects[0].start == start:
        objects = [phrase for phrase in objects if phrase.kind != "thing"]
    for kinds in ({"food", "thing"}, {"pronoun"}):
        if any(phrase.kind in kinds for phrase in objects):
            return [phrase for phrase in objects if phrase.kind in kinds]
    return objects


def next_slot(ground: Ground, at: int, slot: Slot, start: int) -> Slot:
    """The slot of the phrases that follow a word that is itself no phrase."""
    word = ground.doc[at].lower_
    if word == "of":
        return slot
    if word in words("opens a with"):
        return "with"
    if word in words("opens a place"):
        return "place"
    if word in words("ends the objects") and at > start:
        return "none"
    if word == "and" and slot == "place" and at + 1 in ground.in_food:
        return "place"
    if word == "," and slot == "place" and at > start:
        return "none"
    return slot


def phrase_at(ground: Ground, at: int, end: int, verb: int | None = None) -> Phrase | None:
    """The noun phrase that begins at a token, or None.

    A thing that no lexicon knows counts only as the object that the parse gives to ``verb``.
    """
    food = ground.food_at.get(at)
    if food is not None and is_vessel(ground.doc, food, end):
        return Phrase(food.start, food.end, "thing")
    if food is not None:
        return Phrase(food.start, food.end, "food", food)
    if at and ground.doc[at - 1].lower_ == "no":
        return None  # "roasted fifteen minutes, no skin"
    token = ground.doc[at]
    if token.lower_ in words("reference pronoun"):
        return Phrase(at, at + 1, "pronoun") if stands_alone(ground, at, end) else None
    equipment = equipment_at(ground.doc, at, end) if at not in ground.in_food else None
    if equipment is not None and (token.pos_ != "VERB" or equipment[1] > at + 1):
        stop = equipment[1]
        holds = stop < end and ground.doc[stop].lower_ == "of"
        return None if holds else Phrase(at, stop, "thing")
    shaped = token.lower_ in words("made by hand") and at and ground.doc[at - 1].lower_ in {"a", "an"}
    if not (shaped or token.pos_ in {"NOUN", "PROPN"}) or at in ground.in_food:
        return None
    stop = at + 1
    while stop < end and ground.doc[stop].pos_ in {"NOUN", "PROPN"} and stop not in ground.food_at:
        stop += 1
    head = ground.doc[stop - 1].lower_
    if stop < end and ground.doc[stop].lower_ in words("after a side"):
        return None
    measures = stop < end and ground.doc[stop].lower_ == "of"
    if head == "rest" and at and ground.doc[at - 1].lower_ == "the" and not measures:
        return Phrase(at, stop, "noun")
    if (head in words("kitchen thing") or head in words("made by hand")) and not measures:
        return Phrase(at, stop, "thing")
    if head in words("vague noun") or head in words("unit noun") or measures or not head.isalpha():
        return None
    noun = ground.doc[stop - 1]
    own = noun.dep_ == "dobj" and noun.head.i == verb and head not in words("light verb noun")
    return Phrase(at, stop, "noun") if own else None


def is_vessel(doc: Doc, food: Food, end: int) -> bool:
    """Whether a dish's name is that of what it is cooked in: "melt the butter in a casserole"."""
    if "dish" not in food.kinds or food.start < 2 or equipment_at(doc, food.start, end) is None:
        return False
    led = doc[food.start - 1].lower_ in words("determiner")
    return led and doc[food.start - 2].lower_ in {"in", "into"}


def stands_alone(ground: Ground, at: int, end: int) -> bool:
    """Whether a "that" or an "all" stands for a thing: not "that is", "that we made" or "all the onions"."""
    word = ground.doc[at].lower_
    if word in words("own thing"):
        return True  # "I toasted mine yesterday"
    if word in {"it", "them", "him", "'em"}:
        return at + 1 >= len(ground.doc) or ground.doc[at + 1].lower_ not in words("will")
    after = ground.doc[at + 1] if at + 1 < len(ground.doc) else None
    if after is not None and (after.pos_ == "AUX" or after.lower_ in words("subject")):
        return False
    if word == "all" and at and not (ground.doc[at - 1].pos_ == "VERB" or ground.doc[at - 1].pos_ == "PRON"):
        return False
    return not determines(ground, at, end)


def determines(ground: Ground, at: int, end: int) -> bool:
    """Whether a "this" or "all" belongs to a noun close behind it and stands for nothing by itself."""
    for after in range(at + 1, min(end, at + 5)):
        token = ground.doc[after]
        if after in ground.figures:
            return False  # "leave that 15 minutes"
        if after in ground.in_food or token.pos_ in {"NOUN", "PROPN"}:
            return ground.doc[at].lower_ not in {"it", "them", "him"}
        if token.pos_ not in {"DET", "ADJ", "NUM", "PRON", "VERB"} and token.lower_ != "of":
            return False
    return False


def is_turned(doc: Doc, verb: int) -> bool:
    """Whether a pronoun stands between a little word and the verb it goes with: "in they go", "on it goes"."""
    return (
        verb > 1
        and doc[verb - 1].lower_ in words("thing as subject")
        and doc[verb - 2].lower_ in words("turned")
    )


def phrases_before(ground: Ground, start: int, verb: int) -> list[Phrase]:
    """What stands before a verb with no object after it: "the onions go in", "that needs to rest"."""
    found: list[Phrase] = []
    if is_let(ground.doc, verb) or is_turned(ground.doc, verb):
        return [Phrase(verb - 1, verb, "pronoun")]  # "the butter in the pan, and let it melt", "in they go"
    at = start
    while at < verb:
        phrase = phrase_at(ground, at, verb)
        if phrase is None:
            if ground.doc[at].lower_ in words("breaks a clause"):
                found = []
            at += 1
            continue
        found.append(phrase)
        at = phrase.end
    foods = [phrase for phrase in found if phrase.kind == "food"]
    return foods or found[-1:]
