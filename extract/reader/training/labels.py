"""From an annotated talk to the labels of every token: what the reader has to learn.

A note says what an editor writes down; the words that it rests on are found here by their spelling and their
value, at the note's sentence or near it. What is not found is left out of the loss, not guessed.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING, Any, NamedTuple

from extract.reader.labels import FIGURES, ROLES, SHARES, THINGS
from extract.reader.training.form import AnnotatedTalk, Note, figures, roughly_stopped, spoken
from extract.spot.amounts.find import find_amounts
from extract.spot.heat.figures import read_figure
from extract.spot.numbers.find import read_number
from extract.spot.times.find import find_durations
from extract.spot.words import Words

if TYPE_CHECKING:
    from spacy.language import Language
    from spacy.tokens import Doc

NEAR = (0, -1, 1, -2, 2, -3, 3)
JOINING = frozenset({"-", "'", ",", "and", "of", "the", "in", "with", "a", "on", "&", "’s", "'s"})
SMALL = frozenset({"and", "of", "the", "in", "with", "a", "on", "for", "to", "an", "some", "&"})
RENDERINGS = ("captions", "raw", "rough")
WITHIN = frozenset({"-", "'", ",", "."})  # what can stand between the words of one name
UNTRIED = -2  # a pair that the words do not settle: not learned from
NOTHING = -1  # learned as "none"
SECONDS = {"second": 1, "minute": 60, "hour": 3600, "day": 86400}
BATCH_WORDS = frozenset(
    "double doubled doubling twice triple tripled tripling half halved halving two three quarter".split()
)


class Span(NamedTuple):
    """Tokens ``start`` to ``end`` (exclusive)."""

    start: int
    end: int


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


def candidates(doc: Doc, words: Words) -> Iterator[tuple[Span, float, float]]:
    """Every span that could be an amount, with its low and high value."""
    for amount in find_amounts(doc, words):
        if amount.low is not None:
            yield Span(amount.start, amount.end), float(amount.low), float(amount.high or amount.low)
        for slip in amount.slips:
            if slip.low is not None:
                yield Span(slip.start, slip.end), float(slip.low), float(slip.high or slip.low)
    for place in range(len(doc)):
        number = read_number(words, place)
        if number is not None:
            yield Span(number.start, number.end), float(number.low), float(number.high)
        elif words.at(place) in ("a", "an", "another", "one"):
            yield Span(place, place + 1), 1.0, 1.0


def rendered(talk: AnnotatedTalk, rendering: str) -> list[str]:
    """The words of each sentence in one of ``RENDERINGS``."""
    if rendering == "rough":
        return roughly_stopped(talk)
    return [spoken(sentence.text, raw=rendering == "raw") for sentence in talk.sentences]


def label(talk: AnnotatedTalk, nlp: Language, rendering: str) -> dict[str, Any]:
    """One talk as a record of plain lists, token by token; what each holds stands in ``extract/reader/labels.py``."""
    marked = Marked(talk, nlp, rendering)
    for number, sentence in enumerate(talk.sentences):
        if number not in marked.place:
            continue
        for note in sentence.notes:
            {"+": line, "%": share, "^": heat, "~": time, "=": count}[note.sign](marked, number, note)
    again(marked)
    titles(marked)
    parting(marked)
    sentences = talk.sentences
    return {
        "id": talk.id,
        "raw": rendering != "captions",
        "words": [token.text for token in marked.doc],
        "role": [ROLES.index(sentences[o].role) for o in marked.owner],
        "dish": [sentences[o].dish for o in marked.owner],
        "sentence": marked.owner,
        "things": marked.things,
        "figures": marked.figures,
        "title": marked.title,
        "lines": marked.lines,
        "shares": marked.shares,
        "cand": sorted({i for span, _, _ in marked.amounts for i in range(*span)}),
    }


def paint(tags: list[int], span: Span, first: int, rest: int | None = None) -> None:
    """Write a tag over a span, its first token with one of its own."""
    for i in range(*span):
        tags[i] = first if i == span.start or rest is None else rest


def find_food(marked: Marked, number: int, names: Sequence[list[str]]) -> Span | None:
    """Where a line's food is named: in full, or by its head, in the note's sentence or near it."""
    for heads in (False, True):
        for span in marked.around(number, NEAR if heads else NEAR[:3]):
            for name in names:
                for found in marked.find(name[-1:] if heads else name, span):
                    if marked.things[found.start] not in (THINGS.index("food"), THINGS.index("food+")):
                        return widen(marked, found, names, span)
    return None


def widen(marked: Marked, found: Span, names: Sequence[list[str]], limit: Span) -> Span:
    """The span with the words beside it that belong to one of the names."""
    own = {word for name in names for word in name} - SMALL
    start, end = found
    while start > limit.start and (
        marked.stems[start - 1] in own
        or (marked.doc[start - 1].text == "-" and start - 1 > limit.start and marked.stems[start - 2] in own)
    ):
        start -= 1
    return Span(start, end)


def line(marked: Marked, number: int, note: Note) -> None:
    """An ingredient line: its food, its amount, its part, its preparation and what may stand in for it."""
    more = note.more()
    texts = [note.cell(2), *more.get("also", [])]
    names = sorted((stems(t) for t in texts if stems(t)), key=lambda n: (-len(n), n))
    food = find_food(marked, number, names)
    for other in more.get("alt", []):
        mark_other(marked, number, stems(other), THINGS.index("instead"), (0, 1, -1, 2, 3))
    if food is None:
        return
    paint(marked.things, food, THINGS.index("food"), THINGS.index("food+"))
    amount = find_amount(marked, number, figures(note.cell(0)), food)
    if isinstance(amount, Span):
        paint(marked.figures, amount, FIGURES.index("amount"))
    for words in more.get("prep", []):
        mark_preparation(marked, number, stems(words), food)
    marked.lines.append(
        {
            "food": list(food),
            "amount": list(amount) if isinstance(amount, Span) else amount,
            "part": find_part(marked, number, note.cell(3)),
            "name": note.cell(3),
            "optional": int("opt" in more),
            "names": names,
            "dish": marked.talk.sentences[number].dish,
        }
    )


def find_amount(marked: Marked, number: int, wanted: tuple[float, float] | None, food: Span) -> Span | int:
    """The words of the amount: the nearest span of its value, the longest of equal ones."""
    if wanted is None:
        return NOTHING
    for place in marked.around(number, (0, -1, 1, -2, 2)):
        fitting = [
            span
            for span, low, high in marked.amounts
            if place.start <= span.start < place.end and close(low, wanted[0]) and close(high, wanted[1])
        ]
        free = [s for s in fitting if not marked.figures[s.start]] or fitting
        if free:
            return min(free, key=lambda s: (abs(s.start - food.start), s.start - s.end))
    return UNTRIED


def close(one: float, other: float) -> bool:
    """Whether two figures are the same to two parts in a hundred."""
    return abs(one - other) <= 0.02 * max(abs(one), abs(other), 1e-9)


def mark_other(marked: Marked, number: int, name: list[str], tag: int, reach: Sequence[int]) -> None:
    """Tag the first place near a sentence where a name stands."""
    for heads in (False, True):
        for span in marked.around(number, reach):
            for found in marked.find(name[-1:] if heads else name, span):
                if not marked.things[found.start]:
                    paint(marked.things, found, tag)
                    return


def mark_preparation(marked: Marked, number: int, words: list[str], food: Span) -> None:
    """Tag the words of a preparation that stand near the food, the longest run of them."""
    own = set(words) - SMALL
    for span in marked.around(number, (0, 1, -1)):
        for i in range(*span):
            near = abs(i - food.start) <= 12 or abs(i - food.end) <= 12
            if near and marked.stems[i] in own and not marked.things[i]:
                marked.things[i] = THINGS.index("preparation")


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


SHARE_WORDS = {
    "rest": {"rest", "remaining", "remainder", "other", "leftover", "left"},
    "all": {"all", "whole", "lot", "every", "everything"},
    "some": {"some", "little", "bit", "few", "spoonful", "spoon", "drizzle", "splash", "ladle"},
}
PARTS = {0.5: {"half", "halves"}, 0.33: {"third"}, 0.25: {"quarter"}, 0.67: {"third"}, 0.75: {"quarter"}}


def share(marked: Marked, number: int, note: Note) -> None:
    """A share of a made thing: the word that tells how much, or the thing itself where none does."""
    kind, value = note.cell(0), figures(note.cell(0))
    wanted = SHARE_WORDS.get(kind, set())
    if value is not None:
        wanted = next((w for v, w in PARTS.items() if abs(v - value[0]) < 0.02), set())
    thing = stems(note.cell(1))
    for span in marked.around(number, (0, 1, -1)):
        made = next(iter([*marked.find(thing, span), *marked.find(thing[-1:], span)]), None)
        anchor = next((i for i in range(*span) if marked.stems[i] in wanted), None)
        if anchor is None and value is not None:
            fits = (
                s for s, low, _ in marked.amounts if span.start <= s.start < span.end and close(low, value[0])
            )
            anchor = next((s.end - 1 for s in fits), None)
        if anchor is None and made is not None:
            anchor = made.end - 1
        if anchor is None:
            continue
        tag = SHARES[kind] if kind in SHARES else SHARES["part"]
        marked.figures[anchor] = FIGURES.index(tag)
        marked.shares.append(
            {
                "at": anchor,
                "of": find_part(marked, number, note.cell(1)),
                "dish": marked.talk.sentences[number].dish,
            }
        )
        return


def heat(marked: Marked, number: int, note: Note) -> None:
    """A setting: its figure, or the words of its level."""
    gas = re.fullmatch(r"gas (?:mark )?(\d+)", note.cell(1))
    value = figures(gas[1] if gas else note.cell(1))
    tag = FIGURES.index(f"heat {note.cell(0)}")
    for span in marked.around(number, (0, 1, -1)):
        found = None
        if value is not None:
            found = next(iter(heat_figures(marked, span, value)), None)
        else:
            level = stems(note.cell(1))
            found = next(iter([*marked.find(level, span), *marked.find(level[:1], span)]), None)
        if found is not None:
            paint(marked.figures, found, tag)
            return


def heat_figures(marked: Marked, span: Span, value: tuple[float, float]) -> Iterator[Span]:
    """Where a temperature's figures stand."""
    for at in range(*span):
        read = read_figure(marked.words, at)
        if read is not None and close(float(read.low), value[0]) and close(float(read.high), value[1]):
            yield Span(at, read.end)
            continue
        number = read_number(marked.words, at)
        if number is not None and close(float(number.low), value[0]):
            yield Span(number.start, number.end)


