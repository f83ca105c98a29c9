"""What the talk itself leaves in doubt as questions to the cook, each with the words it rests on."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from extract.draft.questions.words import quoted
from extract.model import Question

if TYPE_CHECKING:
    from extract.language import Speech
    from extract.reconcile.doubts import Doubt
    from extract.segment.titles import Title


def title_question(title: Title, speech: Speech) -> list[Question]:
    """What the dish is called, where no words of the talk say so."""
    if title.announced:
        return []
    text = "What is the dish called? Nothing said announces it; the title is the food named most."
    return [
        Question(kind="no title", about=title.text, text=text, said=[speech.evidence(title.start, title.end)])
    ]


def ledger_questions(doubts: Iterable[Doubt], speech: Speech) -> list[Question]:
    """A question for every doubt, each kind and thing once."""
    found: dict[tuple[str, str], Question] = {}
    for doubt in doubts:
        said = [speech.evidence(start, end) for start, end in doubt.spans]
        question = Question(kind=doubt.kind, about=doubt.about, text=doubt.text + quoted(said), said=said)
        found.setdefault((doubt.kind, doubt.about), question)
    return list(found.values())
