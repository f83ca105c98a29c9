"""What could hurt an eater: allergens, core temperatures and the usual cautions."""

from extract.safety.allergens import allergen_lines, allergens
from extract.safety.caution import Caution
from extract.safety.cautions import add_cautions, cautions, open_cautions, safety_questions

__all__ = [
    "Caution",
    "add_cautions",
    "allergen_lines",
    "allergens",
    "cautions",
    "open_cautions",
    "safety_questions",
]
