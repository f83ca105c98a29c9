"""The words of a dish's name: where it begins and ends, and what is no part of it."""

from __future__ import annotations

from functools import cache

from extract.lexicon import read_lexicon
from extract.segment.cues import Sentence
from extract.spot.spotted import Spotted

LONGEST = 9
MADE = frozenset({"made", "dish", "bread"})
FINISHED = frozenset({"dish", "bread"})
SKIPPED_TAGS = frozenset({"DT", "PRP$", "UH", "CD", "PDT"})


def name_span(spotted: Spotted, start: int, limit: int) -> tuple[int, int] | None:
    """A name: adjectives and nouns, joined by "and", "with", "of", "in"; it ends in a noun or a food."""
    doc = spotted.speech.doc
    food_ends = {f.end for f in spotted.foods if start <= f.start < limit}
    made = [f for f in spotted.foods if start <= f.start < limit and f.kinds & MADE]
    named = [f for f in made if doc[f.end - 1].pos_ in {"NOUN", "PROPN"}]
    in_food = {at for f in named for at in range(f.start, f.end) if not doc[at].is_punct}
    limit = min([limit, *(a.start for a in spotted.amounts if a.unit and start <= a.start < limit)])
    while start < limit and (doc[start].tag_ in SKIPPED_TAGS or doc[start].lower_ in praise()):
        start += 1
    end = name_end = start
    while end < limit and end - start < LONGEST:
        token = doc[end]
        if token.pos_ in {"NOUN", "PROPN"} or end + 1 in food_ends:
            name_end = end + 1
        elif (
            token.pos_ != "ADJ"
            and token.tag_ not in {"VBN", "VBG", "HYPH"}
            and token.lower_ not in title_kind("join")
            and end not in in_food
        ):
            break
        end += 1
    while name_end > start and doc[name_end - 1].lower_ in never_names():
        name_end -= 1
    return (start, name_end) if name_end > start else None


def name_start(spotted: Spotted, at: int) -> int:
    """Where the name begins that leads up to the food at ``at``: describing words before it belong to it."""
    doc = spotted.speech.doc
    while at > 0 and (doc[at - 1].pos_ in {"ADJ", "NOUN", "PROPN"} or doc[at - 1].tag_ in {"VBN", "HYPH"}):
        at -= 1
    return at


def bare_name(spotted: Spotted, sentence: Sentence) -> tuple[int, int] | None:
    """A sentence that is nothing but a name: "Smothered cabbage." """
    doc = spotted.speech.doc
    start = sentence.start
    while start < sentence.end and (doc[start].lower_ in title_kind("turn") or doc[start].is_punct):
        start += 1
    span = name_span(spotted, start, sentence.end)
    if span is None:
        return None
    finished = any(span[0] <= f.start < span[1] and f.kinds & FINISHED for f in spotted.foods)
    finished = finished or doc[span[1] - 1].lower_ in heads()
    if span[1] - span[0] < 2 and not finished:
        return None
    rest = [t.lower_ for t in doc[span[1] : sentence.end] if t.is_alpha]
    return span if not rest or rest[0] in {"with", "and", "in", "on"} else None


@cache
def never_names() -> frozenset[str]:
    """Words that are no part of a name."""
    return title_kind("stop")


@cache
def praise() -> frozenset[str]:
    """Adjectives that only say what the cook thinks of it."""
    return title_kind("praise")


@cache
def heads() -> frozenset[str]:
    """The words by which a dish goes although they are no food by themselves: "hash", "slab"."""
    return title_kind("head")


@cache
def title_kind(kind: str) -> frozenset[str]:
    """The words of one kind in ``title_words.tsv``."""
    rows = read_lexicon("title_words", columns=("word", "kind"))
    return frozenset(r["word"] for r in rows if r["kind"] == kind)


def stem(word: str) -> str:
    """A word without its plural s."""
    return word[:-1] if len(word) > 3 and word.endswith("s") else word
