"""The evidence of what a person put in: their own word, beside the words of the talk."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from extract.model import Evidence, Part

if TYPE_CHECKING:
    from extract.review.edits.forms import Words

REVIEWER = "reviewer"
NO_CUE = -1  # of a reviewer's word where no words of the transcript stand behind the value


def by_reviewer(said: Sequence[Evidence], field: str, text: str, at: float = 0.0) -> list[Evidence]:
    """``said`` with the reviewer's word for ``field`` in place of an earlier one of theirs.

    It stands at the cue and time of the words that it corrects, or at ``at`` where there are none.
    """
    kept = [one for one in said if not (is_reviewers(one) and _extra(one, "field") == field)]
    heard = [one for one in said if not is_reviewers(one)]
    cue, start, end = (heard[0].cue, heard[0].start, heard[0].end) if heard else (NO_CUE, at, at)
    word = Evidence.model_validate(
        {"cue": cue, "start": start, "end": end, "text": text, "by": REVIEWER, "field": field}
    )
    return [*kept, word]


def is_reviewers(evidence: Evidence) -> bool:
    """Whether a person said so, not the recording."""
    return _extra(evidence, "by") == REVIEWER


def fields_by_reviewer(said: Sequence[Evidence]) -> list[str]:
    """The fields of a value that a reviewer has set."""
    return [str(_extra(one, "field") or "") for one in said if is_reviewers(one)]


def from_words(words: Words) -> Evidence:
    """Words chosen in the transcript, as evidence."""
    return Evidence(cue=words.cue, start=words.start, end=words.end, text=words.text)


def starts_at(said: Sequence[Evidence]) -> float | None:
    """When a value was said first, None for what nobody said."""
    return min((one.start for one in said if not is_reviewers(one)), default=None)


def _extra(part: Part, name: str) -> object:
    return getattr(part, name, None)
