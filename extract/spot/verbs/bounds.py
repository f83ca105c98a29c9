"""Where the parts of a clause begin and end: an amount, a clause with a subject of its own, an until."""

from __future__ import annotations

from collections.abc import Container
from typing import TYPE_CHECKING

from extract.spot.verbs.words import words

if TYPE_CHECKING:
    from spacy.tokens import Doc


def begins_clause_at(doc: Doc, at: int, end: int) -> bool:
    """Whether a clause with a subject of its own begins behind an "and": "and that's six bowls", "and you whisk"."""
    if doc[at].lower_ not in {"and", ","} or at + 2 >= end or doc[at + 1].lower_ not in words("new subject"):
        return False
    after = doc[at + 2]
    return (
        doc[at + 1].lower_ in words("subject") or after.pos_ in {"AUX", "VERB"} or after.lower_ in words("be")
    )


def amount_start(doc: Doc, at: int, floor: int) -> int:
    """The first token of the amount right before a food, ``at`` where there is none."""
    first, measured = at, False
    while first > floor:
        token = doc[first - 1]
        number = token.like_num or token.lower_ in words("unit noun")
        if not (number or token.lower_ in words("within an amount")):
            break
        measured = measured or number
        first -= 1
    while first < at and doc[first].lower_ == "and":
        first += 1
    return first if measured else at


def begins_anew(doc: Doc, at: int) -> bool:
    """Whether an order or others' doings begin at a token, in talk without marks: "… put it back", "some people"."""
    word, after = doc[at].lower_, doc[at + 1].lower_ if at + 1 < len(doc) else ""
    before = doc[at - 1] if at else None
    if word == "some" and after in words("kin and others"):
        return True
    if word == "do" and after in words("negation"):
        return True
    bare = doc[at].tag_ in {"VB", "VBP"} or doc[at].pos_ != "VERB" or word in words("same in the past")
    led = before is None or before.pos_ in {"AUX", "PART", "PRON", "DET"} or before.lower_ in words("until")
    if word == "it" and after in words("will") and not led:
        return True
    takes = (
        after in words("thing acted on")
        or after in words("begins an amount")
        or doc[at + 1 : at + 2].text.isdigit()
    )
    return bare and not led and word in words("order in a run") and takes


def until_span(doc: Doc, start: int, end: int, measures: Container[int] = ()) -> tuple[int, int] | None:
    """The words of an until-clause, to the next clause, the next comma that opens one, or one of ``measures``.

    These are the tokens at which an amount of a food begins: in talk without marks the next line follows at once.
    """
    stop = start
    while (
        stop < end
        and stop not in measures
        and doc[stop].lower_ not in words("after an until")
        and not begins_anew(doc, stop)
    ):
        if (
            doc[stop].lower_ in {",", "and"}
            and stop + 1 < end
            and doc[stop + 1].lower_ in words("new subject")
        ):
            break
        stop += 1
    while stop > start and doc[stop - 1].lower_ in words("ends no until"):
        stop -= 1
    return (start, stop) if stop > start else None
