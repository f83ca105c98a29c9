"""The recipe draft: the one file that every command reads and that a person edits.

Times are seconds from the transcript's zero. Amounts are numbers: a range has ``low < high``, a single value
``low == high``. Every value carries the words that support it.
"""

from __future__ import annotations

from functools import cache
from typing import Any, Literal

from pydantic import BaseModel, ConfigDict, Field

from extract.json_text import json_text

FORMAT = "recipe-draft/1"
_REQUIRED = object()


class Part(BaseModel):
    """A piece of a draft. Fields of later versions and of people's own are kept, not dropped."""

    model_config = ConfigDict(extra="allow", populate_by_name=True, allow_inf_nan=False)

    def lean(self) -> dict[str, Any]:
        """The piece as plain values under the file's own names, without fields that are empty or tell nothing.

        Reading gives the same piece back. Fields of people's own are kept whatever they hold. Whole numbers are
        written without a decimal point.
        """
        kept: dict[str, Any] = {}
        for name, written, default in _fields(type(self)):
            value = getattr(self, name)
            if not _is_plain(value, default):
                kept[written] = _lean(value)
        return {**kept, **(self.model_extra or {})}


@cache
def _fields(part: type[Part]) -> tuple[tuple[str, str, Any], ...]:
    """Each field's name, its name in the file, and the value it has where none is given (``_REQUIRED`` for none)."""
    return tuple(
        (
            name,
            field.alias or name,
            _REQUIRED if field.is_required() else field.get_default(call_default_factory=True),
        )
        for name, field in part.model_fields.items()
    )


def _is_plain(value: Any, default: Any) -> bool:
    """Whether a value is the one its field has anyway, and tells nothing: no words, no figure."""
    tells = isinstance(value, float) or (isinstance(value, str) and value)
    return not tells and default is not _REQUIRED and bool(value == default)


