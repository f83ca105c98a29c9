"""What could hurt an eater: allergens, core temperatures and the usual cautions."""

from extract.safety.allergens import allergen_lines, allergens
from extract.safety.caution import Caution
from extract.safety.cautions import (
    add_cautions,
    at_line,
    at_step,
    caution_questions,
    cautions,
    cautions_of_draft,
    open_cautions,
)

__all__ = [
    "Caution",
    "add_cautions",
    "allergen_lines",
    "allergens",
    "at_line",
    "at_step",
    "caution_questions",
    "cautions",
    "cautions_of_draft",
    "open_cautions",
]
