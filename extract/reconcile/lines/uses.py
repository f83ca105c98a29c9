"""What the reader makes of each mention of a food: a line of the list, a word on one, a stand-in, or talk."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from extract.reader.labels import THINGS
from extract.spot.mentions.mention import Mention
from extract.spot.verbs.words import words

if TYPE_CHECKING:
    from spacy.tokens import Doc

    from extract.reader.reading import Reading

NEW, GOES_ON, AGAIN, INSTEAD = (THINGS.index(name) for name in ("food", "food+", "again", "instead"))


@dataclass(frozen=True, slots=True)
class Use:
    """One mention of a food with the likelihood that it is a line of its own, a further word on one, or a stand-in.

    ``put_in``: how likely the words put it in rather than name it among what is needed. ``definite``: "the flour".
    ``optional``: how likely it is only suggested.
    """

    mention: Mention
    line: float
    again: float
    instead: float
    put_in: bool
    definite: bool
    optional: float

    @property
    def score(self) -> float:
        """How likely it goes in, here or where it was named before."""
        return self.line + self.again


def judge(doc: Doc, reading: Reading, mentions: Sequence[Mention]) -> list[Use]:
    """The use of each mention, in order."""
    return [_use(doc, reading, mention) for mention in mentions]


def _use(doc: Doc, reading: Reading, mention: Mention) -> Use:
    food = mention.food
    at = reading.head_of(food.start, food.end)
    line, again, instead = (
        float(reading.things[at, columns].sum()) for columns in ([NEW, GOES_ON], [AGAIN], [INSTEAD])
    )
    before = [doc[i].lower_ for i in range(max(0, mention.start - 2), mention.start)]
    put_in = reading.role_of(food.start, food.end, "do", "ahead") >= 0.5
    definite = any(word in words("definite") for word in before)
    return Use(mention, line, again, instead, put_in, definite, float(reading.optional[at]))
