"""What a stranger would have to ask of a draft, most important first, worded for the cook."""

from extract.draft.questions.answers import carry_answers
from extract.draft.questions.ranking import MUST, find_questions, is_open, must_answer

__all__ = ["MUST", "carry_answers", "find_questions", "is_open", "must_answer"]
