"""A dish of a draft: lines by part, shares, the method, questions."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from extract.model.part import Part
from extract.model.values import Amount, Batch, Duration, Evidence, Heat, Span, Written, Yield


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
