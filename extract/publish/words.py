"""Times, shares and yields in the words of a page."""

from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta
from typing import TYPE_CHECKING

from extract.measure.figures import exact, mixed
from extract.measure.kitchen import amount_words
from extract.measure.moments import clock
from extract.spot.names.foods import word_key
from extract.spot.shares.words import fraction_names

if TYPE_CHECKING:
    from extract.model import Amount, Ingredient, Yield

__all__ = [
    "batch_words",
    "capital",
    "clock",
    "iso_words",
    "minutes",
    "moment",
    "share_words",
    "without_own_unit",
    "yield_count",
    "yield_words",
]

PEOPLE = frozenset({"people", "person", "servings", "serving", "portions", "portion"})

_NEAR = 0.005  # two shares nearer than this are one in a kitchen
_FEW = 4  # a number below this may be of halves, thirds or quarters
WORDS = {"rest": "the rest of", "some": "some of", "all": "all of"}


def moment(seconds: float) -> str:
    """A moment as a Markdown link, "[3:42](#t=222)": W3C Media Fragments' form for a time in a recording."""
    return f"[{clock(seconds)}](#t={int(seconds)})"


def capital(text: str) -> str:
    """Text with its first letter in upper case and the rest as it was."""
    return text[:1].upper() + text[1:]


def share_words(share: float | str) -> str:
    """A share in words: "Half of", "A fifth of", "The rest of"; a number without a common name in per cent."""
    if isinstance(share, str):
        return capital(WORDS.get(share, f"{share} of"))
    names = fraction_names()
    near = min(names, key=lambda known: abs(known - share))
    if abs(near - share) < _NEAR:
        return capital(f"{names[near]} of")
    return f"{100 * share:.0f} % of"


def yield_words(made: Yield) -> str:
    """What a dish makes: "Serves: 4–6", "Makes: 24 pies"."""
    label = "Serves" if made.unit in PEOPLE else "Makes"
    return f"{label}: {yield_count(made)}"


def yield_count(made: Yield) -> str:
    """How many it makes, of people without the word: "4–6", "24 pies"; "about 4 slices" for the 3.7 of scaling."""
    ends = [exact(end) for end in (made.low, made.high)]
    plain = all(end.denominator == 1 or (end < _FEW and end.denominator <= _FEW) for end in ends)
    low, high = (mixed(end) if plain else str(max(1, round(end))) for end in ends)
    count = low if low == high else f"{low}–{high}"
    count = count if plain else f"about {count}"
    return count if made.unit in PEOPLE else f"{count} {made.unit}".rstrip()


def batch_words(factor: float) -> str:
    """A batch in words: "a double batch", "a half batch", "3 times the normal batch"."""
    named = {2.0: "a double batch", 0.5: "a half batch"}
    return named.get(factor, f"{mixed(exact(factor))} times the normal batch")


def line_words(line: Ingredient, printed: Callable[[Amount], str] = amount_words) -> tuple[str, str, str]:
    """A line's amount and name as they are printed, and what a worked-out count needs beside them, or "".

    ``printed``: how an amount that is no such count is put in words.
    """
    from extract.measure.counted import counted, is_counted, name_in_number

    if line.amount is None:
        return "", line.name, ""
    if not is_counted(line.amount):
        return printed(without_own_unit(line)), line.name, ""
    found = counted(line)
    bare = not line.amount.unit or word_key(line.name.split()[-1]) == line.amount.unit
    name = name_in_number(line.name, many=found.many) if bare else line.name
    return found.words, name, found.aside


def without_own_unit(line: Ingredient) -> Amount:
    """The amount as it is printed before the name: "1 bay leaf", not "1 leaf bay leaf"."""
    amount = line.amount
    assert amount is not None
    own = bool(amount.unit) and word_key(line.name.split()[-1]) == amount.unit
    return amount.model_copy(update={"unit": ""}) if own else amount


def minutes(duration: str) -> int:
    """The whole minutes of an ISO 8601 duration."""
    import isodate

    span = isodate.parse_duration(duration)
    return int((span if isinstance(span, timedelta) else span.totimedelta(start=None)).total_seconds()) // 60


def iso_words(duration: str) -> str:
    """An ISO 8601 duration in words: "PT1H25M" is "1 hour 25 minutes"."""
    days, rest = divmod(minutes(duration), 24 * 60)
    parts = ((days, "day"), (rest // 60, "hour"), (rest % 60, "minute"))
    return (
        " ".join(f"{count} {unit}{'' if count == 1 else 's'}" for count, unit in parts if count)
        or "0 minutes"
    )
