"""The cook's own words as an order, where a rewording would lose what was said."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from extract.draft.method.phrases.grammar import is_plural
from extract.draft.method.phrases.plain import plain_words
from extract.spot.verbs.forms import verb_forms
from extract.spot.verbs.words import words

if TYPE_CHECKING:
    from collections.abc import Sequence

    from spacy.tokens import Doc, Token

    from extract.spot.actions.span import ActionSpan

MOST_LOST = 0  # words of weight that a rewording may leave out
AMOUNT_REACH = 6
LED = 4  # tokens before a verb among which its subject stands
LIST_REACH = 6
LONGEST = 12  # tokens of an order in talk without marks, beyond which it has run into something else
ONWARD = re.compile(
    r"(?:then )?(?:straight |right )?(?P<where>(?:back )?(?:in|into|on|onto) (?:the|a|your) )"
)
CLAUSES = frozenset({"conj", "ccomp", "parataxis", "nsubj", "cc"})
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
        if token.pos_ in WEIGHTY or (plain and (token.lower_ in words("turns away") or ends_a_verb(token)))
        if token.lower_ not in words("trailing") | words("filler") | words("no thing")
        if token.lower_[:4] not in said and token.lemma_.lower()[:4] not in said
    ]


def ends_a_verb(token: Token) -> bool:
    """Whether a little word completes its verb and leads to no place: "tip it in", "chop it together"."""
    after = token.nbor(1) if token.i + 1 < len(token.doc) else None
    alone = after is None or after.is_punct or after.pos_ in {"CCONJ", "SCONJ", "ADV", "PRON"}
    return token.lower_ in words("completes a verb") and alone


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


def said_order(doc: Doc, span: ActionSpan, others: set[int], thing: str = "", time: str = "") -> str:
    """An action in the cook's words as an order, "" where they make none: "roll the other one in a snake".

    ``thing`` is the name of the pronoun behind the verb, "" where that pronoun is clear; ``time`` the words for
    the action's duration.
    """
    form = verb_forms().get(doc[span.at].lower_)
    if form is None or not is_order(doc, span, form[1]):
        return ""
    kept = order_tokens(doc, span, others)
    if kept is None or (kept and kept[0].lower_ in words("likens")):
        return ""
    if kept and thing and is_reference(kept):
        rest = spoken_words(kept[1:], span, time)
        text = f"{form[0].lemma} {thing} {rest}".strip().replace(" ,", ",")
    else:
        text = f"{form[0].lemma} {spoken_words(kept, span, time)}".strip()
    text = with_verb_of_putting(text, is_plural(thing) if thing else " them " in text)
    return f"do not {text}" if span.negated else text


def with_verb_of_putting(text: str, plural: bool) -> str:
    """An order with the verb that its second half leaves out: "stir it and back in the pot" is "and put it back"."""
    before, goes, rest = text.partition(" and ")
    onward = ONWARD.match(rest)
    if not goes or onward is None or set(before.split()) & words("opens a place"):
        return text
    return f"{before} and put {'them' if plural else 'it'} {rest[onward.start('where') :]}"


def is_reference(kept: Sequence[Token]) -> bool:
    """Whether an order's words begin with a pronoun that stands for a thing, no "that" before a noun."""
    after = kept[1].pos_ if len(kept) > 1 else ""
    return kept[0].lower_ in words("reference pronoun") and (
        kept[0].lower_ in {"it", "them", "'em"} or after not in {"NOUN", "PROPN", "ADJ"}
    )


def order_tokens(doc: Doc, span: ActionSpan, others: set[int]) -> list[Token] | None:
    """The tokens behind a verb that belong to the order, None where they break off amid a clause."""
    end = own_end(doc, span, others)
    stop = next((at for at in range(span.at + 1, end) if turns_away(doc, span.at, at)), end)
    kept = [token for token in doc[span.at + 1 : stop] if not is_filler(doc, token.i)]
    if stop == end and is_cut_off(doc, span, end):
        kept = own_words_of_verb(doc, span.at, kept)
    if len(kept) > LONGEST and not any(token.is_punct for token in kept):
        kept = own_words_of_verb(doc, span.at, kept)[:LONGEST]
    if len(kept) > 2 and kept[-1].pos_ == "PRON" and kept[-2].lower_ in words("leads a clause"):
        kept = kept[:-2]  # "stir that around so it['s all coated]"
    while kept and (
        kept[-1].lower_ in words("joins what follows") | words("needs what follows") or kept[-1].is_punct
    ):
        if ends_a_verb(kept[-1]):
            break
        if kept[-1].lower_ in words("needs what follows"):
            return None
        kept.pop()
    return None if kept and kept[0].is_punct else kept


def own_words_of_verb(doc: Doc, verb: int, kept: list[Token]) -> list[Token]:
    """The words behind a verb that the parse gives to it without a break, where nothing marks the end of a clause."""
    marked = max((n for n, token in enumerate(kept) if token.is_punct), default=0)
    taken = 0
    for token in kept:
        if not doc[verb].is_ancestor(token) or token.dep_ in CLAUSES:
            break
        taken += 1
    return kept[: max(marked, taken)]


