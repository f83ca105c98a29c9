"""The recipe draft: the one file that every command reads and that a person edits.

Times are seconds from the transcript's zero. Amounts are numbers: a range has ``low < high``, a single value
``low == high``. Every value carries the words that support it.

Held by ``tests/draft/test_drafts.py`` and ``test_json_text.py``.
"""

from extract.model.dish import (
    Action,
    Component,
    Conversion,
    Dish,
    Ingredient,
    Portion,
    Question,
    Scaling,
    Step,
    Times,
    Unplaced,
)
from extract.model.draft import FORMAT, RecipeDraft, Reviewed, Source, Talk
from extract.model.part import Part
from extract.model.values import Amount, Batch, Duration, Evidence, Heat, Size, Span, Written, Yield

__all__ = [
    "FORMAT",
    "Action",
    "Amount",
    "Batch",
    "Component",
    "Conversion",
    "Dish",
    "Duration",
    "Evidence",
    "Heat",
    "Ingredient",
    "Part",
    "Portion",
    "Question",
    "RecipeDraft",
    "Reviewed",
    "Scaling",
    "Size",
    "Source",
    "Span",
    "Step",
    "Talk",
    "Times",
    "Unplaced",
    "Written",
    "Yield",
]
