"""What a reviewer can do to a draft: pure functions, each from a draft and an edit to another draft."""

from extract.review.edits.applying import Done, apply, read_edit

__all__ = ["Done", "apply", "read_edit"]
