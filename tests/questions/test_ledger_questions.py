"""What does not add up in the kitchen ledger is asked, each kind and thing once, with the words it rests on."""

from __future__ import annotations

from typing import cast, get_args

from extract.draft.questions.ledger import ledger_questions
from extract.draft.questions.words import kind_weights
from extract.language import Speech
from extract.model import Evidence
from extract.reconcile.doubts import Doubt, DoubtKind

TALK = "so half the glaze goes on now and two thirds of the glaze later and then the rest of it"
WORDS = TALK.split()


class Talk:
    """The words of a talk, a cue each: what the questions need of a parsed one."""

    def evidence(self, start: int, end: int) -> Evidence:
        return Evidence(cue=start, start=float(start), end=float(end), text=" ".join(WORDS[start:end]))


SPEECH = cast("Speech", Talk())
DOUBT = Doubt("over-used", "glaze", "Which of the shares is right?", ((8, 13), (1, 4)))


def test_a_doubt_is_asked_with_the_words_it_rests_on() -> None:
    (question,) = ledger_questions([DOUBT], SPEECH)
    assert (question.kind, question.about) == ("over-used", "glaze")
    assert question.text == "Which of the shares is right? The words are 'two thirds of the glaze'."
    assert [said.start for said in question.said] == [8.0, 1.0]


def test_a_kind_of_doubt_about_a_thing_is_asked_once() -> None:
    again = Doubt("over-used", "glaze", "Is there more of it?", ((14, 19),))
    other = Doubt("never used", "glaze", "What is the rest for?", ((14, 19),))
    assert [q.kind for q in ledger_questions([DOUBT, again, other], SPEECH)] == ["over-used", "never used"]


def test_every_kind_of_doubt_is_weighed_and_stays_until_it_is_answered() -> None:
    kinds = get_args(DoubtKind)
    assert {kind: kind_weights()[kind][1] for kind in kinds} == dict.fromkeys(kinds, "talk")
