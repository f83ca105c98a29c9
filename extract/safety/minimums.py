"""Published minimum core temperatures, and whether what a cook said reaches them."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from extract.lexicon import read_lexicon
from extract.measure.figures import exact

COLUMNS = ("classes", "authority", "food", "detail", "deg_f", "deg_c", "time", "look")
AUTHORITIES = {
    "USDA": ("USDA FSIS", "FoodSafety.gov"),
    "Health Canada": ("Health Canada", "Health Canada 2012"),
    "UK FSA": ("UK FSA",),
}
_BY_MEASURES = {"ca": "Health Canada", "uk": "UK FSA"}
_UK_HOLD = 2  # minutes: of the agency's pairs, the one it names first for home cooks
_MINUTES = {"second": Fraction(1, 60), "minute": Fraction(1), "hour": Fraction(60)}


@dataclass(frozen=True, slots=True)
class Minimum:
    """One row of a published chart. ``deg_f`` and ``deg_c`` are None where the chart gives a look instead."""

    classes: tuple[str, ...]
    authority: str
    deg_f: Fraction | None
    deg_c: Fraction | None
    time: str
    look: str

    def __str__(self) -> str:
        if self.deg_f is None or self.deg_c is None:
            return f"{self.authority}: {self.look}"
        rests = self.authority != "UK FSA"
        time = f" {'with a rest of' if rests else 'for'} {self.time}" if self.time else ""
        look = f", {self.look}" if self.look.startswith("or ") else ""
        return f"{self.authority} {self.deg_f} °F ({round(self.deg_c)} °C){time}{look}"

    def minutes(self) -> Fraction:
        """The hold that goes with the temperature, in minutes; 0 where there is none."""
        words = self.time.removeprefix("at least ").split()
        if len(words) != 2:
            return Fraction(0)
        return exact(words[0]) * _MINUTES[words[1].rstrip("s")]


def authority_for(measures: str) -> str:
    """Whose chart comes first for a cook with these measures: USDA's unless Canadian or British."""
    return _BY_MEASURES.get(measures, "USDA")


@cache
def minimums(food_class: str, authority: str) -> tuple[Minimum, ...]:
    """The rows of an authority's chart for a class of food, the main chart first; () where it has none."""
    wanted = "any" if authority == "UK FSA" else food_class
    rows = [_minimum(row) for row in read_lexicon("safe_temperatures", columns=COLUMNS)]
    named = AUTHORITIES[authority]
    return tuple(row for name in named for row in rows if row.authority == name and wanted in row.classes)


def _minimum(row: dict[str, str]) -> Minimum:
    return Minimum(
        classes=tuple(row["classes"].split(",")),
        authority=row["authority"],
        deg_f=Fraction(row["deg_f"]) if row["deg_f"] else None,
        deg_c=Fraction(row["deg_c"]) if row["deg_c"] else None,
        time=row["time"],
        look=row["look"],
    )


def meets(
    food_class: str, degrees: Fraction, unit: str, authority: str, minutes: Fraction = Fraction(0)
) -> bool | None:
    """Whether a core of ``degrees`` (unit degF or degC) reaches the published minimum; None where none is.

    A figure is held against the chart's figure on the same scale, °C in whole degrees as charts print them.
    Where a chart gives pairs of temperature and hold (UK FSA), any pair will do, and a hold of up to half a
    minute counts as reached. The rest that USDA asks for after cooking is not held against the figure.
    """
    rows = [row for row in minimums(food_class, authority) if row.deg_c is not None and row.deg_f is not None]
    if not rows:
        return None
    if authority == "UK FSA":
        return any(_reaches(row, degrees, unit) and _held(row, minutes) for row in rows)
    return _reaches(rows[0], degrees, unit)


def _reaches(row: Minimum, degrees: Fraction, unit: str) -> bool:
    assert row.deg_c is not None
    assert row.deg_f is not None
    return degrees >= row.deg_f if unit == "degF" else degrees >= round(row.deg_c)


def _held(row: Minimum, minutes: Fraction) -> bool:
    return row.minutes() <= max(minutes, Fraction(1, 2))


def published(food_class: str, authority: str) -> str:
    """The minimum in words, the authority's own first and the other large chart's beside it."""
    if authority == "UK FSA":
        row = next(row for row in minimums(food_class, authority) if row.minutes() == _UK_HOLD)
        return f"{row}, or another of its pairs; {published(food_class, 'USDA')}"
    other = "Health Canada" if authority == "USDA" else "USDA"
    rows = [minimums(food_class, name)[:1] for name in (authority, other)]
    return "; ".join(str(row[0]) for row in rows if row)