def turns_away(doc: Doc, verb: int, at: int) -> bool:
    """Whether a cook's words turn from an order to something else at a token: to a person, a reason, a remark."""
    word, after = doc[at].lower_, doc[at + 1].lower_ if at + 1 < len(doc) else ""
    if word in words("turns from an order") or adds_a_remark(doc, at) or names_more(doc, verb, at):
        return True
    if word == "and" and after in words("determiner") and fronts_a_clause(doc, at + 1):
        return True
    led = any(token.lower_ in words("leads a clause") for token in doc[max(verb + 1, at - LED) : at])
    if word in words("cook") or word in words("personal subject"):
        return not led or word != "you"
    states = after in words("be") | words("will") | words("looks so")
    return word in words("thing as subject") | {"there", "here", "what"} and states and not led


def fronts_a_clause(doc: Doc, at: int) -> bool:
    """Whether a noun at a token is the object of the clause behind it: "heat it, and [this grey foam you take]"."""
    near = doc[at + 1 : at + LED + 1]
    subject = next((n for n, token in enumerate(near) if token.lower_ in words("cook")), 0)
    return subject > 0 and near[subject - 1].pos_ in {"NOUN", "PROPN"}


def names_more(doc: Doc, verb: int, at: int) -> bool:
    """Whether another food and its amount are named in unmarked talk: "rub it in a towel [sugar 200 grams]"."""
    if at <= verb + 1 or at + 2 >= len(doc) or doc[at].pos_ not in {"NOUN", "PROPN"}:
        return False
    measured = doc[at + 1].like_num and doc[at + 2].lower_ in words("unit noun")
    return measured and doc[at - 1].pos_ not in {"DET", "ADJ", "ADP"}


def adds_a_remark(doc: Doc, at: int) -> bool:
    """Whether a comma within an order is followed by something else than a place or a manner."""
    if doc[at].text != "," or at + 1 >= len(doc):
        return False
    after = doc[at + 1]
    if after.lower_ in {"and", "then", "but", "so", "or"}:
        return True
    if any(token.lower_ == "and" for token in doc[at + 2 : at + LIST_REACH]):
        return False  # "with butter, a good lump, and a sup of warm milk"
    return after.pos_ in {"NOUN", "PROPN", "VERB", "PRON", "INTJ", "DET", "AUX", "X"} or is_filler(
        doc, at + 1
    )


def is_filler(doc: Doc, at: int) -> bool:
    """Whether a token says nothing in an order: "um", "just", the "you know" of an aside."""
    word = doc[at].lower_
    if word in words("filler said aside"):
        return True
    pairs = {f"{doc[n].lower_}_{doc[n + 1].lower_}" for n in (at - 1, at) if 0 <= n < len(doc) - 1}
    return bool(pairs & words("pair said aside"))


def spoken_words(tokens: Sequence[Token], span: ActionSpan, time: str) -> str:
    """The cook's words with what is the cook's own as anybody's and the time as a method prints it."""
    figure = span.duration
    inside = figure is not None and bool(time) and any(t.i == figure.start for t in tokens)
    if not inside or figure is None:
        return as_anybodys(plain_words(tokens))
    before = [t for t in tokens if t.i < figure.start]
    after = [t for t in tokens if t.i >= figure.end]
    while before and (before[-1].lower_ in words("leads to a time") or before[-1].is_punct):
        before.pop()
    told = time.removeprefix("for ") if before and before[-1].lower_ in words("takes a bare time") else time
    text = " ".join(part for part in (plain_words(before), told, plain_words(after)) if part)
    return as_anybodys(text).replace(" ,", ",")


def without_echo(said: list[str]) -> list[str]:
    """Words without what is said twice in a row: "round it, round it", "as big as the bench as big as my bench"."""
    kept: list[str] = []
    for word in said:
        kept.append(word)
        for length in range(1, len(kept) // 2 + 1):
            last, before = kept[-length:], kept[-2 * length : -length]
            if [w.strip(",").lower() for w in last] == [w.strip(",").lower() for w in before]:
                del kept[-length:]
                break
    return kept


def as_anybodys(text: str) -> str:
    """Words in which the cook's things are anybody's: "in my big pan" is "in the big pan", "my hands" the reader's."""
    said = text.split()
    for number, word in enumerate(said):
        if word.lower() in words("owned by the cook"):
            after = said[number + 1].strip(",.") if number + 1 < len(said) else ""
            said[number] = "your" if after in words("part of the cook") else "the"
    return " ".join(without_echo(said))


def is_order(doc: Doc, span: ActionSpan, form: str) -> bool:
    """Whether a verb can be said as an order: an order itself, or what the cook does or did, no "it sits down"."""
    if span.implied or span.mood == "described" or form == "s":
        return False
    led = {token.lower_ for token in doc[max(span.utterance[0], span.at - LED) : span.at]}
    by_cook = bool(led & words("cook"))
    if doc[span.at].lower_ in words("no order"):
        return False
    return by_cook or (form != "ing" and span.mood != "done")


def is_cut_off(doc: Doc, span: ActionSpan, end: int) -> bool:
    """Whether the words of an action end amid a clause, where the next verb begins: "so the sauce [can go in]"."""
    if end >= span.utterance[1] or (span.until is not None and end == span.until[1]):
        return False
    if span.duration is not None and end == span.duration.end:
        return False
    edge = {doc[end].lower_, doc[end - 1].lower_}
    ordered = doc[end].lower_ in verb_forms() and verb_forms()[doc[end].lower_][1] == "base"
    if ordered and doc[end].pos_ == "VERB" and doc[end - 1].pos_ != "NOUN":
        return False
    turned = doc[end].lower_ in words("turns from an order") | words("new subject") | words(
        "ends the objects"
    )
    return not (turned or doc[end].is_punct or doc[end - 1].is_punct or edge & words("joins what follows"))
