"""What a check finds: differences with both sides' words, and agreements with the reason."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from pydantic import BaseModel, Field

Kind = Literal[
    "amount",
    "unit",
    "missing",
    "extra",
    "alternative",
    "optional",
    "portion",
    "temperature",
    "time",
    "order",
    "yield",
    "batch",
    "component",
]
Weight = Literal["changes the dish", "worth a look", "wording"]
WEIGHTS: tuple[Weight, ...] = ("changes the dish", "worth a look", "wording")


class Difference(BaseModel):
    """One thing that the recording and the written recipe do not say alike; neither side is called right.

    ``start``: seconds into the recording; ``line``: 1-based line of the written file; None for no place.
    """

    kind: Kind
    about: str
    said: str = ""
    written: str = ""
    weight: Weight
    start: float | None = None
    line: int | None = None


class Agreement(BaseModel):
    """One thing that both sides say, perhaps in other words; ``why`` says how they are the same."""

    about: str
    said: str = ""
    written: str = ""
    why: str
    start: float | None = None
    line: int | None = None


Finding = Difference | Agreement
Texts = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Place:
    """Where a finding stands: the moment in the recording and the line of the written file.

    ``texts`` of its methods are the words of the said and of the written side, "" where a side has none.
    """

    start: float | None = None
    line: int | None = None

    def agree(self, about: str, texts: Texts, why: str) -> Agreement:
        """Both sides say the same, for the reason ``why``."""
        return Agreement(
            about=about, said=texts[0], written=texts[1], why=why, start=self.start, line=self.line
        )

    def differ(self, kind: Kind, about: str, texts: Texts, weight: Weight) -> Difference:
        """The sides say different things, or only one says anything."""
        return Difference(
            kind=kind,
            about=about,
            said=texts[0],
            written=texts[1],
            weight=weight,
            start=self.start,
            line=self.line,
        )


class Report(BaseModel):
    """The whole check of one dish; ``written`` is the other side's title.

    ``doubt`` says why the two may be different dishes, "" where nothing speaks for it.
    """

    dish: str
    written: str = ""
    doubt: str = ""
    differences: list[Difference] = Field(default_factory=list)
    agreements: list[Agreement] = Field(default_factory=list)
