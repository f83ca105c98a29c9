"""The whole draft of a show: its dishes, its talk, where it comes from."""

from __future__ import annotations

from typing import Any

from pydantic import Field

from extract.json_text import json_text
from extract.model.dish import Dish, Unplaced
from extract.model.part import Part

FORMAT = "recipe-draft/1"


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
