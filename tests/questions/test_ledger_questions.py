"""What does not add up in the kitchen ledger is asked, each kind and thing once, with the words it rests on."""

from __future__ import annotations

from typing import cast, get_args

from extract.draft.questions.ledger import ledger_questions
from extract.draft.questions.words import question_kinds
from extract.language import Speech
from extract.model import Evidence
from extract.reconcile.doubts.doubts import Doubt, DoubtKind

TALK = "so half the glaze goes on now and two thirds of the glaze later and then the rest of it"
WORDS = TALK.split()


class Transcript:
    timed = True


class Talk:
    """The words of a talk, a cue each: what the questions need of a parsed one."""

    transcript = Transcript()

    def evidence(self, start: int, end: int) -> Evidence:
        return Evidence(cue=start, start=float(start), end=float(end), text=" ".join(WORDS[start:end]))


SPEECH = cast("Speech", Talk())
DOUBT = Doubt("over-used", "glaze", "Which of the shares is right?", ((8, 13), (1, 4)))


def test_a_doubt_is_asked_with_the_words_it_rests_on() -> None:
    (question,) = ledger_questions([DOUBT], SPEECH)
    assert (question.kind, question.about) == ("over-used", "glaze")
    assert question.text == (
        "More of the glaze goes in than there was, “two thirds of the glaze” at 0:08 and “half the glaze” at 0:01: "
        "which of the shares is right?"
    )
    assert [said.start for said in question.said] == [8.0, 1.0]


def test_two_amounts_are_put_to_the_cook_as_they_were_said() -> None:
    doubt = Doubt("two amounts", "glaze", "Two amounts are said for the glaze.", ((1, 3), (8, 10)))
    (question,) = ledger_questions([doubt], SPEECH)
    assert (
        question.text == "Of the glaze you said “half the” at 0:01 and “two thirds” at 0:08: which is right?"
    )


def test_a_doubt_without_words_keeps_its_own_wording() -> None:
    (question,) = ledger_questions([Doubt("which one", "sugar", "Which sugar is it?", ())], SPEECH)
    assert question.text == "Which sugar is it?"


def test_a_kind_of_doubt_about_a_thing_is_asked_once() -> None:
    again = Doubt("over-used", "glaze", "Is there more of it?", ((14, 19),))
    other = Doubt("never used", "glaze", "What is the rest for?", ((14, 19),))
    assert [q.kind for q in ledger_questions([DOUBT, again, other], SPEECH)] == ["over-used", "never used"]


def test_every_kind_of_doubt_is_weighed_and_stays_until_it_is_answered() -> None:
    kinds = get_args(DoubtKind)
    assert {kind: question_kinds()[kind].source for kind in kinds} == dict.fromkeys(kinds, "talk")


def test_contradictions_unknown_foods_batch_oven_and_yield_come_in_that_order() -> None:
    order = [
        "two amounts",
        "unknown food",
        "amounts of the batch",
        "oven never given",
        "no yield",
        "missing amount",
    ]
    tiers = [question_kinds()[kind].tier for kind in order]
    assert tiers == sorted(set(tiers))
