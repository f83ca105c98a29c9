"""What a stranger would have to ask of a draft, most important first, worded for the cook."""

from extract.draft.questions.answers import carry_answers
from extract.draft.questions.ranking import MUST, SHOWN, find_questions, is_open, must_answer, shown

__all__ = ["MUST", "SHOWN", "carry_answers", "find_questions", "is_open", "must_answer", "shown"]
