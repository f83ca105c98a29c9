"""How: in what pieces, how thick, how gently, in the words that stand by a verb."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING

from extract.spot.verbs.forms import verb_forms
from extract.spot.verbs.words import words

if TYPE_CHECKING:
    from collections.abc import Iterator

    from spacy.tokens import Doc

    from extract.spot.actions.span import ActionSpan

SHAPING = frozenset({"cut", "shape"})
TOPPING = frozenset({"add", "naming", "season", "coat"})
ON_TOP = re.compile(r"\b(?:over the|on the|on) top\b(?! of\b)")
PIECES_REACH = 8
AFTER_REACH = 9


def manner(doc: Doc, span: ActionSpan, kind: str) -> list[str]:
    """The words that tell how, from the action's own clause: "gently", "well", "evenly"."""
    before = kind == "manner before"
    reach = range(span.at - 2, span.at + 2) if before else range(span.at, span.at + AFTER_REACH)
    if before and span.group == "cut":
        reach = range(span.at - 2, span.end)  # "slice the onions thinly"
    named = {at for phrase in (*span.objects, *span.place) for at in range(phrase.start, phrase.end)}
    other = span.at > 0 and (doc[span.at - 1].lower_ in verb_forms() or doc[span.at - 1].lower_ == "and")
    named |= {span.at - 2} if other else set()  # "finely chopped, fry", "slice it thinly and fry it"
    inside = (at for at in reach if span.utterance[0] <= at < span.end and at not in named)
    return [doc[at].lower_ for at in inside if doc[at].lower_ in words(kind)][:1]


def on_top(doc: Doc, span: ActionSpan) -> list[str]:
    """ "On top" and "over the top", for what is put there: "scatter the nuts over the top"."""
    if span.group not in TOPPING:
        return []
    fronted = span.implied and doc[span.utterance[0] : span.utterance[0] + 2].text.lower() == "on top"
    said = " ".join(token.lower_ for token in doc[span.at + 1 : span.end + 1])
    found = ON_TOP.search(said)
    return [found[0]] if found else ["on top"] if fronted else []


def cut_words(doc: Doc, span: ActionSpan) -> list[str]:
    """In what pieces or how thick something is cut, rolled or pressed: "in half", "into five-inch rounds"."""
    found = cut_span(doc, span)
    if found is None:
        return []
    return [pieces(doc, *found)]


def without_cut(doc: Doc, span: ActionSpan) -> ActionSpan:
    """An action without the places that are only the pieces something is cut into."""
    found = cut_span(doc, span)
    if found is None:
        return span
    place = tuple(phrase for phrase in span.place if not found[0] <= phrase.start < found[1])
    return replace(span, place=place)


def cut_span(doc: Doc, span: ActionSpan) -> tuple[int, int] | None:
    """The tokens that tell the pieces or the thickness, None where nothing does."""
    shapes = span.group in SHAPING or span.verb.split()[0] in words("flattens")
    if not shapes or span.implied:
        return None
    ends = (
        piece_end(doc, at, span.end) or thickness_end(doc, at, span.end)
        for at in range(span.at + 1, span.end)
    )
    starts = range(span.at + 1, span.end)
    return next(((start, end) for start, end in zip(starts, ends, strict=True) if end is not None), None)


def piece_end(doc: Doc, at: int, end: int) -> int | None:
    """The end of "into chunks", "in half" or "into five inch rounds" that begins at a token."""
    if doc[at].lower_ not in {"in", "into"}:
        return None
    for place in range(at + 1, min(end, at + PIECES_REACH)):
        word = doc[place].lower_
        if word in words("piece") or (word in words("part cut") and place == at + 1 == end - 1):
            return place + 1
        if not (doc[place].like_num or word in words("before a piece") or word in words("length")):
            return None
    return None


def thickness_end(doc: Doc, at: int, end: int) -> int | None:
    """The end of "an eighth of an inch thick" that begins at a token; flat and thin need no figure."""
    if doc[at].lower_ in words("ends up") and (at + 1 >= end or doc[at + 1].is_punct):
        return at + 1
    place = at
    while place < end and (doc[place].like_num or doc[place].lower_ in words("before a length")):
        place += 1
    measured = place > at and place + 1 < len(doc) and doc[place].lower_ in words("length")
    return place + 2 if measured and doc[place + 1].lower_ in words("dimension") else None


def pieces(doc: Doc, start: int, end: int) -> str:
    """The words of pieces or a thickness as a method prints them: no fillers, a figure tied to its unit."""
    return " ".join(
        tied(
            [
                doc[at].lower_
                for at in range(start, end)
                if doc[at].lower_ not in words("says nothing of a piece")
            ]
        )
    )


def tied(said: list[str]) -> Iterator[str]:
    """Words with a figure and its unit as one before a noun: "five inch rounds" is "five-inch rounds"."""
    number = 0
    while number < len(said):
        word, after = said[number], said[number + 1] if number + 1 < len(said) else ""
        if (
            after in words("length")
            and number + 2 < len(said)
            and said[-1] in words("piece")
            and word != "an"
        ):
            yield f"{word}-{after}"
            number += 1
        elif word != "-":
            yield word
        number += 1
