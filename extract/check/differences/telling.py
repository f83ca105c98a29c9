"""What findings about lines tell: where they stand, what they are called, the texts of both sides."""

from __future__ import annotations

from extract.check.pairs.pairing import Line, Pair
from extract.check.report import Place
from extract.check.words import first_moment, line_text
from extract.check.written.lines.words import words_of
from extract.spot.names.foods import canonical


def place_of(said: Line | None, written: Line | None) -> Place:
    """Where two lines stand, either of which may be lacking."""
    number = written.ingredient.written.line if written and written.ingredient.written else None
    return Place(first_moment(said.ingredient.said) if said else None, number)


def plain_name(name: str) -> str:
    """A food's name without words that only say how it is: "cold water" is "water"."""
    words = name.split()
    while len(words) > 1 and (
        words[0] in words_of("bare") or canonical(" ".join(words[1:])) == canonical(name)
    ):
        words = words[1:]
    return " ".join(words)


def texts_of(pair: Pair) -> tuple[str, str]:
    """What either side has of a pair, several lines joined by "+"."""
    said, written = (
        " + ".join(line_text(line.ingredient) for line in lines) for lines in (pair.said, pair.written)
    )
    return said, written
