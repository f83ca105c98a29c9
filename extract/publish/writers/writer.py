"""What a writer is: a form in which recipes are published."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from extract.publish.recipe import Edition


@dataclass(frozen=True, slots=True)
class Writer:
    """A form of publication.

    ``suffix``: how its files end (".html"). ``write``: the whole file as text or bytes. ``each``: a file for each
    "dish", for each "show" (a draft), or one for "all" that was asked for. ``timed``: it puts things at moments
    of the recording and has nothing to say of one without times.
    """

    suffix: str
    write: Callable[[Edition], str | bytes]
    each: Literal["dish", "show", "all"] = "dish"
    timed: bool = False
