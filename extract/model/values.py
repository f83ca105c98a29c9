"""The values of a draft, each with the words that it rests on: amounts, heats, times, yields."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from extract.model.part import Part


class Evidence(Part):
    """The words a value rests on: ``cue`` is the 0-based index of the cue in the file.

    ``by`` is "reviewer" where the words are a person's answer to a question, which stood at that cue.
    """

    cue: int
    start: float
    end: float
    text: str
    by: str = ""


class Written(Part):
    """Where a line or step stands in a written recipe (1-based line); ``action``: which of its step's actions."""

    line: int
    text: str
    action: int | None = Field(default=None, exclude=True)


class Size(Part):
    """The size of one package or piece, as in "a 14-ounce can"."""

    low: float
    high: float
    unit: str


class Amount(Part):
    """How much: figures with a unit of the closed list in ``lexicons/words/units.tsv``, "" for a plain count.

    ``converted`` is the same amount worked out in another unit, ``basis`` saying from what; ``unscaled`` is
    the amount as it was said, where scaling has changed the figures. ``equivalents``: further measures of the
    same amount where the words themselves give them, as in "225 g (8 oz)".
    """

    low: float
    high: float
    unit: str = ""
    approximate: bool = False
    size: Size | None = None
    converted: Amount | None = None
    unscaled: Amount | None = None
    basis: str = ""
    equivalents: list[Amount] = Field(default_factory=list)


class Heat(Part):
    """One heat setting: a figure with its unit ("" where none was said) or a level in words.

    ``worked_out`` marks an equivalent that nobody said; ``scale_from`` says what settled a bare one's unit.
    """

    kind: Literal["oven", "hob", "oil", "internal", "other"] = "other"
    low: float | None = None
    high: float | None = None
    unit: str = ""
    fan: bool = False
    level: str | None = None
    text: str = ""
    worked_out: bool = False
    scale_from: str = ""
    equivalents: list[Heat] = Field(default_factory=list)


class Duration(Part):
    """How long: ``unit`` is second, minute, hour or day; figures are None for "overnight".

    ``moment``: it tells when within what already cooks, "after two hours I put the beans", not how long.
    """

    low: float | None = None
    high: float | None = None
    unit: str = "minute"
    text: str = ""
    moment: bool = False


class Yield(Part):
    """How many servings, pieces or other units the dish makes; ``also``: the same counted in other things."""

    low: float
    high: float
    unit: str = "servings"
    also: list[Yield] = Field(default_factory=list)
    said: list[Evidence] = Field(default_factory=list)
    written: Written | None = None


class Batch(Part):
    """What was made on camera as a multiple of the normal batch: 2 for a double, 0.5 for a half."""

    factor: float
    said: list[Evidence] = Field(default_factory=list)
    written: Written | None = None


class Span(Part):
    """A part of the recording, in seconds."""

    start: float
    end: float
