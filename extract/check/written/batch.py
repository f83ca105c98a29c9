"""What a written recipe says of its batch: "these amounts make a double batch"."""

from __future__ import annotations

import re
from fractions import Fraction

from extract.check.written.lines.tokens import plain

_SIZES = {
    "half": 0.5,
    "halve": 0.5,
    "double": 2.0,
    "twice": 2.0,
    "triple": 3.0,
    "treble": 3.0,
    "third": 1 / 3,
}
_SIZE = "|".join(_SIZES)
_WHOLE = re.compile(
    rf"\b(?:full|single|normal|usual|ordinary|home) batch\b\W+(?:\w+\W+){{0,3}}?({_SIZE})\b", re.IGNORECASE
)
_TIMES = re.compile(
    r"(?<![\d/])(\d+(?: \d+/\d+)?|\d+/\d+) times the (?:full|single|normal|usual|ordinary) batch\b",
    re.IGNORECASE,
)
_MADE = re.compile(rf"\b({_SIZE})(?:-sized?)? (?:a )?(?:the )?batch\b", re.IGNORECASE)
_FOR_MORE = re.compile(r"\bfor an?\b|\bto make an?\b", re.IGNORECASE)


def read_batch(text: str) -> float | None:
    """How many normal batches the written amounts make, None where the text does not say.

    "For the full batch, use half" means that the amounts make two; "this is a half batch" that they make half
    of one. What is said of making more ("for a double batch, ...") tells nothing of the amounts themselves.
    """
    words = plain(text)
    if match := _WHOLE.search(words):
        return 1 / _SIZES[match[1].lower()]
    if match := _TIMES.search(" ".join(words.split())):
        return float(sum(map(Fraction, match[1].split())))
    match = _MADE.search(words)
    if match is None or _FOR_MORE.search(words[max(0, match.start() - 12) : match.start()]):
        return None
    return _SIZES[match[1].lower()]
