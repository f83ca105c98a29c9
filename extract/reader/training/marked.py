"""A talk in one rendering, token by token, as the labels on it grow."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Any, NamedTuple

from extract.reader.training.form import AnnotatedTalk, roughly_stopped, spoken
from extract.spot.amounts.find import find_amounts
from extract.spot.numbers.find import read_number
from extract.spot.spans import Amount
from extract.spot.times.find import find_durations
from extract.spot.words import Words

if TYPE_CHECKING:
    from spacy.language import Language
    from spacy.tokens import Doc

NEAR = (0, -1, 1, -2, 2, -3, 3)
RENDERINGS = ("captions", "raw", "rough")
SMALL = frozenset({"and", "of", "the", "in", "with", "a", "on", "for", "to", "an", "some", "&"})
WITHIN = frozenset({"-", "'", ",", "."})  # what can stand between the words of one name

UNTRIED = -2  # a pair that the words do not settle: not learned from
NOTHING = -1  # learned as "none"


class Span(NamedTuple):
    """Tokens ``start`` to ``end`` (exclusive)."""

    start: int
    end: int


class Figure(NamedTuple):
    """What could be an amount: its span, its low and high value, and its unit, "" for none."""

    at: Span
    low: float
    high: float
    unit: str = ""


def stem(word: str) -> str:
    """A word without accents, case and plural, to compare by."""
    plain = unicodedata.normalize("NFKD", word.lower())
    plain = "".join(c for c in plain if not unicodedata.combining(c))
    for end, put in (("ies", "y"), ("oes", "o"), ("ves", "f"), ("s", "")):
        if plain.endswith(end) and len(plain) > 3 and not plain.endswith(("ss", "us")):
            return plain[: len(plain) - len(end)] + put
    return plain


def stems(text: str) -> list[str]:
    """The stems of a name's words."""
    return [stem(word) for word in re.findall(r"[\w'é-]+", text.replace("-", " "))]


class Marked:
    """The labels of one talk in one rendering, as they grow."""

    def __init__(self, talk: AnnotatedTalk, nlp: Language, rendering: str) -> None:
        self.talk = talk
        pieces, self.owner_of = [], []
        for number, text in enumerate(rendered(talk, rendering)):
            if text:
                pieces.append(text)
                self.owner_of += [number] * (len(text) + 1)
        self.doc = nlp(" ".join(pieces))
        self.words = Words.of(self.doc)
        self.stems = [stem(token.text) for token in self.doc]
        n = len(self.doc)
        self.owner = [self.owner_of[token.idx] for token in self.doc]
        self.place: dict[int, Span] = {}
        for i, number in enumerate(self.owner):
            start = self.place[number].start if number in self.place else i
            self.place[number] = Span(start, i + 1)
        self.things = [0] * n
        self.figures = [0] * n
        self.title = [0] * n
        self.optional = [0] * n
        self.lines: list[dict[str, Any]] = []
        self.shares: list[dict[str, Any]] = []
        self.amounts = list(candidates(self.doc, self.words))
        self.durations = find_durations(self.doc, self.words)

    def around(self, number: int, reach: Sequence[int] = NEAR) -> Iterator[Span]:
        """The token spans of a sentence and of its neighbours in the same dish, the nearest first."""
        dish = self.talk.sentences[number].dish
        for step in reach:
            other = number + step
            if other in self.place and self.talk.sentences[other].dish == dish:
                yield self.place[other]

    def dish_spans(self, dish: str) -> Iterator[Span]:
        """The sentences of a dish, teasers left out."""
        for number, span in self.place.items():
            sentence = self.talk.sentences[number]
            if sentence.dish == dish and sentence.role != "tease":
                yield span

    def find(self, name: Sequence[str], span: Span) -> Iterator[Span]:
        """Where the words of a name stand in a row, punctuation and hyphens between them."""
        for at in range(span.start, span.end):
            end = self._follow(name, at, span.end)
            if end:
                yield Span(at, end)

    def _follow(self, name: Sequence[str], at: int, limit: int) -> int:
        here = at
        for k, word in enumerate(name):
            while k and here < limit and self.doc[here].text in WITHIN:
                here += 1
            if here >= limit or self.stems[here] != word:
                return 0
            here += 1
        return here if name else 0


def candidates(doc: Doc, words: Words) -> Iterator[Figure]:
    """Every span that could be an amount, with its value; "the same again" has that of the amount before it."""
    last: Amount | None = None
    for amount in find_amounts(doc, words):
        if amount.again and last is not None:
            amount = replace(last, start=amount.start, end=amount.end, slips=())
        for one in (amount, *amount.slips):
            if one.low is not None:
                high = float(one.low if one.high is None else one.high)
                yield Figure(Span(one.start, one.end), float(one.low), high, one.unit)
        last = amount if amount.low is not None and amount.unit else last
    for place in range(len(doc)):
        number = read_number(words, place)
        if number is not None:
            yield Figure(Span(number.start, number.end), float(number.low), float(number.high))
        elif words.at(place) in ("a", "an", "another", "one"):
            yield Figure(Span(place, place + 1), 1.0, 1.0)


def rendered(talk: AnnotatedTalk, rendering: str) -> list[str]:
    """The words of each sentence in one of ``RENDERINGS``."""
    if rendering == "rough":
        return roughly_stopped(talk)
    return [spoken(sentence.text, raw=rendering == "raw") for sentence in talk.sentences]


def paint(tags: list[int], span: Span, first: int, rest: int | None = None) -> None:
    """Write a tag over a span, its first token with one of its own."""
    for i in range(*span):
        tags[i] = first if i == span.start or rest is None else rest


def close(one: float, other: float) -> bool:
    """Whether two figures are the same to two parts in a hundred."""
    return abs(one - other) <= 0.02 * max(abs(one), abs(other), 1e-9)


def find_part(marked: Marked, number: int, part: str) -> list[int] | int:
    """The tokens that name a line's part anywhere in its dish."""
    if not part:
        return NOTHING
    name = stems(part)
    dish = marked.talk.sentences[number].dish
    found = [i for span in marked.dish_spans(dish) for at in marked.find(name, span) for i in range(*at)]
    if not found:
        found = [at.start for span in marked.dish_spans(dish) for at in marked.find(name[-1:], span)]
    return found or UNTRIED
