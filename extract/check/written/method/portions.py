"""Shares of what was made, as print gives them: "half of the glaze", "2/3 of it", "the remaining sauce"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from extract.check.written.lines.figures import read_number
from extract.check.written.lines.units import read_unit
from extract.check.written.method.vocabulary import base_verb, is_thing, method_words

_LONGEST = 3


@dataclass(frozen=True, slots=True)
class WrittenShare:
    """A share: ``of`` is what is shared, "" for a pronoun or nothing; ``end`` is the token after it."""

    start: int
    end: int
    fraction: float | Literal["rest", "some", "all"]
    of: str


def find_written_shares(tokens: Sequence[str]) -> list[WrittenShare]:
    """Every share in a sentence, in order."""
    lower = [token.lower() for token in tokens]
    found: list[WrittenShare] = []
    at = 0
    while at < len(lower):
        share = _fraction(lower, at) or _rest(lower, at) or _all(lower, at)
        if share is not None:
            found.append(share)
        at = share.end if share is not None else at + 1
    return found


def _fraction(lower: Sequence[str], at: int) -> WrittenShare | None:
    """ "2/3 of the cheese", "half the dough", "the other half"; "one quarter for the table" where it is put by."""
    number = read_number(lower, at)
    if number is None or not 0 < number[0] < 1 or (at and read_number(lower, at - 1) is not None):
        return None
    value, end = float(number[0]), number[1]
    if read_unit(lower, end) is not None or _is_order(lower, at):
        return None
    after = lower[end] if end < len(lower) else ""
    behind = lower[end + 1] if after == "of" and end + 1 < len(lower) else after
    if behind in method_words("definite"):  # "half of a lemon" is an amount, "half of the dough" a share
        of, stop = _thing(lower, end + (after == "of"))
        return None if lower[stop - 1] in method_words("no thing") else WrittenShare(at, stop, value, of)
    told = (
        after in ("is", "goes") and lower[end + 1 : end + 2] and lower[end + 1] in method_words("share goes")
    )
    kept = after in method_words("share goes") and _puts_by(lower, at)
    other = at > 0 and lower[at - 1] == "other"
    return WrittenShare(at, end, value, "") if told or kept or other else None


def _is_order(lower: Sequence[str], at: int) -> bool:
    """Whether the word tells to cut: "Quarter the eggs" deals out nothing."""
    return base_verb(lower[at]) is not None and (at == 0 or lower[at - 1] in method_words("opens"))


def _rest(lower: Sequence[str], at: int) -> WrittenShare | None:
    """ "The rest of the milk", "the remaining sauce", "the remainder"; no amount that remains."""
    if lower[at] == "remaining":
        of, end = _thing(lower, at + 1)
        told = of and not lower[at + 1][0].isdigit() and of.split()[-1] not in method_words("no share")
        return WrittenShare(at, end, "rest", of) if told else None
    if lower[at] not in ("rest", "remainder") or (lower[at] == "rest" and lower[at - 1 : at] != ["the"]):
        return None
    if lower[at + 1 : at + 2] == ["of"]:
        of, end = _thing(lower, at + 2)
        return WrittenShare(at, end, "rest", of)
    return WrittenShare(at, at + 1, "rest", "")


def _all(lower: Sequence[str], at: int) -> WrittenShare | None:
    """ "All of the garlic"."""
    if lower[at : at + 3] == ["all", "the", "remaining"]:
        of, end = _thing(lower, at + 3)
        return WrittenShare(at, end, "all", of) if of else None
    if lower[at : at + 2] != ["all", "of"]:
        return None
    of, end = _thing(lower, at + 2)
    return WrittenShare(at, end, "all", of) if of else None


def some_of(tokens: Sequence[str]) -> WrittenShare | None:
    """ "Some of the glaze" at the beginning of a list's line; in a sentence it deals out nothing that can be told."""
    if [token.lower() for token in tokens[:3]] != ["some", "of", "the"]:
        return None
    of, end = _thing(tokens, 2)
    return WrittenShare(0, end, "some", of) if of else None


def _thing(tokens: Sequence[str], at: int) -> tuple[str, int]:
    """The noun at ``at`` behind its article, and the index after it; "" for a pronoun."""
    if at < len(tokens) and tokens[at].lower() in method_words("article"):
        at += 1
    end = at
    while end < len(tokens) and end - at < _LONGEST and is_thing(tokens[end].lower()):
        end += 1
    return " ".join(token.lower() for token in tokens[at:end]), max(end, min(at + 1, len(tokens)))


def _puts_by(lower: Sequence[str], at: int) -> bool:
    """Whether a word just before ``at`` keeps something back."""
    return (
        any(word in method_words("puts by") for word in lower[max(0, at - 4) : at]) and lower[at - 1] != "in"
    )
