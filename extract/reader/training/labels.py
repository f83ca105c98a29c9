"""From an annotated talk to the labels of every token: what the reader has to learn.

A note says what an editor writes down; the words that it rests on are found here by their spelling and their
value, at the note's sentence or near it. What is not found is left out of the loss, not guessed.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, Any

from extract.reader.labels import ROLES, THINGS
from extract.reader.training.form import AnnotatedTalk
from extract.reader.training.marked import SMALL, Marked, Span, paint, stems
from extract.reader.training.noted import count, heat, line, time
from extract.reader.training.shared import share

if TYPE_CHECKING:
    from spacy.language import Language

JOINING = frozenset({"-", "'", ",", "and", "of", "the", "in", "with", "a", "on", "&", "’s", "'s"})


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
        "cand": sorted({i for figure in marked.amounts for i in range(*figure.at)}),
    }


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
