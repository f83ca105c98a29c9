"""How a verb is said: an order, a plan, a habit, a memory, a supposition."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Literal

from extract.spot.verbs.bounds import begins_anew
from extract.spot.verbs.words import words

if TYPE_CHECKING:
    from spacy.tokens import Doc

    from extract.spot.verbs.verb import Reading

Mood = Literal[
    "order",
    "plan",
    "let us",
    "want",
    "can",
    "habit",
    "doing",
    "present",
    "past",
    "done",
    "described",
    "other person",
]
LOOK_BACK = 9
NEGATION_REACH = 4
CONDITION_REACH = 7
LONG_STRETCH = 40
MARKED = 30  # tokens a mark, above which a stretch counts as unmarked
LEAST_BREATH = 4
# Told by a word before the verb, asked in this order.
LED: tuple[Mood, ...] = ("plan", "let us", "want", "can", "habit")


def utterances(doc: Doc) -> Iterator[tuple[int, int]]:
    """The talk cut at the parser's sentences and at every full stop, question and exclamation mark.

    Where the recogniser set no marks, long stretches are cut where cooks take breath: "and then", "now".
    """
    for start, end in marked_utterances(doc):
        yield from breaths(doc, start, end)


def marked_utterances(doc: Doc) -> Iterator[tuple[int, int]]:
    """The talk cut at the parser's sentences and at every full stop, question and exclamation mark."""
    start = 0
    for token in doc:
        at = token.i
        if at > start and token.is_sent_start:
            yield start, at
            start = at
        if token.lower_ in {".", "?", "!"} and not (
            at + 1 < len(doc) and doc[at + 1].lower_ in {".", "?", "!"}
        ):
            yield start, at + 1
            start = at + 1
    if start < len(doc):
        yield start, len(doc)


def breaths(doc: Doc, start: int, end: int) -> Iterator[tuple[int, int]]:
    """A long stretch without marks cut before the words that begin a new thought; others as they are."""
    marks = sum(token.is_punct for token in doc[start:end])
    if end - start > LONG_STRETCH and marks * MARKED < end - start:
        for at in range(start + LEAST_BREATH, end - LEAST_BREATH):
            if at - start >= LEAST_BREATH and begins_thought(doc, at):
                yield start, at
                start = at
    yield start, end


def begins_thought(doc: Doc, at: int) -> bool:
    """Whether a token begins a new thought in unmarked speech: "now", "and then", "so", "and you"."""
    word, before, after = doc[at].lower_, doc[at - 1].lower_, doc[at + 1].lower_
    if word == "and":
        return after in words("begins after an and")
    return word in words("begins a thought") and before not in words("holds a thought")


def until_goes_on(doc: Doc, at: int, waiting: bool) -> bool:
    """Whether a token stands in an until-clause, given whether the one before it did."""
    word = doc[at].lower_
    if word in words("until"):
        return True
    if (
        waiting
        and word in {"and", ","}
        and at + 1 < len(doc)
        and (doc[at + 1].lower_ in words("thing as subject") or tells_more(doc, at))
    ):
        return True
    ends = word in words("ends an until") or begins_anew(doc, at)
    return waiting and not ends and not (doc[at].is_punct and word != ",")


def tells_more(doc: Doc, at: int) -> bool:
    """Whether an "and" goes on telling how it looks: "until it is brown and the edges are pulling away"."""
    near = doc[at + 1 : at + 5]
    return near[0].pos_ == "DET" and any(token.pos_ == "AUX" for token in near[1:])


def clause_opening(doc: Doc, verb: int, floor: int) -> int:
    """The first of the little words that lead up to a verb ("and then we're just going to")."""
    at = verb
    while at > floor and doc[at - 1].lower_ in words("trailing") and doc[at - 1].lower_ not in {",", "."}:
        at -= 1
    return at


