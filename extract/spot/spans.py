"""What spotting finds in the words, each a frozen span of tokens (``end`` exclusive)."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

HeatKind = Literal["oven", "hob", "oil", "internal", "other"]
CountForm = Literal["stated", "bare", "cut", "table", "everywhere"]


@dataclass(frozen=True, slots=True)
class Number:
    """A number or a range as spoken or written: ``low == high`` for a single value."""

    start: int
    end: int
    low: Fraction
    high: Fraction
    approximate: bool = False


@dataclass(frozen=True, slots=True)
class Amount:
    """How much of a food the words say.

    ``unit`` is canonical ("" for a plain count). ``low`` is None for words that give no amount ("some", "a
    few", "a bit of"), which are kept because they mark their food as put in. ``size`` is (low, high, unit) of
    one package or piece. ``each``: shared by several foods ("a teaspoon each of"). ``again``: the same as the
    amount before ("the same weight again"); figures are None until the ledger resolves them. ``more``: a
    further amount of a food already in ("another tablespoon"). ``slips``: the amounts that a correction on
    camera replaced, in order.
    """

    start: int
    end: int
    low: Fraction | None
    high: Fraction | None
    unit: str = ""
    approximate: bool = False
    size: tuple[Fraction, Fraction, str] | None = None
    each: bool = False
    again: bool = False
    more: bool = False
    slips: tuple[Amount, ...] = ()


@dataclass(frozen=True, slots=True)
class Duration:
    """How long; figures are None for "overnight". ``unit`` is second, minute, hour or day."""

    start: int
    end: int
    low: Fraction | None
    high: Fraction | None
    unit: str
    text: str
    approximate: bool = False


@dataclass(frozen=True, slots=True)
class HeatSetting:
    """One setting of oven, hob, oil or core; a figure with ``unit`` degF, degC, gas_mark or "", or a level."""

    start: int
    end: int
    kind: HeatKind
    low: Fraction | None
    high: Fraction | None
    unit: str
    level: str | None
    text: str
    fan: bool = False
    equivalents: tuple[HeatSetting, ...] = ()


@dataclass(frozen=True, slots=True)
class Food:
    """A food as named. ``name`` is canonical; ``mended`` holds the words as heard where they were misheard.

    ``known`` is false for a food found by its place in the sentence alone. ``head`` is the last word of the
    name. ``state`` holds words such as "cooked", "dried"; ``preparation`` such as "finely chopped".
    ``plural``: the cook named it in the plural ("carrots"); ``name`` itself is singular where that is natural.
    ``out_of``: the food that it was got out of, where only that was named ("the juice of those lemons").
    """

    start: int
    end: int
    name: str
    head: str
    known: bool = True
    mended: str = ""
    state: str = ""
    preparation: str = ""
    kinds: frozenset[str] = field(default_factory=frozenset)
    plural: bool = False
    out_of: str = ""


@dataclass(frozen=True, slots=True)
class Count:
    """A yield ("serves four to six", "makes 12 pancakes") or a batch factor ("I'm doubling this").

    ``form``: how plainly it was said. A yield is stated, bare ("Eight wedges.": it may count something else),
    cut ("cut it in eight": it may be served otherwise) or of a whole table ("dinner for six"). A batch is
    stated, or everywhere where the cook said it of the whole show.
    """

    start: int
    end: int
    low: Fraction
    high: Fraction
    unit: str
    form: CountForm = "stated"


@dataclass(frozen=True, slots=True)
class Share:
    """A share of something made: "half of that dressing", "the rest", "reserve a third of it".

    ``fraction`` is exact, or "rest", "some", "all" as said. ``of`` is the head noun of what is shared, "" for a
    pronoun or nothing at all. ``measure`` is set where the share is an amount ("a cup of the stock"); with
    ``fraction`` "all" it is what is held back ("all but a quarter cup"). ``of_rest``: a share of what is left.
    ``kept``: put by for later; ``gone``: leaves the dish (into the freezer, a jar, tomorrow's breakfast).
    ``other``: "the other half"; ``further``: "another third", "the last third"; ``known``: "that third", one that
    was told before. ``into``: where it goes. ``meant``: where no thing is named, the one that the reader takes it for.
    """

    start: int
    end: int
    fraction: Fraction | Literal["rest", "some", "all"]
    of: str = ""
    kept: bool = False
    gone: bool = False
    other: bool = False
    into: str = ""
    measure: Amount | None = None
    of_rest: bool = False
    known: bool = False
    further: bool = False
    meant: str = ""


@dataclass(frozen=True, slots=True)
class MadeName:
    """A made thing as it is named once: ``name`` with the words that tell it from others, ``head`` its noun.

    ``sure`` is false for a word that is as often something bought (a stock, a butter); ``dish`` marks a finished dish.
    """

    start: int
    end: int
    name: str
    head: str
    sure: bool = True
    dish: bool = False
