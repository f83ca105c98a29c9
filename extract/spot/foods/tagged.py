"""Foods as the reader tags them: the whole phrase of each food, classified by the lexicon where it knows it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from extract.reader.labels import THINGS
from extract.spot.foods.mending import meant_by
from extract.spot.names.foods import food_words, kinds_of, look_up, not_foods, word_key
from extract.spot.spans import Food
from extract.spot.verbs.forms import verb_forms

if TYPE_CHECKING:
    from spacy.tokens import Doc, Token

    from extract.reader.reading import Floats, Reading

OPENS, GOES_ON = THINGS.index("food"), THINGS.index("food+")
AGAIN, INSTEAD = THINGS.index("again"), THINGS.index("instead")
BREATHS = frozenset({",", "."})
QUALITIES = frozenset({"ADJ", "ADV"})
ORDER = "VB"
NOUNS = frozenset({"NOUN", "PROPN"})
PLURALS = frozenset({"NNS", "NNPS", "NNP"})  # a name with a capital is seldom told from its plural
TRAILING = frozenset({"VERB", "ADV", "AUX", "ADP", "PRON", "DET", "CCONJ"})


def tagged_foods(doc: Doc, reading: Reading, known: Sequence[Food]) -> list[Food]:
    """Every food of the talk: those of ``known`` with the words that the reader counts to them, and its own."""
    found = [_food(doc, span, known) for span in _joined(doc, list(tagged_runs(reading.things)))]
    covered = {i for food in found for i in range(food.start, food.end)}
    rest = [food for food in known if covered.isdisjoint(range(food.start, food.end))]
    return sorted([*found, *rest], key=lambda food: food.start)


def tagged_runs(things: Floats) -> Iterator[tuple[int, int]]:
    """The token spans that are a food put in, named again or offered in its stead; a new one opens a new span."""
    kind = things.argmax(1)
    start, open_kind = -1, 0
    for i, tag in enumerate([*kind.tolist(), 0]):
        tag = OPENS if tag == GOES_ON and open_kind != OPENS else tag
        goes_on = start >= 0 and (tag == GOES_ON or (tag == open_kind and tag != OPENS))
        if goes_on:
            continue
        if start >= 0:
            yield start, i
        start, open_kind = (i, tag) if tag in (OPENS, AGAIN, INSTEAD) else (-1, 0)


def _joined(doc: Doc, spans: Sequence[tuple[int, int]]) -> list[tuple[int, int]]:
    """The spans with those in one that stand side by side where the first names no food alone: "dried" and "thyme"."""
    out: list[tuple[int, int]] = []
    for start, end in (_finished(doc, *span) for span in spans):
        if out and start < out[-1][1]:
            continue
        if out and _goes_on(doc, *out[-1], start):
            out[-1] = (out[-1][0], end)
        else:
            out.append((start, end))
    return [span for span in out if not _is_no_name(doc, *span)]


def _finished(doc: Doc, start: int, end: int) -> tuple[int, int]:
    """A span with the rest of its name where a recogniser breathes in the midst of it: "garam, masala"."""
    keys = tuple(word_key(token.lower_) for token in doc[start:end] if token.is_alpha)
    if end + 1 < len(doc) and doc[end].text in BREATHS and look_up(keys) is None:
        whole = (*keys, word_key(doc[end + 1].lower_))
        return (start, end + 2) if look_up(whole) is not None else (start, end)
    return start, end


def _is_no_name(doc: Doc, start: int, end: int) -> bool:
    """Whether a span is one word that is no name: "freshly", "Drizzle", "peel" in "Peel two aubergines"."""
    word, key = doc[start], word_key(doc[start].lower_)
    if end - start > 1 or look_up((key,)) is not None:
        return False
    order = word.tag_ == ORDER and word.lower_ in verb_forms()
    return word.pos_ in QUALITIES or order or (key in not_foods() and meant_by([word.lower_]) is None)


def _goes_on(doc: Doc, start: int, end: int, after: int) -> bool:
    hyphen = after == end + 1 and doc[end].text in ("-", "’", "'")
    breath = after == end + 1 and doc[end].text in BREATHS
    if after != end and not (hyphen or breath):
        return False
    keys = tuple(word_key(token.lower_) for token in doc[start:end] if token.is_alpha)
    if breath:
        return look_up(keys) is None and doc[end - 1].pos_ not in NOUNS
    if hyphen or look_up(keys) is None or doc[end - 1].pos_ == "ADJ":
        return True
    return look_up((*keys, word_key(doc[after].lower_))) is not None


def _food(doc: Doc, span: tuple[int, int], known: Sequence[Food]) -> Food:
    start, end = span
    inside = [food for food in known if food.start < end and start < food.end]
    if inside:
        last = inside[-1]
        if last.mended or _is_renamed(doc, last):
            return last
        start, end = min(start, inside[0].start), max(end, last.end)
    words = list(doc[span[0] : span[1]])
    while len(words) > 1 and (not words[-1].is_alpha or _trails(words[-1], inside)):
        words.pop()
    while len(words) > 1 and (not words[0].is_alpha or _only_says_how(words[0].lower_)):
        words.pop(0)
    name = (
        " ".join(token.lower_ for token in words if token.text not in BREATHS)
        .replace(" - ", "-")
        .replace(" '", "'")
    )
    strange = not any(food.known for food in inside) and not kinds_of(name)
    if strange and (entry := meant_by(name.split())) is not None:
        shown, plural = entry.shown, words[-1].tag_ in PLURALS
        return Food(
            start, end, shown, word_key(shown.split()[-1]), kinds=entry.kinds, plural=plural, mended=name
        )
    kinds = kinds_of(name) or (inside[-1].kinds if inside else frozenset())
    head = word_key(name.split()[-1])
    plural = words[-1].tag_ in PLURALS and head != words[-1].lower_
    base = inside[-1] if inside else Food(start, end, name, head)
    return replace(
        base, start=start, end=end, name=name, head=head, known=bool(kinds), kinds=kinds, plural=plural
    )


def _is_renamed(doc: Doc, food: Food) -> bool:
    """Whether the lexicon knows a food by another noun than the one that was heard: "two ripe pairs"."""
    heard = [word_key(token.lower_) for token in doc[food.start : food.end]]
    return food.known and food.head not in heard and look_up((heard[-1],)) is None


def _trails(token: Token, known: Sequence[Food]) -> bool:
    """Whether the last word of a run is none of the name: "olive oil warming", but not "garam masala"."""
    named = any(food.start <= token.i < food.end for food in known)
    return not named and token.pos_ in TRAILING and look_up((word_key(token.lower_),)) is None


def _only_says_how(word: str) -> bool:
    return any(word in food_words(role) for role in ("size", "praise", "adverb", "filler"))
