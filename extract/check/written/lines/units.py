"""Units as written recipes spell them, from the units lexicon and ``lexicons/words/written_units.tsv``."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from extract.lexicon import read_lexicon

WEIGHTS = frozenset(("ounce", "pound", "gram", "kilogram"))
VOLUMES = frozenset(
    ("teaspoon", "tablespoon", "cup", "fluid_ounce", "pint", "quart", "gallon", "litre", "millilitre")
)
LENGTHS = frozenset(("inch", "centimetre"))
CUPS = frozenset(("teaspoon", "tablespoon", "cup"))
MEASURED = WEIGHTS | VOLUMES | LENGTHS
UNIT_COLUMNS = ("form", "unit", "kind", "times", "note")
WRITTEN_COLUMNS = ("form", "unit", "factor", "case", "after", "keep")
_LONGEST = 3


@dataclass(frozen=True, slots=True)
class WrittenUnit:
    """One spelling of a unit: ``name`` is canonical, one of it is ``factor`` of ``name``.

    ``after``: the word may stand behind its food. ``note``: the word itself where it says more than the unit.
    """

    name: str
    factor: Fraction
    after: bool
    note: str


@cache
def _units() -> dict[str, WrittenUnit]:
    """Every spelling to its unit: lower case for those read in any case, "=T" for those read exactly."""
    found: dict[str, WrittenUnit] = {}
    for row in read_lexicon("units", columns=UNIT_COLUMNS):
        if row["note"] != "misheard" and row["kind"] not in ("time", "temperature"):
            found[row["form"]] = WrittenUnit(row["unit"], Fraction(row["times"]), False, "")
    for row in read_lexicon("written_units", columns=WRITTEN_COLUMNS):
        key = f"={row['form']}" if row["case"] == "exact" else row["form"].lower()
        note = row["form"] if row["keep"] == "yes" else ""
        name = "" if row["unit"] == "-" else row["unit"]
        found[key] = WrittenUnit(name, Fraction(row["factor"]), row["after"] == "yes", note)
    return found


def unit_named(word: str) -> WrittenUnit | None:
    """The unit that one word or short form stands for, None where it is none."""
    units = _units()
    return units.get(f"={word}") or units.get(word.lower())


def ends_in_unit(tokens: Sequence[str]) -> bool:
    """Whether a line's last full stop is that of a short unit: "soy - 1 tbsp."."""
    unit = unit_named(tokens[-2]) if len(tokens) > 1 and tokens[-1] == "." else None
    return unit is not None and unit.name in MEASURED and unit.name != tokens[-2].lower().removesuffix("s")


def read_unit(tokens: Sequence[str], at: int) -> tuple[WrittenUnit, int] | None:
    """The unit at ``at`` and the index after it and its full stop; the longest spelling wins."""
    for length in range(min(_LONGEST, len(tokens) - at), 0, -1):
        words = [token for token in tokens[at : at + length] if token != "."]
        if not words or tokens[at] == ".":
            continue
        unit = unit_named(" ".join(words))
        if unit is None:
            continue
        end = at + length
        return unit, end + (end < len(tokens) and tokens[end] == ".")
    return None