def _lean(value: Any) -> Any:
    if isinstance(value, Part):
        return value.lean()
    if isinstance(value, list):
        return [_lean(each) for each in value]
    return int(value) if isinstance(value, float) and value.is_integer() else value


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
    """How much: figures with a unit of the closed list in ``lexicons/units.tsv``, "" for a plain count.

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


class Ingredient(Part):
    """One line of an ingredient list: a food and one use of it. ``amount`` is None where none was said.

    ``heard`` holds the words as they stand in the transcript where the name was mended; ``known`` is false for
    a food that no lexicon holds. ``divided``: one line that is put to several uses ("6 tablespoons of butter,
    divided"). ``counted_in``: the cook's words for a count of what is no measure, "three spoons".
    """

    name: str
    amount: Amount | None = None
    preparation: str = ""
    optional: bool = False
    alternatives: list[str] = Field(default_factory=list)
    note: str = ""
    heard: str = ""
    known: bool = True
    divided: bool = False
    counted_in: str = ""
    said: list[Evidence] = Field(default_factory=list)
    written: Written | None = None


class Portion(Part):
    """A share taken from something made: a number, or "rest", "some", "all" as the cook said it.

    ``millilitres`` or ``grams`` of it where what was put in adds up; where that is a range, they are its low end
    and ``millilitres_high`` or ``grams_high`` its high one.
    """

    fraction: float | Literal["rest", "some", "all"]
    of: str
    into: str = ""
    millilitres: float | None = None
    millilitres_high: float | None = None
    grams: float | None = None
    grams_high: float | None = None
    said: list[Evidence] = Field(default_factory=list)
    written: Written | None = None


class Component(Part):
    """A part of a dish with its own ingredient lines: "pastry", "dressing"; the main one has the name "".

    ``portions`` are shares used in the show, ``leftovers`` those that leave it (frozen, kept for another day).
    ``batch`` stands here where this part alone was made as a multiple of its normal batch; ``scaled_by`` is the
    factor ("1/2") by which it has been brought back to that, "" where it has not.
    """

    name: str = ""
    batch: Batch | None = None
    scaled_by: str = ""
    ingredients: list[Ingredient] = Field(default_factory=list)
    portions: list[Portion] = Field(default_factory=list)
    leftovers: list[Portion] = Field(default_factory=list)


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


class Action(Part):
    """One thing the cook does. ``verb`` is the cook's own, as a lemma; objects have references resolved.

    ``negated``: one that is not to be done, "don't knead it".
    """

    verb: str
    objects: list[str] = Field(default_factory=list)
    place: list[str] = Field(default_factory=list)
    with_: list[str] = Field(default_factory=list, alias="with")
    heat: Heat | None = None
    duration: Duration | None = None
    until: str | None = None
    negated: bool = False
    said: list[Evidence] = Field(default_factory=list)


class Step(Part):
    """One numbered step of the method; ``as_said``: its words before its amounts were scaled or converted."""

    text: str
    as_said: str = ""
    component: str = ""
    actions: list[Action] = Field(default_factory=list)
    notes: list[str] = Field(default_factory=list)
    said: list[Evidence] = Field(default_factory=list)
    written: Written | None = None


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


class Question(Part):
    """Something that a person has to answer, worded so that it can be read out to the cook.

    ``id``: short, and the same over later runs. ``part``: the component that it is about. ``weight``: how much is
    lost without an answer, from 0 to 100; 0 where it has not been weighed.
    """

    id: str = ""
    kind: str
    about: str
    part: str = ""
    text: str
    answer: str | None = None
    weight: int = 0
    said: list[Evidence] = Field(default_factory=list)


class Unplaced(Question):
    """A question that was answered, kept without its dish: ``dish`` is the title that it had."""

    dish: str = ""


class Times(Part):
    """How long a dish takes, as ISO 8601 durations ("PT1H25M"), None where no time was said.

    ``active`` and ``waiting`` share out the said times by whether the cook's hands are needed; ``preparation`` and
    ``cooking`` share them out by whether heat is on. ``at_least``: parts of the work have no said time, so every
    figure is a least one.
    """

    active: str | None = None
    waiting: str | None = None
    preparation: str | None = None
    cooking: str | None = None
    total: str | None = None
    at_least: bool = True


class Scaling(Part):
    """By how much a dish was made larger or smaller ("3/2"), and what a cook has to think of."""

    by: str
    notes: list[str] = Field(default_factory=list)


class Conversion(Part):
    """The measures a dish was put into, whose measures the cook's were taken for, and what to know of it."""

    to: str
    measures: str = ""
    notes: list[str] = Field(default_factory=list)


class Span(Part):
    """A part of the recording, in seconds."""

    start: float
    end: float


class Dish(Part):
    """One dish of a show. ``stretches`` are the parts of the recording in which it is cooked, in order.

    ``diets`` are those that a person says it suits ("vegan"); the program never sets one.
    """

    title: str
    start: float = 0.0
    end: float = 0.0
    stretches: list[Span] = Field(default_factory=list)
    yield_: Yield | None = Field(default=None, alias="yield")
    batch: Batch | None = None
    components: list[Component] = Field(default_factory=list)
    method: list[Step] = Field(default_factory=list)
    equipment: list[str] = Field(default_factory=list)
    times: Times | None = None
    diets: list[str] = Field(default_factory=list)
    questions: list[Question] = Field(default_factory=list)
    scaling: Scaling | None = None
    conversion: Conversion | None = None


class Talk(Part):
    """A stretch of the recording that is no recipe, and why."""

    start: float
    end: float
    reason: str


class Source(Part):
    """The transcript a draft was made from."""

    file: str
    sha256: str
    start: float = 0.0
    end: float = 0.0
    cues: int = 0
    timed: bool = True


class Reviewed(Part):
    """That a person has looked the draft through: ``by`` a name, ``at`` an ISO 8601 time, ``draft`` its digest."""

    by: str
    at: str = ""
    draft: str = ""


class RecipeDraft(Part):
    """Every dish of one recording. ``measures`` is whose measures the cook speaks, where that is settled.

    ``unplaced``: questions that were answered in an earlier draft, of dishes that are no longer there. ``reviewed``: by
    a person, and when.
    """

    format: str = FORMAT
    source: Source
    dishes: list[Dish] = Field(default_factory=list)
    talk: list[Talk] = Field(default_factory=list)
    measures: str = ""
    unplaced: list[Unplaced] = Field(default_factory=list)
    reviewed: Reviewed | None = None

    def to_json(self) -> str:
        """The draft as it stands in a file: JSON with a newline at the end, fields that are empty left out."""
        return json_text(self.lean())

    def to_dict(self) -> dict[str, Any]:
        """The draft as plain values, with the file's own field names."""
        return self.model_dump(mode="json", by_alias=True)