def time(marked: Marked, number: int, note: Note) -> None:
    """A time: the words of its figures and unit."""
    value = figures(note.cell(0))
    if value is None:
        return
    seconds = [v * SECONDS[note.cell(1)] for v in value]
    for span in marked.around(number, (0, 1, -1)):
        for d in marked.durations:
            inside = span.start <= d.start < span.end and d.low is not None and d.unit in SECONDS
            if inside and d.low is not None and close(float(d.low) * SECONDS[d.unit], seconds[0]):
                paint(marked.figures, Span(d.start, d.end), FIGURES.index("time"))
                return
        for at in range(*span):
            read = read_number(marked.words, at)
            if read is not None and close(float(read.low), value[0]):
                paint(marked.figures, Span(read.start, read.end), FIGURES.index("time"))
                return


def count(marked: Marked, number: int, note: Note) -> None:
    """What it makes, or the multiple of the normal batch."""
    value = figures(note.cell(1))
    tag = FIGURES.index(note.cell(0))
    for span in marked.around(number, (0, 1, -1)):
        if note.cell(0) == "batch":
            found = next((i for i in range(*span) if stem(marked.doc[i].text) in BATCH_WORDS), None)
            if found is not None:
                marked.figures[found] = tag
                return
        for at, low, _ in marked.amounts:
            if span.start <= at.start < span.end and value is not None and close(low, value[0]):
                paint(marked.figures, at, tag)
                return


