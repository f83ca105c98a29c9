"""What the talk itself leaves in doubt as questions to the cook, each with the words it rests on."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from extract.draft.questions.words import listed, once
from extract.measure.moments import clock
from extract.model import Evidence, Question

if TYPE_CHECKING:
    from extract.language import Speech
    from extract.reconcile.doubts.doubts import Doubt
    from extract.segment.titles import Title


def title_question(title: Title, speech: Speech) -> list[Question]:
    """What the dish is called, where no words of the talk say so."""
    if title.announced:
        return []
    text = f"What is the dish called? The page calls it “{title.text}”, which is only the food named most."
    return [
        Question(kind="no title", about="title", text=text, said=[speech.evidence(title.start, title.end)])
    ]


def ledger_questions(doubts: Iterable[Doubt], speech: Speech) -> list[Question]:
    """A question for every doubt, each kind and thing once."""
    found: dict[tuple[str, str], Question] = {}
    for doubt in doubts:
        said = [speech.evidence(start, end) for start, end in doubt.spans]
        text = doubt_words(doubt, said, timed=speech.transcript.timed)
        question = Question(kind=doubt.kind, about=doubt.about, text=text, said=said)
        found.setdefault((doubt.kind, doubt.about), question)
    return list(found.values())


def doubt_words(doubt: Doubt, said: Sequence[Evidence], *, timed: bool) -> str:
    """A doubt in a person's words, from what it is about and the words it rests on; else in its own.

    "Of the chillies you said “8 chillies” at 1:10 and “6” at 2:40: which is right?"
    """
    quotes = [
        f"“{' '.join(each.text.split()).strip(' ,.;')}”{f' at {clock(each.start)}' if timed else ''}"
        for each in said
    ]
    if not quotes:
        return doubt.text
    of = doubt.about
    words: dict[str, str] = {
        "two amounts": f"Of the {of} you said {listed(once(quotes))}: which is right?",
        "over-used": f"More of the {of} goes in than there was, {listed(quotes)}: which of the shares is right?",
        "nothing left": f"The {of} was all used up by then: what is meant by {quotes[-1]}?",
        "never used": f"What becomes of the {of} in {quotes[0]}: is it part of the dish?",
        "never made": f"What goes into the {of}? It is used, and nobody made it.",
        "never put in": f"Where does the {of} go? You name it among what is needed, and no later word puts it in.",
        "batch": f"Which of the amounts are not for the usual batch: {quotes[0]}?",
    }
    return words.get(doubt.kind, doubt.text)
