"""The published recipe: one dish as its readers get it, built once and handed to every writer.

Everything here is text ready to print, free of control characters, with the figures that a program needs beside it.
Moments are seconds from the transcript's zero, None where the recording has no times or nothing was said.
"""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Line:
    """One line of the ingredient list.

    ``amount``: "1 1/2 cups", "" where none was said; ``other``: the same in the other kitchen's measure, "360 ml".
    ``choices``: what may stand in; ``note``: a note for the reader; ``start``: when it was said.
    """

    name: str
    amount: str = ""
    other: str = ""
    preparation: str = ""
    choices: tuple[str, ...] = ()
    optional: bool = False
    divided: bool = False
    note: str = ""
    start: float | None = None


@dataclass(frozen=True, slots=True)
class Share:
    """A share of something made on the way: ``text`` "Half of the glaze", ``size`` "about 169 ml", ``into`` where."""

    text: str
    size: str = ""
    into: str = ""


@dataclass(frozen=True, slots=True)
class Part:
    """A part of the dish with its own ingredient lines; the dish itself has the name ""."""

    name: str
    lines: tuple[Line, ...] = ()
    shares: tuple[Share, ...] = ()


@dataclass(frozen=True, slots=True)
class Step:
    """One numbered step, with the stretch of the recording in which it is shown."""

    number: int
    text: str
    notes: tuple[str, ...] = ()
    start: float | None = None
    end: float | None = None
    ahead: bool = False


@dataclass(frozen=True, slots=True)
class Section:
    """Steps that follow one another on one part of the dish; ``name`` is "" where none is needed.

    ``part`` is the part of the dish as the ingredient list has it.
    """

    name: str
    steps: tuple[Step, ...]
    part: str = ""


@dataclass(frozen=True, slots=True)
class Time:
    """How long something takes: ``iso`` an ISO 8601 duration, ``least`` where parts of the work have no said time."""

    label: str
    iso: str
    words: str
    least: bool


@dataclass(frozen=True, slots=True)
class Asked:
    """A question to the cook that is still open; ``must``: the recipe should not go out without the answer.

    ``about``: the food or thing, of ``part`` ("" for any); ``step``: the number of the step that it is about, None
    where it is about none.
    """

    text: str
    about: str
    must: bool
    start: float | None = None
    part: str = ""
    step: int | None = None


@dataclass(frozen=True, slots=True)
class Diet:
    """A diet that a person says the dish suits: schema.org's member and the words for it."""

    member: str
    words: str


@dataclass(frozen=True, slots=True)
class Recipe:
    """One dish. ``makes`` is the label and what it makes ("Serves", "4–6"), None where nothing was said.

    ``times``: by "preparation", "cooking" and "total". ``notices``: what a reader has to know before the list (a
    double batch, an unreviewed text); ``notes``: what stands after the method. ``stretches``: the parts of the
    recording in which it is cooked, in order. ``show``: the transcript's name without its suffix. ``editor`` and
    ``reviewed``: who looked through the draft and when (ISO 8601), "" where nobody has.
    """

    title: str
    show: str = ""
    makes: tuple[str, str] | None = None
    times: dict[str, Time] = field(default_factory=dict)
    notices: tuple[str, ...] = ()
    parts: tuple[Part, ...] = ()
    sections: tuple[Section, ...] = ()
    equipment: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    allergens: tuple[str, ...] = ()
    allergen_note: str = ""
    cautions: tuple[str, ...] = ()
    diets: tuple[Diet, ...] = ()
    questions: tuple[Asked, ...] = ()
    stretches: tuple[tuple[float, float], ...] = ()
    timed: bool = True
    editor: str = ""
    reviewed: str = ""

    @property
    def lines(self) -> tuple[Line, ...]:
        """Every ingredient line, part by part."""
        return tuple(line for part in self.parts for line in part.lines)

    @property
    def steps(self) -> tuple[Step, ...]:
        """Every step, in order."""
        return tuple(step for section in self.sections for step in section.steps)


@dataclass(frozen=True, slots=True)
class Edition:
    """What a writer gets: the recipes of one file, and where the recording can be seen ("" if nowhere)."""

    recipes: tuple[Recipe, ...]
    media_url: str = ""
