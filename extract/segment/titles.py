"""What a dish is called: the words the cook announces it by."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING

from extract.lexicon import read_lexicon
from extract.segment.cues import Sentence
from extract.segment.dishes import Stretch
from extract.spot.spotted import Spotted

if TYPE_CHECKING:
    from spacy.tokens import Doc

LONGEST = 7
OPENING = 14


def dish_title(spotted: Spotted, sentences: Sequence[Sentence], dish: Stretch) -> tuple[str, int, int]:
    """(title, start, end): the dish's name in the cook's words with the tokens it was said in.

    Where no words announce it, the food named most often stands in.
    """
    doc = spotted.speech.doc
    own = [s for s in sentences if dish.start <= s.start < dish.end]
    for pattern in _announcing():
        for sentence in own[:OPENING] + own[-4:]:
            span = _announced(doc, sentence, pattern)
            if span is not None:
                return doc[span[0] : span[1]].text, *span
    return _most_named(spotted, dish)


def _announcing() -> list[re.Pattern[str]]:
    rows = read_lexicon("title_cues", columns=("pattern",))
    return [re.compile(r["pattern"]) for r in rows]


def _announced(doc: Doc, sentence: Sentence, pattern: re.Pattern[str]) -> tuple[int, int] | None:
    """The noun phrase that follows the pattern in the sentence."""
    tokens = list(doc[sentence.start : sentence.end])
    text, places = "", []
    for token in tokens:
        places.append(len(text))
        text += token.lower_ + " "
    found = pattern.search(text)
    if found is None:
        return None
    first = next((i for i, at in enumerate(places) if at >= found.end()), None)
    return None if first is None else _name_span(doc, tokens[first].i, sentence.end)


def _name_span(doc: Doc, start: int, limit: int) -> tuple[int, int] | None:
    """A name: adjectives and nouns, joined by "and", "with", "of", "in"; it ends in a noun."""
    while start < limit and doc[start].tag_ in {"DT", "PRP$", "UH", "CD"}:
        start += 1
    end = noun_end = start
    while end < limit and end - start < LONGEST:
        token = doc[end]
        if token.pos_ in {"NOUN", "PROPN"}:
            noun_end = end + 1
        elif token.pos_ != "ADJ" and token.tag_ not in {"VBN", "VBG", "HYPH"} and token.lower_ not in {"and", "with", "of", "in", "'s", "-"}:
            break
        end += 1
    return (start, noun_end) if noun_end > start else None


def _most_named(spotted: Spotted, dish: Stretch) -> tuple[str, int, int]:
    counts: dict[str, list[int]] = {}
    for food in spotted.foods:
        if dish.holds(food.start):
            counts.setdefault(food.name, []).append(food.start)
    if not counts:
        return "untitled dish", dish.start, min(dish.start + 1, dish.end)
    name = max(counts, key=lambda n: ("dish" in _kinds(spotted, n), len(counts[n])))
    first = counts[name][0]
    return name, first, first + len(name.split())


def _kinds(spotted: Spotted, name: str) -> frozenset[str]:
    return next(f.kinds for f in spotted.foods if f.name == name)
