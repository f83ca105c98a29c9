"""What could hurt an eater: allergens, core temperatures and the usual cautions."""

from extract.safety.allergens import allergen_lines, by_allergen
from extract.safety.caution import Caution
from extract.safety.cautions import (
    at_line,
    at_step,
    caution_questions,
    cautions,
    cautions_of_draft,
)

__all__ = [
    "Caution",
    "allergen_lines",
    "at_line",
    "at_step",
    "by_allergen",
    "caution_questions",
    "cautions",
    "cautions_of_draft",
]