def again(marked: Marked) -> None:
    """Tag every other mention of a line's food in its dish."""
    for line_ in marked.lines:
        heads = {tuple(name) for name in line_["names"]} | {(name[-1],) for name in line_["names"]}
        for span in marked.dish_spans(line_["dish"]):
            for name in sorted(heads, key=len, reverse=True):
                for found in marked.find(name, span):
                    if not marked.things[found.start] and not marked.things[found.end - 1]:
                        paint(marked.things, found, THINGS.index("again"))


NAMING = frozenset({"hi", "tease", "open", "tale", "bye", "break"})


def titles(marked: Marked) -> None:
    """Tag where a dish is called by its title, by most of it, or in talk about it by its noun."""
    for letter, title in marked.talk.dishes.items():
        wanted = [word for word in stems(title) if word not in SMALL]
        noun = [w for w in stems(re.split(r" (?:with|on|in|and) ", title)[0]) if w not in SMALL][-1]
        for number, span in marked.place.items():
            sentence = marked.talk.sentences[number]
            if sentence.dish in (letter, "-"):
                for found, seen in called(marked, span, wanted):
                    if len(seen) >= 2 or len(set(wanted)) == 1 or (noun in seen and sentence.role in NAMING):
                        paint(marked.title, found, 1, 2)
                    elif sentence.dish == letter:
                        paint(marked.title, found, 3)


def called(marked: Marked, span: Span, wanted: Iterable[str]) -> Iterator[tuple[Span, set[str]]]:
    """The runs of words in a sentence that are a title's words and what joins them."""
    own = set(wanted)
    at = span.start
    while at < span.end:
        if marked.stems[at] not in own:
            at += 1
            continue
        end, last, seen = at + 1, at + 1, {marked.stems[at]}
        while end < span.end and (marked.stems[end] in own or marked.doc[end].lower_ in JOINING):
            if marked.stems[end] in own:
                last = end + 1
                seen.add(marked.stems[end])
            end += 1
        yield Span(at, last), seen
        at = last


def parting(marked: Marked) -> None:
    """For each line whether it stands in no part (0), opens one (1) or is in the part of the line before it (2)."""
    before: dict[str, str] = {}
    for line_ in sorted(marked.lines, key=lambda found: found["food"]):
        part = line_.pop("name")
        line_["parting"] = 0 if not part else 2 if before.get(line_["dish"]) == part else 1
        before[line_["dish"]] = part
