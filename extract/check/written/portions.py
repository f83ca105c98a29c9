"""Shares of what was made, as print gives them: "half of the glaze", "2/3 of it", "the remaining sauce"."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from extract.check.written.figures import read_number
from extract.check.written.plain_doc import as_doc
from extract.check.written.units import read_unit
from extract.check.written.vocabulary import is_thing, method_words
from extract.spot.shares import find_shares

_LONGEST = 3


@dataclass(frozen=True, slots=True)
class WrittenShare:
    """A share: ``of`` is what is shared, "" for a pronoun or nothing; ``end`` is the token after it."""

    start: int
    end: int
    fraction: float | Literal["rest", "some", "all"]
    of: str


def find_written_shares(tokens: Sequence[str]) -> list[WrittenShare]:
    """Every share in a sentence, in order: those that speech has too, and those of print alone."""
    found = {share.start: share for share in _as_spoken(tokens)}
    for share in (*_figures(tokens), *_whole(tokens)):
        found.setdefault(share.start, share)
    return [found[start] for start in sorted(found)]


def _as_spoken(tokens: Sequence[str]) -> Iterator[WrittenShare]:
    for share in find_shares(as_doc(list(tokens)), []):
        if share.of == "" and share.end < len(tokens) and tokens[share.end][0].isdigit():
            continue  # "the remaining 1/2 cup soy sauce" is an amount
        fraction = share.fraction if isinstance(share.fraction, str) else float(share.fraction)
        yield WrittenShare(share.start, share.end, fraction, share.of)


def _figures(tokens: Sequence[str]) -> Iterator[WrittenShare]:
    """ "2/3 of the cheese", and "set aside one quarter for the table", where nothing is named behind it."""
    lower = [token.lower() for token in tokens]
    for at in range(len(lower)):
        number = read_number(lower, at)
        if number is None or not 0 < number[0] < 1 or read_unit(tokens, number[1]) is not None:
            continue
        if at and read_number(lower, at - 1) is not None:
            continue
        value, end = float(number[0]), number[1]
        if end < len(lower) and lower[end] == "of":
            of, stop = _thing(tokens, end + 1)
            if lower[stop - 1] not in method_words("no thing"):  # "a quarter of an hour"
                yield WrittenShare(at, stop, value, of)
        elif end < len(lower) and lower[end] in method_words("share goes") and _puts_by(lower, at):
            yield WrittenShare(at, end, value, "")


def _whole(tokens: Sequence[str]) -> Iterator[WrittenShare]:
    """ "all of the garlic"."""
    for at in range(len(tokens) - 2):
        if tokens[at].lower() == "all" and tokens[at + 1].lower() == "of":
            of, end = _thing(tokens, at + 2)
            if of:
                yield WrittenShare(at, end, "all", of)


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
