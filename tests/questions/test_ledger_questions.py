"""What does not add up in the kitchen ledger is asked, each thing once, with the words around it."""

from __future__ import annotations

from fractions import Fraction
from typing import cast

import pytest

from extract.draft.questions.ledger import TEXTS, ledger_questions
from extract.language import Speech
from extract.model import Evidence
from extract.reconcile.ledger import Fault, Ledger, PutIn, TakeOut

TALK = "so half the glaze goes on now and two thirds of the glaze later and then the rest of it"
WORDS = TALK.split()


class Talk:
    """The words of a talk, a cue each: what the questions need of a parsed one."""

    cue_at = tuple(range(len(WORDS)))

    def evidence(self, start: int, end: int) -> Evidence:
        return Evidence(cue=start, start=float(start), end=float(end), text=" ".join(WORDS[start:end]))


SPEECH = cast("Speech", Talk())


def test_more_taken_than_made_is_asked_with_the_words() -> None:
    ledger = Ledger()
    ledger.apply(PutIn("glaze", "jam", 0))
    ledger.apply(TakeOut("glaze", Fraction(1, 2), 1))
    ledger.apply(TakeOut("glaze", Fraction(2, 3), 8))
    (question,) = ledger_questions(ledger, SPEECH, 0, 20)
    assert (question.kind, question.about) == ("over-used", "glaze")
    assert "two thirds of the glaze" in question.text
    assert question.said[0].start == 4.0


def test_a_thing_used_and_never_made_is_asked_once() -> None:
    ledger = Ledger()
    for at in (1, 8):
        ledger.apply(TakeOut("glaze", Fraction(1, 4), at))
    kinds = [question.kind for question in ledger_questions(ledger, SPEECH, 0, 20)]
    assert kinds.count("never made") == 1


def test_faults_of_another_dish_are_not_asked_here() -> None:
    ledger = Ledger()
    ledger.apply(TakeOut("glaze", Fraction(1, 4), 8))
    assert ledger_questions(ledger, SPEECH, 0, 5) == []


@pytest.mark.parametrize("kind", TEXTS)
def test_every_kind_of_fault_has_its_wording(kind: str) -> None:
    ledger = Ledger(faults=[Fault(kind, "glaze", 3)])  # type: ignore[arg-type]
    (question,) = ledger_questions(ledger, SPEECH, 0, 20)
    assert "glaze" in question.text
    assert "?" in question.text
