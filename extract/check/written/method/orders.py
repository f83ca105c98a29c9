"""Finding the orders of a written sentence: "Drain the beans and, off the heat, stir in the cream"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from extract.check.written.method.vocabulary import base_verb, is_thing, method_words, particle_of
from extract.spot.names.foods import look_up, word_key
from extract.spot.verbs.forms import Verb

_FLAVOURING = ("season", "coat")  # "salt", "butter": far more often the food than the verb in a list
_REACH = 6  # words between "let" and the work it hands on to


@dataclass(frozen=True, slots=True)
class Order:
    """A verb that tells the cook to do something: ``verb`` with its particle, ``group`` the kind of work."""

    at: int
    verb: str
    group: str


def find_orders(tokens: Sequence[str]) -> list[Order]:
    """The orders of one sentence, in order; signs of doneness ("until it comes away") give none."""
    lower = [token.lower() for token in tokens]
    orders: list[Order] = []
    waiting = False
    for at, word in enumerate(lower):
        if word in method_words("until"):
            waiting = True
        elif word in (";", "(", ")") or (word == "," and not _goes_on_waiting(lower, at)) or word == "then":
            waiting = False
        verb = base_verb(word)
        if verb is None or (waiting and not (at and lower[at - 1] == "then")):
            continue
        handed = _handed_on(lower, at, orders)
        if not handed and not _opens(lower, at, verb):
            continue
        order = Order(at, _with_particle(lower, at, verb.lemma), verb.group)
        if handed:
            orders[-1] = Order(orders[-1].at, order.verb, order.group)
        else:
            orders.append(order)
    return orders


def _goes_on_waiting(lower: Sequence[str], comma: int) -> bool:
    """Whether the words behind a comma still tell the sign: "until thick, glossy and dark"."""
    after = lower[comma + 1 : comma + 3]
    return not after or (base_verb(after[0]) is None and after[0] not in ("then", "and", "about", "or"))


def _handed_on(lower: Sequence[str], at: int, orders: Sequence[Order]) -> bool:
    """Whether the verb is the work that "let it ..." or "leave to ..." speaks of."""
    if not orders or at - orders[-1].at > _REACH or lower[orders[-1].at] not in method_words("hands on"):
        return False
    between = lower[orders[-1].at + 1 : at]
    if any(word in method_words("opens") for word in between):
        return False
    return lower[orders[-1].at] == "let" or between[-1:] == ["to"]


def _opens(lower: Sequence[str], at: int, verb: Verb) -> bool:
    """Whether a verb may stand here as an order: at the start, after a joint, after an adverb there."""
    before = at - 1
    while before >= 0 and (
        lower[before].endswith("ly") or lower[before] in ("not", "never", "just", "don't")
    ):
        before -= 1
    if before >= 0 and lower[before] not in method_words("opens"):
        return False
    after = lower[at + 1] if at + 1 < len(lower) else ""
    if before < 0 or lower[before] in ("then", ";", ":", "."):
        return not (_is_food(lower[at]) and after in ("", ",", "and", "."))
    if verb.group in _FLAVOURING and _is_food(lower[at]):
        return after in method_words("article")
    return not verb.also or _fits(lower, at) or (before < at and after in ("", ",", "and", ".", "then"))


def _fits(lower: Sequence[str], at: int) -> bool:
    """Whether what follows is what follows a verb."""
    after = lower[at + 1] if at + 1 < len(lower) else ""
    return (
        after in method_words("after verb")
        or after.endswith("ly")
        or after[:1].isdigit()
        or after in particle_of(lower[at])
    )


def _is_food(word: str) -> bool:
    return look_up((word_key(word),)) is not None


def _with_particle(lower: Sequence[str], at: int, lemma: str) -> str:
    """The verb with its particle, directly behind it or behind a short object: "take the lid off"."""
    particles = particle_of(lemma)
    for place in range(at + 1, min(at + 5, len(lower))):
        word = lower[place]
        if word in (",", ";", "and", "then"):
            break
        if word in particles and (place == at + 1 or _ends_phrase(lower, place)):
            return particles[word] or f"{lemma} {word}"
    return lemma


def _ends_phrase(lower: Sequence[str], place: int) -> bool:
    """Whether a particle behind an object stands alone, not as a preposition before a thing."""
    after = lower[place + 1] if place + 1 < len(lower) else ""
    return not is_thing(after) and after not in method_words("article")
