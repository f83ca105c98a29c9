"""The cook's own words as a written method has them: no short forms, no fillers, nobody's name for the reader."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cache
from typing import TYPE_CHECKING

from extract.lexicon import read_lexicon
from extract.spot.verbs.words import words

if TYPE_CHECKING:
    from spacy.tokens import Doc, Token

    from extract.spot.spans import Duration, HeatSetting

    Figure = Duration | HeatSetting

MOST_UNTIL = 14
MOST_CONDITION = 9
REACH = 80  # tokens before an action within which its condition stands


@cache
def short_forms() -> dict[str, str]:
    """The full form of each short form, as the tokeniser splits it off ("'re" is "are")."""
    return {row["short"]: row["full"] for row in read_lexicon("short_forms", columns=("short", "full"))}


def plain_words(tokens: Iterable[Token]) -> str:
    """Tokens in full forms, lower case at the beginning, single blanks, none before a mark."""
    said: list[str] = []
    for token in tokens:
        full = short_forms().get(token.lower_, token.text)
        after = token.nbor(1).pos_ if token.i + 1 < len(token.doc) else ""
        following = token.nbor(1).lower_ if token.i + 1 < len(token.doc) else ""
        if token.lower_ == "'s" and (following in words("after a has") or is_gone_to(token)):
            full = "has"
        if token.lower_ == "'s" and token.tag_ == "POS" and after in {"NOUN", "PROPN"}:
            full = "'s"
        if said and (full in {",", ".", "'s", ";"} or full == "-" or said[-1].endswith("-")):
            said[-1] += full
        elif full:
            said.append(full)
    text = " ".join(said).replace("can not", "cannot")
    return text[:1].lower() + text[1:]


def is_gone_to(token: Token) -> bool:
    """Whether an "'s" is a "has": "it's gone pale", but not "the sugar's gone"."""
    near = token.doc[token.i + 1 : token.i + 4]
    return (
        len(near) > 1 and near[0].lower_ == "gone" and any(after.pos_ in {"ADJ", "ADV"} for after in near[1:])
    )


def until_words(doc: Doc, until: tuple[int, int] | None, figures: Sequence[Figure] = ()) -> str:
    """When it is done, in the cook's words, cut before it turns to something else; "" where no whole is left.

    ``figures`` are the action's own time and heat, which are told for themselves.
    """
    if until is None:
        return ""
    told = {figure.start for figure in figures}
    kept: list[Token] = []
    for token in doc[until[0] : until[1]]:
        stops = token.lower_ in words("not in a method") or (kept and token.text in {",", ";"})
        stops = stops or (len(kept) > 1 and (begins_a_remark(token) or begins_an_amount(token)))
        if stops or token.i in told or len(kept) > MOST_UNTIL:
            break
        if token.lower_ not in words("left out of an until"):
            kept.append(token)
    kept = without_loose_end(kept, doc)
    return plain_words(kept) if is_whole_until(kept) else ""


def without_loose_end(kept: list[Token], doc: Doc) -> list[Token]:
    """The words of an until without those that lead to something that is not there any more."""
    while kept:
        word, before = kept[-1].lower_, [token.pos_ for token in kept[-3:-1]]
        led = before[-1:] == ["ADP"] or before == ["AUX", "VERB"]
        if word in words("object pronoun") and led and not states_at(doc, kept[-1].i + 1):
            break  # "until you can lift it"
        if word not in words("dangling") | words("needs what follows") | words("leads to a time"):
            break
        kept = kept[:-1]
    return kept


def states_at(doc: Doc, at: int) -> bool:
    """Whether the word at a token says what the one before it is or does, so that this is its subject."""
    return at < len(doc) and doc[at].lower_ in words("be") | words("will") | words("looks so")


def is_whole_until(kept: Sequence[Token]) -> bool:
    """Whether words tell how it is when it is done: no "the oil" or "there" alone, no "it is" and nothing more."""
    if not kept or (all(token.pos_ == "DET" for token in kept[:-1]) and kept[-1].pos_ in {"NOUN", "PROPN"}):
        return False
    return kept[-1].pos_ != "PRON" or (len(kept) > 1 and kept[-2].pos_ in {"VERB", "ADP"})


def begins_an_amount(token: Token) -> bool:
    """Whether a food with its measure begins at a token in unmarked talk: "[till it's black] a can of beans"."""
    doc, at = token.doc, token.i
    if token.nbor(-1).pos_ in {"ADP", "DET", "AUX"} or not (token.like_num or token.lower_ in {"a", "an"}):
        return False
    return at + 2 < len(doc) and doc[at + 1].lower_ in words("unit noun") and doc[at + 2].lower_ == "of"


def begins_a_remark(token: Token) -> bool:
    """Whether a sentence of its own begins at a token of unmarked talk: "[till it's smooth] it should look like"."""
    after = token.nbor(1).lower_ if token.i + 1 < len(token.doc) else ""
    before = token.nbor(-1).lower_
    if token.lower_ == "which" or is_order_run_on(token):
        return True
    states = after in words("be") | words("will") | words("looks so") | {"know", "want"}
    joined = before in words("until") | words("leads a clause") | {"and", "or", ","}
    return token.lower_ in words("thing as subject") | {"you", "there"} and states and not joined


def is_order_run_on(token: Token) -> bool:
    """Whether an order begins in unmarked talk: "[until they're gold] call it a quarter of an hour"."""
    before = token.nbor(-1)
    bound = before.pos_ in {"PART", "AUX", "PRON", "SCONJ", "CCONJ", "ADP", "DET", "NOUN", "PROPN"}
    return token.tag_ == "VB" and token.pos_ == "VERB" and not bound


def condition_words(doc: Doc, start: int, at: int) -> str:
    """The condition under which an action is done, as the cook said it: "if it is dry"; "" where there is none.

    A condition about the cook's or the reader's taste is none: that makes a thing optional.
    """
    for first in range(at - 1, max(start, at - REACH) - 1, -1):
        if doc[first].lower_ in {".", "?", "!", ";", "then"}:
            return ""
        if doc[first].lower_ == "if":
            break
    else:
        return ""
    kept: list[Token] = []
    for token in doc[first:at]:
        if token.text == "," or len(kept) > MOST_CONDITION:
            break
        if token.lower_ in words("after an until"):
            return ""  # in unmarked talk: "180 if it's not fan so the fruit is all fat … stir in an egg"
        kept.append(token)
    while kept and kept[-1].lower_ in words("trailing"):
        kept.pop()
    subject = kept[1].lower_ if len(kept) > 2 else ""
    if subject not in words("subject of a condition") or len(kept) > MOST_CONDITION:
        return ""
    if any(token.lower_ in words("not in a method") for token in kept):
        return ""
    return plain_words(kept)
