"""The cook's own words, where a rewording would lose what was said: as an order, or in quotation marks."""

from __future__ import annotations

from typing import TYPE_CHECKING

from extract.draft.method.phrases.plain import plain_words
from extract.spot.verbs.verb import verb_forms
from extract.spot.verbs.words import words

if TYPE_CHECKING:
    from spacy.tokens import Doc

    from extract.language.speech import Speech
    from extract.spot.actions.span import ActionSpan

MOST_LOST = 0  # words of weight that a rewording may leave out
MOST_WORDS = 24
MOST_QUOTED = 30
AMOUNT_REACH = 6
LED = 4  # tokens before a verb among which its subject stands
SHORTEST = 2
WEIGHTY = frozenset({"NOUN", "PROPN", "VERB", "NUM"})


def lost(doc: Doc, span: ActionSpan, text: str, others: set[int]) -> list[str]:
    """The nouns, verbs and figures of an action's words that a clause does not say, amounts of foods left aside.

    ``others`` are the tokens that other actions tell.
    """
    known = told_tokens(doc, span) | others
    said = text.lower()
    plain = " " not in span.verb
    return [
        token.lower_
        for token in doc[span.start : own_end(doc, span, others)]
        if token.i not in known and len(token.lower_) > 1
        if token.pos_ in WEIGHTY or (plain and token.lower_ in words("turns away"))
        if token.lower_ not in words("trailing") | words("filler") | words("no thing")
        if token.lower_[:4] not in said and token.lemma_.lower()[:4] not in said
    ]


def told_tokens(doc: Doc, span: ActionSpan) -> set[int]:
    """The tokens that a clause tells in other words: its verb, its figures, and foods with their amounts."""
    known = {span.at}
    least = span.utterance[0] if span.implied else span.at + 1
    for phrase in (*span.objects, *span.place, *span.with_):
        first = phrase.start
        while phrase.kind == "food" and phrase.start - first < AMOUNT_REACH and first > least:
            if doc[first - 1].is_punct or doc[first - 1].pos_ in {"VERB", "CCONJ"}:
                break
            first -= 1
        known.update(range(first, phrase.end))
    for figure in (span.duration, span.heat):
        if figure is not None:
            known.update(range(figure.start - 1, figure.end + 1))
    return known if span.until is None else known | set(range(*span.until))


def own_end(doc: Doc, span: ActionSpan, others: set[int]) -> int:
    """Where an action's own words end: at its until, at a clause of another kind, or where another action is told."""
    if span.until is not None and span.at < span.until[1] < span.end:
        return span.until[1]
    for at in range(span.at + 1, span.end):
        if at in others or doc[at].lower_ == "if":
            return at
        if (
            doc[at].is_punct
            and at + 1 < len(doc)
            and doc[at + 1].lower_ in words("thing as subject") | words("cook")
        ):
            return at
    return span.end


def said_order(doc: Doc, span: ActionSpan, others: set[int], thing: str = "") -> str:
    """An action in the cook's words as an order, "" where they make none: "roll the other one in a snake".

    ``thing`` is the name of the pronoun behind the verb, "" where that pronoun is clear.
    """
    form = verb_forms().get(doc[span.at].lower_)
    if form is None or not is_order(doc, span, form[1]):
        return ""
    end = own_end(doc, span, others)
    kept = [token for token in doc[span.at + 1 : end] if token.lower_ not in words("filler said aside")]
    if is_cut_off(doc, span, end):
        while kept and not kept[-1].is_punct:
            kept.pop()
    while kept and (kept[-1].lower_ in words("joins what follows") or kept[-1].is_punct):
        kept.pop()
    if kept and (kept[-1].lower_ in words("needs what follows") or kept[0].is_punct):
        return ""
    if any(token.lower_ in words("personal") | {"?", "you", ":", ".", "'s"} for token in kept):
        return ""
    if kept and thing and kept[0].lower_ in words("reference pronoun"):
        rest = plain_words(kept[1:])
        return f"{form[0].lemma} {thing} {rest}".strip().replace(" ,", ",")
    text = f"{form[0].lemma} {plain_words(kept)}".strip()
    return f"do not {text}" if span.negated else text


def is_order(doc: Doc, span: ActionSpan, form: str) -> bool:
    """Whether a verb can be said as an order: an order itself, or what the cook does, no "it sits down"."""
    if span.implied or span.mood in {"described", "done"} or span.end - span.at > MOST_WORDS or form == "s":
        return False
    led = {token.lower_ for token in doc[max(span.utterance[0], span.at - LED) : span.at]}
    return doc[span.at].lower_ not in words("no order") and (form != "ing" or bool(led & words("cook")))


def is_cut_off(doc: Doc, span: ActionSpan, end: int) -> bool:
    """Whether the words of an action end amid a clause, where the next verb begins: "so the sauce [can go in]"."""
    if end >= span.utterance[1] or (span.until is not None and end == span.until[1]):
        return False
    edge = {doc[end].lower_, doc[end - 1].lower_}
    return not (doc[end].is_punct or doc[end - 1].is_punct or edge & words("joins what follows"))


def quoted(speech: Speech, start: int, end: int) -> str:
    """Words of the talk in quotation marks with their moment: "“Forty minutes” (12:03)"; "" where nothing is left."""
    doc = speech.doc
    while start < end and (doc[start].lower_ in words("filler") or doc[start].is_punct):
        start += 1
    end = min(end, start + MOST_QUOTED)
    while end > start and (doc[end - 1].lower_ in words("joins what follows") or doc[end - 1].is_punct):
        end -= 1
    text = " ".join(doc[start:end].text.split())
    if len(text.split()) < SHORTEST:
        return ""
    text = text[0].upper() + text[1:]
    return f"“{text}”" + (f" ({clock(speech.moment(start))})" if speech.transcript.timed else "")


def clock(moment: float) -> str:
    """A moment of the recording as minutes and seconds: "12:03"."""
    return f"{int(moment) // 60}:{int(moment) % 60:02d}"
