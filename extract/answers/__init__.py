"""Taking the answers to a draft's questions, and writing each into the line, step or fact that it is about.

One function for one answer, one for many; the command, a sheet and a review page all go through them.
"""

from extract.answers.sheet import read_sheet
from extract.answers.taking import Reply, Taken, take_answers, write_in_answers

__all__ = ["Reply", "Taken", "read_sheet", "take_answers", "write_in_answers"]
