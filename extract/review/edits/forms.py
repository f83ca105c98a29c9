"""The edits as they come from the page: one model each, told apart by ``do``; anything else is refused.

Fields that are None are left as they are. Times are seconds, texts as people type them.
"""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

Key = Annotated[str, Field(min_length=1, max_length=40)]
Text = Annotated[str, Field(max_length=4000)]
Seconds = Annotated[float, Field(ge=0, le=1_000_000, allow_inf_nan=False)]


class Form(BaseModel):
    """An edit; frozen, and strict about what it holds."""

    model_config = ConfigDict(extra="forbid", frozen=True)


class Words(Form):
    """Words chosen in the transcript: the cue they begin in, when they were said, and what they are."""

    cue: int = Field(ge=0)
    start: Seconds
    end: Seconds
    text: Text


class SetLine(Form):
    """Correct the fields of an ingredient line."""

    do: Literal["set line"]
    line: Key
    amount: Text | None = None
    name: Text | None = None
    preparation: Text | None = None
    alternatives: Text | None = None
    note: Text | None = None
    optional: bool | None = None


class AddLine(Form):
    """A new line in a part, behind the line ``after`` or at the end; from words of the talk or as typed."""

    do: Literal["add line"]
    part: Key
    after: Key | None = None
    text: Text = ""
    said: Words | None = None


class RemoveLine(Form):
    """Take a line out."""

    do: Literal["remove line"]
    line: Key


class MoveLine(Form):
    """Put a line into ``part`` at place ``at``, counted without it."""

    do: Literal["move line"]
    line: Key
    part: Key
    at: int = Field(ge=0)


class SetPart(Form):
    """Name a part of a dish ("" is the dish itself), or correct the batch that it alone was made in."""

    do: Literal["set part"]
    part: Key
    name: Text | None = None
    batch: Text | None = None


class AddPart(Form):
    """A new, empty part at the end of a dish."""

    do: Literal["add part"]
    dish: Key
    name: Text


class RemovePart(Form):
    """Take out a part that holds nothing any more."""

    do: Literal["remove part"]
    part: Key


class SetShare(Form):
    """Correct or (``remove``) take out a share of something made."""

    do: Literal["set share"]
    share: Key
    fraction: Text | None = None
    of: Text | None = None
    into: Text | None = None
    remove: bool = False


class SetStep(Form):
    """Correct a step's words, the part it belongs to, or its notes (a line each)."""

    do: Literal["set step"]
    step: Key
    text: Text | None = None
    component: Text | None = None
    notes: Text | None = None


class SplitStep(Form):
    """Make two steps of one, the second beginning at the character ``at`` of ``text``."""

    do: Literal["split step"]
    step: Key
    at: int = Field(ge=0)
    text: Text | None = None


class JoinStep(Form):
    """Join a step with the one behind it."""

    do: Literal["join step"]
    step: Key


class MoveStep(Form):
    """Put a step at place ``at`` of its method, counted without it."""

    do: Literal["move step"]
    step: Key
    at: int = Field(ge=0)


class AddStep(Form):
    """A new step behind the step ``after`` or at the end."""

    do: Literal["add step"]
    dish: Key
    after: Key | None = None
    text: Text = ""
    said: Words | None = None


class RemoveStep(Form):
    """Take a step out."""

    do: Literal["remove step"]
    step: Key


class SetDish(Form):
    """Correct what a dish is called, makes, and where it stands in the recording (as typed)."""

    do: Literal["set dish"]
    dish: Key
    title: Text | None = None
    makes: Text | None = None
    batch: Text | None = None
    start: Text | None = None
    end: Text | None = None


class JoinDish(Form):
    """Join a dish with the one behind it."""

    do: Literal["join dish"]
    dish: Key


class CutDish(Form):
    """Make two dishes of one: what was said from ``at`` on goes to the second."""

    do: Literal["cut dish"]
    dish: Key
    at: Seconds
    title: Text = ""


class Confirm(Form):
    """Say that fields of a line, a share or a step are right as they stand."""

    do: Literal["confirm"]
    item: Key
    fields: Annotated[list[Literal["name", "amount", "fraction", "text"]], Field(min_length=1, max_length=4)]


class LeaveOut(Form):
    """Take a stretch out of a dish as no recipe, with what rests on its words alone."""

    do: Literal["leave out"]
    dish: Key
    start: Seconds
    end: Seconds
    reason: Text = "talk"


class DropDish(Form):
    """Take a whole dish out as no recipe."""

    do: Literal["drop dish"]
    dish: Key
    reason: Text = "talk"


class AddDish(Form):
    """A dish that was missed: a stretch of the recording that is one of its own."""

    do: Literal["add dish"]
    start: Seconds
    end: Seconds
    title: Text = ""


class TakeIn(Form):
    """Count a stretch to a dish, with what another dish has of it."""

    do: Literal["take in"]
    dish: Key
    start: Seconds
    end: Seconds


class NameTalk(Form):
    """Say why a stretch is left out."""

    do: Literal["name talk"]
    start: Seconds
    end: Seconds
    reason: Annotated[str, Field(min_length=1, max_length=40)]


class Answer(Form):
    """Answer a question: the answer is put where it belongs, and kept with the question."""

    do: Literal["answer"]
    question: Key
    text: Text
    said: Words | None = None


class Review(Form):
    """Mark the draft as reviewed by ``by``, or (``clear``) not."""

    do: Literal["review"]
    by: Annotated[str, Field(max_length=200)] = ""
    clear: bool = False


AnyEdit = Annotated[
    SetLine
    | AddLine
    | RemoveLine
    | MoveLine
    | SetPart
    | AddPart
    | RemovePart
    | SetShare
    | SetStep
    | SplitStep
    | JoinStep
    | MoveStep
    | AddStep
    | RemoveStep
    | SetDish
    | JoinDish
    | CutDish
    | Confirm
    | LeaveOut
    | DropDish
    | AddDish
    | TakeIn
    | NameTalk
    | Answer
    | Review,
    Field(discriminator="do"),
]