def mood_of(doc: Doc, reading: Reading, floor: int) -> Mood:
    """The mood of a verb, told from its form and from the words that lead up to it."""
    if reading.form == "base" and begins_anew(doc, reading.at):
        return "order"
    lead = [doc[at].lower_ for at in range(max(floor, reading.at - LOOK_BACK), reading.at)]
    near = lead[-5:]
    subject = next((word for word in reversed(lead) if is_subject(word)), "")
    foods_do = reading.verb.group in {"heat", "wait"} or reading.verb.lemma in words("goes in")
    cooks = subject == "they" and foods_do  # foods, as a rule: "they simmer", "in they go"
    if (subject in words("other subject") and not cooks) or is_others(doc, reading.at, floor):
        return "other person"
    if reading.form == "past":
        if set(near) & words("done helper"):
            return "done"
        return "past" if subject else "described"
    for mood in LED:
        if words(f"leads a {mood}").intersection(near):
            return mood
    if reading.form == "ing":
        return "doing"
    return "present" if subject or reading.form == "s" else "order"


def is_others(doc: Doc, verb: int, floor: int) -> bool:
    """Whether somebody of the cook's is the subject: "my uncle cooked", "a cousin of mine puts"."""
    for at in range(verb - 1, max(floor, verb - LOOK_BACK) - 1, -1):
        word = doc[at].lower_
        if word in words("kin and others") or is_long_past(doc, at, verb):
            return True
        if doc[at].is_punct or word in words("breaks a clause") or word in words("ends a negation"):
            return False
        if is_subject(word) or doc[at].pos_ == "VERB":
            return False
    return False


def is_long_past(doc: Doc, at: int, verb: int) -> bool:
    """Whether a verb tells what somebody used to do: "she used to boil it for an hour"."""
    return at == verb - 1 and doc[at].lower_ == "to" and at > 0 and doc[at - 1].lower_ == "used"


def is_subordinate(doc: Doc, reading: Reading, floor: int) -> bool:
    """Whether the verb only tells when, why or which: "once you have turned it", "that we fried earlier"."""
    at = reading.at - 1
    if reading.form == "past" and at > floor and doc[at].lower_ in words("subject"):
        noun = doc[at - 1].pos_ in {"NOUN", "PROPN"}  # "the gravy we saved"
        if noun and doc[at - 1].dep_ not in {"npadvmod", "dep"}:
            return True
    while at >= floor and (doc[at].pos_ in {"AUX", "PART"} or doc[at].lower_ in words("adverb of action")):
        at -= 1
    if at < floor:
        return False
    if at == floor and doc[at].lower_ == "that" and (at == 0 or doc[at].is_sent_start):
        return False  # "That sits half an hour."
    named = doc[at].pos_ in {"NOUN", "PROPN"} and (reading.form != "base" or doc[at].tag_.endswith("S"))
    if not named and not is_subject(doc[at].lower_) and doc[at].lower_ not in words("other subject pronoun"):
        return doc[at].lower_ in words("opens an aside") and reading.form != "base"
    if named and reading.form == "ing" and doc[reading.at - 1].lower_ in words("be"):
        return True
    while at > floor and (doc[at].pos_ in {"NOUN", "PROPN", "DET", "ADJ", "NUM"} or doc[at].lower_ == "of"):
        at -= 1
    if any(doc[back].lower_ == "sure" for back in range(max(floor, at - 3), at + 1)):
        return False
    return any(opens_aside(doc, back, floor) for back in range(max(floor, at - 1), at + 1))


def opens_aside(doc: Doc, at: int, floor: int) -> bool:
    """Whether a word opens a clause that only comments; the "that" of "to that you add" does not."""
    if doc[at].lower_ not in words("opens an aside"):
        return False
    return not (at > floor and doc[at - 1].lower_ in words("opens a place"))


def is_subject(word: str) -> bool:
    """Whether a word can be the subject of a cook's sentence."""
    return word in words("subject") or word in words("other subject")


def is_negated(doc: Doc, verb: int, floor: int) -> bool:
    """Whether "don't", "not" or "never" leads up to the verb, with no new clause between."""
    if begins_anew(doc, verb):
        return False
    for at in range(verb - 1, max(floor, verb - NEGATION_REACH) - 1, -1):
        if doc[at].lower_ in words("negation"):
            return True
        if doc[at].is_punct or doc[at].lower_ in words("ends a negation"):
            return False
    return False


def is_supposed(doc: Doc, verb: int, floor: int) -> bool:
    """Whether the verb stands under an "if", a "would" or a "could"."""
    for at in range(verb - 1, max(floor, verb - CONDITION_REACH) - 1, -1):
        if doc[at].lower_ in words("condition"):
            return True
        if doc[at].lower_ in words("ends a condition"):
            return False
    return False
